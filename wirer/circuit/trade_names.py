"""Finding kinds by what the trade calls them, and grouping them as a builder does.

All that is known of a kind is its own id, name, group, search words and description. Case, spaces
and hyphens make no difference: `push-pull`, `Push Pull` and `pushpull` are one.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from difflib import SequenceMatcher
from functools import lru_cache

from msgspec import Struct

from wirer.circuit.catalogue import catalogue
from wirer.circuit.kind import Kind
from wirer.circuit.model import Circuit

GROUPS = ("pickups", "switches", "pots", "components", "jacks", "grounds", "terminals")
"""The order in which a builder thinks of the groups; others follow by name."""

NEAR = 0.75
"""Words at least so alike may be one word written wrongly."""

_NO_LETTER = re.compile(r"[\W_]+")
_NOWHERE = 100
_MISSPELT = 40


class KindGroup(Struct, frozen=True):
    """Kinds that lie in one drawer."""

    name: str
    kinds: tuple[Kind, ...]


def kinds_to_choose(circuit: Circuit) -> tuple[Kind, ...]:
    """Return the kinds that a circuit can have parts of: its own first, then the catalogue's."""
    own = {kind.id for kind in circuit.kinds}
    return (*circuit.kinds, *(kind for kind in catalogue() if kind.id not in own))


def grouped_kinds(kinds: Iterable[Kind]) -> tuple[KindGroup, ...]:
    """Return kinds by group, within a group in the order given."""
    drawers: dict[str, list[Kind]] = {}
    for kind in kinds:
        drawers.setdefault(kind.group, []).append(kind)
    return tuple(KindGroup(name, tuple(drawers[name])) for name in sorted(drawers, key=_order))


def _order(group: str) -> tuple[int, str]:
    return (GROUPS.index(group) if group in GROUPS else len(GROUPS), group)


def found_kinds(text: str, kinds: Iterable[Kind]) -> tuple[Kind, ...]:
    """Return the kinds that a text may mean, the likeliest first; all for an empty text.

    Every word of the text must be found. A name of the trade as a whole comes before the beginning
    of one, that before a word within one, that before a piece of a word. Only if nothing is found
    so are words taken that are spelt a little otherwise.
    """
    choice = tuple(kinds)
    wished = _plain(text)
    if not wished:
        return choice
    words = [plain for word in text.split() if (plain := _plain(word))]
    for misspelt in (False, True):
        ranks = [_rank(wished, words, kind, misspelt=misspelt) for kind in choice]
        found = [index for index, rank in enumerate(ranks) if rank < _NOWHERE]
        if found:
            return tuple(choice[i] for i in sorted(found, key=lambda index: ranks[index]))
    return ()


@lru_cache(maxsize=4096)
def _plain(text: str) -> str:
    """Return a text in lower case without accents, its words apart by single spaces."""
    letters = unicodedata.normalize("NFKD", text.casefold())
    bare = "".join(letter for letter in letters if not unicodedata.combining(letter))
    return _NO_LETTER.sub(" ", bare).strip()


def _rank(wished: str, words: Iterable[str], kind: Kind, *, misspelt: bool) -> float:
    """Return how far a kind is from what is wished: 0 its very name, `_NOWHERE` not at all."""
    names = tuple(_names(kind))
    whole = min(weight + _distance(wished, name) for name, weight in names)
    if whole < 3:
        return whole
    ranks = [_word_rank(word, names, misspelt=misspelt) for word in words]
    apart = max(ranks) + sum(ranks) / (100 * len(ranks))
    return min(whole, apart + 3) if apart < _NOWHERE else whole


def _names(kind: Kind) -> Iterator[tuple[str, float]]:
    """Yield what a kind is called, with how much less a name counts than the first."""
    for index, word in enumerate(kind.search):
        yield _plain(word), min(index, 9) / 100
    yield _plain(kind.id), 0.0
    yield _plain(kind.name), 0.0
    yield _plain(kind.group), 0.0
    yield _plain(kind.about), 10.0


def _distance(wished: str, name: str) -> float:
    """Return 0 for the same text, 1 for its beginning, 2 for a word's, 5 for a piece, or none."""
    close, plain = wished.replace(" ", ""), name.replace(" ", "")
    if close == plain:
        return 0
    if name.startswith(wished) or plain.startswith(close):
        return 1 if plain.startswith(close + "s") and len(plain) == len(close) + 1 else 1.2
    if f" {wished}" in f" {name}":
        return 2
    return 5 if len(close) > 2 and close in plain else _NOWHERE


def _word_rank(word: str, names: Iterable[tuple[str, float]], *, misspelt: bool) -> float:
    best = min(weight + _distance(word, name) for name, weight in names)
    if best < _NOWHERE or not misspelt or len(word) < 4:
        return best
    spelt = {each for name, weight in names if weight < 1 for each in name.split()}
    alike = max((_likeness(word, each) for each in spelt), default=0.0)
    return _MISSPELT - alike if alike >= NEAR else _NOWHERE


def _likeness(word: str, other: str) -> float:
    if abs(len(word) - len(other)) > 3:
        return 0.0
    return SequenceMatcher(None, word, other, autojunk=False).ratio()
