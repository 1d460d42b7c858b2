"""The catalogue against the design's table, and what every kind must give."""

import math
from itertools import combinations

import pytest

from tests.circuit.catalogue_table import LUGS, METAL, POSITIONS, TIMING, contacts_of
from wirer.circuit.catalogue import catalogue, catalogue_kind, kind_ids
from wirer.circuit.check import circuit_problems
from wirer.circuit.elements import Coil, circuit_elements
from wirer.circuit.kind import Kind, Point, Shape
from wirer.circuit.kind_check import kind_problems
from wirer.circuit.model import Circuit, Part
from wirer.circuit.values import value_problem

every_kind = pytest.mark.parametrize("kind", catalogue(), ids=lambda kind: kind.id)


def test_there_are_exactly_the_kinds_of_the_design() -> None:
    assert set(kind_ids()) == set(LUGS)


@pytest.mark.parametrize("kind_id", sorted(LUGS))
def test_a_kind_has_the_lugs_of_the_design(kind_id: str) -> None:
    assert [lug.name for lug in catalogue_kind(kind_id).lugs] == LUGS[kind_id].split()


@pytest.mark.parametrize("kind_id", sorted(LUGS))
def test_a_kind_has_the_positions_and_contacts_of_the_design(kind_id: str) -> None:
    actuator = catalogue_kind(kind_id).actuator
    if kind_id not in POSITIONS:
        assert actuator is None
        return
    assert actuator is not None
    expected = contacts_of(POSITIONS[kind_id])
    table = actuator.contacts
    assert actuator.positions == tuple(expected)
    assert {p: set(map(frozenset, groups)) for p, groups in table.items()} == expected
    assert actuator.timing == TIMING.get(kind_id, "break")


@every_kind
def test_metal_is_marked_and_nothing_else(kind: Kind) -> None:
    assert {lug.name for lug in kind.lugs if lug.metal} == set(METAL.get(kind.id, "").split())


@every_kind
def test_a_kind_does_not_contradict_itself(kind: Kind) -> None:
    assert kind_problems(kind) == []
    assert kind.name
    assert kind.about
    assert kind.group
    assert kind.search
    assert kind.picture


@every_kind
def test_the_values_taken_for_granted_are_readable(kind: Kind) -> None:
    for name, parameter in kind.parameters.items():
        for value in (parameter.default, *(parameter.usual or ())):
            if value is not None:
                assert value_problem(value, parameter) is None, name


def test_a_part_of_every_kind_makes_a_circuit() -> None:
    parts = tuple(Part(id=f"P{i}", kind=kind.id) for i, kind in enumerate(catalogue()))
    circuit = Circuit(parts=parts)
    assert circuit_problems(circuit) == []
    assert len([e for e in circuit_elements(circuit) if isinstance(e, Coil)]) == 12


# Class letters by IEEE 315 (from memory): pickups are inductors there as much as chokes are.
LETTERS = {
    "pickups": {"L"}, "switches": {"S"}, "pots": {"R"}, "components": {"R", "C", "L", "BT"},
    "jacks": {"J"}, "grounds": {"E"}, "terminals": {"E"},
}  # fmt: skip


@every_kind
def test_the_letter_is_the_class_letter(kind: Kind) -> None:
    assert kind.letter in LETTERS[kind.group]


def distance_from_body(body: Shape, point: Point) -> float:
    """How far a point lies outside a body, 0 within."""
    x, y = abs(point[0] - body.at[0]), abs(point[1] - body.at[1])
    if body.form == "circle":
        return max(0.0, math.hypot(x, y) - body.radius)
    return math.hypot(max(0.0, x - body.size[0] / 2), max(0.0, y - body.size[1] / 2))


@every_kind
def test_lugs_lie_on_the_body_or_close_to_it(kind: Kind) -> None:
    assert [lug.name for lug in kind.lugs if distance_from_body(kind.body, lug.at) > 6.0] == []


@every_kind
def test_an_iron_finds_room_between_two_lugs(kind: Kind) -> None:
    pairs = combinations(kind.lugs, 2)
    assert [(a.name, b.name) for a, b in pairs if math.dist(a.at, b.at) < 1.2] == []


@every_kind
def test_what_moves_has_a_place_in_every_position(kind: Kind) -> None:
    if kind.actuator:
        assert set(kind.actuator.moving.places) == set(kind.actuator.positions)
        assert len(set(kind.actuator.moving.places.values())) == len(kind.actuator.positions)


@every_kind
def test_what_a_part_can_do_nothing_without_is_marked(kind: Kind) -> None:
    needed = {lug.name for lug in kind.lugs if lug.needed}
    for coil in kind.coils:
        assert needed & {coil.start, coil.finish}
    if kind.output:
        assert needed >= {kind.output.tip, kind.output.sleeve}
    for element in kind.elements:
        if hasattr(element, "between") and not kind.coils:
            assert set(element.between) <= needed


@pytest.mark.parametrize(
    ("trait", "ids"),
    [("string-ground", {"bridge", "string-ground"}), ("screen", {"foil", "plate"})],
)
def test_rules_find_the_grounds_they_ask_for_by_trait(trait: str, ids: set[str]) -> None:
    assert {kind.id for kind in catalogue() if trait in kind.traits} == ids


def test_the_jacks_are_the_outputs() -> None:
    outputs = {kind.id: kind.output for kind in catalogue() if kind.output}
    assert set(outputs) == {"jack-ts", "jack-trs", "jack-ts-switched"}
    assert {(o.tip, o.sleeve) for o in outputs.values()} == {("tip", "sleeve")}
