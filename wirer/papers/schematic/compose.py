"""Putting two-ended elements together: what is in series without a branch stands as one.

A net that joins nothing but two ends is no net to route: its elements become a chain. A chain
stands below a track or a coil whose end it continues, hangs from a signal to ground, or lies on the
signal's way.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise, permutations, product

from wirer.papers.schematic.symbols.column import Column
from wirer.papers.schematic.symbols.item import Item
from wirer.papers.schematic.symbols.row import Row

MOST_IN_CHAIN = 3
MOST_IN_COLUMN = 4
MOST_TRIED = 3
"""Of more coils in a part not every order is tried."""


@dataclass(frozen=True)
class Netting:
    """How many pins each net has, and which is ground."""

    count: Counter[int]
    ground: int | None

    def private(self, net: int) -> bool:
        """Tell whether a net joins two pins and nothing else."""
        return self.count[net] == 2 and net != self.ground

    def joins(self, upper: Item, lower: Item) -> bool:
        """Tell whether two items that stand on one another have a net or a lug in common there."""
        net = upper.b.net
        if net != lower.a.net:
            return False
        return one_piece(upper, lower) or (net != self.ground and self.count[net] > 1)

    def column(self, items: Sequence[Item]) -> Column:
        """Return a column of items, joined where they have nets in common."""
        return Column(items, [self.joins(a, b) for a, b in pairwise(items)])


def one_piece(upper: Item, lower: Item) -> bool:
    """Tell whether two items that stand on one another meet in one lug, or inside their part."""
    return upper.part == lower.part and (upper.b.net, upper.b.lugs) == (lower.a.net, lower.a.lugs)


def composed(
    stacks: Iterable[Sequence[Item]], loose: Sequence[Item], netting: Netting
) -> list[Column | Row]:
    """Return columns and rows of the items: `stacks` stand together, `loose` are free."""
    columns = [best_stack(stack, netting) for stack in stacks]
    chains = _chains(loose, netting)
    left = [chain for chain in chains if not _continues(columns, chain, netting)]
    result: list[Column | Row] = [_grounded_below(column, netting) for column in columns]
    for chain in left:
        ends = chain[0].a.net, chain[-1].b.net
        if netting.ground in ends or ends[0] == ends[1]:
            result.append(_grounded_below(netting.column(chain), netting))
        else:
            result.append(Row(chain))
    return result


def best_stack(items: Sequence[Item], netting: Netting) -> Column:
    """Return the items in the order that joins most of them, with ground at the foot."""
    if len(items) > MOST_TRIED:
        return netting.column(items)
    orders = permutations(items)
    ways = [
        [item.turned() if turn else item for item, turn in zip(order, turns, strict=True)]
        for order in orders
        for turns in product((False, True), repeat=len(items))
    ]
    return netting.column(max(ways, key=lambda way: _merit(way, items, netting)))


def _merit(way: Sequence[Item], items: Sequence[Item], netting: Netting) -> tuple[int, ...]:
    joints = [(a, b) for a, b in pairwise(way) if netting.joins(a, b)]
    grounded = netting.ground is not None and way[-1].b.net == netting.ground
    topped = netting.ground is not None and way[0].a.net == netting.ground
    upright = sum(item in items for item in way)
    in_order = sum(a.name == b.name for a, b in zip(way, items, strict=True))
    return (
        sum(one_piece(a, b) for a, b in joints),
        len(joints),
        grounded - topped,
        upright,
        in_order,
    )


def _chains(loose: Sequence[Item], netting: Netting) -> list[list[Item]]:
    """Return the loose items in chains, each from one end to the other."""
    ends: dict[int, list[int]] = defaultdict(list)
    for index, item in enumerate(loose):
        for net in (item.a.net, item.b.net):
            ends[net].append(index)
    links = {
        net: pair
        for net, pair in ends.items()
        if netting.private(net) and len(pair) == 2 and pair[0] != pair[1]
    }
    waiting = dict.fromkeys(range(len(loose)))
    at_end = [n for n, item in enumerate(loose) if not {item.a.net, item.b.net} <= links.keys()]
    # First from the ends of chains; what is left then runs in a ring.
    starts = (n for n in (*at_end, *range(len(loose))) if n in waiting)
    return [_walk(start, loose, links, waiting) for start in starts]


def _walk(
    start: int, loose: Sequence[Item], links: dict[int, list[int]], waiting: dict[int, None]
) -> list[Item]:
    item = loose[start] if loose[start].a.net not in links else loose[start].turned()
    del waiting[start]
    chain, here = [item], start
    while chain[-1].b.net in links and len(chain) < MOST_IN_CHAIN:
        net = chain[-1].b.net
        here = next((index for index in links[net] if index != here), here)
        if here not in waiting:
            break
        del waiting[here]
        chain.append(loose[here] if loose[here].a.net == net else loose[here].turned())
    return chain


def _continues(columns: list[Column], chain: list[Item], netting: Netting) -> bool:
    """Put a chain to the column that it continues, if there is one."""
    for way in (chain, [item.turned() for item in chain[::-1]]):
        net = way[0].a.net
        for index, column in enumerate(columns) if netting.private(net) else ():
            if not _takes(column, way, netting):
                continue
            if column.items[-1].b.net == net:
                columns[index] = netting.column([*column.items, *way])
                return True
            if column.items[0].a.net == net:
                columns[index] = netting.column([*column.reversed().items, *way])
                return True
    return False


def _takes(column: Column, way: Sequence[Item], netting: Netting) -> bool:
    """Tell whether a column has room for a chain; one of coils takes what leads to ground."""
    if len(column.items) + len(way) > MOST_IN_COLUMN:
        return False
    return not column.source or way[-1].b.net == netting.ground


def _grounded_below(column: Column, netting: Netting) -> Column:
    """Turn a column whose top is on ground and whose foot is not."""
    top, foot = column.items[0].a.net, column.items[-1].b.net
    if netting.ground is not None and top == netting.ground != foot:
        return column.reversed()
    return column
