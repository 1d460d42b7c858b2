"""How quick and how good layouts are: `python -m tests.benchmarks.layout [REPEATS]`.

Prints medians of the process's own time, which other work on the machine disturbs least, and the
judged figures of every example. Aims: the example of 64 settings 0.5 s; 60 parts with 200 wires
5 s; a wire being drawn 16 ms.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

from msgspec.structs import replace

from tests.layout.circuits import random_circuit, three_coils_six_slides
from wirer.circuit.files import read_file
from wirer.circuit.model import Circuit
from wirer.layout.lay_out import lay_out, route_one
from wirer.layout.quality import quality, report

EXAMPLES = Path(__file__).parents[2] / "resources" / "examples"


def median_ms(work: Callable[[], object], repeats: int) -> float:
    """Return the median of the process time of some work."""
    times = []
    for _ in range(repeats):
        start = time.process_time()
        work()
        times.append(1000 * (time.process_time() - start))
    return statistics.median(times)


def moved(circuit: Circuit, part_id: str) -> Circuit:
    """Return the circuit with one part moved a little."""
    parts = tuple(
        replace(p, at=(p.at[0] + 1.0, p.at[1] + 1.0)) if p.id == part_id else p
        for p in circuit.parts
    )
    return replace(circuit, parts=parts)


def main() -> None:
    """Print the times and the judged figures."""
    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    settings_64, _ = read_file(min(EXAMPLES.glob("*.wirer")))
    large = random_circuit(2, 60, 200)
    laid = lay_out(large)
    shifted = moved(large, "P30")
    lug = next(iter(laid.lugs))
    ends = iter(range(1000))
    works: dict[str, tuple[Callable[[], object], int]] = {
        "64-setting example, whole": (lambda: lay_out(settings_64), repeats),
        "60 parts, 200 wires, whole": (lambda: lay_out(large), 1 + repeats // 3),
        "one of 60 parts moved": (lambda: lay_out(shifted, laid), repeats),
        "nothing changed": (lambda: lay_out(large, laid), repeats),
        "a wire being drawn": (lambda: route_one(laid, lug, (90.0 + next(ends), 80.0)), 20),
        "judging 200 wires": (lambda: quality(laid), repeats),
    }
    for name, (work, times) in works.items():
        print(f"{name:30}{median_ms(work, times):10.1f} ms")
    circuits = {path.stem: read_file(path)[0] for path in sorted(EXAMPLES.glob("*.wirer"))}
    circuits |= {"three coils, six slides": three_coils_six_slides(), "60 parts at random": large}
    print(report({name: quality(lay_out(circuit)) for name, circuit in circuits.items()}))


if __name__ == "__main__":
    main()
