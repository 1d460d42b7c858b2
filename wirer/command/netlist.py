"""`wirer netlist`: the circuit as a SPICE deck."""

from __future__ import annotations

import click

from wirer.command.document import file_argument, opened
from wirer.command.examples import examples
from wirer.command.output import put_data
from wirer.command.settings import setting_option, stance_with


@click.command(
    short_help="Write the circuit as a SPICE deck.",
    epilog=examples(
        "wirer netlist job.wirer > job.cir",
        "wirer netlist job.wirer --setting S1=up,S2=down > up.cir",
    ),
)
@file_argument
@setting_option
def netlist(file: str, settings: tuple[str, ...]) -> None:
    """Write the circuit in FILE as a SPICE deck, as it stands in one setting."""
    from wirer.analysis.deck import spice_deck

    with opened(file) as (circuit, left):
        put_data([spice_deck(circuit, stance_with(circuit, left, settings))])
