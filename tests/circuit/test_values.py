"""The values of a part, and what they make of its elements."""

import math

import pytest
from hypothesis import given

from tests.support.circuits import circuits
from wirer.circuit.catalogue import catalogue_kind
from wirer.circuit.elements import (
    Bond,
    Capacitor,
    Cell,
    Coil,
    Coupling,
    Inductor,
    Resistor,
    Track,
    circuit_elements,
    elements_of,
)
from wirer.circuit.errors import QuantityError
from wirer.circuit.model import Circuit, Part
from wirer.circuit.values import (
    known_value_names,
    number_of,
    timing_of,
    value_of,
    value_problems,
)


def elements(kind: str, **fields: object) -> list[object]:
    part = Part(id="P", kind=kind, **fields)  # type: ignore[arg-type]
    return list(elements_of(Circuit(parts=(part,)), part))


def coils(kind: str, **fields: object) -> dict[str, Coil]:
    return {e.name: e for e in elements(kind, **fields) if isinstance(e, Coil)}


def test_measured_overrides_nominal_and_nominal_the_customary_value() -> None:
    kind = catalogue_kind("pot")
    plain = Part(id="V", kind="pot")
    nominal = Part(id="V", kind="pot", values={"resistance": "500k"})
    measured = Part(
        id="V", kind="pot", values={"resistance": "500k"}, measured={"resistance": "478k"}
    )
    found = [number_of(part, kind, "resistance") for part in (plain, nominal, measured)]
    assert found == [250e3, 500e3, 478e3]  # a 250k pot is customary (common practice)


def test_a_value_without_a_customary_one_is_absent() -> None:
    assert value_of(Part(id="N", kind="coil-2wire"), catalogue_kind("coil-2wire"), "loss") is None
    assert coils("coil-2wire")["P"].loss_ohm is None


def test_plain_figures_may_be_numbers() -> None:
    """A count or a share has no unit, so JSON's own number says it all."""
    kind = catalogue_kind("rotary-1p12t")
    for stop in (5, 5.0, "5"):
        part = Part(id="S", kind=kind.id, values={"stop": stop})
        assert number_of(part, kind, "stop") == 5
        assert not list(value_problems(part, kind))


REFUSED = [
    ("pot", "resistance", 250.0, '250.0 without quotes is not a resistance; a quantity is text, '
     "write for example 4k7"),
    ("pot", "resistance", ((0.0, 0.0), (1.0, 1.0)), "a table is not a resistance; a quantity is "
     "text, write for example 4k7"),
    ("pot", "resistance", "0", '"0" is out of bounds; it must be more than 0 Ω'),
    ("pot", "share", "0.5", '"0.5" is out of bounds; it must be strictly between 0 and 0.5'),
    ("pot", "taper", "log", '"log" is not a taper; write linear, audio, reverse-audio or a table '
     "such as [[0, 0], [1, 1]]"),
    ("pot", "taper", ((0.0, 1.0), (1.0, 0.0)), "the table of a taper must rise with rotation"),
    ("pot", "taper", ((0.0, 0.0),), "the table of a taper must have between 2 and 1000 points"),
    ("pot", "taper", ((0.0, 0.0), (0.5, 0.7), (1.0, 0.6)), "the table of a taper must be monotone"),
    ("pot", "taper", ((0.0, 0.0), (0.9, 1.0)), "the table of a taper must run from rotation 0 to "
     "rotation 1"),
    ("pot", "taper", ((0.0, 0.0), (1.0, 14.0)), "the table of a taper must have values between 0 "
     "and 1"),
    ("pot", "taper", ((0.0, 0.0), (0.5, 0.1), (0.5, 0.2), (1.0, 1.0)), "the table of a taper must "
     "have rising rotations"),
    ("coil-2wire", "winding", "left", '"left" is not one of cw, ccw'),
    ("coil-2wire", "pole", 1.0, '"1.0" is not one of north, south, none'),
    ("coil-tapped", "tap", "1", '"1" is out of bounds; it must be strictly between 0 and 1'),
    ("rotary-1p12t", "stop", "13", '"13" is out of bounds; it must be between 2 and 12'),
    ("rotary-1p12t", "stop", "2.5", '"2.5" is not a whole number'),
    ("slide-2p2t", "timing", "early", '"early" is not one of break, make, unknown'),
    ("pot", "tolerance", "20", '"20" is not a tolerance; write for example 20%'),
    ("pot", "tolerance", 20.0, "a tolerance is text; write for example 20%"),
    ("pot", "resistence", "1k", 'pot has no value "resistence"; it has end, resistance, share, '
     "taper"),
    ("pot", "a.tolerance", "20%", 'pot has no value "a.tolerance"; it has end, resistance, share, '
     "taper"),
    ("bridge", "resistance", "1k", 'bridge has no value "resistance"; it has none'),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "name", "value", "line"), REFUSED)
def test_what_a_value_cannot_be_is_said_with_what_it_can(
    kind: str, name: str, value: object, line: str
) -> None:
    for field in ("values", "measured"):
        part = Part(id="P", kind=kind, **{field: {name: value}})  # type: ignore[arg-type]
        found = list(value_problems(part, catalogue_kind(kind)))
        assert found == [(f"{field}.{name}", line)]


def test_reading_a_wrong_value_raises_what_checking_it_says() -> None:
    part = Part(id="R", kind="resistor", values={"resistance": "4kk7"})
    with pytest.raises(QuantityError, match='"4kk7" is not a resistance; write for example 4k7'):
        number_of(part, catalogue_kind("resistor"), "resistance")


def test_a_tolerance_may_stand_for_one_track_of_two() -> None:
    kind = catalogue_kind("pot-dual")
    part = Part(id="V", kind=kind.id, values={"a.tolerance": "10%", "tolerance": "20%"})
    assert not list(value_problems(part, kind))


def test_a_dual_pot_takes_values_for_both_tracks_or_for_one() -> None:
    made = elements(
        "pot-dual",
        values={"resistance": "500k", "b.resistance": "250k", "a.taper": "audio"},
        measured={"a.resistance": "478k"},
    )
    tracks = {e.name: (e.ohm, e.taper) for e in made if isinstance(e, Track)}
    assert tracks == {"a": (478e3, "audio"), "b": (250e3, "linear")}


def test_the_two_coils_of_a_humbucker_have_each_the_value() -> None:
    """By the design an 8 kΩ humbucker has 4 kΩ coils; pole B is the opposite of A's."""
    made = coils("humbucker-4wire", values={"resistance": "4k1", "winding": "cw"})
    assert [c.resistance_ohm for c in made.values()] == [4100, 4100]
    assert [(c.name, c.winding, c.pole) for c in made.values()] == [("P.A", 1, 1), ("P.B", 1, -1)]


def test_the_joined_coils_of_a_humbucker_are_in_phase_and_cancel_hum() -> None:
    """Af to Bf joined, As hot and Bs ground: V(As) = e(B) − e(A), a single coil's is + e.

    The figures are those of the sign table for two coils (textbook: e = −n·A·dB/dt).
    """
    a, b = coils("humbucker-4wire").values()
    [single] = coils("coil-2wire").values()
    assert b.sign - a.sign == 2 * single.sign
    assert b.winding - a.winding == 0


def test_one_coil_of_a_humbucker_can_differ() -> None:
    made = coils(
        "humbucker-4wire",
        values={"pole": "south", "B.winding": "cw", "resistance": "4k"},
        measured={"A.resistance": "4k2"},
    )
    a, b = made["P.A"], made["P.B"]
    assert (a.resistance_ohm, b.resistance_ohm) == (4200, 4000)
    assert (a.winding, b.winding) == (-1, 1)
    assert (a.pole, b.pole) == (-1, 1)


def test_a_pole_measured_for_the_whole_part_overrides_the_nominal_one_of_a_coil() -> None:
    made = coils("humbucker-4wire", values={"B.pole": "north"}, measured={"pole": "north"})
    assert [c.pole for c in made.values()] == [1, -1]


def test_poles_of_one_coil_are_taken_as_they_are_written() -> None:
    made = coils("humbucker-4wire", values={"B.pole": "north"})
    assert [c.pole for c in made.values()] == [1, 1]


def test_a_dummy_coil_has_a_winding_and_no_pole() -> None:
    [dummy] = coils("dummy-coil").values()
    assert dummy.pole == 0
    assert dummy.sign == dummy.winding


def test_a_tapped_coil_is_parted_by_its_turns() -> None:
    """R·t and R·(1 − t), L·t² and L·(1 − t)², coupled so that in series they make L again."""
    made = elements("coil-tapped", values={"resistance": "10k", "inductance": "4", "tap": 0.6})
    lower, upper = (e for e in made if isinstance(e, Coil))
    assert [e for e in made if isinstance(e, Coupling)] == [Coupling("P.lower", "P.upper")]
    assert (lower.resistance_ohm, upper.resistance_ohm) == pytest.approx((6000, 4000))
    assert (lower.inductance_henry, upper.inductance_henry) == pytest.approx((1.44, 0.64))
    mutual = math.sqrt(lower.inductance_henry * upper.inductance_henry)
    assert lower.inductance_henry + upper.inductance_henry + 2 * mutual == pytest.approx(4)
    assert (lower.turns, upper.turns) == pytest.approx((0.6, 0.4))


def test_the_capacitance_of_a_tapped_coil_lies_across_the_whole() -> None:
    made = elements("coil-tapped", values={"capacitance": "130p", "loss": "500k"})
    assert [c.capacitance_farad for c in made if isinstance(c, Coil)] == [0, 0]
    [across] = [e for e in made if isinstance(e, Capacitor)]
    assert (across.a, across.b, across.farad) == ("P.start", "P.finish", pytest.approx(130e-12))
    [loss] = [e for e in made if isinstance(e, Resistor)]
    assert (loss.a, loss.b, loss.ohm) == ("P.start", "P.finish", 500e3)


def test_a_reading_across_one_half_of_a_tapped_coil_is_that_halfs() -> None:
    """A repairer reads start to tap and tap to finish apart: neither is divided again."""
    made = coils("coil-tapped", measured={"lower.resistance": "4k6", "upper.resistance": "3k1"})
    assert [c.resistance_ohm for c in made.values()] == [4600, 3100]


def test_the_plain_parts_are_what_they_are_called() -> None:
    assert elements("resistor", values={"resistance": "4k7"}) == [
        Resistor("P", "resistor", "P.1", "P.2", 4700.0)
    ]
    assert elements("capacitor", values={"capacitance": "22n"}) == [
        Capacitor("P", "capacitor", "P.1", "P.2", 22e-9)
    ]
    assert elements("inductor", values={"inductance": "1.5"}) == [
        Inductor("P", "inductor", "P.1", "P.2", 1.5, 0.0)
    ]
    assert elements("battery") == [Cell("P", "P.plus", "P.minus")]
    assert elements("bus") == [Bond(tuple(f"P.{n}" for n in range(1, 9)))]
    assert elements("terminal") == []


@pytest.mark.parametrize(
    ("fields", "timing"),
    [
        ({}, "break"),
        ({"values": {"timing": "make"}}, "make"),
        ({"values": {"timing": "make"}, "measured": {"timing": "unknown"}}, "unknown"),
    ],
)
def test_the_timing_of_a_switch_can_be_set_and_measured(
    fields: dict[str, dict[str, str]], timing: str
) -> None:
    part = Part(id="S", kind="toggle-2p2t", **fields)
    assert timing_of(part, catalogue_kind("toggle-2p2t")) == timing


@given(circuits())
def test_every_value_that_a_part_may_have_makes_finite_elements(circuit: Circuit) -> None:
    lugs = set(circuit.lugs)
    for part in circuit.parts:
        kind = circuit.kind_of(part)
        assert set(part.values) - {"tolerance"} <= set(known_value_names(kind))
        inner = {f"{part.id}.{name}" for name in kind.inner}
        for element in elements_of(circuit, part):
            if isinstance(element, Coil):
                assert {element.start, element.finish} <= lugs | inner
                assert math.isfinite(element.resistance_ohm + element.inductance_henry)
    assert all(
        math.isfinite(e.ohm) for e in circuit_elements(circuit) if isinstance(e, Track | Resistor)
    )
