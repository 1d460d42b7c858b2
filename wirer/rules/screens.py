"""Rules of screens: the braid of a screened wire is metal too."""

from __future__ import annotations

from collections.abc import Iterator

import networkx as nx

from wirer.circuit.model import split_lug
from wirer.rules.finding import Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import part_name
from wirer.rules.registry import rule
from wirer.rules.wiring import fixed_graph


@rule(
    "screen-open",
    "warning",
    wrong="The screen of a wire is not on ground.",
    heard="Buzz that changes when a hand nears the wire: it picks up more than a plain one.",
    meter="From the screen to the sleeve reads open.",
    mend="Solder the screen to ground at one end.",
)
def screen_open(inspection: Inspection) -> Iterator[Remark]:
    """Find screened wires whose screen is nowhere on ground."""
    for wire in inspection.circuit.wires:
        if wire.style != "screened":
            continue
        ends = [lug for lug in (wire.screen_from, wire.screen_to) if lug]
        if not ends:
            yield Remark(f"The screen of wire {wire.id} is connected nowhere.", (wire.id,))
        elif inspection.circuit.jacks:
            rows = ~inspection.facts.grounded(inspection.net(ends[0]))
            if rows.any():
                text = f"The screen of wire {wire.id} is not on ground."
                yield Remark(text, (wire.id, *ends), None if rows.all() else rows)


@rule(
    "screen-carries",
    "note",
    wrong="The screen of a wire is the only ground return of a part.",
    heard="Nothing, as long as both its joints hold.",
    meter="With the screen lifted at one end the part's ground reads open.",
    mend="Sound practice if both ends are soldered well; a separate ground wire is surer.",
)
def screen_carries(inspection: Inspection) -> Iterator[Remark]:
    """Find screens without which a part loses its ground."""
    harness = inspection.harness
    graph = fixed_graph(inspection.circuit)
    for wire in inspection.circuit.wires:
        ends = wire.screen_from, wire.screen_to
        if None in ends or harness.net_of[str(ends[0])] != harness.ground:
            continue
        kept = nx.MultiGraph(graph)
        kept.remove_edge(*ends, key=_screen_key(kept, ends, wire.id))
        if not nx.has_path(kept, *ends):
            parts = dict.fromkeys(split_lug(str(lug))[0] for lug in ends)
            names = " and ".join(part_name(inspection.circuit, part) for part in parts)
            text = f"The screen of wire {wire.id} is the only ground between {names}."
            yield Remark(text, (wire.id, *map(str, ends)))


def _screen_key(graph: nx.MultiGraph, ends: tuple[str | None, str | None], wire: str) -> int:
    edges: dict[int, dict[str, object]] = graph[ends[0]][ends[1]]
    return next(k for k, data in edges.items() if data.get("screen") and data["wire"] == wire)
