"""Figures as papers and machines get them: rounded to what is known, with no odd zeros."""

from __future__ import annotations

import math

from wirer.circuit.quantity import UNITS, format_quantity

FIGURES = 8
"""How many significant figures data has: 0.999999999 is 1.0."""

NOTHING = 1e-9
"""Below this a value in SI units or dB is 0.0: it is what arithmetic leaves over."""

CANCELLED = 1e-5
"""Below this hum is 0.0: two balanced coils that differ in capacitance leave about a millionth."""


def data_figure(value: float | None) -> float | None:
    """Return a value as data has it: a plain float, never −0.0; None where it is not finite."""
    if value is None or not math.isfinite(value):
        return None
    return 0.0 if abs(value) < NOTHING else float(f"{value:.{FIGURES}g}")


def hum_figure(hum: float | None) -> float | None:
    """Return a share of hum as data has it: 0.0 where it cancels."""
    return 0.0 if hum is not None and hum < CANCELLED else data_figure(hum)


PREFIXES = {-6: "µ", -3: "m", 0: "", 3: "k", 6: "M", 9: "G", 12: "T", 15: "P"}


def short_figure(value: float) -> str:
    """Write a value with three figures and its SI prefix: `21.2k`, `3.90k`."""
    if abs(value) < 1e-6:
        return "0"
    mantissa, _, power = f"{value:.2e}".partition("e")
    exponent = min(int(power) // 3 * 3, 15)
    shift = int(power) - exponent
    return f"{float(f'{mantissa}e{shift}'):.{max(0, 2 - shift)}f}{PREFIXES[exponent]}"


def three_figures(value: float, dimension: str) -> str:
    """Write a quantity with three figures, zeros and all, and its unit: `7.60 kΩ`."""
    figure = short_figure(value)
    prefix = figure[-1] if figure[-1] in PREFIXES.values() else ""
    return f"{figure.removesuffix(prefix)} {prefix}{UNITS[dimension]}".rstrip()


def hertz_text(hertz: float) -> str:
    """Write a frequency: `2.14 kHz`."""
    return format_quantity(hertz, "resistance").removesuffix("Ω") + "Hz"


def reading_text(ohm: float | None) -> str:
    """Write what a meter reads: `21.2 kΩ`, or `open`."""
    return "open" if ohm is None else format_quantity(ohm, "resistance")


def decibel_text(level_db: float) -> str:
    """Write a level with its sign: `+9.6`; a dash where there is none at all."""
    if not math.isfinite(level_db):
        return "–"
    return f"{round(level_db, 1) + 0.0:+.1f}"


def percent_text(share: float) -> str:
    """Write a share in whole per cent: `33`."""
    return f"{100 * share:.0f}"
