"""Which wire passes under, and what is left of it; worked out by hand."""

import pytest

from wirer.layout.course import between, with_gaps
from wirer.layout.crossings import under_passes
from wirer.layout.route import Route, tidied

LEVEL = Route(((0.0, 0.0), (40.0, 0.0)))


def test_the_upright_run_passes_under_the_level_one() -> None:
    upright = Route(((20.0, -10.0), (20.0, 10.0)))
    assert under_passes({"a": LEVEL, "b": upright}) == {"b": (10.0,)}
    assert under_passes({"b": upright, "a": LEVEL}) == {"b": (10.0,)}


def test_where_a_gap_has_no_room_before_a_bend_the_other_passes_under() -> None:
    bent = Route(((20.0, -10.0), (20.0, 1.0), (35.0, 1.0)))
    assert under_passes({"a": LEVEL, "b": bent}) == {"a": (20.0,)}


def test_several_crossings_are_told_in_the_order_of_the_way() -> None:
    weaving = Route(((30.0, -5.0), (30.0, 5.0), (10.0, 5.0), (10.0, -5.0)))
    assert under_passes({"a": LEVEL, "b": weaving}) == {"b": (5.0, 35.0)}


def test_wires_that_meet_at_a_lug_do_not_cross() -> None:
    assert under_passes({"a": LEVEL, "b": Route(((0.0, 0.0), (0.0, 20.0)))}) == {}


def test_a_piece_of_a_bent_line() -> None:
    points = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0)]
    assert between(points, 4.0, 14.0) == ((4.0, 0.0), (10.0, 0.0), (10.0, 4.0))
    assert between(points, 15.0, 15.0) == ()
    assert between(points, -5.0, 99.0) == tuple(points)


def test_gaps_cut_a_line_into_pieces() -> None:
    pieces = list(with_gaps(LEVEL.points, [10.0, 30.0], 1.0))
    assert pieces == [((0, 0), (9, 0)), ((11, 0), (29, 0)), ((31, 0), (40, 0))]


def test_a_gap_at_the_end_leaves_what_is_before_it() -> None:
    assert list(with_gaps(LEVEL.points, [40.0], 1.0)) == [((0, 0), (39, 0))]


def test_without_gaps_a_line_is_whole() -> None:
    assert list(with_gaps(LEVEL.points, [], 1.0)) == [LEVEL.points]


@pytest.mark.parametrize(
    ("points", "left"),
    [
        ([(0, 0), (5, 0), (9, 0)], ((0, 0), (9, 0))),
        ([(0, 0), (5, 0), (5, 0), (5, 4)], ((0, 0), (5, 0), (5, 4))),
        ([(0, 0), (5, 0), (2, 0)], ((0, 0), (5, 0), (2, 0))),
        ([(1, 1), (1, 1)], ((1, 1), (1, 1))),
    ],
)
def test_a_course_is_tidied(
    points: list[tuple[float, float]], left: tuple[tuple[float, float], ...]
) -> None:
    assert tidied(points) == left
