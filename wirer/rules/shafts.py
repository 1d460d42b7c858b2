"""What the rules of controls share: the tracks of a shaft, its places, the exchange of its ends."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

import numpy as np

from wirer.circuit.edits import swap_lugs
from wirer.circuit.elements import Track, elements_of
from wirer.circuit.model import split_lug
from wirer.rules.finding import Fix
from wirer.rules.inspection import Inspection
from wirer.rules.tracing import once

NO_CHANGE_DB = 0.02


def tracks_of(inspection: Inspection, shaft: str) -> list[Track]:
    """Return the tracks that a shaft (`PART.shaft`) turns."""
    part_id, name = split_lug(shaft)
    elements = elements_of(inspection.circuit, inspection.part(part_id))
    return [e for e in elements if isinstance(e, Track) and e.shaft == name]


def shaft_places(inspection: Inspection, shaft: str) -> tuple[str, ...]:
    """Return a shaft's part, the lugs of its tracks, the wires there and where they lead."""
    lugs = [lug for track in tracks_of(inspection, shaft) for lug in track.ends]
    led = (inspection.tracing.far_ends(lug) for lug in lugs)
    return once((split_lug(shaft)[0],), lugs, *led)


def idle_shafts(inspection: Inspection) -> Iterator[str]:
    """Yield the shafts that change no level in any setting."""
    turning = inspection.turning
    for shaft in turning.shafts if len(turning.rows) else ():
        ends = (turning.turned(shaft, rotation) for rotation in (0.0, 0.5, 1.0))
        if all(np.abs(level - turning.full).max() < NO_CHANGE_DB for level in ends):
            yield shaft


def loose_lugs(inspection: Inspection, shaft: str) -> tuple[str, ...]:
    """Return the lugs without a wire that leave a shaft idle: its own, or of a part next to it."""
    lugs = [lug for track in tracks_of(inspection, shaft) for lug in track.ends]
    nets = {inspection.net(lug) for lug in lugs if inspection.wires_at[lug]}
    near = {split_lug(lug)[0] for lug in inspection.wires_at if inspection.net(lug) in nets}
    return tuple(lug for lug in inspection.unwired_lugs if split_lug(lug)[0] in near)


def has_detent(inspection: Inspection, shaft: str) -> bool:
    """Return whether a shaft clicks in its middle: a blend, which turns both ways."""
    part, name = split_lug(shaft)
    return any(s.name == name and s.detent is not None for s in inspection.kind(part).shafts)


def swap_ends(inspection: Inspection, shaft: str) -> Fix | None:
    """Return the exchange of the wires of the outer lugs, for a shaft with one track."""
    tracks = tracks_of(inspection, shaft)
    if len(tracks) != 1:
        return None
    edit = partial(swap_lugs, first=tracks[0].ccw, second=tracks[0].cw)
    return Fix("exchange the wires of its outer lugs", edit)
