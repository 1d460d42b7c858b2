"""The judge is judged: faults put in by hand are found, each by its name."""

from dataclasses import replace

import pytest

from tests.layout.circuits import Bench
from wirer.layout.lay_out import lay_out
from wirer.layout.layout import Layout
from wirer.layout.quality import quality, report
from wirer.layout.route import Route


@pytest.fixture
def crossing() -> Layout:
    """Two wires that cross once in the middle, and a pot aside."""
    bench = Bench()
    for name, x, y in (("A", 0, 0), ("B", 60, 0), ("C", 30, -30), ("D", 30, 30)):
        bench.part(name, "terminal", x, y)
    bench.part("V", "pot", 100.0, 0.0)
    bench.wire("A.1", "B.1")
    bench.wire("C.1", "D.1")
    return lay_out(bench.circuit())


def rerouted(layout: Layout, **routes: tuple[tuple[float, float], ...]) -> Layout:
    changed = {name: Route(points) for name, points in routes.items()}
    return replace(layout, routes={**layout.routes, **changed})


def test_figures_of_a_plain_cross(crossing: Layout) -> None:
    judged = quality(crossing)
    assert (judged.wires, judged.crossings, judged.bends) == (2, 1, 0)
    assert judged.length_mm == pytest.approx(120.0)
    assert judged.faults == 0


def test_a_wire_over_a_foreign_can_is_named(crossing: Layout) -> None:
    judged = quality(rerouted(crossing, w1=((0, 0), (0, 5), (110, 5), (110, 0), (60, 0))))
    assert judged.over_bodies == ("w1",)


def test_a_wire_across_a_foreign_lug_is_named(crossing: Layout) -> None:
    judged = quality(rerouted(crossing, w1=((0, 0), (0, -29), (60, -29), (60, 0))))
    assert judged.across_lugs == ("w1",)


def test_wires_that_lie_on_one_another_are_named_as_a_pair(crossing: Layout) -> None:
    judged = quality(rerouted(crossing, w2=((30, -30), (30, 0), (45, 0), (45, 30), (30, 30))))
    assert judged.overlaps == (("w1", "w2"),)


def test_the_least_spacing_is_between_wires_side_by_side(crossing: Layout) -> None:
    judged = quality(rerouted(crossing, w2=((30, -30), (30, -1.2), (45, -1.2), (45, 30), (30, 30))))
    assert judged.least_spacing_mm == pytest.approx(1.2)


def test_what_meets_at_a_lug_neither_crosses_nor_overlaps() -> None:
    bench = Bench()
    for name, x, y in (("A", 0, 0), ("B", 60, 0), ("C", 0, 60)):
        bench.part(name, "terminal", x, y)
    bench.wire("A.1", "B.1")
    bench.wire("A.1", "C.1")
    layout = lay_out(bench.circuit())
    shared = rerouted(layout, w1=((0, 0), (60, 0)), w2=((0, 0), (10, 0), (10, 60), (0, 60)))
    assert quality(layout).crossings == 0
    assert quality(shared).overlaps == ()


def test_a_fallback_is_a_fault(crossing: Layout) -> None:
    elbow = Route(crossing.routes["w1"].points, "fallback")
    judged = quality(replace(crossing, routes={**crossing.routes, "w1": elbow}))
    assert judged.fallbacks == ("w1",)
    assert judged.faults == 1


def test_the_report_has_a_line_for_each_layout(crossing: Layout) -> None:
    lines = report({"a cross": quality(crossing), "empty": quality(Layout({}, {}))}).splitlines()
    assert [line.split()[0] for line in lines] == ["wires", "a", "empty"]
