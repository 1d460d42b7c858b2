"""What is wanted of each setting, and whether the circuit gives it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from wirer.rules.inspection import Inspection
from wirer.rules.wanted import Wish, rows_giving, wishes


@dataclass(frozen=True, slots=True)
class WantedSound:
    """A wanted sound as the builder wrote it, and whether the setting gives it."""

    text: str
    given: bool


def wanted_by_row(inspection: Inspection) -> Mapping[int, WantedSound]:
    """Return by row of the table what is wanted of the setting; a later wish replaces earlier."""
    wanted: dict[int, WantedSound] = {}
    for wish in wishes(inspection):
        if isinstance(wish, Wish):
            given = rows_giving(inspection, wish.sound)
            for row in np.flatnonzero(wish.rows).tolist():
                wanted[row] = WantedSound(wish.wanted.sound, bool(given[row]))
    return wanted
