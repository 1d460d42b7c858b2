"""Which way the signal flows, and so to which side each slot leads.

Every net and symbol gets a potential between the coils (0) and the jack (1), as in a network of
equal resistors; a net is met on the left by what lies beyond it. What leads nowhere has one
potential throughout and is ordered by its distance from the coils.
"""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from wirer.papers.schematic.layered.graph import RIGHT
from wirer.papers.schematic.symbols.symbol import Ahead, Symbol

ROUNDS = 400
STILL = 1e-7
STEP = 1e-4
"""What a step away from the coils adds to a potential."""

EVEN = 20 * STEP
"""Potentials that differ by less differ by distance alone."""

Ends = Sequence[Sequence[tuple[int, int]]]
"""Each symbol's (net, side) pairs."""


@dataclass(frozen=True)
class Flow:
    """The potential of each symbol, and the sides of each symbol's slots."""

    potential: tuple[float, ...]
    sides: tuple[tuple[int, ...], ...]


def before(potential: Sequence[float], ends: Ends) -> set[tuple[int, int]]:
    """Return the pairs of symbols that the signal passes one after the other."""
    right: dict[int, list[int]] = defaultdict(list)
    left: dict[int, list[int]] = defaultdict(list)
    for number, own in enumerate(ends):
        for net, side in own:
            (right if side == RIGHT else left)[net].append(number)
    return {
        (early, late)
        for net, earlier in right.items()
        for early in earlier
        for late in left[net]
        if (potential[early], early) < (potential[late], late)
    }


def flow_of(symbols: Sequence[Symbol], nets: set[int]) -> Flow:
    """Return the flow through symbols that are joined by `nets`."""
    own = [[net for net in dict.fromkeys(symbol.nets) if net in nets] for symbol in symbols]
    members: dict[int, list[int]] = defaultdict(list)
    for number, joined in enumerate(own):
        for net in joined:
            members[net].append(number)
    sources = [n for n, symbol in enumerate(symbols) if symbol.source]
    sinks = [n for n, symbol in enumerate(symbols) if symbol.sink]
    far = _distances(own, members, sources or sinks)
    flows = sources and sinks
    potential = _harmonic(own, members, sources, sinks) if flows else [0.0] * len(own)
    sign = STEP if sources or not sinks else -STEP
    potential = [value + sign * steps for value, steps in zip(potential, far, strict=True)]
    level = {
        net: sum(potential[n] - sign * far[n] for n in found) / len(found)
        + sign * (min(far[n] for n in found) + 0.5)
        for net, found in members.items()
    }
    ahead = [_ahead(level, here) for here in potential]
    sides = [symbol.sides(own) for symbol, own in zip(symbols, ahead, strict=True)]
    _agree(symbols, ahead, sides)
    return Flow(tuple(potential), tuple(sides))


def _ahead(level: Mapping[int, float], here: float) -> Ahead:
    """Return what says how far nets are ahead of a symbol of a potential."""
    return lambda net: level[net] - here if net in level else None


def _agree(symbols: Sequence[Symbol], ahead: Sequence[Ahead], sides: list[tuple[int, ...]]) -> None:
    """Let those of one kin face alike."""
    wishes: dict[str, dict[int, float]] = defaultdict(dict)
    for number, symbol in enumerate(symbols):
        bias = symbol.bias(ahead[number]) if symbol.kin else None
        # What leads nowhere else is ordered by its distance alone, and that holds.
        if bias is not None and abs(bias) > EVEN:
            wishes[symbol.kin][number] = bias
    for members in wishes.values():
        total = sum(members.values())
        for number, bias in members.items():
            if (bias >= 0) != (total >= 0):
                sides[number] = tuple(-side for side in sides[number])


def _harmonic(
    own: list[list[int]], members: dict[int, list[int]], sources: list[int], sinks: list[int]
) -> list[float]:
    """Return the potentials of symbols by repeated averaging (Gauss and Seidel)."""
    potential = [float(steps) for steps in _distances(own, members, sources)]
    longest = max(potential) or 1.0
    potential = [p / longest for p in potential]
    for number in sources:
        potential[number] = 0.0
    for number in sinks:
        potential[number] = 1.0
    fixed = {*sources, *sinks}
    free = [n for n in range(len(own)) if n not in fixed and own[n]]
    for _ in range(ROUNDS):
        moved = 0.0
        level = {n: sum(potential[s] for s in found) / len(found) for n, found in members.items()}
        for number in free:
            new = sum(level[net] for net in own[number]) / len(own[number])
            moved = max(moved, abs(new - potential[number]))
            potential[number] = new
        if moved < STILL:
            break
    return potential


def _distances(
    own: list[list[int]], members: dict[int, list[int]], starts: Iterable[int]
) -> list[int]:
    """Return how many nets lie between each symbol and the nearest start."""
    first = list(starts) or [0]
    far = [-1] * len(own)
    for start in first:
        far[start] = 0
    waiting = deque(first)
    while waiting:
        here = waiting.popleft()
        for net in own[here]:
            for there in members[net]:
                if far[there] < 0:
                    far[there] = far[here] + 1
                    waiting.append(there)
    return [max(0, steps) for steps in far]
