"""The band in which a meter's reading must lie, by worst case over every part.

Lord Rayleigh's monotonicity law ("On the theory of resonance", Phil. Trans. R. Soc. 161, 1871;
P. G. Doyle, J. L. Snell, "Random Walks and Electric Networks", 1984, section 1.4): no resistance
of a network can be raised without raising, or leaving, that between its terminals. So the extremes
lie where all parts are at their least and all at their greatest: two readings, however many parts.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from wirer.papers.bench.meter_model import MeterModel, Ohms
from wirer.papers.bench.spread import Spread

LEADS_OHM = 20.0
"""Added to either side for the meter, its leads and the contacts (common practice)."""

SHORT_OHM = 5.0
OPEN_OHM = 2e6
"""What counts as a short and as open when a harness is searched for faults (common practice)."""


@dataclass(frozen=True, slots=True)
class Band:
    """What a meter should read: nominally, at least and at most; None where it reads open."""

    ohm: float | None
    least: float | None
    most: float | None

    @property
    def is_short(self) -> bool:
        """Tell whether tip and sleeve are joined."""
        return self.most is not None and self.most <= SHORT_OHM

    def holds(self, ohm: float | None) -> bool:
        """Tell whether a reading is in the band."""
        if ohm is None or self.least is None or self.most is None:
            return ohm is None and self.least is None
        return self.least <= ohm <= self.most

    def meets(self, other: Band) -> bool:
        """Tell whether some reading would be in both bands."""
        if self.least is None or self.most is None or other.least is None or other.most is None:
            return self.least is None and other.least is None
        return self.least <= other.most and other.least <= self.most


OPEN = Band(None, None, None)


def bands(model: MeterModel, nominal: Ohms, spreads: Iterable[Spread]) -> tuple[Band, ...]:
    """Return the band of each network of a model whose branches have these nominal ohms."""
    pairs = [(spread.least, spread.greatest) for spread in spreads]
    factors = np.array(pairs, np.float64).reshape(len(pairs), 2)
    corners = (model.reads(nominal * factors[:, side]) for side in (0, 1))
    return tuple(map(_band, model.reads(nominal), *corners))


def _band(ohm: float | None, low: float | None, high: float | None) -> Band:
    if ohm is None or low is None or high is None:
        return OPEN
    if ohm == 0.0:
        return Band(0.0, 0.0, SHORT_OHM)
    return Band(ohm, max(0.0, low - LEADS_OHM), high + LEADS_OHM)
