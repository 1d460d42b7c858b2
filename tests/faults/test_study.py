"""A thousand fixed slips of the complete study: what must hold of them."""

from __future__ import annotations

import pytest

from tests.examples.sheets import CORRECT
from tests.faults.report import caught_unwanted, caught_wanted, pointed_at
from tests.faults.study import Verdict, false_alarms, judged, slips_of, spread

SLIPS = 1000


def verdicts(example: str) -> tuple[Verdict, ...]:
    """Judge an example's slips among the thousand."""
    chosen = spread(slips_of(), SLIPS)
    return tuple(judged(name, slip) for name, slip in chosen if name == example)


@pytest.mark.parametrize("example", CORRECT)
def test_the_rules_catch_the_slips_of_a_job_sheet_and_point_at_them(example: str) -> None:
    judgements = verdicts(example)
    caught, changing = caught_wanted(judgements)
    assert caught == changing > 0
    caught, changing = caught_unwanted(judgements)
    assert caught >= 0.95 * changing
    pointed, caught = pointed_at(judgements)
    assert pointed >= 0.9 * caught > 0


@pytest.mark.parametrize("example", CORRECT)
def test_a_right_job_sheet_gives_no_false_alarm(example: str) -> None:
    assert false_alarms(example) == []
