"""Rules of controls: what turning a shaft does, and whether it does it the right way."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from wirer.circuit.elements import Track
from wirer.rules.finding import Fix, Remark
from wirer.rules.grounding import ground_fix
from wirer.rules.inspection import Inspection
from wirer.rules.names import lug_name, shaft_name
from wirer.rules.registry import rule
from wirer.rules.shafts import (
    has_detent,
    idle_shafts,
    loose_lugs,
    shaft_places,
    swap_ends,
    tracks_of,
)
from wirer.rules.tracing import once
from wirer.rules.troubles import Trouble
from wirer.rules.turning import Turning

VOLUME_DROP_DB = 12.0
MUTED_DB = 40.0


@rule(
    "control-idle",
    "warning",
    wrong="Turning a shaft changes nothing in any setting.",
    heard="No difference from one end of the turn to the other.",
    meter="The reading at the jack and the levels stay the same.",
    mend="Look for a lug left off, or a wire that bridges the track or the capacitor.",
)
def control_idle(inspection: Inspection) -> Iterator[Remark]:
    """Find shafts that change no level."""
    for shaft in idle_shafts(inspection):
        name = shaft_name(inspection.circuit, shaft)
        loose = loose_lugs(inspection, shaft)
        clauses = tuple(f"{lug_name(inspection.circuit, lug)} has no wire" for lug in loose)
        trouble = Trouble(clauses, once(loose, shaft_places(inspection, shaft)))
        yield Remark(trouble.told(f"Turning {name} changes nothing"), trouble.places)


@rule(
    "volume-backwards",
    "warning",
    wrong="A volume gets louder counter-clockwise.",
    heard="It works the wrong way round; with an audio taper all the change is at one end.",
    meter="From the 0 end to the wiper reads the whole track where it should read 0 Ω.",
    mend="Exchange the wires of its outer lugs; for a left-handed player take a reverse audio "
    "taper as well.",
)
def volume_backwards(inspection: Inspection) -> Iterator[Remark]:
    """Find volumes that turn the wrong way."""
    turning = inspection.turning
    for shaft in turning.shafts:
        if has_detent(inspection, shaft):
            continue
        backward = shaft in inspection.backward_shafts
        if not backward and len(turning.rows):
            change = turning.turned(shaft, 0.0)[:, 0] - turning.turned(shaft, 1.0)[:, 0]
            backward = bool(change.max() > VOLUME_DROP_DB and change.min() > -VOLUME_DROP_DB)
        if backward:
            text = f"{shaft_name(inspection.circuit, shaft)} gets louder counter-clockwise."
            fix = swap_ends(inspection, shaft)
            yield Remark(text, shaft_places(inspection, shaft), fix=fix)


@rule(
    "volume-incomplete",
    "warning",
    wrong="A volume never turns the sound quite off: it does not reach −40 dB at 0.",
    heard="Turned down the guitar stays audible, and gets dull.",
    meter="At 0 the reading is the track and the pickup in series and not 0 Ω.",
    mend="Wire the lug of its 0 end to ground.",
)
def volume_incomplete(inspection: Inspection) -> Iterator[Remark]:
    """Find volumes that do not mute, and tracks in the signal's way that lead nowhere."""
    turning = inspection.turning
    if not len(turning.rows):
        return
    for shaft in turning.shafts:
        drop = (turning.full - turning.down(shaft)).min(axis=1)
        halting = VOLUME_DROP_DB < drop.max() < MUTED_DB
        if halting or _series_only(inspection, shaft):
            text = f"{shaft_name(inspection.circuit, shaft)} does not turn the sound off at 0."
            fix = _grounded_at_zero(inspection, shaft)
            yield Remark(text, shaft_places(inspection, shaft), fix=fix)


def _grounded_at_zero(inspection: Inspection, shaft: str) -> Fix | None:
    """Ground the 0 end of a single track that has no wire there."""
    tracks = tracks_of(inspection, shaft)
    if len(tracks) != 1 or inspection.wires_at[tracks[0].ccw]:
        return None
    return ground_fix(inspection, tracks[0].ccw)


def _series_only(inspection: Inspection, shaft: str) -> bool:
    """Return whether every track of a shaft lies in the signal's way, its 0 end unwired."""
    tracks = tracks_of(inspection, shaft)
    harness = inspection.part_turned.harness
    return bool(tracks) and all(
        _leads_nowhere(inspection, track)
        and inspection.wires_at[track.wiper]
        and inspection.wires_at[track.cw]
        and _needed(inspection, harness.net_of[track.wiper], harness.net_of[track.cw])
        for track in tracks
    )


def _leads_nowhere(inspection: Inspection, track: Track) -> bool:
    """Return whether the 0 end of a track has no wire, or is joined to one of its other lugs."""
    net_of = inspection.part_turned.harness.net_of
    own = net_of[track.ccw] in (net_of[track.wiper], net_of[track.cw])
    return own or not inspection.wires_at[track.ccw]


def _needed(inspection: Inspection, wiper: int, end: int) -> bool:
    """Return whether no sound gets past a segment: taken out, every setting it carries dies."""
    facts = inspection.part_turned
    index = next(
        (
            i
            for i, branch in enumerate(facts.harness.branches)
            if {branch.a, branch.b} == {wiper, end} and branch.coil is None
        ),
        None,
    )
    if index is None:
        return False
    bridged = [
        i
        for i, branch in enumerate(facts.harness.branches)
        if i != index and {branch.a, branch.b} == {wiper, end}
    ]
    carries = facts.live[:, index]
    shunts = facts.grounded(wiper) | facts.grounded(end)
    return bool((carries & ~shunts).any()) and not bridged


@rule(
    "volumes-entangled",
    "note",
    wrong="A pickup's own volume at 0 mutes the other pickup too.",
    heard="With both pickups on, turning one down kills everything.",
    meter="With both on and one volume at 0 the reading is 0 Ω.",
    mend="Customary, and a matter of taste; to make the volumes independent wire each pickup to "
    "the wiper, which costs some treble.",
)
def volumes_entangled(inspection: Inspection) -> Iterator[Remark]:
    """Find own volumes that mute what is not theirs."""
    turning = inspection.turning
    if not len(turning.rows):
        return
    for shaft in turning.shafts:
        drop = (turning.full - turning.down(shaft)).max(axis=1)
        mutes, spares = drop > MUTED_DB, drop < 1.0
        if spares.any() and (mutes & _with_others(inspection, turning, spares)).any():
            text = f"{shaft_name(inspection.circuit, shaft)} at 0 mutes the other pickup too."
            yield Remark(text, shaft_places(inspection, shaft))


def _with_others(inspection: Inspection, turning: Turning, spared: np.ndarray) -> np.ndarray:
    """Return in which rows a coil sounds that also sounds in a row that the shaft leaves alone."""
    sounding = inspection.sounding[turning.rows]
    return np.asarray((sounding & sounding[spared].any(axis=0)).any(axis=1), np.bool_)


@rule(
    "taper-unsuited",
    "note",
    wrong="Nine tenths of a volume's travel from −3 to −30 dB lie within a fifth of its turn.",
    heard="It works like a switch: most of the turn does nothing.",
    meter="At half turn the reading from the 0 end to the wiper is far from a tenth to a fifth.",
    mend="Take an audio taper; for a volume that turns the other way a reverse audio one.",
)
def taper_unsuited(inspection: Inspection) -> Iterator[Remark]:
    """Find volumes whose travel is crowded into a small part of the turn."""
    turning = inspection.turning
    if not len(turning.rows):
        return
    for shaft in turning.shafts:
        drop = (turning.full - turning.down(shaft))[:, 0]
        if drop.max() > MUTED_DB and _crowded(turning, shaft, int(drop.argmax())):
            name = shaft_name(inspection.circuit, shaft)
            text = f"{name} does nearly all within a fifth of its turn."
            yield Remark(text, shaft_places(inspection, shaft))


def _crowded(turning: Turning, shaft: str, row: int) -> bool:
    rotations = np.linspace(0, 1, 21)
    levels = turning.travel(shaft, row, rotations)
    travel = np.clip(levels - turning.full[row, 0], -30.0, -3.0)
    within = np.abs(travel[4:] - travel[:-4])
    return bool(within.max() >= 0.9 * 27.0)


@rule(
    "tone-backwards",
    "warning",
    wrong="A tone control gets brighter counter-clockwise.",
    heard="Dark at 10, bright at 0.",
    meter="The resistance of its track in use falls clockwise.",
    mend="Use the wiper and the 0 end: move the wire from the lug of the 10 end to it.",
)
def tone_backwards(inspection: Inspection) -> Iterator[Remark]:
    """Find tone controls that turn the wrong way."""
    turning = inspection.turning
    if not len(turning.rows):
        return
    for shaft in turning.shafts:
        change = turning.turned(shaft, 0.0) - turning.turned(shaft, 1.0)
        brighter = change[:, 2].max() > 3.0 and change[:, 2].min() > -3.0
        if brighter and np.abs(change[:, 0]).max() < 3.0:
            text = f"{shaft_name(inspection.circuit, shaft)} gets brighter counter-clockwise."
            fix = swap_ends(inspection, shaft)
            yield Remark(text, shaft_places(inspection, shaft), fix=fix)
