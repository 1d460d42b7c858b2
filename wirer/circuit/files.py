"""Reading and writing files: nothing is ever written in place."""

from __future__ import annotations

import contextlib
import os
import stat
import tempfile
from pathlib import Path

from wirer.circuit.document import LARGEST_BYTES, read_document, write_document
from wirer.circuit.errors import DocumentError, Problem, WirerError
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance


class FileError(WirerError):
    """A file that can't be read or written, with the system's reason."""


def read_file(path: str | Path) -> tuple[Circuit, Stance]:
    """Read the document in a file.

    Raises
    ------
    FileError
        It can't be read.
    DocumentError
        It is no document.
    """
    path = Path(path)
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise FileError(f"{path}: is not a file")
        if path.stat().st_size > LARGEST_BYTES:
            size = f"is larger than {LARGEST_BYTES // 2**20} MiB, the most that is read"
            raise DocumentError([Problem("", size)], str(path))
        data = path.read_bytes()
    except (OSError, ValueError) as error:
        raise FileError(f"{path}: can't be read: {_reason(error)}") from error
    return read_document(data, str(path))


def write_file(path: str | Path, circuit: Circuit, stance: Stance) -> None:
    """Write a document to a file: the old one stands until the new one is whole.

    Raises
    ------
    FileError
        It can't be written; the old file is untouched.
    """
    write_bytes(Path(path), write_document(circuit, stance))


def write_bytes(path: Path, data: bytes) -> None:
    """Write a file by a new one beside it, fsync and rename.

    Raises
    ------
    FileError
        It can't be written; the old file is untouched.
    """
    target = path.resolve()
    try:
        handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
        try:
            _fill(handle, data)
            Path(name).chmod(_mode(target))
            Path(name).replace(target)
        except BaseException:
            with contextlib.suppress(OSError):
                Path(name).unlink()
            raise
        _sync_folder(target.parent)
    except OSError as error:
        raise FileError(f"{path}: can't be written: {_reason(error)}") from error


def _fill(handle: int, data: bytes) -> None:
    with os.fdopen(handle, "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def _mode(target: Path) -> int:
    """Return the rights that the file has, or would have if it were made here and now."""
    if target.exists():
        return stat.S_IMODE(target.stat().st_mode)
    return 0o666 & ~_umask()


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _sync_folder(folder: Path) -> None:
    if not hasattr(os, "O_DIRECTORY"):
        return
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _reason(error: Exception) -> str:
    return (error.strerror if isinstance(error, OSError) else None) or str(error)
