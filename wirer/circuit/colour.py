"""Wire colours by the letter codes of IEC 60757."""

from __future__ import annotations

import re

NAMES: dict[str, str] = {
    "BK": "black",
    "BN": "brown",
    "RD": "red",
    "OG": "orange",
    "YE": "yellow",
    "GN": "green",
    "BU": "blue",
    "VT": "violet",
    "GY": "grey",
    "WH": "white",
    "PK": "pink",
    "TQ": "turquoise",
    "GD": "gold",
    "SR": "silver",
}


def colour_codes(code: str) -> tuple[str, ...] | None:
    """Split a colour into its one or two letter codes, or None if it is none."""
    if not re.fullmatch(r"(?:[A-Z]{2}){1,2}", code):
        return None
    codes = tuple(code[i : i + 2] for i in range(0, len(code), 2))
    return codes if all(c in NAMES for c in codes) else None


def colour_words(code: str) -> str:
    """Write a colour in words: `GNYE` is `green-yellow`.

    Raises
    ------
    KeyError
        The code has a part that IEC 60757 does not know.
    """
    return "-".join(NAMES[code[i : i + 2]] for i in range(0, len(code), 2))
