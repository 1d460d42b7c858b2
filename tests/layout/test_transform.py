"""A part is mirrored left to right, then turned clockwise, then moved (the document's definition).

The eight orientations were worked out by hand with x to the right and y down: a clockwise quarter
turn as seen takes right to down, down to left, left to up.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wirer.circuit.model import Part
from wirer.layout.transform import Transform

ORIENTATIONS = {
    (False, 0): (3.0, 1.0),
    (False, 90): (-1.0, 3.0),
    (False, 180): (-3.0, -1.0),
    (False, 270): (1.0, -3.0),
    (True, 0): (-3.0, 1.0),
    (True, 90): (-1.0, -3.0),
    (True, 180): (3.0, -1.0),
    (True, 270): (1.0, 3.0),
}


@pytest.mark.parametrize(("flip", "turn"), ORIENTATIONS)
def test_each_orientation_of_the_point_right_and_a_little_down(flip: bool, turn: int) -> None:
    transform = Transform(at=(10.0, 20.0), turn=turn, flip=flip)
    x, y = ORIENTATIONS[flip, turn]
    assert transform.point((3.0, 1.0)) == (10.0 + x, 20.0 + y)
    assert transform.direction((3.0, 1.0)) == (x, y)


def test_right_turned_clockwise_points_down() -> None:
    assert Transform(turn=90).direction((1.0, 0.0)) == (0.0, 1.0)


def test_a_part_brings_its_own_transform() -> None:
    part = Part(id="S", kind="slide-2p2t", at=(5.0, 6.0), turn=270, flip=True)
    assert Transform.of(part) == Transform((5.0, 6.0), 270, True)


coordinates = st.floats(-500, 500)


@given(
    at=st.tuples(coordinates, coordinates),
    point=st.tuples(coordinates, coordinates),
    turn=st.sampled_from([0, 90, 180, 270]),
    flip=st.booleans(),
)
def test_back_undoes_point(
    at: tuple[float, float], point: tuple[float, float], turn: int, flip: bool
) -> None:
    transform = Transform(at, turn, flip)
    assert transform.back(transform.point(point)) == pytest.approx(point, abs=1e-9)
