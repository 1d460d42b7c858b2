"""How good and how quick the schematics are: `python tests/benchmarks/schematic.py [REPEATS]`.

Prints for each example how many wires cross, how many uprights and how much wire there is, and the
medians of placing, of drawing and of writing it as SVG, in ms. Aims: placing, drawing and writing
the example with 64 settings take 150 ms; no more crossings than those of a general layered-graph
layout on the same graphs. `--graphs DIR` writes these graphs as JSON for such a layout: nodes with
their sizes and with ports at fixed places, and the net of each port, in steps of the grid.
"""

from __future__ import annotations

import argparse
import json
import os
import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.drawing.schematic_reading import crossings
from tests.examples.sheets import NAMES, opened
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance
from wirer.drawing.render import ensure_gui, svg_bytes
from wirer.drawing.schematic.render import schematic_sheet
from wirer.drawing.schematic.whole import whole_drawing
from wirer.papers.schematic.component import best_layout, cast_of
from wirer.papers.schematic.gather import gathered
from wirer.papers.schematic.layered.graph import LEFT, LayeredGraph, Node
from wirer.papers.schematic.nets import drawn_nets
from wirer.papers.schematic.planning import components, ways_of
from wirer.papers.schematic.schematic import net_names, schematic_of


def milliseconds(deed: Callable[[], object], repeats: int) -> float:
    times = []
    for _ in range(repeats):
        begun = time.perf_counter()
        deed()
        times.append(1000 * (time.perf_counter() - begun))
    return statistics.median(times)


def row(name: str, repeats: int) -> tuple[int, str]:
    """Return the crossings of an example and its line of figures."""
    circuit, stance = opened(name)
    drawn = schematic_of(circuit, stance).drawn
    count = crossings(drawn)
    uprights = sum(not stroke.level for stroke in drawn.strokes)
    length = sum(abs(s.start[0] - s.end[0]) + abs(s.start[1] - s.end[1]) for s in drawn.strokes)
    sheet = schematic_sheet(circuit, stance)
    times = [
        milliseconds(lambda: schematic_of(circuit, stance), repeats),
        milliseconds(lambda: whole_drawing(drawn), repeats),
        milliseconds(lambda: svg_bytes(sheet), repeats),
    ]
    figures = f"{count:9} {uprights:9} {length:7.0f}"
    return count, f"{name:36} {figures} " + " ".join(f"{each:8.1f}" for each in times)


def graphs(circuit: Circuit, stance: Stance) -> list[list[dict[str, object]]]:
    """Return the graphs that are laid out for a circuit, as data."""
    nets = drawn_nets(circuit)
    symbols = gathered(circuit, nets, stance).symbols
    ways = ways_of(symbols, nets)
    found = []
    for group in components(symbols, ways):
        own = [symbols[number] for number in group]
        cast = cast_of(own, [ways[number] for number in group], {}, net_names(symbols))
        layout = best_layout(cast)
        found.append([data(layout.graph, number) for number in range(len(cast.symbols))])
    return [nodes for nodes in found if len(nodes) > 1]


def data(graph: LayeredGraph, number: int) -> dict[str, object]:
    node: Node = graph.nodes[number]
    heights = [node.above]
    for gap in node.gaps:
        heights.append(heights[-1] + gap.least)
    ports = [
        {
            "net": graph.strands.get(port.net, port.net),
            "side": "left" if port.side == LEFT else "right",
            "x": 0 if port.side == LEFT else node.left + node.right,
            "y": heights[port.station],
        }
        for port in node.ports
    ]
    size = {"width": node.left + node.right, "height": heights[-1] + node.below}
    return {"node": number, "layer": graph.layer[number], **size, "ports": ports}


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("repeats", nargs="?", type=int, default=5)
    parser.add_argument("--graphs", type=Path)
    asked = parser.parse_args()
    ensure_gui()
    heads = (
        f"{'crossings':>9} {'uprights':>9} {'length':>7} {'placing':>8} {'drawing':>8} {'SVG':>8}"
    )
    print(f"{'example':36} {heads}")
    total = 0
    for name in NAMES:
        count, line = row(name, asked.repeats)
        total += count
        print(line)
        if asked.graphs:
            asked.graphs.mkdir(parents=True, exist_ok=True)
            out = asked.graphs / f"{name}.json"
            out.write_text(json.dumps(graphs(*opened(name)), indent=1), encoding="utf-8")
    print(f"{'together':36} {total:9}")


if __name__ == "__main__":
    main()
