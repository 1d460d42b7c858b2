"""What the builder's own names of positions claim: `neck`, `both`, `off`, `reversed`, `split`.

A name is only read when every word of it is understood; anything else claims nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from wirer.circuit.model import Circuit, Part

Sort = Literal["coils", "on", "off", "normal", "reversed", "series", "parallel", "split", "whole"]

JOINING = frozenset(
    {"and", "with", "only", "alone", "pickup", "pickups", "coil", "coils", "together", "position"}
)
EVERY = {"both": 2, "all": 0}
"""Words for every pickup, and how many there must be (0: any number)."""
SORTS: Mapping[str, Sort] = {
    "on": "on",
    "off": "off",
    "normal": "normal",
    "in phase": "normal",
    "reversed": "reversed",
    "reverse": "reversed",
    "out of phase": "reversed",
    "series": "series",
    "in series": "series",
    "parallel": "parallel",
    "in parallel": "parallel",
    "split": "split",
    "single coil": "split",
    "whole": "whole",
    "full": "whole",
    "humbucker": "whole",
    "humbucking": "whole",
}

JOINS = ("series", "parallel")


@dataclass(frozen=True)
class Claim:
    """What a position's name says: its sort, and the coils that it names or is about."""

    position: str
    sort: Sort
    coils: frozenset[str] = frozenset()


def claims_of(circuit: Circuit, part: Part, coils: tuple[str, ...]) -> Iterator[Claim]:
    """Yield what the builder's names of an actuator's positions claim.

    `coils` are the names of the circuit's coils.
    """
    names = _names(circuit, coils)
    about = _named(_words(part.label), names)
    subject = next(iter(about)) if about and len(about) == 1 else frozenset[str]()
    for position, text in part.position_labels.items():
        words = _words(text)
        sort = SORTS.get(" ".join(words))
        if sort:
            yield Claim(position, sort, subject)
            continue
        joins = [word for word in words if word in JOINS]
        named = _all_named(tuple(w for w in words if w not in (*joins, "in")), names)
        if named and len(joins) <= 1:
            yield Claim(position, "coils", named)
            for join in joins:
                yield Claim(position, SORTS[join], named)


def _words(text: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[^\W_]+", text.lower()))


def _names(circuit: Circuit, coils: tuple[str, ...]) -> dict[tuple[str, ...], frozenset[str]]:
    """Return the coils by the words of what they are called."""
    names: dict[tuple[str, ...], frozenset[str]] = {}
    parts: dict[str, list[str]] = {}
    for coil in coils:
        parts.setdefault(coil.partition(".")[0], []).append(coil)
    several = [part for part, own in parts.items() if len(own) > 1]
    for part, own in parts.items():
        for name in (part, circuit.part_by_id[part].label):
            words = _words(name)
            names.setdefault(words, frozenset(own))
            names.update({(*words, "coil", *_own(c)): frozenset((c,)) for c in own if _own(c)})
    for part in several if len(several) == 1 else ():
        names.update({("coil", *_own(c)): frozenset((c,)) for c in parts[part]})
    names.pop((), None)
    return names


def _own(coil: str) -> tuple[str, ...]:
    return _words(coil.partition(".")[2])


def _named(
    words: tuple[str, ...], names: Mapping[tuple[str, ...], frozenset[str]]
) -> list[frozenset[str]]:
    """Return the pickups that are named somewhere among words."""
    return [coils for name, coils in names.items() if _place(words, name) is not None]


def _all_named(
    words: tuple[str, ...], names: Mapping[tuple[str, ...], frozenset[str]]
) -> frozenset[str]:
    """Return the coils that words name if they name coils and nothing else, else none."""
    left, found = words, frozenset[str]()
    for name in sorted(names, key=len, reverse=True):
        place = _place(left, name)
        if place is not None:
            left, found = left[:place] + left[place + len(name) :], found | names[name]
    for word in left:
        found |= _every(word, names) or _shortened(word, names)
    understood = (w in JOINING or _every(w, names) or _shortened(w, names) for w in left)
    return found if all(understood) else frozenset()


def _every(word: str, names: Mapping[tuple[str, ...], frozenset[str]]) -> frozenset[str]:
    count = EVERY.get(word)
    coils = frozenset(coil for own in names.values() for coil in own)
    parts = {coil.partition(".")[0] for coil in coils}
    return coils if count == 0 or count == len(parts) else frozenset()


def _shortened(word: str, names: Mapping[tuple[str, ...], frozenset[str]]) -> frozenset[str]:
    """Return the coils of the one pickup that a word of three letters or more can stand for."""
    meant = {
        coils
        for name, coils in names.items()
        if len(word) >= 3 and len(name) == 1 and name[0].startswith(word)
    }
    return next(iter(meant)) if len(meant) == 1 else frozenset()


def _place(words: tuple[str, ...], name: tuple[str, ...]) -> int | None:
    for place in range(len(words) - len(name) + 1):
        if words[place : place + len(name)] == name:
            return place
    return None
