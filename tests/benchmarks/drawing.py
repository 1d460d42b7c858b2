"""How quick a wiring is drawn: `python -m tests.benchmarks.drawing [REPEATS]` prints medians."""

from __future__ import annotations

import statistics
import sys
import time
from pathlib import Path

from wirer.circuit.files import read_file
from wirer.drawing.render import pdf_bytes, png_bytes, svg_bytes, wiring_sheet
from wirer.layout.lay_out import lay_out

EXAMPLES = Path(__file__).parents[2] / "resources" / "examples"


def main() -> None:
    """Print the median process time of writing the first example in each form."""
    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 7
    circuit, stance = read_file(min(EXAMPLES.glob("*.wirer")))
    sheet = wiring_sheet(circuit, lay_out(circuit), stance=stance)
    for name, make in (("SVG", svg_bytes), ("PDF", pdf_bytes), ("PNG", png_bytes)):
        times = []
        for _ in range(repeats):
            start = time.process_time()
            make(sheet)
            times.append(1000 * (time.process_time() - start))
        print(f"{name}  {statistics.median(times):7.1f} ms")


if __name__ == "__main__":
    main()
