"""Settings summed up: which partial settings say when something holds."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice

import numpy as np

from wirer.analysis.facts import Mask
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.model import Circuit

MOST_TERMS = 64

Partial = FrozenMap[str, str]
_Merged = dict[str, tuple[str, ...]]


def summed_up(rows: Mask, positions: Mapping[str, tuple[str, ...]]) -> tuple[Partial, ...] | None:
    """Return partial settings that hold in exactly the given rows; None if they are all.

    `rows` has shape (settings,) in counting order. Actuators that make no difference are left
    out; the others are split where that leaves the fewest terms.
    """
    if rows.all():
        return None
    cube = rows.reshape([len(choices) for choices in positions.values()] or [1])
    terms = islice(_terms(cube, list(positions.items())), MOST_TERMS)
    return tuple(FrozenMap(term) for term in terms)


def _terms(cube: Mask, axes: list[tuple[str, tuple[str, ...]]]) -> Iterator[dict[str, str]]:
    if not cube.any():
        return
    if cube.all():
        yield {}
        return
    axis = _best_axis(cube)
    part, choices = axes[axis]
    rest = axes[:axis] + axes[axis + 1 :]
    slices = [np.take(cube, place, axis) for place in range(len(choices))]
    common = np.logical_and.reduce(slices)
    for place, choice in enumerate(choices):
        own = slices[place] if slices[place].all() else slices[place] & ~common
        for term in _terms(own, rest):
            yield {part: choice, **term}
    yield from _terms(common, rest)


def _best_axis(cube: Mask) -> int:
    """Return the axis along which the slices differ most in how often they hold."""
    axes = range(cube.ndim)

    def spread(axis: int) -> float:
        others = tuple(a for a in axes if a != axis)
        shares = cube.mean(axis=others)
        return float(shares.max() - shares.min())

    return max(axes, key=spread)


def _merged(settings: tuple[Partial, ...]) -> list[_Merged]:
    """Join terms that differ in the position of one actuator only."""
    terms: list[_Merged] = []
    for partial in settings:
        new: _Merged = {part: (position,) for part, position in partial.items()}
        for term in terms:
            differing = [part for part in new if term.get(part) != new[part]]
            if term.keys() == new.keys() and len(differing) == 1:
                term[differing[0]] += new[differing[0]]
                break
        else:
            terms.append(new)
    return terms


def in_words(circuit: Circuit, settings: tuple[Partial, ...] | None) -> str:
    """Return when something holds, for people: `whenever Neck phase is down`."""
    if settings is None:
        return "in every setting"
    parts = circuit.part_by_id

    def one(term: _Merged) -> str:
        return " and ".join(
            f"{parts[part].name} is {' or '.join(map(parts[part].position_name, choices))}"
            for part, choices in term.items()
        )

    terms = _merged(settings)
    shown = [one(term) for term in terms[:3]]
    more = len(terms) - len(shown)
    tail = f", or in {more} more case{'s' if more > 1 else ''}" if more else ""
    return "whenever " + ", or ".join(shown) + tail
