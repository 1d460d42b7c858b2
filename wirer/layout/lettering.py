"""How much room a text takes, without asking a font.

Widths are shares of the height of capitals, from a usual sans-serif face and on the wide side; who
draws the text fits it into the room.
"""

from __future__ import annotations

import unicodedata

_NARROW = frozenset("iljtfrI.,:;'|!()[]/ -·")
_WIDE = frozenset("mwMW@%—…")
CAPITAL_SHARE = 0.98
FIGURE_SHARE = 0.88
NARROW_SHARE = 0.52
WIDE_SHARE = 1.3
USUAL_SHARE = 0.86
FULL_SHARE = 1.6
LONGEST = 32


def text_width(text: str, height_mm: float) -> float:
    """Return about how wide a text is whose capitals are `height_mm` high, in mm."""
    return height_mm * sum(map(_share, text))


def shortened(text: str, longest: int = LONGEST) -> str:
    """Return a text on one line, its end replaced by … where it is too long to draw."""
    line = " ".join(text.split())
    return line if len(line) <= longest else line[: longest - 1].rstrip() + "…"


def in_two_lines(text: str) -> str:
    """Return a text broken at the space that leaves its longer line shortest, if it has one."""
    breaks = [i for i, letter in enumerate(text) if letter == " " and text[i + 1 : i + 2] != "·"]
    halves = [(text[:i], text[i + 1 :]) for i in breaks]
    if not halves:
        return text
    return "\n".join(min(halves, key=lambda two: max(text_width(each, 1.0) for each in two)))


def _share(character: str) -> float:
    if character in _NARROW:
        return NARROW_SHARE
    if character in _WIDE:
        return WIDE_SHARE
    if unicodedata.combining(character) or unicodedata.category(character) in {"Cf", "Cc"}:
        return 0.0
    if unicodedata.east_asian_width(character) in "WF":
        return FULL_SHARE
    if character.isdigit():
        return FIGURE_SHARE
    return CAPITAL_SHARE if character.isupper() else USUAL_SHARE
