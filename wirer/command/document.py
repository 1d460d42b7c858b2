"""Opening the document that a command is given, with progress where its table is long."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

import click

from wirer.command.refusal import concerning

if TYPE_CHECKING:
    from wirer.analysis.combinations import Progress
    from wirer.circuit.model import Circuit
    from wirer.circuit.stance import Stance

MANY_SETTINGS = 2000

file_argument = click.argument("file", type=click.Path())


@contextmanager
def opened(path: str) -> Iterator[tuple[Circuit, Stance]]:
    """Read a document; whatever is wrong with it while it is used is said with its name.

    Raises
    ------
    WirerError
        The file can't be read, is no document, or can't be worked out.
    """
    from wirer.circuit.files import read_file

    with concerning(path):
        yield read_file(path)


@contextmanager
def progress_of(circuit: Circuit) -> Iterator[Progress | None]:
    """Show a bar on standard error while many settings are worked out, if it is a terminal."""
    from wirer.analysis.combinations import setting_count

    count = setting_count(circuit)
    if count < MANY_SETTINGS or sys.stderr is None or not sys.stderr.isatty():
        yield None
        return
    from rich.console import Console
    from rich.progress import Progress as Bar

    with Bar(console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task(f"{count:,} settings", total=count)
        yield lambda done, _total: bar.update(task, completed=done)
