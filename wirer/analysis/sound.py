"""The sound of a combination: how its coils are joined, in circuit theory's signs."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import count, islice, pairwise
from typing import Any

from wirer.analysis.liveness import GROUND, HOT
from wirer.analysis.reduction import Group, Join, Leaf, Span, Tree, first_place, turned

MINUS, PARALLEL = "−", " ∥ "


@dataclass(frozen=True, slots=True)
class CoilSound:
    """One coil, the other way round than the first if `reversed`."""

    order: int
    name: str
    reversed: bool = False


@dataclass(frozen=True, slots=True)
class GroupSound:
    """Coils and groups in series or in parallel, by the order of their first coils."""

    join: Join
    members: tuple[SoundTree, ...]

    @property
    def order(self) -> int:
        """The order of its first coil."""
        return self.members[0].order


SoundTree = CoilSound | GroupSound


@dataclass(frozen=True, slots=True)
class BridgeSound:
    """Coils of a network that is not series-parallel, each from net to net (0 ground, 1 hot)."""

    coils: tuple[tuple[str, int, int], ...]


@dataclass(frozen=True)
class Sound:
    """How coils are joined; two sounds are equal when their networks are.

    `whole` gives the coils of each part that has several, so that a part whose coils are in
    series in phase can be written by its name.
    """

    network: SoundTree | BridgeSound
    whole: Mapping[str, tuple[str, ...]]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sound) and self.network == other.network

    def __hash__(self) -> int:
        return hash(self.network)

    @cached_property
    def formula(self) -> str:
        """The sound as `N + −M` or `N ∥ (M + B)`."""
        if isinstance(self.network, BridgeSound):
            coils = ", ".join(f"{name} {a}–{b}" for name, a, b in self.network.coils)
            return f"bridge of {coils}"
        return _formula(_merged(self.network, self.whole), top=True)

    @property
    def ascii(self) -> str:
        """The formula in ASCII: `||` for parallel, `-` for reversed."""
        return self.formula.replace("∥", "||").replace(MINUS, "-").replace("–", "-")

    def words(self, labels: Mapping[str, str]) -> str:
        """Return the sound in words; `labels` names parts for people."""
        if isinstance(self.network, BridgeSound):
            names = [_coil_words(name, labels) for name, _, _ in self.network.coils]
            return f"bridge of {', '.join(names[:-1])} and {names[-1]}"
        return _words(_merged(self.network, self.whole), labels, top=True)

    @property
    def json(self) -> dict[str, Any]:
        """The network as nested `series`, `parallel` and `coil`, or as a `bridge`."""
        if isinstance(self.network, BridgeSound):
            rows = [{"coil": name, "between": [a, b]} for name, a, b in self.network.coils]
            return {"bridge": rows}
        return _json(self.network)

    @property
    def coils(self) -> tuple[str, ...]:
        """The names of its coils."""
        if isinstance(self.network, BridgeSound):
            return tuple(name for name, _, _ in self.network.coils)
        return tuple(leaf.name for leaf in _leaves(self.network))


def sound_of(
    structure: Tree | Span,
    coils: Mapping[int, tuple[int, str]],
    signs: Mapping[int, int],
    whole: Mapping[str, tuple[str, ...]],
) -> Sound:
    """Return the sound of a structure.

    For each place in the network that is a coil `coils` gives its order and name, `signs` +1 or
    −1: the coil's own sign times the way that it lies in the network. The first coil in part order
    is made positive, since the polarity of the whole can't be heard.
    """
    if isinstance(structure, Span):
        return Sound(_bridge(structure, coils, signs), whole)
    first = structure
    while isinstance(first, Group):
        first = first.members[0]
    about = signs[first.place] * (1 if first.forward else -1)
    return Sound(_signed(structure, coils, signs, about), whole)


def _signed(
    tree: Tree, coils: Mapping[int, tuple[int, str]], signs: Mapping[int, int], about: int
) -> SoundTree:
    if isinstance(tree, Leaf):
        sign = signs[tree.place] * about
        return _coil_sound(*coils[tree.place], (sign if tree.forward else -sign) < 0)
    members = [_signed(member, coils, signs, about) for member in tree.members]
    return GroupSound(tree.join, tuple(members))


@lru_cache(maxsize=4096)
def _coil_sound(order: int, name: str, reverse: bool) -> CoilSound:
    return CoilSound(order, name, reverse)


def _leaves(tree: SoundTree) -> Iterator[CoilSound]:
    if isinstance(tree, CoilSound):
        yield tree
    else:
        for member in tree.members:
            yield from _leaves(member)


def _bridge(
    span: Span, coils: Mapping[int, tuple[int, str]], signs: Mapping[int, int]
) -> BridgeSound:
    """Return a bridge with its nets numbered by the arms they join, ground chosen either way.

    The arms of a bridge have names, those of their coils, so two bridges are isomorphic exactly
    when these numberings agree.
    """
    forms = []
    for swap in ({}, {GROUND: HOT, HOT: GROUND}):
        arms = [(tree, swap.get(a, a), swap.get(b, b)) for tree, a, b in span.arms]
        rows = sorted(_laid_out(sorted(arms, key=lambda arm: first_place(arm[0])), signs))
        if rows[0][1] > rows[0][2]:
            rows = [(place, b, a) for place, a, b in rows]
        forms.append(tuple(rows))
    return BridgeSound(tuple((coils[place][1], a, b) for place, a, b in min(forms)))


def _laid_out(
    arms: Sequence[tuple[Tree, int, int]], signs: Mapping[int, int]
) -> Iterator[tuple[int, int, int]]:
    """Yield each coil with the nets it runs between, nets inside an arm numbered last."""
    touching: dict[int, list[int]] = defaultdict(list)
    for number, (_, a, b) in enumerate(arms):
        touching[a].append(number)
        touching[b].append(number)
    inner = sorted((names, net) for net, names in touching.items() if net not in (GROUND, HOT))
    place = {GROUND: GROUND, HOT: HOT, **{net: i for i, (_, net) in enumerate(inner, HOT + 1)}}
    free = count(len(place))
    for tree, a, b in arms:
        low, high = sorted((place[a], place[b]))
        yield from _between(tree if place[a] == low else turned(tree), low, high, signs, free)


def _between(
    tree: Tree, start: int, end: int, signs: Mapping[int, int], free: Iterator[int]
) -> Iterator[tuple[int, int, int]]:
    if isinstance(tree, Leaf):
        straight = (signs[tree.place] > 0) is tree.forward
        yield tree.place, *((start, end) if straight else (end, start))
    elif tree.join == "parallel":
        for member in tree.members:
            yield from _between(member, start, end, signs, free)
    else:
        # The order in an arm can't be heard.
        members = sorted(tree.members, key=first_place)
        joints = [start, *islice(free, len(members) - 1), end]
        for member, (a, b) in zip(members, pairwise(joints), strict=True):
            yield from _between(member, a, b, signs, free)


def _merged(tree: SoundTree, whole: Mapping[str, tuple[str, ...]]) -> SoundTree:
    """Write each part whose coils all lie in one series group, in phase, as one coil."""
    if isinstance(tree, CoilSound) or not whole:
        return tree
    members = [_merged(member, whole) for member in tree.members]
    if tree.join == "series":
        for part, names in whole.items():
            own = [m for m in members if isinstance(m, CoilSound) and m.name in names]
            if len(own) == len(names) and len({m.reversed for m in own}) == 1:
                place = members.index(own[0])
                members[place] = CoilSound(own[0].order, part, own[0].reversed)
                members = [m for m in members if m not in own[1:]]
    return members[0] if len(members) == 1 else GroupSound(tree.join, tuple(members))


def _formula(tree: SoundTree, *, top: bool = False) -> str:
    if isinstance(tree, CoilSound):
        return (MINUS if tree.reversed else "") + tree.name
    sign = " + " if tree.join == "series" else PARALLEL
    text = sign.join(_formula(member) for member in tree.members)
    return text if top else f"({text})"


def _words(tree: SoundTree, labels: Mapping[str, str], *, top: bool = False) -> str:
    if isinstance(tree, CoilSound):
        return _coil_words(tree.name, labels) + (" reversed" if tree.reversed else "")
    joint = f" in {tree.join} with "
    text = joint.join(_words(member, labels) for member in tree.members)
    return text if top else f"({text})"


def _coil_words(name: str, labels: Mapping[str, str]) -> str:
    part, _, coil = name.partition(".")
    label = labels.get(part, part)
    if not coil:
        return label
    return f"{label} coil {coil}" if len(coil) == 1 else f"{label} {coil} coil"


def _json(tree: SoundTree) -> dict[str, Any]:
    if isinstance(tree, CoilSound):
        return {"coil": tree.name, **({"reversed": True} if tree.reversed else {})}
    return {tree.join: [_json(member) for member in tree.members]}
