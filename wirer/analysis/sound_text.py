"""Reading a sound as a person writes it: `N+M`, `N || (M + B)`, `-M`, by names or labels."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from wirer.analysis.harness import Harness
from wirer.analysis.reduction import Join
from wirer.analysis.sound import CoilSound, GroupSound, Sound, SoundTree
from wirer.circuit.errors import WirerError

_TOKEN = re.compile(
    r"\s*(?:(?P<parallel>∥|\|\|?|//)|(?P<series>\+)|(?P<minus>[-−–])|(?P<open>\()|(?P<close>\))"
    r"|(?P<name>[^\s()+∥|/−–-][^()+∥|/−–]*))"
)


_SIGN = re.compile(r"[-+()∥|/−–]")
LONGEST = 500


class SoundError(WirerError):
    """A text that is no sound of the circuit: `at` is the place of the fault, from 0."""

    def __init__(self, text: str, at: int, problem: str) -> None:
        self.text, self.at, self.problem = text, at, problem
        super().__init__(f'"{text}": at character {at + 1}: {problem}')

    def __reduce__(self) -> tuple[type[SoundError], tuple[str, int, str]]:
        return type(self), (self.text, self.at, self.problem)


@dataclass(frozen=True, slots=True)
class _Token:
    sort: str
    text: str
    at: int


def read_sound(text: str, harness: Harness) -> Sound | None:
    """Read a sound; None is silence. Signs are taken relative to the first coil.

    `+` joins in series, `∥`, `||`, `|` or `//` in parallel, a minus reverses a coil or a group in
    brackets. A coil is its name, the name of a part with several coils means them in series in
    phase, and a part's label does for its name.

    Raises
    ------
    SoundError
        The text can't be read, or names something that is no coil.
    """
    if text.strip().lower() in ("silent", "silence"):
        return None
    tree = _Reader(text, harness).whole()
    first = min(_leaves(tree), key=lambda leaf: leaf.order)
    if first.reversed:
        tree = _reversed(tree)
    return Sound(_ordered(tree), _several(harness))


def _several(harness: Harness) -> dict[str, tuple[str, ...]]:
    names: dict[str, tuple[str, ...]] = {}
    for coil in harness.coils:
        names[coil.part] = (*names.get(coil.part, ()), coil.name)
    return {part: coils for part, coils in names.items() if len(coils) > 1}


def _vocabulary(harness: Harness) -> dict[str, SoundTree]:
    """Return what each name means: coils, parts and labels, in lower case."""
    coils = {
        branch.coil.name: CoilSound(index, branch.coil.name)
        for index, branch in enumerate(harness.branches)
        if branch.coil
    }
    words: dict[str, SoundTree] = {}
    parts: dict[str, list[SoundTree]] = {}
    labels = {part.id: part.label for part in harness.circuit.parts}
    for branch in harness.branches:
        if branch.coil:
            leaf = coils[branch.coil.name]
            parts.setdefault(branch.part, []).append(leaf)
            own = branch.coil.name.partition(".")[2]
            if own and labels[branch.part]:
                words[f"{labels[branch.part]}.{own}".lower()] = leaf
                words[f"{labels[branch.part]} coil {own}".lower()] = leaf
    for part, leaves in parts.items():
        tree = leaves[0] if len(leaves) == 1 else GroupSound("series", tuple(leaves))
        words[labels[part].lower()] = tree
    for part, leaves in parts.items():
        words[part.lower()] = leaves[0] if len(leaves) == 1 else GroupSound("series", tuple(leaves))
    words.update({name.lower(): leaf for name, leaf in coils.items()})
    words.pop("", None)
    return words


class _Reader:
    def __init__(self, text: str, harness: Harness) -> None:
        self.text = text
        self.words = _vocabulary(harness)
        self.tokens = list(self._split())
        self.place = 0
        self.depth = 0
        self.used: set[int] = set()

    def _split(self) -> Iterator[_Token]:
        at = 0
        text = self.text.rstrip()
        if len(text) > LONGEST:
            raise SoundError(self.text[:20] + "…", LONGEST, "the sound is too long")
        odd = sorted((w for w in self.words if _SIGN.search(w)), key=len, reverse=True)
        while at < len(text):
            at += len(text[at:]) - len(text[at:].lstrip())
            name = next((w for w in odd if text[at:].lower().startswith(w)), None)
            if name:
                yield _Token("name", text[at : at + len(name)], at)
                at += len(name)
                continue
            match = _TOKEN.match(text, at)
            if not match or not match.lastgroup:
                raise SoundError(self.text, at, "this can't be read; write for example N + M")
            sort = match.lastgroup
            yield _Token(sort, match[sort].strip(), match.start(sort))
            at = match.end()
        yield _Token("end", "", len(text))

    def whole(self) -> SoundTree:
        tree = self._joined()
        token = self.tokens[self.place]
        if token.sort != "end":
            raise SoundError(self.text, token.at, f'"{token.text}" has no place here')
        return tree

    def _joined(self) -> SoundTree:
        """Read members joined by one sign; mixing signs needs brackets, as neither binds first."""
        members = [self._member()]
        sort = self.tokens[self.place].sort
        while self.tokens[self.place].sort in ("series", "parallel"):
            token = self.tokens[self.place]
            if token.sort != sort:
                problem = "series and parallel are mixed; put brackets round what belongs together"
                raise SoundError(self.text, token.at, problem)
            self.place += 1
            members.append(self._member())
        if len(members) == 1:
            return members[0]
        return GroupSound("series" if sort == "series" else "parallel", tuple(members))

    def _member(self) -> SoundTree:
        token = self.tokens[self.place]
        self.place += 1
        if token.sort == "minus":
            return _reversed(self._member())
        if token.sort == "open":
            return self._bracketed(token)
        if token.sort == "name":
            return self._coil(token)
        what = f'"{token.text}"' if token.text else "the end"
        raise SoundError(self.text, token.at, f"here a coil should stand and not {what}")

    def _bracketed(self, opening: _Token) -> SoundTree:
        self.depth += 1
        if self.depth > 50:
            raise SoundError(self.text, opening.at, "the brackets are nested too deeply")
        tree = self._joined()
        if self.tokens[self.place].sort != "close":
            raise SoundError(self.text, opening.at, "this bracket is never closed")
        self.place += 1
        self.depth -= 1
        return tree

    def _coil(self, token: _Token) -> SoundTree:
        tree = self.words.get(token.text.lower())
        if tree is None:
            known = ", ".join(sorted(self.words)) or "none"
            problem = f'"{token.text}" is no coil of the circuit; it has {known}'
            raise SoundError(self.text, token.at, problem)
        orders = {leaf.order for leaf in _leaves(tree)}
        if orders & self.used:
            raise SoundError(self.text, token.at, f'"{token.text}" is named twice')
        self.used |= orders
        return tree


def _leaves(tree: SoundTree) -> Iterator[CoilSound]:
    if isinstance(tree, CoilSound):
        yield tree
    else:
        for member in tree.members:
            yield from _leaves(member)


def _reversed(tree: SoundTree) -> SoundTree:
    if isinstance(tree, CoilSound):
        return CoilSound(tree.order, tree.name, not tree.reversed)
    return GroupSound(tree.join, tuple(map(_reversed, tree.members)))


def _ordered(tree: SoundTree) -> SoundTree:
    """Bring groups into the form of the analysis: flat, and by the order of their first coils."""
    if isinstance(tree, CoilSound):
        return tree
    members = [m for member in tree.members for m in _flat(_ordered(member), tree.join)]
    return GroupSound(tree.join, tuple(sorted(members, key=lambda m: m.order)))


def _flat(tree: SoundTree, join: Join) -> Sequence[SoundTree]:
    return tree.members if isinstance(tree, GroupSound) and tree.join == join else (tree,)
