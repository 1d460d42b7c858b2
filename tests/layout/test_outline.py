"""Bodies as polygons; areas against the formulas of plane geometry."""

import math

import pytest

from wirer.circuit.kind import Shape
from wirer.layout.box import Box
from wirer.layout.geometry import Polygon, edges_of
from wirer.layout.outline import shape_polygon


def area(polygon: Polygon) -> float:
    """The shoelace formula."""
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in edges_of(polygon)) / 2


def test_a_rectangle_has_its_four_corners() -> None:
    shape = Shape(form="rect", at=(1.0, 2.0), size=(4.0, 6.0))
    assert shape_polygon(shape) == ((-1, -1), (3, -1), (3, 5), (-1, 5))


def test_rounded_corners_take_off_what_a_circle_leaves_of_its_square() -> None:
    shape = Shape(form="rect", size=(20.0, 10.0), radius=2.0)
    assert area(shape_polygon(shape)) == pytest.approx(200 - (4 - math.pi) * 4, rel=2e-3)
    box = Box.around(shape_polygon(shape))
    assert (box.width, box.height) == pytest.approx((20.0, 10.0))


def test_a_circle_is_off_by_less_than_a_thirtieth_of_a_millimetre() -> None:
    points = shape_polygon(Shape(form="circle", at=(5.0, 0.0), radius=12.0))
    assert area(points) == pytest.approx(math.pi * 144, rel=3e-3)
    middles = [((ax + bx) / 2, (ay + by) / 2) for (ax, ay), (bx, by) in edges_of(points)]
    assert min(math.dist(m, (5.0, 0.0)) for m in middles) > 12 - 0.03


def test_the_points_of_a_polygon_are_counted_from_its_place() -> None:
    shape = Shape(form="polygon", at=(10.0, 0.0), points=((0, 0), (1, 0), (0, 1)))
    assert shape_polygon(shape) == ((10, 0), (11, 0), (10, 1))


def test_a_line_is_as_wide_as_twice_its_radius() -> None:
    shape = Shape(form="line", radius=0.5, points=((0, 0), (10, 0)))
    box = Box.around(shape_polygon(shape))
    assert (box.top, box.bottom) == (-0.5, 0.5)


def test_a_shape_without_extent_is_still_a_place() -> None:
    box = Box.around(shape_polygon(Shape(form="rect")))
    assert box.width == pytest.approx(0.1)
