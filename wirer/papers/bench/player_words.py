"""A combination in a player's words: what it sounds like, not how it is joined."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from wirer.analysis.combination import Combination
from wirer.analysis.sound import BridgeSound, CoilSound, GroupSound, SoundTree
from wirer.analysis.voice import AUDIBLE

SILENCES = {
    "shorted": "silence",
    "open": "silence, perhaps with a little hiss or hum",
    "faint": "next to nothing",
}
ONE_COIL = "one coil"
NO_HUM, FULL_HUM = 0.1, 0.75
"""Below this share of the hum it counts as gone, above that as all there."""


def coil_parts(coils: Sequence[str]) -> dict[str, tuple[str, ...]]:
    """Return the coils of each pickup."""
    parts: dict[str, tuple[str, ...]] = {}
    for coil in coils:
        part = coil.partition(".")[0]
        parts[part] = (*parts.get(part, ()), coil)
    return parts


def who_sounds(combination: Combination, coils: Sequence[str], labels: Mapping[str, str]) -> str:
    """Return which pickups sound, those that work against each other apart; empty in silence.

    `One coil of Neck and Bridge`, `Neck and Middle against Bridge`.
    """
    whole = coil_parts(coils)
    weights = dict(zip(coils, combination.weights, strict=True))
    heard = _heard(combination, coils)
    first = weights[heard[0]] if heard else 0.0
    sides = [[c for c in heard if (weights[c] * first > 0) is along] for along in (True, False)]
    said = " against ".join(
        _listed([_pickup(part, own, whole[part], labels) for part, own in coil_parts(side).items()])
        for side in sides
        if side
    )
    return f"O{said[1:]}" if said.startswith(ONE_COIL) else said


def _pickup(part: str, own: Sequence[str], whole: Sequence[str], labels: Mapping[str, str]) -> str:
    return f"{ONE_COIL} of {labels[part]}" if len(own) < len(whole) else labels[part]


def _listed(names: Sequence[str]) -> str:
    return f"{', '.join(names[:-1])} and {names[-1]}" if len(names) > 1 else names[0]


def character(combination: Combination, coils: Sequence[str]) -> str:
    """Return what the sound is like, in the words that players use (common practice)."""
    if combination.silent:
        return SILENCES[combination.silent]
    if "out-of-phase" in combination.remarks:
        return "thin, hollow, quieter"
    heard = coil_parts(_heard(combination, coils))
    whole = coil_parts(coils)
    split = any(len(own) < len(whole[part]) for part, own in heard.items())
    if len(heard) == 1:
        return _of_one_pickup(combination, split=split)
    words = _of_several(combination, _heard(combination, coils))
    return f"{words}, brighter" if split else words


def _of_one_pickup(combination: Combination, *, split: bool) -> str:
    if split:
        return "quieter, brighter"
    network = combination.sound.network if combination.sound else None
    if isinstance(network, GroupSound):
        return "clear, bright" if network.join == "parallel" else "full"
    return "plain, as the pickup is"


def _of_several(combination: Combination, heard: Collection[str]) -> str:
    """Return the words for pickups together: a pickup's own coils do not count as a join."""
    network = combination.sound.network if combination.sound else None
    if network is None or isinstance(network, BridgeSound):
        return "a sound of its own"
    joins = set(_joins(network, heard))
    if joins == {"series"}:
        return "fuller and louder"
    return "clear" if joins == {"parallel"} else "full and clear"


def _joins(tree: SoundTree, heard: Collection[str]) -> list[str]:
    """Return how pickups are joined; groups in one pickup and coils for hum alone are left out."""
    if isinstance(tree, CoilSound):
        return []
    inner = [join for member in tree.members for join in _joins(member, heard)]
    own = {frozenset(_parts(member, heard)) for member in tree.members} - {frozenset()}
    return [tree.join, *inner] if len(own) > 1 else inner


def _parts(tree: SoundTree, heard: Collection[str]) -> set[str]:
    if isinstance(tree, CoilSound):
        return {tree.name.partition(".")[0]} if tree.name in heard else set()
    return {part for member in tree.members for part in _parts(member, heard)}


def hum_words(combination: Combination) -> str:
    """Return whether it hums; empty in silence."""
    if combination.hum is None:
        return ""
    if combination.hum < NO_HUM:
        return "no hum"
    return "hums" if combination.hum > FULL_HUM else "some hum"


def _heard(combination: Combination, coils: Sequence[str]) -> list[str]:
    weights = zip(coils, combination.weights, strict=True)
    return [coil for coil, weight in weights if abs(weight) >= AUDIBLE]
