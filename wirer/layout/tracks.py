"""Where wires may run: the tracks past bodies, between them, and between a part's own lugs."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from itertools import pairwise

from wirer.layout.footprint import Footprint

SPACING_MM = 1.5
CLEARANCE_MM = 1.2
MARGIN_MM = 15.0
LONG_GAP_MM = 60.0
LEAST_PITCH_MM = 1.4
MERGED_MM = 0.35
LUG_CLEAR_MM = 1.55
"""The middle of a wire keeps so far from the middle of a foreign lug."""


def common_tracks(footprints: Iterable[Footprint], axis: int) -> list[float]:
    """Return the tracks of every wire: close by each body and evenly between (axis 0: xs)."""
    edges: list[float] = []
    for each in footprints:
        low, high = (
            (each.box.left, each.box.right) if axis == 0 else (each.box.top, each.box.bottom)
        )
        edges += [low - CLEARANCE_MM, high + CLEARANCE_MM]
        if each.lugs:
            places = [at[axis] for at in each.lugs.values()]
            edges += [min(low, *places) - 2 * CLEARANCE_MM, max(high, *places) + 2 * CLEARANCE_MM]
    if not edges:
        return []
    ordered = [min(edges) - MARGIN_MM, *merged(sorted(edges)), max(edges) + MARGIN_MM]
    return filled(ordered)


def own_tracks(own: Footprint, axis: int) -> list[float]:
    """Return the tracks through a part's lugs and evenly between them."""
    low, high = (own.box.left, own.box.right) if axis == 0 else (own.box.top, own.box.bottom)
    lugs = sorted({at[axis] for at in own.lugs.values()})
    tracks = filled([low - CLEARANCE_MM, lugs[0]])[:-1]
    for lug, following in pairwise(lugs):
        tracks += [lug, *_lanes(lug, following)]
    return tracks + filled([lugs[-1], high + CLEARANCE_MM])


def _lanes(low: float, high: float) -> list[float]:
    """Return as many tracks between two lugs as keep clear of both, evenly; at least one."""
    count = 1 + max(0, int((high - low - 2 * LUG_CLEAR_MM) / LEAST_PITCH_MM))
    return [low + (high - low) * i / (count + 1) for i in range(1, count + 1)]


def merged(ordered: Sequence[float]) -> list[float]:
    """Return rising places without those that nearly repeat the one before."""
    kept: list[float] = []
    for place in ordered:
        if not kept or place - kept[-1] > MERGED_MM:
            kept.append(place)
    return kept


def filled(ordered: Sequence[float]) -> list[float]:
    """Return rising places with tracks put evenly into the gaps (near the ends of long ones)."""
    tracks = list(ordered[:1])
    for low, high in pairwise(ordered):
        gap = high - low
        if gap > LONG_GAP_MM:
            count = int(LONG_GAP_MM / 2 / SPACING_MM)
            tracks += [low + SPACING_MM * i for i in range(1, count)]
            tracks += [high - SPACING_MM * i for i in range(count - 1, 0, -1)]
        elif gap > 0:
            count = max(1, int(gap / LEAST_PITCH_MM))
            tracks += [low + gap * i / count for i in range(1, count)]
        tracks.append(high)
    return sorted(tracks)


def within(tracks: list[float], low: float, high: float) -> list[float]:
    """Return the rising tracks that lie between two places."""
    return tracks[bisect_left(tracks, low) : bisect_right(tracks, high)]


def united(common: list[float], exact: Iterable[float]) -> list[float]:
    """Return common tracks with exact ones, which replace those that nearly repeat them."""
    fixed = sorted(set(exact))
    kept = list(fixed)
    for track in common:
        near = bisect_left(fixed, track - MERGED_MM)
        if near == len(fixed) or fixed[near] > track + MERGED_MM:
            kept.append(track)
    return sorted(kept)
