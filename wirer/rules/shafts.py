"""What the rules of controls share: the tracks of a shaft, its places, the exchange of its ends."""

from __future__ import annotations

from functools import partial

from wirer.circuit.edits import swap_lugs
from wirer.circuit.elements import Track, elements_of
from wirer.circuit.model import split_lug
from wirer.rules.finding import Fix
from wirer.rules.inspection import Inspection
from wirer.rules.tracing import once


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


def swap_ends(inspection: Inspection, shaft: str) -> Fix | None:
    """Return the exchange of the wires of the outer lugs, for a shaft with one track."""
    tracks = tracks_of(inspection, shaft)
    if len(tracks) != 1:
        return None
    edit = partial(swap_lugs, first=tracks[0].ccw, second=tracks[0].cw)
    return Fix("exchange the wires of its outer lugs", edit)
