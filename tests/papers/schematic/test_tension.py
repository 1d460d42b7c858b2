"""The solver behind layers and heights, against a general solver of linear programmes."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linprog

from wirer.papers.schematic.layered.tension import Tension

Demand = tuple[int, int, int]
PLENTY = 10**6


@st.composite
def problems(draw: st.DrawFn) -> tuple[int, list[Demand], list[tuple[int, list[Demand]]]]:
    """A count of places, least distances that can be kept, and spans with their weights."""
    count = draw(st.integers(2, 7))
    place = st.integers(0, count - 1)
    pairs = draw(st.lists(st.tuples(place, place, st.integers(0, 6)), max_size=12))
    demands = [(min(a, b), max(a, b), d) for a, b, d in pairs if a != b]
    points = st.lists(st.tuples(place, st.integers(-3, 3), st.just(0)), min_size=2, max_size=4)
    spans = draw(st.lists(st.tuples(st.integers(1, 9), points), min_size=1, max_size=5))
    return count, demands, spans


def best_by_linear_programme(
    count: int, demands: list[Demand], spans: list[tuple[int, list[Demand]]]
) -> float:
    """The least weighted sum of spans, by scipy's HiGHS."""
    width = count + 2 * len(spans)
    cost = np.zeros(width)
    rows, bounds = [], []
    for low, high, least in demands:
        rows.append({low: 1.0, high: -1.0})
        bounds.append(-least)
    for number, (weight, points) in enumerate(spans):
        first, last = count + 2 * number, count + 2 * number + 1
        cost[last] += weight
        cost[first] -= weight
        for place, offset, _ in points:
            rows += [{first: 1.0, place: -1.0}, {place: 1.0, last: -1.0}]
            bounds += [offset, -offset]
    matrix = np.zeros((len(rows), width))
    for index, row in enumerate(rows):
        for column, value in row.items():
            matrix[index, column] += value
    found = linprog(cost, A_ub=matrix, b_ub=bounds, bounds=[(None, None)] * width)
    assert found.success
    return float(found.fun)


def solved(
    count: int, demands: list[Demand], spans: list[tuple[int, list[Demand]]], budget: int = PLENTY
) -> list[int]:
    tension = Tension()
    places = [tension.add() for _ in range(count)]
    for low, high, least in demands:
        tension.keep(places[low], places[high], least)
    for weight, points in spans:
        tension.span(weight, [(places[place], offset) for place, offset, _ in points])
    return tension.solve(budget)[:count]


def strain(found: list[int], spans: list[tuple[int, list[Demand]]]) -> int:
    ends = [(w, [found[place] + offset for place, offset, _ in points]) for w, points in spans]
    return sum(weight * (max(own) - min(own)) for weight, own in ends)


@given(problems())
def test_places_are_as_near_as_they_can_be(
    problem: tuple[int, list[Demand], list[tuple[int, list[Demand]]]],
) -> None:
    _, demands, spans = problem
    found = solved(*problem)
    assert all(found[high] - found[low] >= least for low, high, least in demands)
    assert strain(found, spans) == pytest.approx(best_by_linear_programme(*problem))


@given(problems(), st.integers(0, 3))
def test_whoever_stops_early_still_keeps_the_distances(
    problem: tuple[int, list[Demand], list[tuple[int, list[Demand]]]], budget: int
) -> None:
    found = solved(*problem, budget)
    assert all(found[high] - found[low] >= least for low, high, least in problem[1])


def test_more_pulls_may_follow() -> None:
    tension = Tension()
    a, b, c = (tension.add(place) for place in (0, 10, 20))
    tension.keep(a, b, 2)
    tension.keep(b, c, 2)
    tension.span(1, [(a, 0), (c, 0)])
    first = tension.solve(PLENTY)
    assert first[c] - first[a] == 4
    tension.fix(a, b, 2)
    tension.span(5, [(b, 0), (c, 0)])
    second = tension.solve(PLENTY)
    assert (second[b] - second[a], second[c] - second[b]) == (2, 2)
