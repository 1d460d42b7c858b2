"""How long the rules take beyond the analysis: `python -m tests.benchmarks.rules [RUNS]`."""

from __future__ import annotations

import statistics
import sys
import time

from tests.command.support import chain
from tests.examples.sheets import circuit
from wirer.circuit.model import Circuit
from wirer.rules.check import findings_in
from wirer.rules.inspection import Inspection


def median_ms(circuit: Circuit, runs: int) -> float:
    """Return the median time of all rules over a circuit whose table is worked out, in ms."""
    seconds = []
    for _ in range(runs):
        inspection = Inspection(circuit)
        settings = len(inspection.table)
        start = time.perf_counter()
        findings_in(inspection)
        seconds.append(time.perf_counter() - start)
    sys.stdout.write(f"{settings:6} settings: {1e3 * statistics.median(seconds):7.1f} ms\n")
    return statistics.median(seconds)


if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 9
    median_ms(circuit("01-baritone-three-coils-series"), count)
    median_ms(chain(6), max(3, count // 2))
