"""What windows that were killed have left: circuits that were not saved."""

from __future__ import annotations

import contextlib
import os
import time
from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from wirer.circuit.document import read_document
from wirer.circuit.errors import DocumentError
from wirer.circuit.journal import SUFFIX
from wirer.circuit.locks import try_lock
from wirer.circuit.model import Circuit
from wirer.circuit.records import HEADER, whole_records
from wirer.circuit.snapshots import Snapshot, following
from wirer.circuit.stance import Stance

YOUNG_SECONDS = 3600.0
"""A journal without a record may be that of a window which is just being opened."""


class Leftover(Struct, frozen=True):
    """A circuit that was changed and not saved.

    `file` is its journal, `path` the file that the document belongs to, `time` when it was noted,
    in seconds since 1970.
    """

    file: Path
    circuit: Circuit
    stance: Stance
    path: Path | None
    time: float


def leftovers(folder: Path, now: float | None = None) -> tuple[Leftover, ...]:
    """Return what can be recovered from a folder of journals, the latest first.

    A journal that a window is still writing is left alone; so is one whose last record this
    program can't read. One that has nothing unsaved is removed.
    """
    moment = time.time() if now is None else now
    found = [left for file in _journals(folder) if (left := _left_in(file, moment))]
    return tuple(sorted(found, key=lambda left: -left.time))


def discard(file: Path) -> None:
    """Remove a journal that has been recovered or is not wanted, unless a window writes it."""
    with contextlib.suppress(OSError):
        handle = os.open(file, os.O_RDWR)
        try:
            free = try_lock(handle)
        finally:
            os.close(handle)
        if free:
            file.unlink()


def _journals(folder: Path) -> Iterator[Path]:
    with contextlib.suppress(OSError):
        yield from sorted(folder.glob(f"*{SUFFIX}"))


def _left_in(file: Path, now: float) -> Leftover | None:
    try:
        handle = os.open(file, os.O_RDWR | getattr(os, "O_BINARY", 0))
        with os.fdopen(handle, "rb") as opened:
            if not try_lock(handle):
                return None
            opened.seek(0)
            data = opened.read()
            young = now - os.fstat(handle).st_mtime < YOUNG_SECONDS
    except OSError:
        return None
    last = _last_of(data)
    if last is None:
        if not young and HEADER.startswith(data[: len(HEADER)]):
            discard(file)
        return None
    snapshot, moment = last
    if snapshot.clean:
        discard(file)
        return None
    return _recovered(file, snapshot, moment)


def _last_of(data: bytes) -> tuple[Snapshot, float] | None:
    """Return what the last whole record of a journal leads to, and when it was noted."""
    snapshot, moment = Snapshot(), None
    for record in whole_records(data):
        snapshot, moment = following(snapshot, record), record["time"]
    return None if moment is None else (snapshot, moment)


def _recovered(file: Path, snapshot: Snapshot, moment: float) -> Leftover | None:
    try:
        circuit, stance = read_document("\n".join(snapshot.lines).encode(), str(file))
    except DocumentError:
        return None
    if snapshot.picture and circuit.underlay:
        underlay = replace(circuit.underlay, path="", data=snapshot.picture)
        circuit = replace(circuit, underlay=underlay)
    path = Path(snapshot.path) if snapshot.path else None
    return Leftover(file, circuit, stance, path, moment)
