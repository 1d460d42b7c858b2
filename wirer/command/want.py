"""`wirer want`: the present table as a wanted table to edit."""

from __future__ import annotations

import json

import click

from wirer.command.document import file_argument, opened, progress_of
from wirer.command.examples import examples
from wirer.command.output import put_data


@click.command(
    short_help="Write what every setting gives, as wanted sounds.",
    epilog=examples("wirer want job.wirer", "wirer want job.wirer > wanted.json"),
)
@file_argument
def want(file: str) -> None:
    """Write what every setting of FILE gives as the `wanted` of a document, to be edited.

    Put the list in place of the document's `wanted`, change the sounds that are to be others, and
    `wirer check` says which settings differ.
    """
    from wirer.analysis.combinations import combination_table
    from wirer.rules.wanted import wanted_of

    with opened(file) as (circuit, stance), progress_of(circuit) as progress:
        wanted = wanted_of(combination_table(circuit, stance, progress))
        rows = [
            "  " + json.dumps({"setting": dict(w.setting), "sound": w.sound}, ensure_ascii=False)
            for w in wanted
        ]
        put_data(['"wanted": [\n', ",\n".join(rows), "\n]\n"])
