"""`wirer combinations`: the table of every setting and what it does to the pickups."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

import click

from wirer.command.document import file_argument, opened, progress_of
from wirer.command.examples import examples
from wirer.command.output import coloured, output_width, put, put_data

if TYPE_CHECKING:
    from wirer.analysis.combinations import CombinationTable
    from wirer.circuit.model import Circuit


@click.command(
    short_help="Show what every setting of the switches does.",
    epilog=examples(
        "wirer combinations job.wirer",
        "wirer combinations job.wirer --distinct",
        "wirer combinations job.wirer --csv > job.csv",
    ),
)
@file_argument
@click.option("--json", "as_json", is_flag=True, help="Write the table as JSON, in SI units.")
@click.option("--csv", "as_csv", is_flag=True, help="Write it as CSV, for a spreadsheet.")
@click.option("--markdown", "as_markdown", is_flag=True, help="Write it as Markdown, for notes.")
@click.option("--distinct", is_flag=True, help="Only the first row of each different sound.")
def combinations(
    file: str, *, as_json: bool, as_csv: bool, as_markdown: bool, distinct: bool
) -> None:
    """Show what every setting of the switches in FILE does to the pickups.

    For each setting: the sound (N + M in series, N ∥ M in parallel, −M reversed), how much of
    the hum is left, what a meter reads at the jack, where the response peaks, the level at
    1 kHz, and what is remarkable. Knobs stand as the document leaves them.
    """
    form = _only_one({"--json": as_json, "--csv": as_csv, "--markdown": as_markdown})
    from wirer.analysis.combinations import combination_table

    with opened(file) as (circuit, stance):
        with progress_of(circuit) as progress:
            table = combination_table(circuit, stance, progress)
        if form:
            put_data(_data(form, table, circuit, distinct=distinct))
            return
        from wirer.command.combination_table import table_lines

        lines = table_lines(
            table,
            circuit,
            stance,
            distinct=distinct,
            width=output_width(),
            colour=coloured(),
        )
        put(lines)


def _only_one(given: dict[str, bool]) -> str | None:
    """Return the one option that is given, or None.

    Raises
    ------
    click.UsageError
        Several are.
    """
    names = [name for name, is_given in given.items() if is_given]
    if len(names) > 1:
        raise click.UsageError(
            f"{' and '.join(names)} exclude each other; give one of them",
            click.get_current_context(),
        )
    return names[0] if names else None


def _data(form: str, table: CombinationTable, circuit: Circuit, *, distinct: bool) -> Iterator[str]:
    if form == "--json":
        from wirer.papers.combination_text import combinations_json_text

        return combinations_json_text(table, circuit, distinct=distinct)
    if form == "--csv":
        from wirer.papers.combination_csv import combinations_csv

        return combinations_csv(table, circuit, distinct=distinct)
    from wirer.papers.combination_markdown import combinations_markdown

    return combinations_markdown(table, circuit, distinct=distinct)
