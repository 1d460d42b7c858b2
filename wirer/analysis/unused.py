"""What becomes of coils that carry no signal: free, shorted, or hung from ground or signal."""

from __future__ import annotations

from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.harness import Harness
from wirer.analysis.liveness import Terminals


class CoilState(IntEnum):
    """What a coil is in a setting."""

    LIVE = 0
    FREE = 1
    SHORTED = 2
    HUNG_FROM_GROUND = 3
    HUNG_FROM_SIGNAL = 4


def coil_states(
    harness: Harness, ends: Terminals, live: NDArray[np.bool_], net_count: int
) -> NDArray[np.int8]:
    """Return the state of each coil in each setting: shape (settings, coils).

    `live` (settings, branches) says which branches carry signal. A dead part hands on the
    potential that it hangs from, so a coil hung through another counts as hung.
    """
    signal, ground = reached_nets(ends, live, net_count)
    rows = np.arange(len(live))
    states = np.empty((len(live), len(harness.coils)), np.int8)
    coils = [i for i, branch in enumerate(harness.branches) if branch.coil]
    for column, index in enumerate(coils):
        a, b = ends.a[:, index], ends.b[:, index]
        state = np.full(len(live), CoilState.FREE, np.int8)
        state[ground[rows, a] | ground[rows, b]] = CoilState.HUNG_FROM_GROUND
        state[signal[rows, a] | signal[rows, b]] = CoilState.HUNG_FROM_SIGNAL
        state[a == b] = CoilState.SHORTED
        state[live[:, index]] = CoilState.LIVE
        states[:, column] = state
    return states


def reached_nets(
    ends: Terminals, live: NDArray[np.bool_], net_count: int
) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """Return which nets are at signal and at ground, through dead parts too."""
    settings, branches = live.shape
    rows = np.arange(settings)
    signal = np.zeros((settings, net_count), np.bool_)
    ground = np.zeros((settings, net_count), np.bool_)
    for index in range(branches):
        for side in (ends.a, ends.b):
            signal[rows[live[:, index]], side[live[:, index], index]] = True
    signal[rows, ends.hot] = True
    signal[rows, ends.ground] = False
    ground[rows, ends.ground] = True
    changed = True
    while changed:
        changed = False
        for index in range(branches):
            dead = rows[~live[:, index]]
            a, b = ends.a[dead, index], ends.b[dead, index]
            for reached in (signal, ground):
                either = reached[dead, a] | reached[dead, b]
                new = either & ~(reached[dead, a] & reached[dead, b])
                if new.any():
                    reached[dead[new], a[new]] = True
                    reached[dead[new], b[new]] = True
                    changed = True
    return signal, ground
