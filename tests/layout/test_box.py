"""Upright rectangles, worked out by hand."""

import pytest

from wirer.layout.box import Box, boxes_union

BOX = Box(0, 0, 10, 6)


def test_boxes_that_share_only_an_edge_do_not_meet() -> None:
    assert not BOX.meets(Box(10, 0, 12, 6))
    assert BOX.meets(Box(9.9, 0, 12, 6))


def test_the_area_that_lies_in_both() -> None:
    assert BOX.shared_area(Box(8, 4, 20, 20)) == 4
    assert BOX.shared_area(Box(11, 0, 12, 1)) == 0


def test_what_lies_outside_another_box() -> None:
    pieces = BOX.outside(Box(2, 2, 4, 4))
    assert sum(p.width * p.height for p in pieces) == 60 - 4
    assert not any(p.meets(q) for p in pieces for q in pieces if p is not q)
    assert BOX.outside(Box(20, 20, 30, 30)) == (BOX,)
    assert BOX.outside(Box(-1, -1, 11, 7)) == ()


def test_a_box_about_its_middle() -> None:
    assert Box.centred((5, 3), 10, 6) == BOX
    assert BOX.centre == (5, 3)


def test_the_union_of_none_is_empty() -> None:
    assert boxes_union([]) == Box(0, 0, 0, 0)
    assert boxes_union([BOX, Box(-5, 2, 1, 9)]) == Box(-5, 0, 10, 9)


def test_there_is_no_box_round_nothing() -> None:
    with pytest.raises(ValueError, match="not enough values"):
        Box.around([])
