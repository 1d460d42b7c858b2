"""Settings with one switch half-way between two positions."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal

from wirer.analysis.facts import Facts, facts_of, resting_states
from wirer.analysis.switches import HalfWay
from wirer.rules.inspection import Inspection


def halfway_facts(
    inspection: Inspection, view: Literal["signal", "meter"] = "signal", timing: str = ""
) -> Iterator[tuple[str, HalfWay, Facts]]:
    """Yield (switch, half-way state, facts), the other switches in every position.

    `timing` picks the states that break or make; empty takes both.
    """
    harness = inspection.harness if view == "signal" else inspection.analyst.metered
    for column, switch in enumerate(harness.switches):
        for state, between in zip(switch.moving, switch.between, strict=True):
            if timing and between.timing != timing:
                continue
            states = resting_states(harness)
            states[column] = (state,)
            yield switch.part, between, facts_of(harness, states)
