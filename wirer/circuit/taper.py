"""The law of a pot's track: resistance below and above the wiper over rotation."""

from __future__ import annotations

import math

from wirer.circuit.elements import Track
from wirer.circuit.kind import Table
from wirer.circuit.tables import table_value


def taper_share(taper: str | Table, share: float, rotation: float) -> float:
    """Return the share of R between the counter-clockwise end and the wiper.

    `audio` is the exponential law through `share` at half rotation:
    f(x) = (bˣ − 1)/(b − 1) with b = (1/share − 1)²; `reverse-audio` is 1 − audio(1 − x).
    """
    if isinstance(taper, tuple):
        return table_value(taper, rotation)
    if taper == "audio":
        return _audio(share, rotation)
    if taper == "reverse-audio":
        return 1.0 - _audio(share, 1.0 - rotation)
    return rotation


def _audio(share: float, rotation: float) -> float:
    base = (1.0 / share - 1.0) ** 2
    return float((base**rotation - 1.0) / (base - 1.0))


def track_segments(track: Track, rotation: float) -> tuple[float, float]:
    """Return the ohms below and above the wiper; 0 is a joint, infinity no connection.

    The end resistance is part of R: below = e + (R − 2e)·f(x). A cut track leaves its wiper at
    rotation 1, where the clockwise lug is joined to it and nothing else.
    """
    if track.cut:
        if rotation >= 1.0:
            return math.inf, 0.0
        return track.ohm * taper_share(track.taper, track.share, rotation), math.inf
    share = taper_share(track.taper, track.share, rotation)
    end = min(track.end_ohm, track.ohm / 2)
    free = track.ohm - 2 * end
    return end + free * share, end + free * (1.0 - share)
