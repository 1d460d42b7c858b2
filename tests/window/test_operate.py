"""Which position or rotation a point of a part means. Expectations are facts of the trade:
a slide joins the side it stands on, a knob seen from behind turns the other way (common practice).
"""

import pytest

from wirer.circuit.catalogue import catalogue_kind
from wirer.circuit.kind import Point
from wirer.window.operate import caught_by_detent, grips, position_at, shaft_at, towards, turned_by


def at_side(kind_id: str, point: Point) -> str | None:
    actuator = catalogue_kind(kind_id).actuator
    assert actuator is not None
    return position_at(actuator, actuator.positions, point)


def test_the_side_of_a_slide_is_its_position() -> None:
    assert at_side("slide-2p2t", (0, -4)) == "up"
    assert at_side("slide-2p2t", (0, 4)) == "down"


def test_a_lever_has_five_places_along_its_slot() -> None:
    grip = catalogue_kind("lever-2p5").actuator.grip  # type: ignore[union-attr]
    found = [at_side("lever-2p5", (grip[0], y)) for y in (-9, -2.6, 0, 2.6, 9)]
    assert sorted(set(found)) == ["1", "2", "3", "4", "5"]
    assert found in (["1", "2", "3", "4", "5"], ["5", "4", "3", "2", "1"])


def test_a_rotary_has_no_sides() -> None:
    assert at_side("rotary-1p12t", (3, 0)) is None


def test_the_grip_is_where_the_hand_takes_it() -> None:
    slide = catalogue_kind("slide-2p2t")
    assert grips(slide, (0, 4))
    assert not grips(slide, (5, 0))
    assert not grips(catalogue_kind("pot"), (0, 0))


@pytest.mark.parametrize(("start", "end", "sign"), [((0, -9), (9, 0), -1), ((0, -9), (-9, 0), 1)])
def test_a_knob_from_behind_turns_up_anticlockwise(start: Point, end: Point, sign: int) -> None:
    (shaft,) = catalogue_kind("pot").shafts
    assert turned_by(shaft, start, end) == pytest.approx(sign * 90 / shaft.travel_deg)


def test_a_drag_past_the_bottom_does_not_jump() -> None:
    (shaft,) = catalogue_kind("pot").shafts
    assert abs(turned_by(shaft, (-1, 9), (1, 9))) < 0.1


def test_of_two_shafts_the_inner_and_the_outer_ring_are_told_apart() -> None:
    kind = catalogue_kind("pot-concentric")
    radius = kind.body.radius or min(kind.body.size) / 2
    inner, outer = shaft_at(kind, (0.0, 0.5)), shaft_at(kind, (radius * 0.9, 0.0))
    assert inner is not None
    assert outer is not None
    assert {inner.name, outer.name} == {"upper", "lower"}
    assert shaft_at(kind, (radius * 2, 0.0)) is None


def test_a_detent_catches_the_finger() -> None:
    (shaft,) = catalogue_kind("pot-blend").shafts
    assert caught_by_detent(shaft, 0.505) == 0.5
    assert caught_by_detent(shaft, 0.53) == 0.53


def test_keys_throw_the_way_they_point() -> None:
    actuator = catalogue_kind("selector-3").actuator
    assert actuator is not None
    positions = actuator.positions
    assert towards(actuator, positions, "middle", (0, -1)) == "up"
    assert towards(actuator, positions, "middle", (0, 1)) == "down"
    assert towards(actuator, positions, "down", (0, 1)) == "down"


def test_keys_count_where_nothing_lies_that_way() -> None:
    actuator = catalogue_kind("rotary-4p3t").actuator
    assert actuator is not None
    assert towards(actuator, actuator.positions, "1", (1, 0)) == "2"
    assert towards(actuator, actuator.positions, "1", (-1, 0)) == "1"
    assert towards(actuator, actuator.positions, "3", (0, 1)) == "3"
