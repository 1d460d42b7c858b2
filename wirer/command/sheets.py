"""`wirer sheets`: the papers that a builder takes along."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path, PurePath
from typing import TYPE_CHECKING, TypedDict, Unpack

import click

from wirer.circuit.errors import shown
from wirer.command.document import file_argument, opened
from wirer.command.examples import examples
from wirer.command.near import hint
from wirer.command.refusal import RefusalError

if TYPE_CHECKING:
    from wirer.circuit.model import Circuit
    from wirer.papers.bench.job_papers import JobPapers

SHEETS = {
    "wiring": "the wiring drawing",
    "schematic": "the schematic",
    "combinations": "the combination table and its small drawings",
    "wires": "the wire list",
    "parts": "the parts list",
    "test": "the test sheet",
    "card": "the player's card",
    "findings": "what is open or waived, and the cautions",
}
TRUE_SCALE = "1:1"
MOST_MM = 1000.0


class Wishes(TypedDict):
    """What the options say of how the papers are made."""

    paper: str
    scale: str
    revision: str | None
    end_mm: float | None
    loop_mm: float | None


@click.command(
    short_help="Write the papers for the bench as one PDF, lists as CSV.",
    epilog=examples(
        "wirer sheets job.wirer -o job.pdf",
        "wirer sheets job.wirer -o job.pdf --paper Letter --only wiring,wires,test",
        "wirer sheets job.wirer -o job.pdf --only wiring --scale 1:1",
        "wirer sheets job.wirer --csv lists",
    ),
)
@file_argument
@click.option("-o", "--output", metavar="OUT.pdf", help="The PDF to write.")
@click.option(
    "--paper", type=click.Choice(["A4", "Letter"]), default="A4", help="The size of the paper."
)
@click.option(
    "--only",
    multiple=True,
    metavar="SHEET,SHEET",
    help=f"Leave out all other sheets. There are {', '.join(SHEETS)}.",
)
@click.option(
    "--scale",
    type=click.Choice(["fit", TRUE_SCALE]),
    default="fit",
    help="How the wiring drawing comes to paper: on one page, smaller if need be, or at true size, "
    "on several with marks if need be.",
)
@click.option("--revision", metavar="TEXT", help="What stands on each page; else it is worked out.")
@click.option(
    "--end-mm",
    type=click.FloatRange(0, MOST_MM),
    metavar="MM",
    help="How much longer a wire is cut for each end (5).",
)
@click.option(
    "--loop-mm",
    type=click.FloatRange(0, MOST_MM),
    metavar="MM",
    help="How much longer still at each pickup or jack, so that it can be lifted (60).",
)
@click.option(
    "--csv",
    "csv_folder",
    metavar="FOLDER",
    help="Write the lists as CSV into a folder: wires, parts, test, grounds, card.",
)
@click.pass_context
def sheets(
    context: click.Context,
    /,
    file: str,
    output: str | None,
    only: tuple[str, ...],
    csv_folder: str | None,
    **wishes: Unpack[Wishes],
) -> None:
    """Write the papers for FILE: what is soldered from, tested by and handed over.

    One PDF has the wiring drawing, the schematic, the combination table with small drawings, the
    wire list in the order of soldering, the parts list, the test sheet with the readings to expect,
    the player's card, and what is still open with the cautions.
    """
    if output is None and csv_folder is None:
        raise click.UsageError("missing option '-o' or '--csv'", context)
    if output is not None and PurePath(output).suffix.lower() != ".pdf":
        raise RefusalError(f"{output}: the papers are a PDF; write a name that ends in .pdf")
    chosen = _chosen(only)
    with opened(file) as (circuit, _stance):
        papers = _papers(circuit, wishes)
        if csv_folder is not None:
            _write_lists(papers, Path(csv_folder))
        if output is not None:
            _write_book(papers, Path(output), chosen, wishes)


def _chosen(only: Iterable[str]) -> tuple[str, ...]:
    """Return the sheets that are asked for; all where none is named."""
    names = [name.strip().lower() for text in only for name in text.split(",") if name.strip()]
    for name in names:
        if name not in SHEETS:
            text = f'there is no sheet "{shown(name)}"; {hint(name, SHEETS)}'
            raise RefusalError(f"sheets: --only: {text}")
    return tuple(names) or tuple(SHEETS)


def _papers(circuit: Circuit, wishes: Wishes) -> JobPapers:
    from datetime import date

    from wirer.papers.bench.allowance import CUSTOMARY, Allowance
    from wirer.papers.bench.job_papers import JobPapers

    end, loop = wishes["end_mm"], wishes["loop_mm"]
    allowance = Allowance(
        CUSTOMARY.end if end is None else end, CUSTOMARY.loop if loop is None else loop
    )
    today = date.today().isoformat()  # the day where the user is
    return JobPapers(circuit, today, wishes["revision"] or "", allowance)


def _write_lists(papers: JobPapers, folder: Path) -> None:
    from wirer.circuit.files import write_bytes
    from wirer.papers.bench.lists_csv import LISTS

    try:
        folder.mkdir(exist_ok=True)
    except (OSError, ValueError) as error:  # ValueError: a NUL in the name
        reason = getattr(error, "strerror", None) or str(error)
        raise RefusalError(f"{folder}: can't be made: {reason}") from error
    for name, make in LISTS.items():
        write_bytes(folder / f"{name}.csv", make(papers).encode("utf-8", "replace"))


def _write_book(papers: JobPapers, path: Path, chosen: tuple[str, ...], wishes: Wishes) -> None:
    from wirer.drawing.papers.book import book_of
    from wirer.drawing.papers.paper import PAPERS
    from wirer.drawing.papers.printing import write_book

    true_scale = wishes["scale"] == TRUE_SCALE
    book = book_of(papers, PAPERS[wishes["paper"]], chosen, true_scale=true_scale)
    write_book(book, path)
