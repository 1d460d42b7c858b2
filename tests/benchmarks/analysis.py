"""How long the analysis takes: medians of several runs, on standard output.

Run from the project's root: `python tests/benchmarks/analysis.py [RUNS]`. Circuits come from
`tests/support/trade.py`, so this is not part of what is installed. ngspice must be on the path for
the last row.
"""

import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

import numpy as np  # noqa: E402 - the root must be on the path first

from tests.support import trade  # noqa: E402
from wirer.analysis.combinations import CombinationTable, combination_table  # noqa: E402
from wirer.analysis.deck import spice_deck  # noqa: E402
from wirer.circuit.model import Circuit  # noqa: E402
from wirer.circuit.stance import Stance, default_stance  # noqa: E402

HERTZ = np.geomspace(20.0, 20_000.0, 200)
MEMORY = """
import re, sys
sys.path.insert(0, {root!r})
from tests.benchmarks.analysis import example, {name}, table
def most():
    with open("/proc/self/status") as status:
        return int(re.search("VmHWM:\\s*(\\d+)", status.read())[1]) / 1024
table(example())
before = most()
made = table({name}())
print(most(), most() - before, len(made))
"""


def example() -> Circuit:
    """Three coils, each with on/off and phase, in series: 64 settings, 13 sounds."""
    return trade.series_chain()


def six_coils() -> Circuit:
    """Six coils with on/off and phase: 12 switches, 4,096 settings, 364 sounds."""
    return trade.series_chain([f"K{n}" for n in range(6)])


def twelve_coils() -> Circuit:
    """Twelve coils with on/off only: 12 switches, 4,096 settings, each a network of its own."""
    return trade.series_chain([f"K{n}" for n in range(12)], phase=False)


def eight_coils() -> Circuit:
    """Eight coils with on/off and phase: 65,536 settings, 3,280 sounds."""
    return trade.series_chain([f"K{n}" for n in range(8)])


def table(circuit: Circuit) -> CombinationTable:
    """Work the whole table out: every column but what is written of it."""
    return combination_table(circuit, default_stance(circuit))


def written(made: CombinationTable) -> int:
    """Take from a table what its rows are written from: settings, formulas, remarks."""
    letters = 0
    for row in made:
        sound = row.combination.sound
        letters += len(sound.formula) if sound else 0
        letters += len(row.setting) + len(row.combination.remarks)
    return letters + made.distinct + made.silent


def responses(circuit: Circuit) -> None:
    """Work out every setting's response at 200 frequencies."""
    made = combination_table(circuit, default_stance(circuit))
    known = {id(c): c.voice.response(HERTZ) for c in made.combinations if c.voice}
    assert len([known.get(id(row.combination)) for row in made]) == len(made)


def ngspice_input(circuit: Circuit, folder: Path) -> list[str]:
    """Write a deck for every setting and a driver that runs them all; give the command."""
    made = combination_table(circuit, default_stance(circuit))
    lines = ["* driver", ".control"]
    for index in range(len(made)):
        deck = spice_deck(circuit, Stance(made.setting(index), default_stance(circuit).rotations))
        kept = [line for line in deck.splitlines() if not line.startswith((".ac", ".print"))]
        (folder / f"{index}.cir").write_text("\n".join(kept) + "\n", encoding="utf-8")
        lines += [f"source {folder}/{index}.cir", "ac dec 67 20 20k", "destroy all", "remcirc"]
    driver = folder / "driver.cir"
    driver.write_text("\n".join([*lines, "quit 0", ".endc", ".end", ""]), encoding="utf-8")
    return [shutil.which("ngspice") or "ngspice", "-b", str(driver)]


def seconds(work: Callable[[], object], runs: int) -> list[float]:
    """Time some work several times."""
    found = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        found.append(time.perf_counter() - start)
    return found


def row(name: str, times: list[float], reach: str) -> None:
    """Print a row: median, the best, and what is to be reached."""
    median, best = statistics.median(times) * 1000, min(times) * 1000
    print(f"{name:<58} {median:9.1f} ms  (best {best:.1f})  reach {reach}", flush=True)


def memory(name: str) -> str:
    """Measure a table's memory in a process of its own, by the kernel's account (Linux)."""
    script = MEMORY.format(root=str(ROOT), name=name)
    ran = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=ROOT
    )
    whole, own, rows = ran.stdout.split()
    return f"{float(whole):.0f} MB in all, {float(own):.0f} MB for the table of {int(rows):,} rows"


def main() -> None:
    """Measure everything."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    circuit = example()
    row("table of the 64-setting example", seconds(lambda: table(circuit), 4 * runs), "15 ms")
    six = six_coils()
    row("six coils with on/off and phase", seconds(lambda: table(six), runs), "500 ms")
    twelve = twelve_coils()
    row("twelve coils with on/off", seconds(lambda: table(twelve), runs), "500 ms")
    rows = table(twelve)
    row("    to write its 4,096 rows out besides", seconds(lambda: written(rows), 1), "")
    print(f"    memory: {memory('twelve_coils')}; reach 300 MB")
    eight = eight_coils()
    row("eight coils with on/off and phase", seconds(lambda: table(eight), runs), "10 s")
    print(f"    memory: {memory('eight_coils')}")
    if shutil.which("ngspice") is None:
        print("ngspice is not installed")
        return
    with tempfile.TemporaryDirectory() as folder:
        command = ngspice_input(circuit, Path(folder))
        own, theirs = [], []
        for _ in range(4 * runs):
            own += seconds(lambda: responses(circuit), 1)
            theirs += seconds(lambda: subprocess.run(command, capture_output=True, check=True), 1)
    row("64 settings at 200 frequencies", own, "")
    row("the same 64 analyses in one ngspice process", theirs, "")
    ratio = statistics.median(theirs) / statistics.median(own)
    print(f"    ratio of the medians: {ratio:.1f}; reach 3")


if __name__ == "__main__":
    main()
