"""Quantities as people write them: SI prefixes and the RKM code of IEC 60062, both ways."""

from __future__ import annotations

import math
import re
from functools import cache, lru_cache
from typing import Literal

from wirer.circuit.errors import LONGEST_SHOWN, QuantityError, shown

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
    "resistance": r"(?:Ω|R|(?i:ohms?))",
    "inductance": r"(?:H|(?i:henry|henries|henrys))",
    "capacitance": r"(?:F|(?i:farads?))",
    "voltage": r"(?:V|(?i:volts?))",
}
_POINT_LETTER = {"resistance": "R", "inductance": "H", "capacitance": "F", "voltage": "V"}
_POWER = {
    "p": -12, "n": -9, "u": -6, "µ": -6, "m": -3, "": 0, "k": 3, "K": 3, "M": 6, "G": 9, "T": 12,
}  # fmt: skip
_PREFIX = {-12: "p", -9: "n", -6: "µ", -3: "m", 0: "", 3: "k", 6: "M", 9: "G", 12: "T"}
_SAME_SIGN = str.maketrans({"\u2126": "Ω", "\u03bc": "µ", "\u2212": "-"})
_PLAIN = r"([+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?)"


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
    value = None if len(clean) > LONGEST_SHOWN else _read(clean, dimension)
    if value is None:
        raise QuantityError(f'"{shown(text)}" is not {article(dimension)}; {example(dimension)}')
    if not math.isfinite(value) or not 0 <= value <= 1e15:
        problem = f'"{shown(text)}" is out of range for {article(dimension)}'
        raise QuantityError(f"{problem}; {example(dimension)}")
    return value


def example(dimension: str) -> str:
    """Return how a quantity of the dimension is written, for a sentence."""
    return f"write for example {_EXAMPLES[dimension]}"


def article(dimension: str) -> str:
    """Return the dimension with its article, for a sentence."""
    return f"{'an' if dimension[0] in 'aeiou' else 'a'} {dimension}"


def _read(clean: str, dimension: str) -> float | None:
    suffixed, coded = _patterns(dimension)
    if found := suffixed.fullmatch(clean):
        number, prefix = found[1], found[2]
    elif found := coded.fullmatch(clean):
        number, prefix = f"{found[1]}.{found[3]}", found[2]
    else:
        return None
    mantissa, _, exponent = number.lower().partition("e")
    # The point is shifted in the text, so that `4k7` is 4700 to the last bit.
    return float(f"{mantissa}e{int(exponent or 0) + _POWER.get(prefix, 0)}")


@cache
def _patterns(dimension: str) -> tuple[re.Pattern[str], re.Pattern[str]]:
    """Return what matches `4.7 kΩ` and what matches `4k7`: number, prefix or point, figures."""
    if not UNITS[dimension]:
        return re.compile(_PLAIN + "()"), re.compile(r"(?!)")
    prefix, unit = "[pnuµmkKMGT]", rf"\s*{_SPELLINGS[dimension]}?"
    point = f"(?:{prefix}|{_POINT_LETTER[dimension]})"
    suffixed = re.compile(rf"{_PLAIN}\s*({prefix}?){unit}")
    return suffixed, re.compile(rf"([+-]?[0-9]*)({point})([0-9]+){unit}")


_TOLERANCE_LETTERS = {
    "B": (0.1, 0.1), "C": (0.25, 0.25), "D": (0.5, 0.5), "F": (1, 1), "G": (2, 2), "J": (5, 5),
    "K": (10, 10), "M": (20, 20), "N": (30, 30), "T": (10, 50), "Z": (20, 80),
}  # fmt: skip
_PERCENT = r"[0-9]+(?:\.[0-9]+)?\s*"
_TOLERANCES = (
    re.compile(rf"±?\s*(?P<both>{_PERCENT})%"),
    re.compile(rf"-\s*(?P<below>{_PERCENT})%?\s*/\s*\+\s*(?P<above>{_PERCENT})%"),
    re.compile(rf"\+\s*(?P<above>{_PERCENT})%?\s*/\s*-\s*(?P<below>{_PERCENT})%"),
)


def parse_tolerance(text: str) -> tuple[float, float]:
    """Read a tolerance as the shares (below, above), both positive: `20%` is (0.2, 0.2).

    Accepts `20%`, `±5 %`, `-20/+80%` and the letters of IEC 60062 (J is 5 %, K 10 %, M 20 %,
    Z −20/+80 %).

    Raises
    ------
    QuantityError
        The text is no tolerance.
    """
    clean = text.strip().translate(_SAME_SIGN)
    found = None if len(clean) > LONGEST_SHOWN else _percentages(clean)
    if found is None or not (found[0] < 100 and found[1] < 1000):
        raise QuantityError(f'"{shown(text)}" is not a tolerance; write for example 20%')
    return found[0] / 100, found[1] / 100


def _percentages(clean: str) -> tuple[float, float] | None:
    for pattern in _TOLERANCES:
        if match := pattern.fullmatch(clean):
            named = match.groupdict()
            both = named.get("both")
            return float(both or named["below"]), float(both or named["above"])
    return _TOLERANCE_LETTERS.get(clean)


def format_quantity(value: float, dimension: str, digits: int = 3) -> str:
    """Write a quantity with prefix and unit, `digits` significant: `4.7 kΩ`, `22 nF`."""
    unit = UNITS[dimension]
    if not unit:
        return f"{value:.{digits}g}"
    number, prefix = _engineering(value, digits)
    return f"{number} {prefix}{unit}"


def format_rkm(value: float, dimension: str, digits: int = 4) -> str:
    """Write a quantity in the RKM code of IEC 60062: `4k7`, `2n2`, `470R`.

    What has no unit has no code and is a plain number.
    """
    if not UNITS[dimension]:
        return f"{value:.{digits}g}"
    number, prefix = _engineering(value, digits)
    whole, _, part = number.partition(".")
    return f"{whole}{prefix or _POINT_LETTER[dimension]}{part}"


def _engineering(value: float, digits: int) -> tuple[str, str]:
    """Return a value as figures and SI prefix, with no zeros after the last figure that counts."""
    if value == 0 or not math.isfinite(value):
        return f"{value:g}", ""
    mantissa, _, power = f"{value:.{digits - 1}e}".partition("e")
    exponent = min(12, max(-12, int(power) // 3 * 3))
    shift = int(power) - exponent
    figures = f"{float(f'{mantissa}e{shift}'):.{max(0, digits - 1 - shift)}f}"
    return figures.rstrip("0").rstrip(".") if "." in figures else figures, _PREFIX[exponent]
