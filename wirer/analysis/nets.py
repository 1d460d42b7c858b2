"""Nets setting by setting: fixed nets joined by the closed contacts, for many settings at once."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from wirer.analysis.harness import Harness
from wirer.analysis.switches import Joints

Labels = NDArray[np.int32]
"""Shape (settings, nets): the lowest fixed net that each fixed net is joined to."""


def net_labels(harness: Harness, states: Sequence[Sequence[int]]) -> Labels:
    """Return the nets of every combination of switch states, the first switch slowest.

    `states` gives for each switch the states to take. Each switch is thrown on what the switches
    before it have joined, so the cost is that of the last one.
    """
    labels = np.arange(harness.net_count, dtype=np.int32)[np.newaxis, :]
    for switch, chosen in zip(harness.switches, states, strict=True):
        thrown = [_joined(labels, switch.joints[state]) for state in chosen]
        labels = np.stack(thrown, axis=1).reshape(-1, harness.net_count)
    return labels


def _joined(labels: Labels, joints: Joints) -> Labels:
    for a, b in joints:
        first, second = labels[:, a], labels[:, b]
        low = np.minimum(first, second)[:, np.newaxis]
        high = np.maximum(first, second)[:, np.newaxis]
        labels = np.where(labels == high, low, labels)
    return labels


def chosen_labels(harness: Harness, states: NDArray[np.int32]) -> Labels:
    """Return the nets of chosen settings; `states` (settings, switches) has each switch's state."""
    labels = np.tile(np.arange(harness.net_count, dtype=np.int32), (len(states), 1))
    for column, switch in enumerate(harness.switches):
        for state in np.unique(states[:, column]):
            rows = states[:, column] == state
            labels[rows] = _joined(labels[rows], switch.joints[state])
    return labels
