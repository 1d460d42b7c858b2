"""Copper: what a wire of a gauge resists, and how its resistance follows the temperature."""

from __future__ import annotations

from wirer.circuit.gauge import gauge_area_mm2

CONDUCTIVITY_S_M_MM2 = 58.0
"""Of annealed copper at 20 °C, in S·m/mm² (IEC 60028, the IACS standard)."""

COEFFICIENT = 0.00393
"""Change of resistance of copper by kelvin, from 20 °C (IEC 60028)."""

REFERENCE_CELSIUS = 20.0


def ohm_per_metre(gauge: str) -> float:
    """Return the resistance of a metre of copper wire at 20 °C.

    Raises
    ------
    QuantityError
        The gauge can't be read.
    """
    return 1.0 / (CONDUCTIVITY_S_M_MM2 * gauge_area_mm2(gauge))


def warmth_factor(celsius: float) -> float:
    """Return the resistance of copper by that at 20 °C."""
    return 1.0 + COEFFICIENT * (celsius - REFERENCE_CELSIUS)
