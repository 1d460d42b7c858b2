"""What a journal notes of a document at one moment, and the difference of two such moments."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, ClassVar

from msgspec import Struct


class Snapshot(Struct, frozen=True):
    """A document's text by lines without its picture, the picture, and the file it belongs to."""

    INSIDE: ClassVar[str] = "picture"
    """Stands for the path of a picture that is kept inside."""

    lines: tuple[str, ...] = ()
    picture: str = ""
    path: str = ""
    clean: bool = True


def difference(before: Snapshot, after: Snapshot) -> dict[str, Any]:
    """Return the record that leads from one moment to the next."""
    head = _common(before.lines, after.lines)
    rest = min(len(before.lines), len(after.lines)) - head
    tail = min(rest, _common(before.lines[::-1], after.lines[::-1]))
    end = len(after.lines) - tail
    record = {"head": head, "tail": tail, "lines": after.lines[head:end]}
    record |= {"path": after.path, "clean": after.clean}
    return record if after.picture == before.picture else {**record, "picture": after.picture}


def following(before: Snapshot, record: dict[str, Any]) -> Snapshot:
    """Return the moment that a record leads to."""
    end = len(before.lines) - record["tail"]
    lines = (*before.lines[: record["head"]], *record["lines"], *before.lines[end:])
    picture = record.get("picture", before.picture)
    return Snapshot(lines, picture, record["path"], record["clean"])


def _common(first: Sequence[str], second: Sequence[str]) -> int:
    """Return how many lines two texts begin with alike."""
    for index, (a, b) in enumerate(zip(first, second, strict=False)):
        if a != b:
            return index
    return min(len(first), len(second))
