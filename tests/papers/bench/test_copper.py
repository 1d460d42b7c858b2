"""Copper wire and its temperature, against printed tables."""

import pytest

from wirer.papers.bench.copper import ohm_per_metre, warmth_factor

OHM_PER_1000_FOOT = {
    "20 AWG": 10.15,
    "22 AWG": 16.14,
    "24 AWG": 25.67,
    "26 AWG": 40.81,
    "28 AWG": 64.9,
    "30 AWG": 103.2,
    "40 AWG": 1049.0,
}
"""Table of copper wire at 20 °C, Georgia State University, HyperPhysics, "American wire gauge"."""

METRE_PER_FOOT = 0.3048
"""Exactly (yard of 1959)."""


@pytest.mark.parametrize(("gauge", "printed"), OHM_PER_1000_FOOT.items())
def test_wire_resists_as_the_printed_table_says(gauge: str, printed: float) -> None:
    ohm = ohm_per_metre(gauge) * METRE_PER_FOOT * 1000
    assert ohm == pytest.approx(printed, rel=6e-4)  # the table has three to four figures


def test_wire_by_its_section_resists_as_the_standard_says() -> None:
    # IEC 60028: 1/58 Ω·mm²/m at 20 °C.
    assert ohm_per_metre("1 mm2") == pytest.approx(0.017241, rel=1e-4)


@pytest.mark.parametrize(("celsius", "ohm"), [(10, 7.69), (20, 8.00), (25, 8.16), (30, 8.31)])
def test_a_coil_follows_the_temperature(celsius: float, ohm: float) -> None:
    # +0.393 % by kelvin (IEC 60028): 8.00 kΩ at 20 °C, worked out by hand to two places.
    assert 8.00 * warmth_factor(celsius) == pytest.approx(ohm, abs=0.005)
