"""The bands of the meter's readings: by hand, by textbook, and by every corner there is."""

from collections.abc import Iterator, Mapping
from itertools import product
from pathlib import Path

import pytest

from tests.support import trade
from tests.support.nodal import resistance
from tests.support.wiring import Wiring, stance_of
from wirer.analysis.combinations import combination_table
from wirer.circuit.edits import set_measured, set_value
from wirer.circuit.files import read_file
from wirer.circuit.model import Circuit
from wirer.circuit.stance import default_rotations, default_stance
from wirer.papers.bench.bands import Band, bands
from wirer.papers.bench.meter_model import MeterModel, meter_model
from wirer.papers.bench.settings_to_test import listed_settings, switch_states
from wirer.papers.bench.spread import resistance_tolerance, spread_of

COLD, WARM = 1 - 0.00393 * 10, 1 + 0.00393 * 10
"""Copper at 10 °C and at 30 °C by that at 20 °C (IEC 60028)."""

EXAMPLES = sorted((Path(__file__).parents[3] / "resources" / "examples").glob("*.wirer"))


def model_of(circuit: Circuit) -> MeterModel:
    table = combination_table(circuit, default_stance(circuit))
    states = switch_states(table, listed_settings(table))
    return meter_model(circuit, default_rotations(circuit), states)


def bands_of(circuit: Circuit) -> list[Band]:
    """The band of every setting, in the table's order."""
    model = model_of(circuit)
    found = bands(model, model.ohms, [spread_of(circuit, b) for b in model.branches])
    return [found[i] for i in model.which]


def parallel(a: float, b: float) -> float:
    return a * b / (a + b)


def test_a_coil_with_the_volume_pot_across_it() -> None:
    # By hand: 8 kΩ ± 10 % at 10 to 30 °C across 500 kΩ ± 20 %, and 20 Ω for the meter.
    circuit = trade.series_chain(("N",), phase=False, volume="500k")
    circuit = set_value(circuit, "N", "resistance", "8k")
    band = bands_of(circuit)[0]
    assert band.ohm == pytest.approx(parallel(8000, 500e3))
    assert band.ohm == pytest.approx(7870, abs=10)  # 7.87 kΩ: common practice
    assert band.least == pytest.approx(parallel(8000 * 0.9 * COLD, 400e3) - 20)
    assert band.most == pytest.approx(parallel(8000 * 1.1 * WARM, 600e3) + 20)


def test_measured_coils_have_a_narrower_band() -> None:
    # ± 3 % where the coil was measured (common practice).
    circuit = Wiring().part("N", "coil-2wire", resistance="8k").part("J", "jack-ts")
    plain = circuit.join("N.finish J.tip").join("N.start J.sleeve").circuit()
    measured = set_measured(plain, "N", "resistance", "7.9k")
    (band,) = bands_of(measured)
    assert (band.ohm, band.least, band.most) == pytest.approx(
        (7900, 7900 * 0.97 * COLD - 20, 7900 * 1.03 * WARM + 20)
    )


def resistors(ends: Mapping[str, str], values: Mapping[str, tuple[str, str]]) -> Circuit:
    """Resistors (value, tolerance) between posts; T is the tip, 0 the sleeve."""
    bench = Wiring().part("J", "jack-ts")
    for name, (ohm, tolerance) in values.items():
        bench.part(name, "resistor", resistance=ohm, tolerance=tolerance)
    posts = {"T": "J.tip", "0": "J.sleeve"}
    for name, (a, b) in ((name, tuple(pair)) for name, pair in ends.items()):
        for lug, post in (("1", a), ("2", b)):
            if post not in posts:
                bench.part(f"post{post}", "terminal")
                posts[post] = f"post{post}.1"
            bench.join(f"{name}.{lug}", posts[post])
    return bench.circuit()


def test_resistors_in_series_have_the_printed_extremes() -> None:
    # 330 Ω ± 5 %, 330 Ω ± 10 % and 330 Ω ± 10 % in series: 907.5 to 1072.5 Ω (worked example in
    # J. Bird, "Electrical Circuit Theory and Technology"); 20 Ω more on either side for the meter.
    circuit = resistors(
        {"R1": "TA", "R2": "AB", "R3": "B0"},
        {"R1": ("330", "5%"), "R2": ("330", "10%"), "R3": ("330", "10%")},
    )
    (band,) = bands_of(circuit)
    assert (band.ohm, band.least, band.most) == pytest.approx((990, 907.5 - 20, 1072.5 + 20))


def corners(circuit: Circuit, names: dict[str, float], tolerance: float) -> Iterator[float]:
    """What a plain solver reads with every resistor at its least or greatest: 2ⁿ readings."""
    for signs in product((-1, 1), repeat=len(names)):
        made = circuit
        for (name, ohm), sign in zip(names.items(), signs, strict=True):
            made = set_value(made, name, "resistance", f"{ohm * (1 + sign * tolerance):.9f}")
        read = resistance(made, stance_of(made))
        assert read is not None
        yield read


def test_a_bridge_is_nowhere_beyond_its_two_corners() -> None:
    # T. R. Kuphaldt, "Lessons in Electric Circuits", Δ-Y example: 12, 18, 6, 18, 12 Ω make 102/7 Ω.
    # Rayleigh's law: no other of the 32 corners reads lower or higher than all low, all high.
    ohms = {"R1": 1200.0, "R2": 1800.0, "R3": 600.0, "R4": 1800.0, "R5": 1200.0}
    ends = {"R1": "TA", "R2": "TB", "R3": "AB", "R4": "A0", "R5": "B0"}
    circuit = resistors(ends, {name: (str(ohm), "20%") for name, ohm in ohms.items()})
    (band,) = bands_of(circuit)
    every = list(corners(circuit, ohms, 0.2))
    assert band.ohm == pytest.approx(10200 / 7)
    assert band.least is not None
    assert band.most is not None
    assert (band.least + 20, band.most - 20) == pytest.approx((min(every), max(every)))


@pytest.mark.parametrize(
    ("measured", "values", "tolerance"),
    [
        ({}, {"resistance": "7k"}, (0.10, 0.10)),
        ({}, {"resistance": "7k", "tolerance": "5%"}, (0.05, 0.05)),
        ({}, {"tolerance": "-20/+80%"}, (0.2, 0.8)),
        ({"resistance": "7.1k"}, {"resistance": "7k", "tolerance": "5%"}, (0.03, 0.03)),
        ({"resistance": "7.1k", "tolerance": "1%"}, {"tolerance": "5%"}, (0.01, 0.01)),
    ],
    ids=["nothing said", "said", "lopsided", "measured", "measured and said"],
)
def test_the_tolerance_is_what_is_said_of_the_value_that_holds(
    measured: dict[str, str], values: dict[str, str], tolerance: tuple[float, float]
) -> None:
    circuit = Wiring().part("N", "coil-2wire", values).circuit()
    for name, value in measured.items():
        circuit = set_measured(circuit, "N", name, value)
    part = circuit.parts[0]
    assert resistance_tolerance(part, circuit.kind_of(part)) == pytest.approx(tolerance)


def test_a_track_that_nobody_measured_may_be_a_fifth_off() -> None:
    circuit = Wiring().part("V", "pot").circuit()  # 20 % is a pot's usual tolerance
    assert resistance_tolerance(circuit.parts[0], circuit.kind("pot")) == (0.2, 0.2)


def test_one_coil_of_two_may_be_measured() -> None:
    circuit = Wiring().part("H", "humbucker-4wire", {"resistance": "4k"}).circuit()
    circuit = set_measured(circuit, "H", "A.resistance", "3.9k")
    part, kind = circuit.parts[0], circuit.kind("humbucker-4wire")
    assert resistance_tolerance(part, kind, "A") == (0.03, 0.03)
    assert resistance_tolerance(part, kind, "B") == (0.1, 0.1)


def test_five_positions_read_what_the_trade_says() -> None:
    # B12 of the trade: 6.5, 6.2 and 6.0 kΩ across 250 kΩ on a five-position lever.
    read = [band.ohm for band in bands_of(trade.five_way())]
    assert read == pytest.approx([6340, 3130, 6050, 3010, 5860], abs=6)


def test_a_short_reads_next_to_nothing_and_an_open_line_nothing() -> None:
    off = Wiring().part("J", "jack-ts").part("S", "slide-1p2t").join("S.A0 J.tip")
    short, open_line = bands_of(off.join("S.A1 J.sleeve").circuit())
    assert short.is_short
    assert (
        short.most == 5.0
    )  # under 5 Ω counts as a short when faults are searched: common practice
    assert not short.holds(6.0)
    assert (open_line.ohm, open_line.holds(None), open_line.holds(1e4)) == (None, True, False)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem[:2])
def test_the_nominal_reading_is_the_tables(path: Path) -> None:
    circuit = read_file(path)[0]
    table = combination_table(circuit, default_stance(circuit))
    for row, band in zip(table, bands_of(circuit), strict=True):
        assert band.ohm == pytest.approx(row.combination.resistance)
        assert band.holds(row.combination.resistance)
