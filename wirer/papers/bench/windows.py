"""The window of a value: how far a part may differ before the design is another.

* A resistance that the meter at the jack sees may be anything, all other parts as said, with which
  every setting that has a coil in it still reads within its band on the test sheet, and that is
  customary for its kind.
* Of every other quantity the window is the range that is customary for its kind (none where the
  kind knows none): no meter at the jack tells of it, and the ear decides.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import compress

from wirer.circuit.kind import Parameter
from wirer.circuit.parameter import read_number
from wirer.papers.bench.bands import Band
from wirer.papers.bench.meter_model import MeterModel

WIDEST = 100.0
STEPS = 16


@dataclass(frozen=True, slots=True)
class Window:
    """From the least to the most in SI units; an edge is `metered` if the meter's band sets it."""

    least: float | None
    most: float | None
    least_metered: bool = False
    most_metered: bool = False


def customary_window(parameter: Parameter) -> Window | None:
    """Return the range that is customary for a parameter, None where the kind knows none."""
    if parameter.usual is None:
        return None
    least, most = (read_number(edge, parameter) for edge in parameter.usual)
    return Window(least, most)


def metered_window(
    model: MeterModel, bands: Sequence[Band], part: str, nominal: float, usual: Window | None
) -> Window | None:
    """Return the window of a part's resistance, None where no meter at the jack sees it.

    All its branches are scaled together: a dual pot has two equal tracks, a humbucker two coils.
    """
    own = [i for i, branch in enumerate(model.branches) if branch.part == part]
    coils = {i for i, branch in enumerate(model.branches) if branch.coil}
    judged = [n is not None and bool(coils & set(n.branches)) for n in model.networks]
    seen = any(
        n is not None and set(own) & set(n.branches) for n in compress(model.networks, judged)
    )
    if not seen or nominal <= 0:
        return None

    def fits(factor: float) -> bool:
        ohms = model.ohms.copy()
        ohms[own] *= factor
        read = compress(zip(bands, model.reads(ohms), strict=True), judged)
        return all(band.holds(ohm) for band, ohm in read)

    low, high = _farthest(fits, 1 / WIDEST), _farthest(fits, WIDEST)
    least = None if low is None else low * nominal
    most = None if high is None else high * nominal
    return _cut_to(Window(least, most, least_metered=True, most_metered=True), usual)


def _farthest(fits: Callable[[float], bool], bound: float) -> float | None:
    """Return the factor farthest from 1 towards the bound that fits; None if the bound does.

    Readings rise with every resistance (see `bands`), so what fits is one interval.
    """
    if fits(bound):
        return None
    near, far = 0.0, math.log(bound)
    for _ in range(STEPS):
        middle = (near + far) / 2
        near, far = (middle, far) if fits(math.exp(middle)) else (near, middle)
    return math.exp(near)


def _cut_to(window: Window, usual: Window | None) -> Window | None:
    if usual is None:
        return window if window.least is not None or window.most is not None else None
    least = max(edge for edge in (window.least, usual.least) if edge is not None)
    most = min(edge for edge in (window.most, usual.most) if edge is not None)
    if least >= most:  # the value is out of the customary range on purpose
        return window
    return Window(least, most, least == window.least, most == window.most)
