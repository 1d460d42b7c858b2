"""The journal of an open document: what is lost when the program is killed is at most a change.

Each window has a journal of its own in the user's state folder, locked while the window lives.
A record holds what has changed in the document's text since the record before, so that a change
costs some hundred bytes; a picture inside the document is recorded once. The last whole record
counts, whatever follows it. `wirer.circuit.leftovers` finds what killed windows have left.
"""

from __future__ import annotations

import contextlib
import os
import secrets
import time
from pathlib import Path

from msgspec.structs import replace

from wirer.circuit.document import write_document
from wirer.circuit.files import FileError
from wirer.circuit.locks import lock
from wirer.circuit.model import Circuit
from wirer.circuit.records import HEADER, packed
from wirer.circuit.snapshots import Snapshot, difference
from wirer.circuit.stance import Stance

SUFFIX = ".journal"


class Journal:
    """The journal of one window; to be told of every change and closed with the window.

    It may be used from another thread than the window's, but from one at a time.
    """

    def __init__(self, folder: Path) -> None:
        """Begin a journal in a folder, which is made where it is not there.

        Raises
        ------
        FileError
            It can't be written.
        """
        self.file = folder / f"{secrets.token_hex(8)}{SUFFIX}"
        self._last = Snapshot()
        self._end = 0
        flags = os.O_RDWR | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
        try:
            folder.mkdir(mode=0o700, parents=True, exist_ok=True)
            self._handle = os.open(self.file, flags, 0o600)
        except OSError as error:
            raise _can_not_write(self.file, error) from error
        try:
            lock(self._handle)
            self._append(HEADER)
        except (OSError, FileError) as error:
            self.close()
            raise _can_not_write(self.file, error) from error

    def record(
        self,
        circuit: Circuit,
        stance: Stance,
        path: Path | None,
        *,
        clean: bool,
        now: float | None = None,
    ) -> None:
        """Note a circuit with its stance; when this returns it is on the disk.

        `path` is the file that the document belongs to (None: none yet), `clean` that the file
        has this circuit, so that there is nothing to recover.

        Raises
        ------
        FileError
            It can't be written; the next call tries again.
        """
        following = _snapshot(circuit, stance, path, clean=clean)
        if following == self._last:
            return
        record = difference(self._last, following)
        self._append(packed({"time": time.time() if now is None else now, **record}))
        self._last = following

    def close(self) -> None:
        """End the journal, and leave nothing of it."""
        with contextlib.suppress(OSError):
            os.close(self._handle)
        with contextlib.suppress(OSError):
            self.file.unlink()

    def _append(self, data: bytes) -> None:
        try:
            os.lseek(self._handle, self._end, os.SEEK_SET)
            rest = memoryview(data)
            while rest:
                rest = rest[os.write(self._handle, rest) :]
            os.fsync(self._handle)
        except OSError as error:
            with contextlib.suppress(OSError):
                os.ftruncate(self._handle, self._end)
            raise _can_not_write(self.file, error) from error
        self._end += len(data)


def _snapshot(circuit: Circuit, stance: Stance, path: Path | None, *, clean: bool) -> Snapshot:
    """Return what a record must give back; the picture apart, for it is long and seldom changes."""
    underlay = circuit.underlay
    picture = underlay.data if underlay else ""
    if underlay and picture:
        circuit = replace(circuit, underlay=replace(underlay, data="", path=Snapshot.INSIDE))
    lines = write_document(circuit, stance).decode().split("\n")
    return Snapshot(tuple(lines), picture, str(path) if path else "", clean)


def _can_not_write(file: Path, error: Exception) -> FileError:
    if isinstance(error, FileError):
        return error
    reason = (error.strerror if isinstance(error, OSError) else None) or str(error)
    return FileError(f"{file}: the journal can't be written: {reason}")
