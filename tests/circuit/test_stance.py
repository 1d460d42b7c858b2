"""Where switches and knobs stand: defaults, stops, throwing and turning."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.circuit.catalogue_table import POSITIONS
from tests.support.circuits import circuits, documents, stances
from wirer.circuit.catalogue import catalogue_kind
from wirer.circuit.errors import EditError
from wirer.circuit.model import Circuit, Part
from wirer.circuit.stance import (
    Stance,
    default_rotations,
    default_stance,
    fitted_stance,
    joined_lugs,
    positions_in_use,
    thrown,
    turned,
)

CIRCUIT = Circuit(
    parts=(
        Part(id="S", kind="rotary-1p12t", values={"stop": "3"}),
        Part(id="K", kind="momentary"),
        Part(id="P", kind="pot-switch"),
        Part(id="D", kind="pot-concentric"),
        Part(id="B", kind="pot-blend"),
        Part(id="N", kind="coil-2wire"),
    )
)


def test_every_switch_first_stands_as_the_design_lists_first() -> None:
    parts = tuple(Part(id=f"S{n}", kind=kind) for n, kind in enumerate(POSITIONS))
    first = {p.id: POSITIONS[p.kind][0].partition(":")[0] for p in parts}
    assert default_stance(Circuit(parts=parts)).positions == first


def test_shafts_are_full_and_a_blend_is_in_its_middle() -> None:
    assert default_rotations(CIRCUIT) == {
        "P.shaft": 1.0, "D.upper": 1.0, "D.lower": 1.0, "B.shaft": 0.5,
    }  # fmt: skip


def test_a_stop_leaves_out_the_positions_beyond_it() -> None:
    kind = catalogue_kind("rotary-1p12t")
    assert len(positions_in_use(kind, Part(id="S", kind=kind.id))) == 12
    for stop in ("3", 3.0):
        part = Part(id="S", kind=kind.id, values={"stop": stop})
        assert positions_in_use(kind, part) == ("1", "2", "3")
    moved = Part(id="S", kind=kind.id, values={"stop": "3"}, measured={"stop": "5"})
    assert len(positions_in_use(kind, moved)) == 5


def test_what_has_no_actuator_has_no_positions() -> None:
    kind = catalogue_kind("pot")
    assert positions_in_use(kind, Part(id="V", kind="pot")) == ()


@pytest.mark.parametrize(
    ("normally", "rest", "pressed"),
    [({}, (), (("K.A0", "K.A1"),)), ({"normally": "closed"}, (("K.A0", "K.A1"),), ())],
)
def test_a_button_that_is_normally_closed_parts_when_pressed(
    normally: dict[str, str], rest: tuple[str, ...], pressed: tuple[str, ...]
) -> None:
    kind = catalogue_kind("momentary")
    part = Part(id="K", kind="momentary", values=normally)
    assert kind.actuator is not None
    assert joined_lugs(kind.actuator, kind, part, "rest") == rest
    assert joined_lugs(kind.actuator, kind, part, "pressed") == pressed


def test_a_switch_is_thrown_and_nothing_else_moves() -> None:
    stance = default_stance(CIRCUIT)
    after = thrown(CIRCUIT, stance, "S", "3")
    assert after.positions == {"S": "3", "K": "rest", "P": "down"}
    assert after.rotations is stance.rotations
    assert stance.positions["S"] == "1"


@pytest.mark.parametrize(
    ("part", "position", "line"),
    [
        ("X", "up", 'there is no switch "X"'),
        ("N", "up", 'there is no switch "N"'),
        ("D", "up", 'there is no switch "D"'),
        ("S", "4", 'S has no position "4"; it has 1, 2, 3'),
        ("K", "down", 'K has no position "down"; it has rest, pressed'),
    ],
)
def test_a_switch_is_not_thrown_to_where_it_can_not_be(part: str, position: str, line: str) -> None:
    with pytest.raises(EditError) as refused:
        thrown(CIRCUIT, default_stance(CIRCUIT), part, position)
    assert str(refused.value) == line


def test_a_shaft_is_turned_by_its_name_or_by_its_parts_where_it_is_the_only_one() -> None:
    stance = default_stance(CIRCUIT)
    assert turned(CIRCUIT, stance, "P", 0.3) == turned(CIRCUIT, stance, "P.shaft", 0.3)
    after = turned(CIRCUIT, stance, "D.lower", 0.0)
    assert after.rotations == {**stance.rotations, "D.lower": 0.0}
    assert after.positions is stance.positions


@pytest.mark.parametrize(
    ("shaft", "rotation", "line"),
    [
        ("X", 0.5, 'there is no shaft "X"'),
        ("N", 0.5, 'there is no shaft "N"'),
        ("D", 0.5, 'there is no shaft "D"; D has upper, lower'),
        ("P.upper", 0.5, 'there is no shaft "P.upper"; P has shaft'),
        ("P", 1.5, "rotation 1.5 of P is not between 0 and 1"),
        ("P", -0.1, "rotation -0.1 of P is not between 0 and 1"),
        ("P", float("nan"), "rotation nan of P is not between 0 and 1"),
    ],
)
def test_a_shaft_is_not_turned_to_where_it_can_not_be(
    shaft: str, rotation: float, line: str
) -> None:
    with pytest.raises(EditError) as refused:
        turned(CIRCUIT, default_stance(CIRCUIT), shaft, rotation)
    assert str(refused.value) == line


def test_a_stance_is_fitted_to_an_edited_circuit() -> None:
    old = Stance(
        positions={"S": "9", "K": "pressed", "gone": "up"},
        rotations={"D.upper": 0.25, "P.shaft": 1.5, "B.shaft": float("nan"), "gone.shaft": 0.0},
    )
    assert fitted_stance(CIRCUIT, old) == Stance(
        positions={"S": "1", "K": "pressed", "P": "down"},
        rotations={"P.shaft": 1.0, "D.upper": 0.25, "D.lower": 1.0, "B.shaft": 0.5},
    )


@given(documents())
def test_a_stance_of_the_circuit_fits_as_it_is(document: tuple[Circuit, Stance]) -> None:
    circuit, stance = document
    assert fitted_stance(circuit, stance) == stance
    assert fitted_stance(circuit, Stance()) == default_stance(circuit)


@given(st.data(), circuits())
def test_any_stance_is_reached_by_throwing_and_turning(
    data: st.DataObject, circuit: Circuit
) -> None:
    wished = data.draw(stances(circuit))
    stance = default_stance(circuit)
    for part_id, position in wished.positions.items():
        stance = thrown(circuit, stance, part_id, position)
    for shaft, rotation in wished.rotations.items():
        stance = turned(circuit, stance, shaft, rotation)
    assert stance == wished
