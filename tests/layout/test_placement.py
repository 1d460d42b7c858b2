"""Where parts and lugs lie, and which bodies collide; places worked out by hand from the kinds."""

import pytest

from tests.layout.circuits import Bench
from wirer.circuit.catalogue import catalogue
from wirer.circuit.model import Part
from wirer.layout.overlap import overlapping_parts
from wirer.layout.placement import hosts_of, lug_points, parts_at, place, place_parts


def test_lugs_are_where_the_kind_has_them_turned_and_moved() -> None:
    """The lugs of a toggle are 4.7 mm apart in rows and 4.8 mm in columns (common practice)."""
    bench = Bench()
    bench.part("S", "toggle-2p2t", 100.0, 50.0, turn=90)
    placements = place_parts(bench.circuit())
    lugs = lug_points(placements)
    assert lugs["S.A0"] == pytest.approx((100.0, 47.6))
    assert lugs["S.A1"] == pytest.approx((104.7, 47.6))
    assert lugs["S.B2"] == pytest.approx((95.3, 52.4))


def test_a_flipped_switch_has_its_poles_exchanged() -> None:
    bench = Bench()
    bench.part("S", "toggle-2p2t", 0.0, 0.0, flip=True)
    lugs = lug_points(place_parts(bench.circuit()))
    assert lugs["S.A0"] == pytest.approx((2.4, 0.0))
    assert lugs["S.B0"] == pytest.approx((-2.4, 0.0))


@pytest.mark.parametrize("kind", catalogue(), ids=lambda kind: kind.id)
def test_every_kind_lies_in_its_extent(kind: object) -> None:
    placement = place(kind, Part(id="P", kind="x", at=(30.0, 40.0), turn=90))  # type: ignore[arg-type]
    extent = placement.extent
    assert all(extent.holds(at) for at in placement.lugs.values())
    assert all(extent.holds(corner) for corner in placement.body_box.corners)
    assert not any(feature.meets(placement.body_box) for feature in placement.features)


def test_bodies_that_lie_on_each_other_are_named_in_part_order() -> None:
    bench = Bench()
    bench.part("B", "pot", 20.0, 0.0)
    bench.part("A", "pot", 0.0, 0.0)
    bench.part("C", "pot", 100.0, 0.0)
    assert overlapping_parts(place_parts(bench.circuit())) == (("B", "A"),)


@pytest.mark.parametrize(("apart", "collide"), [(23.9, True), (24.1, False)])
def test_two_cans_of_24_mm_collide_as_circles_do(apart: float, collide: bool) -> None:
    """Set at 45 degrees their boxes overlap long before they do."""
    bench = Bench()
    bench.part("A", "pot", 0.0, 0.0)
    bench.part("B", "pot", apart / 2**0.5, apart / 2**0.5)
    assert bool(overlapping_parts(place_parts(bench.circuit()))) is collide


def test_what_lies_under_everything_collides_with_nothing() -> None:
    bench = Bench()
    bench.part("F", "foil", 0.0, 0.0)
    bench.part("A", "pot", 0.0, 0.0)
    assert overlapping_parts(place_parts(bench.circuit())) == ()


def test_the_lug_of_a_foil_may_lie_on_the_body_of_a_switch() -> None:
    bench = Bench()
    bench.part("S", "toggle-4p2t", 0.0, 0.0)
    placements = place_parts(bench.circuit())
    assert hosts_of(placements.values(), (10.0, 0.0)) == ["S"]
    assert hosts_of(placements.values(), (11.2, 0.0)) == []
    assert parts_at(placements, (0.0, 0.0)) == ["S"]
