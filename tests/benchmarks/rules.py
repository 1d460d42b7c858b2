"""How long the rules take beyond the analysis: medians of several runs, on standard output.

Run from the project's root: `python tests/benchmarks/rules.py [RUNS]`; with `--each` the time of
every rule in the first circuit follows.
"""

import argparse
import statistics
import sys
import time
from collections import defaultdict
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from msgspec.structs import replace  # noqa: E402 - the root must be on the path first

from tests.examples.sheets import NAMES, circuit  # noqa: E402
from tests.support import trade  # noqa: E402
from wirer.circuit.model import Circuit  # noqa: E402
from wirer.rules.check import findings_in  # noqa: E402
from wirer.rules.inspection import Inspection  # noqa: E402
from wirer.rules.registry import all_rules  # noqa: E402


def fresh(sheet: Circuit) -> Circuit:
    """Return the circuit as a value of which nothing has been worked out yet."""
    return replace(sheet)


def once(sheet: Circuit) -> tuple[float, float, int]:
    """Return the seconds of analysis and of all rules beyond it, and how many settings."""
    inspection = Inspection(fresh(sheet))
    start = time.perf_counter()
    settings = len(inspection.table)
    analysed = time.perf_counter()
    findings_in(inspection)
    return analysed - start, time.perf_counter() - analysed, settings


def each_rule(sheet: Circuit, runs: int) -> dict[str, float]:
    """Return the median seconds of every rule, asked in order: the first to ask pays."""
    taken: dict[str, list[float]] = defaultdict(list)
    for _ in range(runs):
        inspection = Inspection(fresh(sheet))
        len(inspection.table)
        for rule in all_rules().values():
            start = time.perf_counter()
            list(rule.speaks(inspection))
            taken[rule.id].append(time.perf_counter() - start)
    return {name: statistics.median(seconds) for name, seconds in taken.items()}


def main() -> None:
    """Print a line for each circuit: settings, ms of analysis, ms of rules."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("runs", nargs="?", type=int, default=9)
    parser.add_argument("--each", action="store_true")
    asked = parser.parse_args()
    sheets = {
        "example, 64 settings": circuit(NAMES[0]),
        "six coils on/off and phase in series": trade.series_chain([f"K{n}" for n in range(6)]),
        "twelve coils on/off in series": trade.series_chain(
            [f"K{n}" for n in range(12)], phase=False
        ),
    }
    for name, sheet in sheets.items():
        once(sheet)
        taken = [once(sheet) for _ in range(asked.runs)]
        analysis, rules = (1e3 * statistics.median(t[i] for t in taken) for i in (0, 1))
        line = f"{name:40}{taken[0][2]:8}{analysis:10.1f} ms{rules:10.1f} ms\n"
        sys.stdout.write(line)
    if asked.each:
        for rule, seconds in sorted(
            each_rule(sheets["example, 64 settings"], asked.runs).items(), key=lambda item: -item[1]
        ):
            sys.stdout.write(f"{rule:40}{1e3 * seconds:10.2f} ms\n")


if __name__ == "__main__":
    main()
