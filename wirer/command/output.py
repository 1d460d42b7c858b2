"""Writing to standard output: whatever its encoding, for as long as somebody reads."""

from __future__ import annotations

import io
import os
import shutil
import sys
from collections.abc import Iterable, Iterator
from contextlib import suppress
from functools import cache

import click

from wirer.command.refusal import RefusalError

SIGNS = {
    "∥": "||", "−": "-", "–": "-", "─": "-", "·": "-", "×": "x",
    "Ω": "ohm", "µ": "u", "…": "...", "“": '"', "”": '"', "’": "'",
}  # fmt: skip
"""The trade's signs, and how they are written in ASCII."""

BLOCK = 2**16


def put(lines: Iterable[str]) -> None:
    """Write lines for people to read; when the reader has gone the rest is not written."""
    for block in _blocks(f"{line}\n" for line in lines):
        if not _written(block):
            return


def put_data(chunks: Iterable[str]) -> None:
    """Write text for machines, which is UTF-8 whatever the terminal's encoding."""
    for block in _blocks(chunks):
        if not _written(block.encode(errors="replace")):
            return


def complain(line: str) -> None:
    """Write one line to standard error; nothing can be done where that fails."""
    with suppress(OSError):
        click.echo(f"wirer: {line}", err=True)


def abandon() -> None:
    """Drop the output that is still held back: Python's last flush of it could fail or wait."""
    with suppress(OSError, AttributeError):  # AttributeError: there is no output
        held = sys.stdout.fileno()
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, held)
        os.close(nowhere)


def fitted(text: str) -> str:
    """Return text with the trade's signs in ASCII where standard output lacks them."""
    return text if _has_signs(getattr(sys.stdout, "encoding", None)) else _in_ascii(text)


def coloured() -> bool:
    """Tell whether standard output is a terminal on which colour is welcome."""
    return is_terminal() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def is_terminal() -> bool:
    """Tell whether standard output is a terminal."""
    return sys.stdout is not None and sys.stdout.isatty()


def output_width() -> int | None:
    """Return how wide standard output is; None where it is no terminal and takes any line.

    COLUMNS in the environment says so as well.
    """
    if not is_terminal() and not os.environ.get("COLUMNS"):
        return None
    return shutil.get_terminal_size().columns


def tolerate_any_character() -> None:
    """Let a character that standard output lacks be a question mark instead of an error."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="replace")


def _in_ascii(text: str) -> str:
    return text.translate({ord(sign): ascii_sign for sign, ascii_sign in SIGNS.items()})


@cache
def _has_signs(encoding: str | None) -> bool:
    try:
        "".join(SIGNS).encode(encoding or "ascii")
    except (UnicodeEncodeError, LookupError):
        return False
    return True


def _blocks(chunks: Iterable[str]) -> Iterator[str]:
    held: list[str] = []
    size = 0
    for chunk in chunks:
        held.append(chunk)
        size += len(chunk)
        if size >= BLOCK:
            yield "".join(held)
            held, size = [], 0
    yield "".join(held)


def _written(block: str | bytes) -> bool:
    """Write a block and tell whether anybody reads on."""
    try:
        click.echo(block, nl=False)
    except BrokenPipeError:
        abandon()
        return False
    except OSError as error:
        abandon()
        reason = error.strerror or str(error)
        raise RefusalError(f"standard output: can't be written: {reason}") from error
    return True
