"""`wirer sheets`: the papers that a builder takes along."""

from __future__ import annotations

import click

from wirer.command.document import file_argument, opened
from wirer.command.examples import examples
from wirer.command.refusal import RefusalError


@click.command(
    short_help="Write the papers for the bench (not there yet).",
    epilog=examples(
        "wirer draw job.wirer -o job.pdf",
        "wirer combinations job.wirer --markdown > job.md",
    ),
)
@file_argument
@click.option("-o", "--output", required=True, metavar="OUT.pdf", help="The file to write.")
@click.option(
    "--paper", type=click.Choice(["A4", "Letter"]), default="A4", help="The size of the paper."
)
def sheets(file: str, output: str, paper: str) -> None:
    """Write the papers for FILE: what is soldered from. Not there yet."""
    with opened(file):
        text = f"sheets are not there yet, {output} ({paper}) was not written"
        raise RefusalError(f"{file}: {text}; `wirer draw` writes what can be taken along now")
