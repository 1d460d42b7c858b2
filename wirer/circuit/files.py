"""Reading and writing files: nothing is ever written in place."""

from __future__ import annotations

import contextlib
import os
import secrets
import stat
from pathlib import Path

from wirer.circuit.document import LARGEST_BYTES, TOO_LARGE, read_document, write_document
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
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise FileError(f"{path}: can't be read: {_other_than_file(status)}")
        if status.st_size > LARGEST_BYTES:
            raise DocumentError([Problem("", TOO_LARGE)], str(path))
        data = path.read_bytes()
    except (OSError, ValueError) as error:  # ValueError: a NUL in the name
        raise FileError(f"{path}: can't be read: {_reason(error)}") from error
    return read_document(data, str(path))


def _other_than_file(status: os.stat_result) -> str:
    return "it is a folder" if stat.S_ISDIR(status.st_mode) else "it is a device or a pipe"


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
    try:
        target = Path(os.path.realpath(path))  # a link stays one
        old = _status(target)
        if old and not stat.S_ISREG(old.st_mode):
            raise FileError(f"{path}: can't be written: {_other_than_file(old)}")
        if old and not os.access(target, os.W_OK):  # of which a rename would take no notice
            raise FileError(f"{path}: can't be written: it is write-protected")
        new = target.with_name(f".wirer-{secrets.token_hex(8)}")
        try:
            _fill(new, data, stat.S_IMODE(old.st_mode) if old else None)
            new.replace(target)
        except BaseException:
            with contextlib.suppress(OSError):
                new.unlink()
            raise
        _sync_folder(target.parent)
    except (OSError, ValueError) as error:
        raise FileError(f"{path}: can't be written: {_reason(error)}") from error


def _status(target: Path) -> os.stat_result | None:
    """Return what stands at the target, or None; links in a circle raise OSError."""
    try:
        return target.stat()
    except FileNotFoundError:
        return None


def _fill(new: Path, data: bytes, mode: int | None) -> None:
    """Write a new file through to the disk, with a mode or the one of any file made here and now.

    Until its mode is set nobody else may open what replaces a private file.
    """
    flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    handle = os.open(new, flags, 0o666 if mode is None else 0o600)
    with os.fdopen(handle, "wb") as file:
        if mode is not None:
            new.chmod(mode)
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


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
