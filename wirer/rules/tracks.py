"""Rules of tracks and capacitors that are wired in an odd way, whatever the turn of the knob."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from wirer.analysis.facts import Mask, facts_of, resting_states
from wirer.analysis.harness import Branch, harness_of
from wirer.analysis.unused import CoilState
from wirer.circuit.elements import Track
from wirer.circuit.quantity import format_quantity
from wirer.rules.finding import Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import part_name, shaft_name
from wirer.rules.registry import rule
from wirer.rules.shafts import has_detent, shaft_places, tracks_of
from wirer.rules.tracing import once

MUTED_DB = 40.0
UNEVEN_DB = 6.0
AUDIBLE_FARAD = 200e-12
"""A smaller capacitor across the output does less than half a metre of cable."""


@rule(
    "tone-without-capacitor",
    "warning",
    wrong="A control of which two lugs are wired lies straight from the signal to ground.",
    heard="It works as a second volume, dead at 0, and loads the pickups.",
    meter="The reading at the jack falls to 0 Ω as it is turned down; a tone must not change it.",
    mend="Solder the capacitor in series with it.",
)
def tone_without_capacitor(inspection: Inspection) -> Iterator[Remark]:
    """Find rheostats that short the signal when turned down."""
    turning = inspection.turning
    for shaft in turning.shafts if len(turning.rows) else ():
        tracks = tracks_of(inspection, shaft)
        two_lugs = all(not _both_ends_used(inspection, track) for track in tracks)
        if tracks and two_lugs and not any(track.cut for track in tracks):
            drop = (turning.full - turning.down(shaft)).min(axis=1)
            if drop.max() > MUTED_DB:
                name = shaft_name(inspection.circuit, shaft)
                text = f"{name} has no capacitor in series: at 0 it shorts the signal."
                yield Remark(text, shaft_places(inspection, shaft))


def _both_ends_used(inspection: Inspection, track: Track) -> bool:
    """Return whether both ends of a track lead elsewhere than to its own wiper."""
    net_of = inspection.part_turned.harness.net_of
    wiper = net_of[track.wiper]
    ends = (track.ccw, track.cw)
    return all(inspection.wires_at[end] and net_of[end] != wiper for end in ends)


@rule(
    "volume-across",
    "warning",
    wrong="A volume lies across the output: source and output are both at its wiper.",
    heard="Hardly any change until just above 0, then it shuts off like a switch.",
    meter="At half turn the reading is nearly what it is at 10.",
    mend="Part them: the source belongs on the 10 end and the output on the wiper, or the reverse.",
)
def volume_across(inspection: Inspection) -> Iterator[Remark]:
    """Find volumes with nothing between a coil and the tip when they are turned down."""
    turning, hot = inspection.turning, inspection.harness.hot
    for shaft in turning.shafts if len(turning.rows) and hot is not None else ():
        tracks = tracks_of(inspection, shaft)
        if any(not _both_ends_used(inspection, t) or not _at_a_coil(inspection, t) for t in tracks):
            continue
        drop = (turning.full - turning.down(shaft)).min(axis=1)
        if drop.max() > MUTED_DB:
            text = f"{shaft_name(inspection.circuit, shaft)} lies across the output."
            yield Remark(text, shaft_places(inspection, shaft))


def _at_a_coil(inspection: Inspection, track: Track) -> bool:
    """Return whether a wiper is, in some setting, joined to the tip and to a coil that sounds."""
    facts = inspection.part_turned
    harness = facts.harness
    wiper = harness.net_of[track.wiper]
    rows = facts.same_net(wiper, harness.hot or 0) & ~facts.grounded(wiper)
    for index, branch in enumerate(harness.branches):
        meets = facts.same_net(branch.a, wiper) | facts.same_net(branch.b, wiper)
        if branch.coil and (rows & meets & facts.live[:, index]).any():
            return True
    return False


@rule(
    "capacitor-across",
    "warning",
    wrong="A capacitor lies straight across the signal in every setting, past any control.",
    heard="Dark whatever the tone control does.",
    meter="A capacitance meter at the jack shows its value with the tone at 10.",
    mend="Put the control in series with it; a treble bleed belongs between the volume's wiper "
    "and its 10 end.",
)
def capacitor_across(inspection: Inspection) -> Iterator[Remark]:
    """Find capacitors from the signal to ground with nothing in series."""
    facts = inspection.part_turned
    sounding = (facts.coils == CoilState.LIVE).any(axis=1)
    for index, branch in enumerate(facts.harness.branches):
        if branch.conducts or branch.coil or not facts.live[:, index].any():
            continue
        if sounding.any() and (_across(inspection, branch) | ~sounding).all():
            name = part_name(inspection.circuit, branch.part)
            value = format_quantity(branch.farad, "capacitance")
            text = f"{name}, {value}, lies straight across the signal, past any control."
            lugs = [f"{branch.part}.{lug.name}" for lug in inspection.kind(branch.part).lugs]
            places = once((branch.part,), lugs, *map(inspection.tracing.far_ends, lugs))
            yield Remark(text, places, None, None if branch.farad >= AUDIBLE_FARAD else "note")


def _across(inspection: Inspection, branch: Branch) -> Mask:
    """Return where a branch runs from ground to the tip or to the end of a coil that sounds."""
    facts = inspection.part_turned
    harness = facts.harness
    touching = facts.same_net(branch.a, harness.hot or 0) | facts.same_net(
        branch.b, harness.hot or 0
    )
    for index, other in enumerate(harness.branches):
        if other.coil:
            for end in (other.a, other.b):
                meets = facts.same_net(branch.a, end) | facts.same_net(branch.b, end)
                touching |= meets & facts.live[:, index] & ~facts.grounded(end)
    grounded = facts.grounded(branch.a) ^ facts.grounded(branch.b)
    return np.asarray(touching & grounded, np.bool_)


@rule(
    "blend-incomplete",
    "warning",
    wrong="At an end of its turn a blend does not leave one pickup sounding alone.",
    heard="Both pickups stay on at one end, or the sound dies at both.",
    meter="At each end the reading should be one pickup's, in the middle both in parallel.",
    mend="Each pickup belongs on the wiper of its track; one end of each track is the output, the "
    "other goes to ground.",
)
def blend_incomplete(inspection: Inspection) -> Iterator[Remark]:
    """Find blends that do not single out a pickup at each end."""
    middle = inspection.coil_states == CoilState.LIVE
    for part in inspection.circuit.parts:
        for shaft in inspection.kind(part.id).shafts:
            name = f"{part.id}.{shaft.name}"
            tracks = tracks_of(inspection, name)
            ends = [track.ends for track in tracks]
            blends = len(tracks) == 2 and _blends(inspection, ends)
            if shaft.detent is None or not blends:
                continue
            told = _at_the_ends(inspection, name, middle)
            if told:
                text = f"{part_name(inspection.circuit, part.id)} {told}."
                yield Remark(text, shaft_places(inspection, name))


def _blends(inspection: Inspection, ends: list[tuple[str, ...]]) -> bool:
    """Return whether all lugs are used: with a lug spare on each track it only weakens pickups."""
    return any(all(inspection.wires_at[lug] for lug in track) for track in ends)


def _at_the_ends(inspection: Inspection, shaft: str, middle: Mask) -> str:
    """Return what is wrong at the ends of a blend's turn, in words."""
    several = middle.sum(axis=1) > 1
    if not several.any():
        return ""
    left = [_live_at(inspection, shaft, rotation)[several] for rotation in (0.0, 1.0)]
    if not left[0].any() and not left[1].any():
        return "silences everything at both ends of its turn"
    for live, end in zip(left, ("counter-clockwise", "clockwise"), strict=True):
        if np.array_equal(live, middle[several]):
            return f"takes no pickup out when turned fully {end}"
    return ""


def _live_at(inspection: Inspection, shaft: str, rotation: float) -> Mask:
    """Return which coils carry signal with one shaft turned: shape (settings, coils)."""
    harness = harness_of(inspection.circuit, inspection.rotations.having(shaft, rotation))
    facts = facts_of(harness, resting_states(harness))
    return np.asarray(facts.coils == CoilState.LIVE, np.bool_)


@rule(
    "open-end-in-the-way",
    "warning",
    wrong="The signal is led through the open end of a track that is cut there.",
    heard="It sounds at 10 only and is silent below.",
    meter="From lug 1 to lug 3 reads open: the track does not reach lug 3.",
    mend="Take a pot whose track is whole; this one is made for a tone control.",
)
def open_end_in_the_way(inspection: Inspection) -> Iterator[Remark]:
    """Find cut tracks that silence everything as soon as they leave their stop."""
    turning = inspection.turning
    for shaft in turning.shafts if len(turning.rows) else ():
        if any(track.cut for track in tracks_of(inspection, shaft)):
            drop = (turning.full - turning.turned(shaft, 0.5)).min(axis=1)
            if drop.max() > MUTED_DB:
                name = shaft_name(inspection.circuit, shaft)
                text = f"{name} is cut at its 10 end and silences the signal below 10."
                yield Remark(text, shaft_places(inspection, shaft))


@rule(
    "control-uneven",
    "warning",
    wrong="Turning a control brightens the sound up to its middle and darkens it beyond.",
    heard="Bright in the middle and dark at both ends.",
    meter="From the wiper to ground the resistance rises and falls again over the turn.",
    mend="Leave the spare outer lug of a tone control unwired.",
)
def control_uneven(inspection: Inspection) -> Iterator[Remark]:
    """Find shafts without a detent that turn treble up and down again."""
    turning = inspection.turning
    for shaft in turning.shafts if len(turning.rows) else ():
        if has_detent(inspection, shaft):
            continue
        low, middle, high = (turning.turned(shaft, x)[:, -1] for x in (0.0, 0.5, 1.0))
        hill = middle - np.maximum(low, high)
        moved = np.abs(middle - low) + np.abs(middle - high) > UNEVEN_DB
        if moved.any() and (hill[moved] > UNEVEN_DB).all():
            text = f"{shaft_name(inspection.circuit, shaft)} turns the treble up and down again."
            yield Remark(text, shaft_places(inspection, shaft))
