"""Wire gauges: AWG numbers (ASTM B258) and cross-sections in mm²."""

from __future__ import annotations

import math
import re

from wirer.circuit.errors import QuantityError, shown

_AWG = re.compile(r"(0|[1-9][0-9]?)\s*AWG")
_SECTION = re.compile(r"([0-9]+(?:\.[0-9]+)?|\.[0-9]+)\s*mm[2²]")


def gauge_area_mm2(text: str) -> float:
    """Return the copper cross-section of a gauge such as `24 AWG` or `0.22 mm2`, in mm².

    By ASTM B258 the diameter of number n is 0.127 mm · 92^((36 − n)/39).

    Raises
    ------
    QuantityError
        The text is no gauge.
    """
    awg = _AWG.fullmatch(text.strip())
    if awg and int(awg[1]) <= 50:
        diameter_mm: float = 0.127 * 92 ** ((36 - int(awg[1])) / 39)
        return math.pi / 4 * diameter_mm**2
    section = _SECTION.fullmatch(text.strip())
    if section and 0 < float(section[1]) <= 100:
        return float(section[1])
    raise QuantityError(f'"{shown(text)}" is not a gauge; write for example 24 AWG or 0.22 mm2')


def gauge_problem(text: str) -> str | None:
    """Say what is wrong with a gauge, or None."""
    try:
        gauge_area_mm2(text)
    except QuantityError as error:
        return str(error)
    return None
