"""Quantities as people write them: SI prefixes and the RKM code of IEC 60062, both ways."""

from __future__ import annotations

import math
import re
from functools import lru_cache
from typing import Literal

from wirer.circuit.errors import QuantityError

Dimension = Literal["resistance", "inductance", "capacitance", "voltage", "share", "count"]

UNITS: dict[str, str] = {
    "resistance": "Ω",
    "inductance": "H",
    "capacitance": "F",
    "voltage": "V",
    "share": "",
    "count": "",
}
_EXAMPLES = {
    "resistance": "4k7",
    "inductance": "2.6 or 2H6",
    "capacitance": "22n",
    "voltage": "1 or 500m",
    "share": "0.5",
    "count": "5",
}
_SPELLINGS = {
    "resistance": r"(?:Ω|ohms?|R)",
    "inductance": r"(?:H|henry|henries)",
    "capacitance": r"(?:F|farads?)",
    "voltage": r"(?:V|volts?)",
}
_POINT_LETTER = {"resistance": "R", "inductance": "H", "capacitance": "F", "voltage": "V"}
_PREFIX = {"p": -12, "n": -9, "u": -6, "µ": -6, "m": -3, "": 0, "k": 3, "K": 3, "M": 6, "G": 9}
_SAME_SIGN = str.maketrans({"\u2126": "Ω", "\u03bc": "µ", "\u2212": "-"})
_PLAIN = re.compile(r"([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?)")
_LONGEST = 40


@lru_cache(maxsize=65536)
def parse_quantity(text: str, dimension: str) -> float:
    """Read a quantity in the SI unit of its dimension.

    Accepts `4k7`, `2n2`, `R47`, `4.7k`, `0.022u`, `4.7 kΩ`, `22 nF`, `6800`, `4.7e3`.
    Prefixes are case-sensitive where it matters (m is milli, M is mega).

    Raises
    ------
    QuantityError
        The text is no such quantity, or is negative, infinite or beyond 1e15.
    """
    clean = text.strip().translate(_SAME_SIGN)
    value = None if len(clean) > _LONGEST else _read(clean, dimension)
    if value is None:
        raise QuantityError(f'"{_shown(text)}" is not {article(dimension)}; {example(dimension)}')
    if not math.isfinite(value) or not 0 <= value <= 1e15:
        problem = f'"{_shown(text)}" is out of range for {article(dimension)}'
        raise QuantityError(f"{problem}; {example(dimension)}")
    return value


def example(dimension: str) -> str:
    """Return how a quantity of the dimension is written, for a sentence."""
    return f"write for example {_EXAMPLES[dimension]}"


def article(dimension: str) -> str:
    """Return the dimension with its article, for a sentence."""
    return f"{'an' if dimension[0] in 'aeiou' else 'a'} {dimension}"


def _shown(text: str) -> str:
    return text if len(text) <= _LONGEST else text[:_LONGEST] + "…"


def _read(clean: str, dimension: str) -> float | None:
    unit = _SPELLINGS.get(dimension)
    if unit is None:
        plain = _PLAIN.fullmatch(clean)
        return float(plain[1]) if plain else None
    suffixed = re.fullmatch(_PLAIN.pattern + r"\s*([pnuµmkKMG]?)\s*" + unit + "?", clean)
    if suffixed:
        return _scaled(suffixed[1], suffixed[2])
    letters = "[pnuµmkKMG" + _POINT_LETTER[dimension] + "]"
    coded = re.fullmatch(r"(\d*)(" + letters + r")(\d+)\s*" + unit + "?", clean)
    if coded:
        return _scaled(f"{coded[1] or '0'}.{coded[3]}", _PREFIX_OF.get(coded[2], coded[2]))
    return None


_PREFIX_OF = {"R": "", "H": "", "F": "", "V": ""}


def _scaled(number: str, prefix: str) -> float:
    """Shift the decimal point in text, so that `4k7` is 4700 to the last bit."""
    mantissa, _, exponent = number.lower().partition("e")
    return float(f"{mantissa}e{int(exponent or 0) + _PREFIX[prefix]}")


_TOLERANCE_LETTERS = {
    "B": 0.1, "C": 0.25, "D": 0.5, "F": 1.0, "G": 2.0, "J": 5.0, "K": 10.0, "M": 20.0, "N": 30.0,
}  # fmt: skip


def parse_tolerance(text: str) -> tuple[float, float]:
    """Read a tolerance as the shares (below, above), both positive: `20%` is (0.2, 0.2).

    Accepts `20%`, `±5 %`, `-20/+80%` and the letters of IEC 60062 (J is 5 %, K 10 %, M 20 %).

    Raises
    ------
    QuantityError
        The text is no tolerance.
    """
    clean = text.strip().translate(_SAME_SIGN)
    if clean in _TOLERANCE_LETTERS:
        share = _TOLERANCE_LETTERS[clean] / 100
        return share, share
    number = r"(\d+(?:\.\d+)?)"
    both = re.fullmatch(rf"±?\s*{number}\s*%", clean)
    if both and float(both[1]) < 100:
        return float(both[1]) / 100, float(both[1]) / 100
    split = re.fullmatch(rf"-\s*{number}\s*%?\s*/\s*\+\s*{number}\s*%", clean)
    if split and float(split[1]) < 100:
        return float(split[1]) / 100, float(split[2]) / 100
    raise QuantityError(f'"{_shown(text)}" is not a tolerance; write for example 20%')


def format_quantity(value: float, dimension: str, digits: int = 3) -> str:
    """Write a quantity with prefix and unit, `digits` significant: `4.7 kΩ`, `22 nF`."""
    unit = UNITS[dimension]
    if not unit:
        return f"{value:.{digits}g}"
    number, prefix = _engineering(value, digits)
    return f"{number} {prefix}{unit}"


def format_rkm(value: float, dimension: str, digits: int = 4) -> str:
    """Write a quantity in the RKM code of IEC 60062: `4k7`, `2n2`, `470R`."""
    number, prefix = _engineering(value, digits)
    whole, _, part = number.partition(".")
    return f"{whole}{prefix or _POINT_LETTER[dimension]}{part}"


def _engineering(value: float, digits: int) -> tuple[str, str]:
    if value == 0:
        return "0", ""
    exponent = math.floor(math.log10(abs(float(f"{value:.{digits - 1}e}"))) / 3 + 1e-12) * 3
    exponent = min(9, max(-12, exponent))
    mantissa = f"{value / 10.0**exponent:.{max(digits, 3)}g}"
    if "e" in mantissa:
        mantissa = f"{float(mantissa):.0f}"
    return mantissa, {-12: "p", -9: "n", -6: "µ", -3: "m", 0: "", 3: "k", 6: "M", 9: "G"}[exponent]
