"""Silence that is meant: every coil switched off by an actuator of its own, or a button held."""

from __future__ import annotations

from functools import cache

import networkx as nx
import numpy as np

from wirer.analysis.facts import Mask
from wirer.rules.inspection import Inspection


def deliberate_silence(inspection: Inspection) -> Mask:
    """Return in which settings silence is no mistake, shape (settings,).

    It is meant where a momentary actuator is pressed, where silence is wanted, and where each
    pickup would sound if one actuator of its own were thrown.
    """
    rows = inspection.silent & (_pressed(inspection) | _wanted_silent(inspection))
    return rows | (inspection.silent & _all_switched_off(inspection))


def _pressed(inspection: Inspection) -> Mask:
    rows = np.zeros(len(inspection.table), np.bool_)
    for part_id, choices in inspection.table.positions.items():
        actuator = inspection.kind(part_id).actuator
        if actuator and actuator.momentary:
            rows |= rows_with(inspection, {part_id: choices[1:]})
    return rows


def _wanted_silent(inspection: Inspection) -> Mask:
    rows = np.zeros(len(inspection.table), np.bool_)
    for wanted in inspection.circuit.wanted:
        if wanted.sound.strip().lower() == "silent":
            rows |= rows_with(inspection, {p: (pos,) for p, pos in wanted.setting.items()})
    return rows


def rows_with(inspection: Inspection, allowed: dict[str, tuple[str, ...]]) -> Mask:
    """Return the settings in which each named actuator is in one of the allowed positions."""
    positions = inspection.table.positions
    cube = np.ones([len(choices) for choices in positions.values()] or [1], np.bool_)
    for axis, (part_id, choices) in enumerate(positions.items()):
        if part_id in allowed:
            fits = np.array([choice in allowed[part_id] for choice in choices])
            shape = [1] * cube.ndim
            shape[axis] = len(choices)
            cube &= fits.reshape(shape)
    return cube.reshape(-1)


def _all_switched_off(inspection: Inspection) -> Mask:
    pickups = _pickups(inspection)
    heard = pickups.any(axis=0)
    woken = _woken(inspection, pickups)[:, :, heard]
    rows = np.zeros(len(inspection.table), np.bool_)
    if not heard.any():
        return rows
    matched = cache(_each_has_its_own)
    for row in np.flatnonzero(inspection.silent):
        pattern = woken[:, row, :]
        rows[row] = matched(pattern.tobytes(), pattern.shape)
    return rows


def _pickups(inspection: Inspection) -> Mask:
    """Return which pickups sound: shape (settings, pickups), a pickup's coils taken together."""
    parts = [coil.part for coil in inspection.harness.coils]
    columns = [
        inspection.sounding[:, [i for i, p in enumerate(parts) if p == part]].any(axis=1)
        for part in dict.fromkeys(parts)
    ]
    return np.array(columns, np.bool_).T.reshape(len(inspection.table), -1)


def _woken(inspection: Inspection, pickups: Mask) -> Mask:
    """Return which pickups each single actuator can wake: (actuators, settings, pickups)."""
    sizes = [len(choices) for choices in inspection.table.positions.values()]
    cube = pickups.reshape([*sizes, pickups.shape[1]])
    woken = [
        np.broadcast_to(cube.any(axis=axis, keepdims=True), cube.shape).reshape(pickups.shape)
        for axis in range(len(sizes))
    ]
    return np.array(woken, np.bool_).reshape(len(sizes), *pickups.shape)


def _each_has_its_own(pattern: bytes, shape: tuple[int, int]) -> bool:
    actuators, pickups = shape
    woken = np.frombuffer(pattern, np.bool_).reshape(shape)
    graph = nx.Graph()
    graph.add_nodes_from((("pickup", p) for p in range(pickups)), bipartite=0)
    edges = np.argwhere(woken).tolist()
    graph.add_edges_from((("pickup", p), ("actuator", a)) for a, p in edges)
    tops = [("pickup", p) for p in range(pickups)]
    matching = nx.bipartite.maximum_matching(graph, top_nodes=tops)
    return actuators > 0 and all(top in matching for top in tops)
