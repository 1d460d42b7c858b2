"""Distances and crossings, worked out by hand on figures of 3-4-5 and unit squares."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wirer.layout.geometry import (
    point_in_polygon,
    point_on_polyline,
    point_segment_distance,
    polygons_meet,
    polyline_length,
    segment_distance,
    segment_meets_polygon,
    segments_cross,
)

SQUARE = ((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0))


def test_length_of_a_bent_line() -> None:
    assert polyline_length([(0, 0), (3, 4), (3, 10)]) == 11.0


@pytest.mark.parametrize(
    ("way", "point"), [(-1, (0, 0)), (0, (0, 0)), (5, (3, 4)), (8, (3, 7)), (99, (3, 10))]
)
def test_a_place_along_a_bent_line(way: float, point: tuple[float, float]) -> None:
    assert point_on_polyline([(0, 0), (3, 4), (3, 10)], way) == pytest.approx(point)


@pytest.mark.parametrize(
    ("point", "distance"), [((2, 3), 3.0), ((-3, 4), 5.0), ((14, 3), 5.0), ((5, 0), 0.0)]
)
def test_distance_from_a_segment_is_to_its_nearest_point(
    point: tuple[float, float], distance: float
) -> None:
    assert point_segment_distance(point, ((0, 0), (10, 0))) == distance


def test_distance_from_a_segment_without_length() -> None:
    assert point_segment_distance((3, 4), ((0, 0), (0, 0))) == 5.0


@pytest.mark.parametrize(
    ("other", "crosses"),
    [
        (((5, -1), (5, 1)), True),
        (((5, 0), (5, 1)), True),
        (((10, 0), (12, 0)), True),
        (((11, 0), (12, 0)), False),
        (((5, 1), (5, 2)), False),
        (((2, 0), (4, 0)), True),
    ],
)
def test_segments_that_have_a_point_in_common(
    other: tuple[tuple[float, float], tuple[float, float]], crosses: bool
) -> None:
    assert segments_cross(((0, 0), (10, 0)), other) is crosses
    assert (segment_distance(((0, 0), (10, 0)), other) == 0) is crosses


def test_a_point_inside_and_outside_a_square() -> None:
    assert point_in_polygon((1, 3), SQUARE)
    assert not point_in_polygon((5, 3), SQUARE)


@pytest.mark.parametrize(
    ("segment", "meets"),
    [
        (((1, 1), (2, 2)), True),
        (((-1, 2), (5, 2)), True),
        (((-1, 5), (5, 5)), False),
        (((2, 5), (2, 3)), True),
    ],
)
def test_a_segment_over_a_square(
    segment: tuple[tuple[float, float], tuple[float, float]], meets: bool
) -> None:
    assert segment_meets_polygon(segment, SQUARE) is meets


def test_one_square_inside_another_meets_it() -> None:
    inner = ((1.0, 1.0), (2.0, 1.0), (2.0, 2.0), (1.0, 2.0))
    assert polygons_meet(SQUARE, inner)
    assert polygons_meet(inner, SQUARE)


places = st.tuples(st.floats(-50, 50), st.floats(-50, 50))


@given(st.tuples(places, places), st.tuples(places, places))
def test_segments_are_as_far_from_each_other_as_seen_from_either(
    one: tuple[tuple[float, float], tuple[float, float]],
    other: tuple[tuple[float, float], tuple[float, float]],
) -> None:
    assert segment_distance(one, other) == pytest.approx(segment_distance(other, one))
