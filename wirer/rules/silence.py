"""Silence that is meant: every coil switched off by an actuator of its own, or a button held."""

from __future__ import annotations

import re
from functools import cache

import networkx as nx
import numpy as np

from wirer.analysis.facts import Mask
from wirer.analysis.switches import position_groups
from wirer.rules.inspection import Inspection

SILENT = ("silent", "silence")
MUTE = frozenset({"kill", "mute", "muted", "silent", "silence", "standby"})
"""Words by which a builder calls a position that is meant to be silent."""


def deliberate_silence(inspection: Inspection) -> Mask:
    """Return in which settings silence is no mistake, shape (settings,).

    It is meant where a momentary actuator is pressed, where silence is wanted, where a position is
    called off or mute or joins hot straight to ground, and where each pickup would sound if one
    actuator of its own were thrown out of its off position.
    """
    called = _pressed(inspection) | _wanted_silent(inspection) | _killed(inspection)
    return inspection.silent & (called | _all_switched_off(inspection))


def _pressed(inspection: Inspection) -> Mask:
    rows = np.zeros(len(inspection.table), np.bool_)
    for part_id, choices in inspection.table.positions.items():
        actuator = inspection.kind(part_id).actuator
        if actuator and actuator.momentary:
            rows |= rows_with(inspection, {part_id: choices[1:]})
    return rows


def _killed(inspection: Inspection) -> Mask:
    """Return the settings with an actuator at mute by its name or by joining tip and sleeve."""
    rows = np.zeros(len(inspection.table), np.bool_)
    for part_id, choices in inspection.table.positions.items():
        part = inspection.part(part_id)
        mute = [p for p in choices if MUTE & _words(part.position_labels.get(p, ""))]
        groups = position_groups(inspection.circuit, part)
        if len(choices) == 2 and _poles_used(inspection, part_id) == 1:
            mute += [p for p in choices if any(_shorts(inspection, group) for group in groups[p])]
        if mute:
            rows |= rows_with(inspection, {part_id: tuple(mute)})
    return rows


def _words(text: str) -> frozenset[str]:
    return frozenset(re.findall(r"[a-z]+", text.lower()))


def _poles_used(inspection: Inspection, part_id: str) -> int:
    """Return how many poles have wires: a switch that does something else is no kill switch."""
    return sum(any(map(inspection.wires_at.get, pole)) for pole in inspection.poles(part_id))


def _shorts(inspection: Inspection, group: frozenset[str]) -> bool:
    nets = {inspection.net(lug) for lug in group}
    harness = inspection.harness
    return harness.hot != harness.ground and {harness.hot, harness.ground} <= nets


def _wanted_silent(inspection: Inspection) -> Mask:
    rows = np.zeros(len(inspection.table), np.bool_)
    for wanted in inspection.circuit.wanted:
        if wanted.sound.strip().lower() in SILENT:
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
    """Return which pickups each actuator wakes from its off position.

    Shape (actuators, settings, pickups).
    """
    sizes = [len(choices) for choices in inspection.table.positions.values()]
    cube = pickups.reshape([*sizes, pickups.shape[1]])
    woken = []
    for axis, (part_id, choices) in enumerate(inspection.table.positions.items()):
        awake = np.broadcast_to(cube.any(axis=axis, keepdims=True), cube.shape)
        off = rows_with(inspection, {part_id: _off_positions(inspection, part_id, choices)})
        woken.append(awake.reshape(pickups.shape) & off[:, np.newaxis])
    return np.array(woken, np.bool_).reshape(len(sizes), *pickups.shape)


def _off_positions(
    inspection: Inspection, part_id: str, choices: tuple[str, ...]
) -> tuple[str, ...]:
    """Return the positions that can be meant as off: either of two, or one that joins nothing."""
    part = inspection.part(part_id)
    if len(choices) == 2:
        return choices
    groups = position_groups(inspection.circuit, part)
    named = (p for p in choices if "off" in _words(part.position_labels.get(p, "")))
    return tuple(dict.fromkeys((*named, *(p for p in choices if not groups[p]))))


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
