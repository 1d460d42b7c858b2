"""`wirer draw`: one drawing of a circuit as SVG, PDF or PNG."""

from __future__ import annotations

from pathlib import Path, PurePath

import click

from wirer.command.document import file_argument, opened
from wirer.command.examples import examples
from wirer.command.refusal import RefusalError
from wirer.command.settings import setting_option, stance_with

SUFFIXES = (".svg", ".pdf", ".png")


@click.command(
    short_help="Draw wiring, schematic or one combination as SVG, PDF or PNG.",
    epilog=examples(
        "wirer draw job.wirer -o job.pdf",
        "wirer draw job.wirer -o schematic.svg --view schematic",
        "wirer draw job.wirer -o reversed.png --setting S2=down",
        "wirer draw job.wirer -o neck.svg --view combination --setting S1=neck",
    ),
)
@file_argument
@click.option(
    "-o",
    "--output",
    required=True,
    metavar="OUT.(svg/pdf/png)",
    help="The file to write; its name says as what.",
)
@click.option(
    "--view",
    type=click.Choice(["wiring", "schematic", "combination"]),
    default="wiring",
    help="What to draw: the wiring as it lies before the person who solders it, the schematic "
    "that explains it, or what the amplifier sees of it in one setting.",
)
@setting_option
def draw(file: str, output: str, view: str, settings: tuple[str, ...]) -> None:
    """Draw the circuit in FILE.

    The wiring view shows every part from the solder side, each lug with its name, each wire in
    its colour. The schematic shows what is joined to what by standard symbols, signal from left
    to right. The combination shows what carries signal in one setting, with its values. Switches
    stand as in the document or as --setting says.
    """
    if PurePath(output).suffix.lower() not in SUFFIXES:
        ends = ", ".join(SUFFIXES)
        raise RefusalError(f"{output}: a drawing's name ends in one of {ends}")
    with opened(file) as (circuit, left):
        stance = stance_with(circuit, left, settings)
        match view:
            case "combination":
                from wirer.drawing.render import write_sheet
                from wirer.drawing.schematic.combination_sheet import combination_sheet

                write_sheet(combination_sheet(circuit, stance), Path(output))
            case "schematic":
                from wirer.drawing.schematic.render import render_schematic

                render_schematic(circuit, stance, output)
            case _:
                from wirer.drawing.render import render_wiring

                render_wiring(circuit, output, stance=stance)
