"""The screen of a screened wire: most of its length, its ends led to their lugs."""

import pytest

from tests.layout.circuits import Bench
from wirer.layout.geometry import polyline_length
from wirer.layout.lay_out import lay_out
from wirer.layout.layout import Layout


def screened(screen_from: str | None, screen_to: str | None, distance: float = 80.0) -> Layout:
    bench = Bench()
    bench.part("V", "pot", 0.0, 0.0)
    bench.part("J", "jack-ts", distance, 0.0)
    bench.wire("V.2", "J.tip", style="screened", screen_from=screen_from, screen_to=screen_to)
    return lay_out(bench.circuit())


def test_the_screen_ends_five_millimetres_before_the_lugs() -> None:
    layout = screened("V.can", "J.sleeve")
    covered = polyline_length(layout.screens["w1"].cover)
    assert covered == pytest.approx(layout.routes["w1"].length_mm - 10.0)
    assert layout.screens["w1"].begins_mm == 5.0


def test_each_soldered_end_has_a_tail_to_its_lug() -> None:
    layout = screened("V.can", "J.sleeve")
    screen = layout.screens["w1"]
    first, second = screen.tails
    assert first.points[0] == pytest.approx(screen.cover[0])
    assert first.points[-1] == layout.lugs["V.can"]
    assert second.points[0] == pytest.approx(screen.cover[-1])
    assert second.points[-1] == layout.lugs["J.sleeve"]


def test_a_screen_left_open_has_no_tail_there() -> None:
    assert len(screened("V.can", None).screens["w1"].tails) == 1
    assert screened(None, None).screens["w1"].tails == ()


def test_a_short_wire_keeps_three_fifths_of_its_screen() -> None:
    layout = screened(None, None, distance=12.0)
    length = layout.routes["w1"].length_mm
    if length < 25:
        assert polyline_length(layout.screens["w1"].cover) == pytest.approx(0.6 * length)
    assert layout.screens["w1"].cover


def test_other_wires_have_no_screen() -> None:
    bench = Bench()
    bench.part("V", "pot", 0.0, 0.0)
    bench.part("J", "jack-ts", 60.0, 0.0)
    bench.wire("V.2", "J.tip")
    assert lay_out(bench.circuit()).screens == {}
