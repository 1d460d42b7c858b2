"""Wire gauges against ASTM B258 and copper tables, colours against IEC 60757."""

import math

import pytest

from wirer.circuit.colour import NAMES, colour_codes, colour_words
from wirer.circuit.errors import QuantityError
from wirer.circuit.gauge import gauge_area_mm2

# Diameter in inches, T. R. Kuphaldt, Lessons in Electric Circuits, vol. V ch. 3 and vol. I ch. 12.
DIAMETER_IN = {
    22: 0.02535, 24: 0.02010, 26: 0.01594, 28: 0.01264, 30: 0.01003, 36: 0.005, 38: 0.003965,
    40: 0.003145, 41: 0.0028, 42: 0.002494, 43: 0.002221, 44: 0.001978,
}  # fmt: skip

# Circular mils, the same tables.
CIRCULAR_MILS = {22: 642.5, 24: 404.0, 26: 254.1, 40: 9.888, 42: 6.219, 43: 4.932, 44: 3.911}

# Ohms per 1000 ft of copper at 20 °C, wire table of HyperPhysics (Georgia State University).
OHM_PER_1000_FT = {
    20: 10.15, 22: 16.14, 24: 25.67, 26: 40.81, 28: 64.9, 30: 103.2, 36: 414.8, 38: 659.6,
    40: 1049,
}  # fmt: skip

COPPER_OHM_MM2_PER_M = 1 / 58  # IEC 60028, annealed copper at 20 °C
INCH_MM = 25.4
FOOT_M = 0.3048


def diameter_mm(gauge: str) -> float:
    return math.sqrt(gauge_area_mm2(gauge) * 4 / math.pi)


def test_the_law_has_its_two_fixed_points() -> None:
    """ASTM B258: No. 36 is 0.005 in; 0000 would be 0.460 in, and No. 0 is 3 steps below that."""
    assert diameter_mm("36 AWG") == pytest.approx(0.005 * INCH_MM)
    step = (0.460 / 0.005) ** (1 / 39)
    assert diameter_mm("0 AWG") == pytest.approx(0.460 / step**3 * INCH_MM)


@pytest.mark.parametrize(("number", "inch"), DIAMETER_IN.items())
def test_diameters_are_those_of_the_wire_table(number: int, inch: float) -> None:
    assert diameter_mm(f"{number} AWG") / INCH_MM == pytest.approx(inch, rel=5e-4)


@pytest.mark.parametrize(("number", "mils"), CIRCULAR_MILS.items())
def test_sections_are_those_of_the_wire_table(number: int, mils: float) -> None:
    mil_mm = INCH_MM / 1000
    assert (diameter_mm(f"{number} AWG") / mil_mm) ** 2 == pytest.approx(mils, rel=5e-4)


@pytest.mark.parametrize(("number", "ohm"), OHM_PER_1000_FT.items())
def test_copper_of_a_section_has_the_resistance_of_the_table(number: int, ohm: float) -> None:
    per_metre = COPPER_OHM_MM2_PER_M / gauge_area_mm2(f"{number} AWG")
    assert per_metre * FOOT_M * 1000 == pytest.approx(ohm, rel=8e-4)


@pytest.mark.parametrize(
    ("text", "area_mm2"), [("0.22 mm2", 0.22), ("0.22mm²", 0.22), (".14 mm2", 0.14), ("1 mm2", 1)]
)
def test_a_section_is_read(text: str, area_mm2: float) -> None:
    assert gauge_area_mm2(text) == area_mm2


@pytest.mark.parametrize(
    "text",
    ["", "24", "AWG 24", "24 mm", "00 AWG", "51 AWG", "0 mm2", "101 mm2", "-1 mm2", "٢٤ AWG"],
)
def test_what_is_no_gauge_is_refused_with_examples(text: str) -> None:
    with pytest.raises(QuantityError) as refused:
        gauge_area_mm2(text)
    assert str(refused.value) == f'"{text}" is not a gauge; write for example 24 AWG or 0.22 mm2'


# IEC 60757:1983 (GOST 28763-90) and the 2021 edition.
IEC_60757 = {
    "BK": "black", "BN": "brown", "RD": "red", "OG": "orange", "YE": "yellow", "GN": "green",
    "BU": "blue", "VT": "violet", "GY": "grey", "WH": "white", "PK": "pink", "GD": "gold",
    "TQ": "turquoise", "SR": "silver",
}  # fmt: skip


def test_the_colours_are_those_of_the_standard() -> None:
    assert NAMES == IEC_60757


@pytest.mark.parametrize(
    ("code", "codes", "words"),
    [
        ("BK", ("BK",), "black"),
        ("GNYE", ("GN", "YE"), "green-yellow"),  # IEC 60757, the one pair that is reserved
        ("RDBU", ("RD", "BU"), "red-blue"),  # IEC 60757's own example of two colours
    ],
)
def test_one_or_two_colours_are_read(code: str, codes: tuple[str, ...], words: str) -> None:
    assert colour_codes(code) == codes
    assert colour_words(code) == words


@pytest.mark.parametrize("code", ["", "B", "bk", "XX", "BKXX", "BKBNRD", "BK BN", "BK+BN", "ВК"])
def test_what_is_no_colour_of_the_standard_is_none(code: str) -> None:
    assert colour_codes(code) is None
