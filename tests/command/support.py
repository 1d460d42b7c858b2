"""Commands as a test runs them: in this process, or in one of their own as a person does."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from click.testing import CliRunner, Result

from tests.support.wiring import Wiring
from wirer.circuit.files import write_file
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance, default_stance
from wirer.command.main import cli

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted((ROOT / "resources" / "examples").glob("*.wirer"))
BARITONE = str(EXAMPLES[0])
FAULTY = str(next(path for path in EXAMPLES if "mistakes" in path.read_text(encoding="utf-8")))


def run(*arguments: str, **environment: str) -> Result:
    """Run a command in this process, its output no terminal."""
    runner = CliRunner(env={"COLUMNS": None, **environment})
    return runner.invoke(cli, arguments, prog_name="wirer")


def printed(*arguments: str, **environment: str) -> str:
    """What a command prints that ends well and says nothing beside it."""
    result = run(*arguments, **environment)
    assert (result.exit_code, result.stderr) == (0, "")
    return result.stdout


def refused(*arguments: str) -> str:
    """The one line with which a command declines."""
    result = run(*arguments)
    assert result.exit_code == 2, result.output
    assert result.stdout == ""
    return line_of(result.stderr)


def line_of(said: str) -> str:
    """What was said, which must be one clear line of wirer's."""
    assert said.startswith("wirer: ")
    assert said.endswith("\n")
    line = said[:-1]
    assert line.isprintable()
    assert "Traceback" not in line
    return line


def environment(**changes: str) -> dict[str, str]:
    """This process's environment without what would decide about width or colour."""
    kept = {n: x for n, x in os.environ.items() if n not in {"COLUMNS", "NO_COLOR"}}
    return {**kept, **changes}


def start(*arguments: str, **options: object) -> subprocess.Popen[bytes]:
    """Start a command in a process of its own, its output and complaints in pipes."""
    streams = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "env": environment()}
    command = [sys.executable, "-m", "wirer", *arguments]
    return subprocess.Popen(command, cwd=ROOT, **{**streams, **options})  # type: ignore[call-overload]


def written(folder: Path, circuit: Circuit, stance: Stance | None = None) -> str:
    """Write a circuit to a file and return its name."""
    path = folder / "job.wirer"
    write_file(path, circuit, stance or default_stance(circuit))
    return str(path)


def chain(coils: int) -> Circuit:
    """Coils in series, each with a switch that bridges it and one that turns it round.

    Throwing all the first kind up shorts the output, whatever the others do.
    """
    bench, last = Wiring().part("J", "jack-ts"), "J.sleeve"
    for n in range(coils):
        bench.part(f"C{n}", "coil-2wire")
        bench.part(f"S{n}", "toggle-2p2t").part(f"P{n}", "toggle-2p2t")
        bench.join(f"C{n}.finish P{n}.A0").join(f"C{n}.start P{n}.B0")
        bench.join(f"P{n}.A1 P{n}.B2").join(f"P{n}.A2 P{n}.B1")
        bench.join(f"{last} S{n}.A0").join(f"S{n}.A1 P{n}.B1").join(f"S{n}.B1 P{n}.A1")
        bench.join(f"S{n}.A2 S{n}.B2")
        last = f"S{n}.B0"
    return bench.join(f"{last} J.tip").circuit(title=f"{coils} coils")
