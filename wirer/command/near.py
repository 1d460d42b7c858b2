"""Names that may be meant by one that does not exist."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

MOST_MEANT = 6
MOST_COMPARED = 80


def near_names(wished: str, names: Iterable[str]) -> list[str]:
    """Return the names that have what was written in them, else begin or are much like it."""
    word = wished.strip().casefold()[:MOST_COMPARED]
    if not word:
        return []
    folded = [(name.casefold(), name) for name in names]
    inside = [name for fold, name in folded if len(word) > 1 and word in fold]
    wholes = dict(reversed(folded))
    alike = [wholes[fold] for fold in get_close_matches(word, wholes, 3, 0.6)]
    beginnings = [fold[: len(word)] for fold, _ in folded]
    begun = get_close_matches(word, dict.fromkeys(beginnings), 1, 0.7)
    same_start = [name for fold, name in folded if fold[: len(word)] in begun]
    return (inside or alike or same_start)[:MOST_MEANT]


def hint(wished: str, names: Iterable[str], otherwise: str = "") -> str:
    """Return which name may be meant, for a sentence; else the other text, or all the names."""
    names = list(names)
    if near := near_names(wished, names):
        return f"is it {either(near)}?"
    return otherwise or f"there are {', '.join(names)}"


def either(names: Iterable[str]) -> str:
    """Return names as a choice in a sentence: `a, b or c`."""
    *first, last = names
    return f"{', '.join(first)} or {last}" if first else last
