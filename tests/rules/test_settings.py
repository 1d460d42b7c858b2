"""When a finding holds, summed up: exact, in few terms, and as people say it."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.examples.sheets import NAMES, circuit
from tests.rules.loom import two_coils
from wirer.circuit.frozen import FrozenMap
from wirer.rules.check import findings_of
from wirer.rules.finding import Finding
from wirer.rules.settings import MOST_TERMS, in_words, summed_up

Positions = dict[str, tuple[str, ...]]


def every_setting(positions: Positions) -> list[dict[str, str]]:
    """All settings in the table's order: the first actuator changes slowest."""
    return [dict(zip(positions, each, strict=True)) for each in product(*positions.values())]


@st.composite
def masks(draw: st.DrawFn, most_actuators: int = 4) -> tuple[Positions, np.ndarray]:
    """Some actuators and a random mask over their settings."""
    sizes = draw(st.lists(st.integers(2, 5), max_size=most_actuators))
    positions = {f"S{n}": tuple(map(str, range(size))) for n, size in enumerate(sizes)}
    count = int(np.prod(sizes, dtype=int))
    bits = draw(st.lists(st.booleans(), min_size=count, max_size=count))
    return positions, np.array(bits, np.bool_)


def holding(positions: Positions, rows: np.ndarray) -> list[bool]:
    """In which settings a finding with these rows says that it holds."""
    finding = Finding("r", "note", "m", (), summed_up(rows, positions))
    return [finding.holds_in(setting) for setting in every_setting(positions)]


@given(masks())
def test_the_terms_together_are_the_rows(case: tuple[Positions, np.ndarray]) -> None:
    positions, rows = case
    terms = summed_up(rows, positions)
    if terms is None or len(terms) < MOST_TERMS:
        assert holding(positions, rows) == rows.tolist()
    else:
        assert len(terms) == MOST_TERMS
        assert all(row for row, held in zip(rows, holding(positions, rows), strict=True) if held)


@given(masks())
def test_all_rows_are_none_and_no_rows_no_term(case: tuple[Positions, np.ndarray]) -> None:
    positions, rows = case
    assert summed_up(np.ones_like(rows), positions) is None
    assert summed_up(np.zeros_like(rows), positions) == ()


@given(st.lists(st.sampled_from("abc"), min_size=1, max_size=3, unique=True), st.data())
def test_what_one_term_says_is_one_term(actuators: list[str], data: st.DataObject) -> None:
    positions = dict.fromkeys("abc", ("up", "middle", "down"))
    term = {name: data.draw(st.sampled_from(positions[name])) for name in actuators}
    rows = [term.items() <= setting.items() for setting in every_setting(positions)]
    assert summed_up(np.array(rows), positions) == (FrozenMap(term),)


@pytest.mark.parametrize("name", NAMES)
def test_findings_hold_somewhere(name: str) -> None:
    for finding in findings_of(circuit(name)):
        assert finding.settings != ()


WORDS = [
    (None, "in every setting"),
    ([{"S": "up"}], "whenever Selector is up"),
    ([{"S": "up"}, {"S": "down"}], "whenever Selector is up or down"),
    ([{"S": "up", "P": "down"}], "whenever Selector is up and Neck phase is reversed"),
    (
        [{"S": "up", "P": "up"}, {"S": "up", "P": "down"}],
        "whenever Selector is up and Neck phase is up or reversed",
    ),
    (
        [{"S": "up", "P": "up"}, {"S": "down", "P": "down"}],
        "whenever Selector is up and Neck phase is up, "
        "or Selector is down and Neck phase is reversed",
    ),
    (
        [{f"N{n}": "up"} for n in range(4)],
        "whenever N0 is up, or N1 is up, or N2 is up, or in 1 more case",
    ),
    (
        [{f"N{n}": "up"} for n in range(5)],
        "whenever N0 is up, or N1 is up, or N2 is up, or in 2 more cases",
    ),
]


@pytest.mark.parametrize(("terms", "words"), WORDS)
def test_people_read_when_it_holds(terms: list[dict[str, str]] | None, words: str) -> None:
    labels = {"down": "reversed"}
    loom = two_coils().part("P", "slide-2p2t", label="Neck phase", position_labels=labels)
    for n in range(5):
        loom.part(f"N{n}", "slide-2p2t")
    settings = None if terms is None else tuple(FrozenMap(term) for term in terms)
    assert in_words(loom.circuit(), settings) == words
