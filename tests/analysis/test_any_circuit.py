"""Whatever is wired is a result and no exception; and only what is wired counts."""

import random
import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.support import trade
from tests.support.surveys import (
    Case,
    anything_in_a_stance,
    coils_of,
    combination_in,
    combination_of,
    guitars_in_a_stance,
)
from tests.support.wiring import Wiring, row_of, stance_of
from wirer.analysis.analyst import Analyst
from wirer.analysis.combination import Combination
from wirer.analysis.combinations import combination_table
from wirer.analysis.deck import spice_deck
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance, default_stance

ZEROS = {
    "coil-2wire": ("resistance", "inductance", "capacitance"),
    "coil-tapped": ("resistance", "inductance", "capacitance"),
    "humbucker-4wire": ("resistance", "inductance", "capacitance"),
    "resistor": ("resistance",),
    "capacitor": ("capacitance",),
    "inductor": ("inductance", "resistance"),
}


def assert_sane(circuit: Circuit, stance: Stance) -> None:
    """Every number is finite and within what physics and the definitions allow."""
    analyst = Analyst(circuit, stance.rotations)
    found = combination_in(analyst, stance)
    assert len(found.weights) == len(found.states) == len(coils_of(circuit))
    assert np.all(np.isfinite(found.weights))
    assert found.resistance is None or (np.isfinite(found.resistance) and found.resistance >= 0)
    if found.silent:
        assert (found.sound, found.hum, found.resonance, found.level_db) == (None,) * 4
    else:
        assert found.sound is not None
        assert found.hum is not None
        assert -1e-9 <= found.hum <= 1 + 1e-9
        assert found.sound.formula
        assert found.sound.words({})
        assert found.sound.json
    if found.resonance:
        assert 20 <= found.resonance.hertz <= 20_000
        assert np.isfinite(found.resonance.peak_db)
    assert isinstance(found.remarks, tuple)
    assert spice_deck(circuit, stance).endswith(".end\n")


@given(anything_in_a_stance())
def test_any_circuit_is_a_result(drawn: Case) -> None:
    assert_sane(*drawn)


@given(guitars_in_a_stance(), st.data())
def test_values_of_nothing_are_a_result(drawn: Case, data: st.DataObject) -> None:
    """0 Ω, 0 H and 0 F wherever a document may say so."""
    circuit, stance = drawn
    parts = []
    for part in circuit.parts:
        names = [n for n in ZEROS.get(part.kind, ()) if data.draw(st.booleans())]
        parts.append(replace(part, values={**part.values, **dict.fromkeys(names, "0")}))
    assert_sane(replace(circuit, parts=tuple(parts)), stance)


@pytest.mark.parametrize("kind", ["coil-2wire", "coil-tapped", "humbucker-screened"])
@pytest.mark.parametrize("values", [{}, dict.fromkeys(("resistance", "inductance"), "0")])
@pytest.mark.parametrize("ends", ["across", "shorted", "one end", "none"])
def test_a_pickup_in_every_wrong_way(kind: str, values: dict[str, str], ends: str) -> None:
    bench = Wiring().part("J", "jack-ts").part("N", kind, {**values, "capacitance": "0"})
    first, last = ("N.core", "N.braid") if kind.startswith("h") else ("N.start", "N.finish")
    if ends != "none":
        bench.join(first, "J.tip")
    if ends in ("across", "shorted"):
        bench.join(last, "J.sleeve")
    if ends == "shorted":
        bench.join(first, last)
    circuit = bench.circuit()
    assert_sane(circuit, default_stance(circuit))
    silent = {"across": None, "shorted": "shorted", "one end": "open", "none": "open"}[ends]
    assert row_of(circuit).combination.silent == silent


@pytest.mark.parametrize("parts", [{}, {"N": "coil-2wire"}, {"S": "slide-2p2t"}, {"B": "battery"}])
def test_without_a_jack_every_setting_is_open(parts: dict[str, str]) -> None:
    bench = Wiring()
    for name, kind in parts.items():
        bench.part(name, kind)
    circuit = bench.circuit()
    table = combination_table(circuit, default_stance(circuit))
    assert {row.combination.silent for row in table} == {"open"}
    assert (table.distinct, table.silent) == (0, len(table))


def test_two_coils_without_impedance_in_parallel() -> None:
    """Two ideal EMFs across each other contradict; what comes out is finite all the same."""
    bench = Wiring().part("J", "jack-ts")
    nothing = dict.fromkeys(("resistance", "inductance", "capacitance"), "0")
    for name in ("N", "M"):
        bench.part(name, "coil-2wire", nothing).join(f"{name}.start J.sleeve")
        bench.join(f"{name}.finish J.tip")
    circuit = bench.circuit()
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert_sane(circuit, default_stance(circuit))


def test_a_lossless_coil_rings_at_one_frequency() -> None:
    """2 H and 100 pF without resistance: 1/(2π√LC) = 11,253.95 Hz, high and finite."""
    bench = Wiring().part("J", "jack-ts")
    bench.part("N", "coil-2wire", resistance="0", inductance="2", capacitance="100p")
    circuit = bench.join("N.start J.sleeve").join("N.finish J.tip").circuit()
    resonance = row_of(circuit).combination.resonance
    assert resonance is not None
    assert resonance.hertz == pytest.approx(11_253.95, rel=1e-6)


def test_a_battery_is_a_short_for_signals_and_open_for_the_meter() -> None:
    bench = Wiring().part("J", "jack-ts").part("N", "coil-2wire", resistance="7k")
    bench.part("B", "battery").join("N.start B.minus").join("B.plus J.sleeve")
    found = row_of(bench.join("N.finish J.tip").circuit()).combination
    assert found.weights == pytest.approx((1,), abs=1e-3)
    assert found.resistance is None
    assert found.silent is None


@pytest.mark.parametrize(("rotation", "reading"), [(0.0, 50), (0.5, 50_000), (1.0, 99_950)])
def test_an_end_resistance_is_read_at_the_stops(rotation: float, reading: float) -> None:
    bench = Wiring().part("J", "jack-ts").part("V", "pot", resistance="100k", end="50")
    circuit = bench.join("V.2 J.tip").join("V.1 J.sleeve").circuit()
    found = row_of(circuit, None, {"V": rotation}).combination
    assert found.resistance == pytest.approx(reading)


def same_reading(first: Combination, second: Combination) -> None:
    ohm = second.resistance
    assert first.resistance == (None if ohm is None else pytest.approx(ohm, rel=1e-9))


def same(first: Combination, second: Combination) -> None:
    assert first.weights == pytest.approx(second.weights, rel=1e-9, abs=1e-12)
    same_reading(first, second)
    assert first.states == second.states
    assert first.identity == second.identity
    assert first.remarks == second.remarks


@given(guitars_in_a_stance(), st.randoms(use_true_random=False))
def test_order_and_direction_of_wires_do_not_matter(drawn: Case, order: random.Random) -> None:
    circuit, stance = drawn
    wires = list(circuit.wires)
    order.shuffle(wires)
    wires = [
        replace(wire, from_lug=wire.to_lug, to_lug=wire.from_lug) if order.random() < 0.5 else wire
        for wire in wires
    ]
    other = combination_of(replace(circuit, wires=tuple(wires)), stance)
    same(combination_of(circuit, stance), other)


@given(guitars_in_a_stance(), st.randoms(use_true_random=False))
def test_order_of_parts_does_not_matter(drawn: Case, order: random.Random) -> None:
    """But for who is named first: weights, readings and states stay with their coils."""
    circuit, stance = drawn
    jack, *rest = circuit.parts
    order.shuffle(rest)
    shuffled = replace(circuit, parts=(jack, *rest))
    first, second = (combination_of(each, stance) for each in (circuit, shuffled))
    for values in ("weights", "states"):
        by_coil = [
            dict(zip((c.name for c in coils_of(each)), getattr(found, values), strict=True))
            for each, found in ((circuit, first), (shuffled, second))
        ]
        assert by_coil[0] == pytest.approx(by_coil[1], rel=1e-6, abs=1e-9)
    same_reading(first, second)
    assert (first.silent, first.remarks) == (second.silent, second.remarks)
    if first.hum is not None:
        assert first.hum == pytest.approx(second.hum, abs=1e-6)
    if first.sound and second.sound:
        assert sorted(first.sound.coils) == sorted(second.sound.coils)


@given(guitars_in_a_stance())
def test_polarity_of_all_coils_together_does_not_matter(drawn: Case) -> None:
    """Tip and sleeve exchanged: the same sound, every weight the other way round."""
    circuit, stance = drawn
    jack = circuit.jacks[0]
    output = circuit.kind_of(jack).output
    assert output is not None
    ends = {f"{jack.id}.{a}": f"{jack.id}.{b}" for a, b in ((output.tip, output.sleeve),)}
    ends |= {b: a for a, b in ends.items()}
    plain = "jack-ts"
    parts = tuple(replace(p, kind=plain) if p.id == jack.id else p for p in circuit.parts)
    lugs = set(replace(circuit, parts=parts).lugs)
    wires = [
        replace(w, style="stranded", screen_from=None, screen_to=None)
        for w in circuit.wires
        if {w.from_lug, w.to_lug} <= lugs
    ]
    one = replace(circuit, parts=parts, wires=tuple(wires))
    turned = [
        replace(w, from_lug=ends.get(w.from_lug, w.from_lug), to_lug=ends.get(w.to_lug, w.to_lug))
        for w in wires
    ]
    first = combination_of(one, stance)
    second = combination_of(replace(one, wires=tuple(turned)), stance)
    assert first.weights == pytest.approx([-w for w in second.weights], rel=1e-6, abs=1e-9)
    assert first.identity == second.identity
    same_reading(first, second)


def test_the_rows_of_a_table_are_the_settings_one_by_one() -> None:
    circuit = trade.five_way()
    for position in "12345":
        stance = stance_of(circuit, {"S": position})
        same(row_of(circuit, {"S": position}).combination, combination_of(circuit, stance))
