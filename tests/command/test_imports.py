"""What a command loads: nothing that it does not need, so that it starts quickly."""

import subprocess
import sys

import pytest

from tests.command.support import BARITONE, ROOT

HEAVY = {"PySide6", "networkx", "numpy", "rich", "schemdraw", "scipy"}
SCRIPT = """
import sys
from wirer.command.main import cli
try:
    cli(sys.argv[1:])
except SystemExit:
    pass
print(*sys.modules, file=sys.stderr)
"""


def heavy_of(*arguments: str) -> set[str]:
    """The heavy packages that a command has loaded when it is done."""
    ran = subprocess.run(
        [sys.executable, "-c", SCRIPT, *arguments],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
    )
    return {name.partition(".")[0] for name in ran.stderr.split()} & HEAVY


@pytest.mark.parametrize(
    "arguments",
    [["--help"], ["check", "--help"], ["--version"], ["kinds"], ["kinds", "pot"], ["chekc"]],
    ids=" ".join,
)
def test_help_and_the_catalogue_load_nothing_heavy(arguments: list[str]) -> None:
    assert heavy_of(*arguments) == set()


@pytest.mark.parametrize(
    "arguments",
    [
        ["combinations"],
        ["combinations", "--json"],
        ["check"],
        ["response"],
        ["netlist"],
        ["sheets"],
    ],
    ids=" ".join,
)
def test_what_is_printed_needs_neither_qt_nor_a_drawing(arguments: list[str]) -> None:
    assert heavy_of(arguments[0], BARITONE, *arguments[1:]) <= {"numpy", "networkx"}
