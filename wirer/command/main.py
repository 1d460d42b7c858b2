"""The group of all commands, and the edge at which every error becomes one line."""

from __future__ import annotations

import sys
from typing import Any

import click

import wirer
from wirer.circuit.errors import WirerError, one_line, shown
from wirer.command.check import check
from wirer.command.combinations import combinations
from wirer.command.draw import draw
from wirer.command.kinds import kinds
from wirer.command.near import hint
from wirer.command.netlist import netlist
from wirer.command.output import abandon, complain, tolerate_any_character
from wirer.command.response import response
from wirer.command.sheets import sheets
from wirer.command.want import want

UNUSABLE = 2
INTERRUPTED = 130


class CommandLine(click.Group):
    """A group that ends with status 0, 1 (`check` found an error), 2 (unusable) or 130 (Ctrl-C)."""

    def main(self, *args: Any, **options: Any) -> Any:
        """Run the command that the arguments name and end the process."""
        options["standalone_mode"] = False
        tolerate_any_character()
        try:
            status = super().main(*args, **options)
        except click.ClickException as error:
            complain(_usage_line(error))
            status = UNUSABLE
        except click.Abort:
            status = INTERRUPTED
        sys.exit(status if isinstance(status, int) else 0)

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; what is wrong with its input ends it with one line."""
        status = UNUSABLE
        try:
            return super().invoke(ctx)
        except WirerError as error:
            complain(str(error))
        except (RecursionError, MemoryError):
            complain("what was asked is more than this machine can work out; ask for less")
        except KeyboardInterrupt:
            abandon()
            complain("stopped")
            status = INTERRUPTED
        raise click.exceptions.Exit(status)

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """Return the names in the order in which a job comes to need them."""
        return list(self.commands)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Find the command, or say which may be meant."""
        name = args[0]
        if name not in self.commands and not name.startswith("-"):
            meant = hint(name, self.commands)
            raise click.UsageError(f'there is no command "{shown(name)}"; {meant}', ctx)
        return super().resolve_command(ctx, args)


def _usage_line(error: click.ClickException) -> str:
    context = getattr(error, "ctx", None)
    path = context.command_path if context else "wirer"
    name = path.partition(" ")[2]
    message = error.format_message().rstrip(".").replace(". Did you mean", "; did you mean")
    place = f"{name}: " if name else ""
    end = " See" if message.endswith("?") else "; see"
    return one_line(f"{place}{message[:1].lower()}{message[1:]}{end} {path} --help")


@click.group(
    cls=CommandLine,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 88},
)
@click.version_option(wirer.__version__, "-V", "--version", message="wirer %(version)s")
@click.pass_context
def cli(context: click.Context) -> None:
    """Draft, check, predict and solder the wiring of electric guitars and basses.

    `wirer FILE` opens the window on a document. The commands below work without a display; each
    explains itself, for example by: wirer combinations --help

    Exit status: 0 done and nothing wrong, 1 `check` found an error, 2 the request or the file
    can't be used.
    """
    if context.invoked_subcommand is None:
        click.echo(context.get_help())


for command in (combinations, check, want, response, draw, sheets, netlist, kinds):
    cli.add_command(command)
