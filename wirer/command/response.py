"""`wirer response`: the response of one setting in plain numbers, or as points of its curve."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from wirer.command.document import file_argument, opened
from wirer.command.examples import examples
from wirer.command.output import put, put_data
from wirer.command.settings import rotation_option, setting_option, stance_with

if TYPE_CHECKING:
    from wirer.analysis.analyst import Combination
    from wirer.circuit.model import Circuit
    from wirer.circuit.stance import Stance


@click.command(
    short_help="Predict the frequency response of one setting.",
    epilog=examples(
        "wirer response job.wirer",
        "wirer response job.wirer --setting S1=up,S2=down --rotation V=0.5",
        "wirer response job.wirer --csv > curve.csv",
    ),
)
@file_argument
@setting_option
@rotation_option
@click.option("--csv", "as_csv", is_flag=True, help="Write the curve, 20 Hz to 20 kHz, as CSV.")
def response(
    file: str, settings: tuple[str, ...], rotations: tuple[str, ...], *, as_csv: bool
) -> None:
    """Predict resonance, peak, level and meter reading of FILE in one setting.

    Levels are in dB re 1 V at the jack, every sounding coil giving its own level (1 V unless
    the document says otherwise). A silent setting has no curve.
    """
    with opened(file) as (circuit, left):
        stance = stance_with(circuit, left, settings, rotations)
        combination = _combination(circuit, stance)
        if as_csv:
            from wirer.papers.response_text import response_csv

            put_data(response_csv(combination))
        else:
            from wirer.command.response_layout import response_lines

            put(response_lines(combination, circuit, stance))


def _combination(circuit: Circuit, stance: Stance) -> Combination:
    """Return what one setting does."""
    from wirer.analysis.analyst import Analyst

    analyst = Analyst(circuit, stance.rotations)
    positions = Analyst.positions_of(circuit)
    states = [[choices.index(stance.positions[part])] for part, choices in positions.items()]
    return analyst.combinations[int(analyst.survey(states)[0])]
