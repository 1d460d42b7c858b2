"""Every series-parallel network of labelled branches, and its realisation between nets 0 and 1."""

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import count, pairwise

Tree = str | tuple[str, frozenset["Tree"]]  # type: ignore[misc]
"""A label, or ("series" or "parallel", its members: labels and trees of the other sort)."""

Branch = tuple[str, int, int]


@cache
def networks(labels: tuple[str, ...]) -> tuple[Tree, ...]:
    """All networks that use every label once; series and parallel members have no order."""
    if len(labels) == 1:
        return (labels[0],)
    return tuple(tree for join in ("series", "parallel") for tree in _joined(labels, join))


def _joined(labels: tuple[str, ...], join: str) -> Iterator[Tree]:
    for blocks in _partitions(labels):
        if len(blocks) > 1:
            choices = [
                [tree for tree in networks(block) if isinstance(tree, str) or tree[0] != join]
                for block in blocks
            ]
            for members in _products(choices):
                yield join, frozenset(members)


def _products(choices: Sequence[Sequence[Tree]]) -> Iterator[tuple[Tree, ...]]:
    if not choices:
        yield ()
        return
    for first in choices[0]:
        for rest in _products(choices[1:]):
            yield (first, *rest)


def _partitions(labels: tuple[str, ...]) -> Iterator[list[tuple[str, ...]]]:
    if not labels:
        yield []
        return
    first, *others = labels
    for smaller in _partitions(tuple(others)):
        yield [(first,), *smaller]
        for i, block in enumerate(smaller):
            yield [*smaller[:i], (first, *block), *smaller[i + 1 :]]


@dataclass
class Realised:
    """A tree as branches between nets, members in any order, every branch either way round."""

    draw: random.Random

    def __post_init__(self) -> None:
        self.free = count(2)

    def branches(self, tree: Tree, start: int = 0, end: int = 1) -> list[Branch]:
        """The branches of a tree from net `start` to net `end`; each keeps its direction."""
        if isinstance(tree, str):
            return [(tree, start, end)]
        join, members = tree
        order = sorted(members, key=str)
        self.draw.shuffle(order)
        nets = [start, *(next(self.free) for _ in order[1:]), end]
        pairs = pairwise(nets) if join == "series" else [(start, end)] * 9
        return [b for m, (x, y) in zip(order, pairs, strict=False) for b in self.branches(m, x, y)]


def random_tree(draw: random.Random, labels: Sequence[str], join: str | None = None) -> Tree:
    """A random network of many labels."""
    if len(labels) == 1:
        return labels[0]
    join = join or draw.choice(["series", "parallel"])
    other = "parallel" if join == "series" else "series"
    blocks: list[list[str]] = [[] for _ in range(draw.randint(2, min(3, len(labels))))]
    shuffled = list(labels)
    draw.shuffle(shuffled)
    for i, label in enumerate(shuffled):
        (blocks[i] if i < len(blocks) else draw.choice(blocks)).append(label)
    return join, frozenset(random_tree(draw, block, other) for block in blocks)
