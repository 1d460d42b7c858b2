"""Running costs against a plain reckoning, edge by edge."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from wirer.layout.layer import CROSSING_MM, running_costs

ACROSS = np.array([0.0, 1.0, 2.5, 4.0])
ALONG = np.array([0.0, 2.0, 3.0, 7.0, 8.0])
NONE = np.zeros((0, 5))
NO_CUTS = np.zeros((0, 3))


def edges_mm(areas: np.ndarray = NONE, cuts: np.ndarray = NO_CUTS) -> np.ndarray:
    return np.diff(running_costs(ACROSS, ALONG, areas, cuts), axis=1) / 1000


def test_an_edge_costs_its_length() -> None:
    assert edges_mm().tolist() == [[2, 1, 4, 1]] * 4


def test_an_area_makes_what_enters_it_dearer() -> None:
    """From 0.5 to 3.0 across lie two tracks; from 2.5 to 4.0 along two edges are touched."""
    extra = edges_mm(np.array([[0.5, 2.5, 3.0, 4.0, 2.0]])) - edges_mm()
    assert extra.tolist() == [[0, 0, 0, 0], [0, 2, 8, 0], [0, 2, 8, 0], [0, 0, 0, 0]]


def test_an_area_that_only_touches_costs_nothing() -> None:
    assert (edges_mm(np.array([[1.0, 3.0, 2.5, 7.0, 9.0]])) == edges_mm()).all()


def test_passing_a_wire_between_two_nodes_is_one_crossing() -> None:
    extra = edges_mm(cuts=np.array([[5.0, 1.0, 2.0]])) - edges_mm()
    assert extra[1].tolist() == [0, 0, CROSSING_MM, 0]
    assert not extra[[0, 2, 3]].any()


def test_passing_a_wire_at_a_node_is_half_on_either_side() -> None:
    extra = edges_mm(cuts=np.array([[3.0, 1.0, 2.0]])) - edges_mm()
    assert extra[1].tolist() == [0, CROSSING_MM / 2, CROSSING_MM / 2, 0]


places = st.floats(-2, 10)
areas = st.tuples(places, places, places, places, st.integers(1, 512).map(lambda n: n / 256))


@given(st.lists(areas, max_size=6))
def test_any_areas_against_a_reckoning_edge_by_edge(rows: list[tuple[float, ...]]) -> None:
    boxes = [(*sorted((a, c)), *sorted((b, d)), rate) for a, b, c, d, rate in rows]
    expected = [
        [
            (stop - start)
            * (
                1
                + sum(
                    rate
                    for low, high, begin, end, rate in boxes
                    if low < track < high and begin < stop and start < end
                )
            )
            for start, stop in pairwise(ALONG)
        ]
        for track in ACROSS
    ]
    table = np.array([(a, c, b, d, r) for a, b, c, d, r in boxes]).reshape(-1, 5)
    assert edges_mm(table) == pytest.approx(np.array(expected), abs=0.002)
