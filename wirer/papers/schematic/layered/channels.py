"""Wires in a channel between two layers: one upright track for each net that branches or bends.

The order of the tracks is chosen against crossings. Where a net leaves the left bank at the height
at which another reaches the right bank, the first must keep left of the second, lest they overlap.
Nets that don't meet share a track (left-edge rule of channel routing: Hashimoto and Stevens, 1971).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

Ends = tuple[list[int], list[int]]
FORBIDDEN = 10_000
PASSES = 6
MOST_SORTED = 60


@dataclass(frozen=True)
class Tracks:
    """Which track each net has, from the left; a net that runs straight through has none."""

    of: Mapping[int, int]
    count: int


@dataclass(frozen=True)
class Clash:
    """A height at which two nets would lie on each other, whatever the order of their tracks."""

    height: int


def tracks_of(ends: Mapping[int, Ends]) -> Tracks | Clash:
    """Return the tracks of the nets of a channel, or where they clash."""
    nets = [net for net in sorted(ends) if not _is_straight(ends[net])]
    meeting = _before(nets, ends)
    cost = {
        (a, b): FORBIDDEN if (b, a) in meeting else _crossings(ends[a], ends[b])
        for a in nets
        for b in nets
        if a != b
    }
    order = _sorted(nets, meeting)
    if isinstance(order, Clash):
        return order
    order = _bettered(order, cost)
    return _packed(order, ends, cost)


def _is_straight(ends: Ends) -> bool:
    left, right = ends
    return len(left) == len(right) == 1 and left == right


def _before(nets: list[int], ends: Mapping[int, Ends]) -> dict[tuple[int, int], int]:
    """Return the pairs of nets of which the first must keep left, with the height of it."""
    reaching = {y: net for net in nets for y in ends[net][1]}
    return {
        (net, reaching[y]): y
        for net in nets
        for y in ends[net][0]
        if y in reaching and reaching[y] != net
    }


def _crossings(first: Ends, second: Ends) -> int:
    """Count the crossings of two nets when the first has its track left of the second's."""
    return _inside(second[0], first) + _inside(first[1], second)


def _inside(heights: list[int], ends: Ends) -> int:
    low, high = _reach(ends)
    return sum(low < y < high for y in heights)


def _reach(ends: Ends) -> tuple[int, int]:
    """Return the least and the greatest height of a net in the channel."""
    heights = [*ends[0], *ends[1]]
    return min(heights), max(heights)


def _sorted(nets: list[int], meeting: Mapping[tuple[int, int], int]) -> list[int] | Clash:
    """Return the nets in an order that keeps what must be left to the left."""
    waiting = {net: {a for a, b in meeting if b == net} for net in nets}
    order: list[int] = []
    while waiting:
        free = [net for net, before in waiting.items() if not before]
        if not free:
            return Clash(_cycle_height(waiting, meeting))
        order += free
        for net in free:
            del waiting[net]
        for before in waiting.values():
            before.difference_update(free)
    return order


def _cycle_height(waiting: Mapping[int, set[int]], meeting: Mapping[tuple[int, int], int]) -> int:
    """Return the height of one meeting of a cycle."""
    seen: list[int] = []
    net = next(iter(waiting))
    while net not in seen:
        seen.append(net)
        net = min(waiting[net])
    return meeting[net, seen[-1]]


def _bettered(order: list[int], cost: Mapping[tuple[int, int], int]) -> list[int]:
    """Return the order with each net brought to where it crosses least."""
    reach = len(order) if len(order) <= MOST_SORTED else 3
    for _ in range(PASSES):
        saved = False
        for net in list(order):
            index = order.index(net)
            target = _best_place(order, index, reach, cost)
            if target != index:
                order.insert(target, order.pop(index))
                saved = True
        if not saved:
            break
    return order


def _best_place(
    order: list[int], index: int, reach: int, cost: Mapping[tuple[int, int], int]
) -> int:
    net = order[index]
    best, best_place, change = 0, index, 0
    for place in range(index - 1, max(-1, index - 1 - reach), -1):
        other = order[place]
        change += cost[net, other] - cost[other, net]
        if change < best:
            best, best_place = change, place
    change = 0
    for place in range(index + 1, min(len(order), index + 1 + reach)):
        other = order[place]
        change += cost[other, net] - cost[net, other]
        if change < best:
            best, best_place = change, place
    return best_place


def _packed(
    order: list[int], ends: Mapping[int, Ends], cost: Mapping[tuple[int, int], int]
) -> Tracks:
    """Put nets on as few tracks as the order allows, those of the right bank far right."""
    reach = {net: _reach(ends[net]) for net in order}

    def apart(a: int, b: int) -> bool:
        clear = reach[a][1] + 1 < reach[b][0] or reach[b][1] + 1 < reach[a][0]
        return clear and max(cost[a, b], cost[b, a]) < FORBIDDEN

    track: dict[int, int] = {}
    for index, net in enumerate(order):
        before = [track[other] + 1 for other in order[:index] if not apart(net, other)]
        track[net] = max(before, default=0)
    count = max(track.values(), default=-1) + 1
    for index in range(len(order) - 1, -1, -1):
        net = order[index]
        if len(ends[net][1]) > len(ends[net][0]):
            after = [track[other] - 1 for other in order[index + 1 :] if not apart(net, other)]
            track[net] = min(after, default=count - 1)
    return Tracks(track, count)
