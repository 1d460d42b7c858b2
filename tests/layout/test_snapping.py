"""A dragged part comes to lie in line with others, or on the grid."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.circuits import circuits
from wirer.circuit.model import Circuit, Part
from wirer.layout.placement import place_parts
from wirer.layout.snapping import Guide, Snapper, grid_mm


def posts(**places: tuple[float, float]) -> Circuit:
    """Posts with their one lug in their middle."""
    return Circuit(parts=tuple(Part(id=i, kind="terminal", at=at) for i, at in places.items()))


def snapper(circuit: Circuit, *dragged: str) -> Snapper:
    return Snapper.of(place_parts(circuit), dragged)


def test_an_inch_is_25_4_mm() -> None:
    """By the international yard and pound agreement of 1959."""
    assert grid_mm(0.1, "inch") == pytest.approx(2.54)
    assert grid_mm(2.5, "mm") == 2.5


def test_what_is_dragged_alone_lies_on_the_grid() -> None:
    alone = snapper(posts(A=(0.3, 0.2)), "A")
    found = alone.snapped((11, -4), grid_mm=5)
    assert (0.3 + found.by[0], 0.2 + found.by[1]) == pytest.approx((10, -5))
    assert found.guides == ()
    assert alone.snapped((11, -4)).by == (11, -4)


def test_a_lug_near_the_line_of_another_comes_onto_it_and_the_line_is_shown() -> None:
    found = snapper(posts(A=(0, 0), B=(30, 40)), "A").snapped((29.2, 7), grid_mm=5)
    assert found.by == (30, 5)
    assert found.guides == (Guide((30, 5), (30, 40), ((30, 5), (30, 40))),)


def test_the_nearest_line_wins_over_the_grid_and_over_others() -> None:
    crowd = snapper(posts(A=(0, 0), B=(10.8, 50), C=(10.2, 90)), "A")
    assert crowd.snapped((10.1, 0.4), grid_mm=1).by == (10.2, 0)


def test_out_of_reach_or_unwanted_lines_do_not_pull() -> None:
    pair = snapper(posts(A=(0, 0), B=(30, 40)), "A")
    assert pair.snapped((28, 7), reach_mm=1.5).by == (28, 7)
    assert pair.snapped((29.9, 7), align=False).by == (29.9, 7)


def test_lugs_snap_to_lugs_not_to_those_dragged_along() -> None:
    pots = Circuit(
        parts=(
            Part(id="V", kind="pot", at=(0, 0)),
            Part(id="T", kind="pot", at=(60, 3)),
            Part(id="U", kind="pot", at=(0.5, 80)),
        )
    )
    found = snapper(pots, "V", "T").snapped((1, 40), reach_mm=1.5)
    assert found.by[0] == 0.5
    assert len(found.guides) == 3  # the middle with the wiper and the can, and both ends
    assert all(guide.start[0] == guide.end[0] for guide in found.guides)


@given(circuits(most_wires=0), st.tuples(st.floats(-300, 300), st.floats(-300, 300)))
def test_a_snap_is_near_and_every_line_shown_is_true(
    circuit: Circuit, by: tuple[float, float]
) -> None:
    placements = place_parts(circuit)
    if not placements:
        return
    dragged, *others = placements
    found = Snapper.of(placements, [dragged]).snapped(by, grid_mm=2.0, reach_mm=1.5)
    assert all(abs(end - start) <= 1.5 + 1e-3 for start, end in zip(by, found.by, strict=True))
    placed = placements[dragged]
    own = [
        (x + found.by[0], y + found.by[1]) for x, y in (placed.transform.at, *placed.lugs.values())
    ]
    still = [p for n in others for p in (placements[n].transform.at, *placements[n].lugs.values())]
    for guide in found.guides:
        axis = 0 if guide.start[0] == guide.end[0] else 1
        level = guide.start[axis]
        assert any(abs(p[axis] - level) < 1e-3 for p in own)
        assert any(abs(p[axis] - level) < 1e-3 for p in still)
