"""How quick a dragged part snaps: `python tests/benchmarks/snapping.py` prints milliseconds.

Aim: at most 1 ms a frame among 60 parts.
"""

from __future__ import annotations

import statistics
import time

from wirer.circuit.catalogue import catalogue
from wirer.circuit.model import Circuit, Part
from wirer.layout.placement import place_parts
from wirer.layout.snapping import Snapper


def main() -> None:
    """Print the median and the worst time of 1000 frames, and of beginning a drag."""
    kinds = (catalogue() * 2)[:60]
    parts = tuple(
        Part(id=f"P{n}", kind=kind.id, at=(37.3 * (n % 8), 41.7 * (n // 8)))
        for n, kind in enumerate(kinds)
    )
    placements = place_parts(Circuit(parts=parts))
    begun = time.perf_counter()
    snapper = Snapper.of(placements, ["P20", "P21"])
    print(f"begin {1000 * (time.perf_counter() - begun):.2f} ms")
    times = []
    for n in range(1000):
        start = time.perf_counter()
        snapper.snapped((n * 0.31, n * -0.17), grid_mm=2.54)
        times.append(1000 * (time.perf_counter() - start))
    print(f"frame median {statistics.median(times):.3f} ms, worst {max(times):.3f} ms")


if __name__ == "__main__":
    main()
