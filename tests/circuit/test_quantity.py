"""Quantities in SI prefixes and in the RKM code, against the standard and two libraries."""

import math
from decimal import ROUND_HALF_EVEN, Context, Decimal

import pytest
import rkm_codes
from hypothesis import given
from hypothesis import strategies as st
from quantiphy import Quantity

from tests.support.quantities import UNIT, decimals, notations, written_quantities
from wirer.circuit.errors import QuantityError
from wirer.circuit.quantity import (
    UNITS,
    format_quantity,
    format_rkm,
    parse_quantity,
    parse_tolerance,
)

DIMENSIONS = sorted(UNIT)

# IEC 60062:2016 + A1:2019 as listed in the article "RKM code" of Wikipedia.
RESISTANCES = {
    "R47": 0.47, "4R7": 4.7, "470R": 470, "4K7": 4700, "47K": 47e3, "47K3": 47300, "470K": 470e3,
    "4M7": 4.7e6,
}  # fmt: skip

# The same rule; 2n2 from a textbook chart, the others from memory.
CODED = [
    ("2n2", "capacitance", 2.2e-9),
    ("p47", "capacitance", 0.47e-12),
    ("4p7", "capacitance", 4.7e-12),
    ("100n", "capacitance", 100e-9),
    ("4µ7", "capacitance", 4.7e-6),
    ("1M0", "resistance", 1e6),
    ("1R0", "resistance", 1.0),
]

# SI prefixes by the SI brochure; a space between number and unit, or none (common practice).
SPELT = [
    ("4.7 kΩ", "resistance", 4700),
    ("4.7kΩ", "resistance", 4700),
    ("4.7k", "resistance", 4700),
    ("4700", "resistance", 4700),
    ("4.7e3", "resistance", 4700),
    ("10 Ohms", "resistance", 10),
    ("250kohm", "resistance", 250e3),
    (" 250K ", "resistance", 250e3),
    ("1T", "resistance", 1e12),
    ("22 nF", "capacitance", 22e-9),
    ("0.022u", "capacitance", 22e-9),
    ("2.6", "inductance", 2.6),
    ("2H6", "inductance", 2.6),
    ("100mH", "inductance", 0.1),
    ("500m", "voltage", 0.5),
    ("1V5", "voltage", 1.5),
    ("0.5", "share", 0.5),
    ("5", "count", 5),
]


@pytest.mark.parametrize(("text", "ohm"), RESISTANCES.items())
def test_the_standards_resistances_are_read(text: str, ohm: float) -> None:
    assert parse_quantity(text, "resistance") == ohm


@pytest.mark.parametrize(("text", "dimension", "value"), [*CODED, *SPELT])
def test_codes_and_spelt_units_are_read_to_the_last_bit(
    text: str, dimension: str, value: float
) -> None:
    assert parse_quantity(text, dimension) == value


def test_the_case_of_a_prefix_matters() -> None:
    assert parse_quantity("1m", "resistance") == 1e-3
    assert parse_quantity("1M", "resistance") == 1e6


def test_the_signs_that_look_alike_are_alike() -> None:
    """U+2126 ohm and U+03A9 omega, U+00B5 micro and U+03BC mu (Unicode 15, chapters 7 and 22)."""
    assert parse_quantity("4.7k\u2126", "resistance") == parse_quantity("4.7k\u03a9", "resistance")
    assert parse_quantity("4\u00b57", "capacitance") == parse_quantity("4\u03bc7", "capacitance")


@pytest.mark.parametrize("dimension", DIMENSIONS)
@given(data=st.data())
def test_every_customary_notation_means_its_value(dimension: str, data: st.DataObject) -> None:
    text, value = data.draw(written_quantities(dimension))
    assert parse_quantity(text, dimension) == float(value)


@pytest.mark.parametrize("dimension", DIMENSIONS)
@given(data=st.data())
def test_quantiphy_reads_the_same(dimension: str, data: st.DataObject) -> None:
    """Every notation that ends with its unit; the library knows no RKM code."""
    value = data.draw(decimals(dimension))
    for text in notations(value, dimension):
        if text.endswith(UNIT[dimension]):
            theirs = Quantity(text)
            assert theirs.units == UNIT[dimension]
            assert parse_quantity(text, dimension) == pytest.approx(float(theirs), rel=1e-12)


@given(written_quantities("resistance"))
def test_rkm_codes_reads_what_is_written_in_the_code(written: tuple[str, Decimal]) -> None:
    """The library follows IEC 60062 for resistances with IEC60062_MAPS."""
    rkm_codes.set_prefs(rkm_maps=rkm_codes.IEC60062_MAPS)
    code = format_rkm(float(written[1]), "resistance")
    assert float(rkm_codes.from_rkm(code)) == pytest.approx(float(written[1]), rel=1e-12)


REFUSED = [
    ("4kk7", "resistance", '"4kk7" is not a resistance; write for example 4k7'),
    ("", "resistance", '"" is not a resistance; write for example 4k7'),
    ("4,7k", "resistance", '"4,7k" is not a resistance; write for example 4k7'),
    ("22nF", "resistance", '"22nF" is not a resistance; write for example 4k7'),
    ("nan", "resistance", '"nan" is not a resistance; write for example 4k7'),
    ("0x10", "resistance", '"0x10" is not a resistance; write for example 4k7'),
    ("4k7e3", "resistance", '"4k7e3" is not a resistance; write for example 4k7'),
    ("٤k٧", "resistance", '"٤k٧" is not a resistance; write for example 4k7'),
    ("22 nH", "capacitance", '"22 nH" is not a capacitance; write for example 22n'),
    ("2R6", "inductance", '"2R6" is not an inductance; write for example 2.6 or 2H6'),
    ("9F", "voltage", '"9F" is not a voltage; write for example 1 or 500m'),
    ("60%", "share", '"60%" is not a share; write for example 0.5'),
    ("4k", "count", '"4k" is not a count; write for example 5'),
    ("-4k7", "resistance", '"-4k7" is out of range for a resistance; write for example 4k7'),
    ("−4.7", "resistance", '"−4.7" is out of range for a resistance; write for example 4k7'),
    ("1e16", "resistance", '"1e16" is out of range for a resistance; write for example 4k7'),
    ("1e999", "share", '"1e999" is out of range for a share; write for example 0.5'),
    ("4\n7", "voltage", '"4\\n7" is not a voltage; write for example 1 or 500m'),
]


@pytest.mark.parametrize(("text", "dimension", "line"), REFUSED)
def test_what_is_no_quantity_is_refused_with_an_example(
    text: str, dimension: str, line: str
) -> None:
    with pytest.raises(QuantityError) as refused:
        parse_quantity(text, dimension)
    assert str(refused.value) == line


def test_a_long_text_is_shown_by_its_beginning() -> None:
    with pytest.raises(QuantityError) as refused:
        parse_quantity("7" * 10**6, "resistance")
    assert str(refused.value) == f'"{"7" * 40}…" is not a resistance; write for example 4k7'


@given(st.text(max_size=50), st.sampled_from(sorted(UNITS)))
def test_any_text_is_a_value_or_refused_in_one_line(text: str, dimension: str) -> None:
    try:
        value = parse_quantity(text, dimension)
    except QuantityError as error:
        line = str(error)
    else:
        line = f"{value}"
        assert 0 <= value <= 1e15
    assert line.isprintable()


@pytest.mark.parametrize("dimension", DIMENSIONS)
@given(data=st.data())
def test_what_is_written_is_read_again(dimension: str, data: st.DataObject) -> None:
    _, value = data.draw(written_quantities(dimension))
    for write in (format_quantity, format_rkm):
        assert parse_quantity(write(float(value), dimension), dimension) == float(value)


# Prefixes by the SI brochure, three significant figures; expected texts worked out by hand.
WRITTEN = [
    (4700, "resistance", "4.7 kΩ", "4k7"),
    (470, "resistance", "470 Ω", "470R"),
    (0.47, "resistance", "470 mΩ", "470m"),
    (250e3, "resistance", "250 kΩ", "250k"),
    (1e6, "resistance", "1 MΩ", "1M"),
    (999.96, "resistance", "1 kΩ", "1k"),
    (1e12, "resistance", "1 TΩ", "1T"),
    (22e-9, "capacitance", "22 nF", "22n"),
    (2.2e-9, "capacitance", "2.2 nF", "2n2"),
    (0.47e-12, "capacitance", "0.47 pF", "0p47"),
    (4.7e-6, "capacitance", "4.7 µF", "4µ7"),
    (2.6, "inductance", "2.6 H", "2H6"),
    (0, "resistance", "0 Ω", "0R"),
    (0.5, "share", "0.5", "0.5"),
    (5, "count", "5", "5"),
]


@pytest.mark.parametrize(("value", "dimension", "spelt", "coded"), WRITTEN)
def test_quantities_are_written_with_a_prefix(
    value: float, dimension: str, spelt: str, coded: str
) -> None:
    assert format_quantity(value, dimension) == spelt
    assert format_rkm(value, dimension) == coded


def test_an_open_circuit_is_written_without_a_prefix() -> None:
    assert format_quantity(math.inf, "resistance") == "inf Ω"


@given(st.decimals("1e-12", "1e12", allow_nan=False), st.integers(1, 6))
def test_as_many_figures_are_written_as_are_asked_for(value: Decimal, digits: int) -> None:
    """Against the decimal module, which rounds the exact value of the float half to even."""
    exact = Decimal(float(value))
    expected = Context(prec=digits, rounding=ROUND_HALF_EVEN).create_decimal(exact)
    written = format_quantity(float(value), "resistance", digits)
    assert parse_quantity(written, "resistance") == pytest.approx(float(expected), rel=1e-12)


def test_every_notation_is_another_text() -> None:
    """Keeps the strategy of these tests honest: it covers both codes and both micro signs."""
    assert notations(Decimal(4700), "resistance") == [
        "4700", "4.700e+3", "4.7k", "4.7kΩ", "4.7 kΩ", "4k7",
    ]  # fmt: skip
    assert "4u7" in notations(Decimal("0.0000047"), "capacitance")


# IEC 60062 letters as charted by two textbooks and a service manual (B, C, D read as percent).
LETTERS = {
    "B": 0.1, "C": 0.25, "D": 0.5, "F": 1, "G": 2, "J": 5, "K": 10, "M": 20, "N": 30,
}  # fmt: skip


@pytest.mark.parametrize(("letter", "percent"), LETTERS.items())
def test_the_letters_of_the_standard_are_tolerances(letter: str, percent: float) -> None:
    assert parse_tolerance(letter) == pytest.approx((percent / 100, percent / 100))


@pytest.mark.parametrize(
    ("text", "below", "above"),
    [
        ("20%", 0.2, 0.2),
        ("±5 %", 0.05, 0.05),
        ("0.5%", 0.005, 0.005),
        ("-20/+80%", 0.2, 0.8),
        ("−20 % / +80 %", 0.2, 0.8),
        ("+80/-20%", 0.2, 0.8),
        ("Z", 0.2, 0.8),  # IEC 60062, by a service manual's chart
        ("T", 0.1, 0.5),  # the same
    ],
)
def test_tolerances_are_read(text: str, below: float, above: float) -> None:
    assert parse_tolerance(text) == pytest.approx((below, above))


@pytest.mark.parametrize(
    "text", ["", "20", "Q", "100%", "-5%", "5%%", "±", "٢٠%", "2e1%", "%" * 99]
)
def test_what_is_no_tolerance_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(QuantityError, match=r"is not a tolerance; write for example 20%$"):
        parse_tolerance(text)
