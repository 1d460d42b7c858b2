"""Laying out what hangs together: layers, order, places, and the picture of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations

from wirer.papers.schematic.choices import choices_of, turn
from wirer.papers.schematic.drawn import Drawn, Stroke, shifted
from wirer.papers.schematic.facing import facing_of
from wirer.papers.schematic.kin import gather_kin, hang, kin_links
from wirer.papers.schematic.layered.graph import LayeredGraph, Placement
from wirer.papers.schematic.layered.ordering import Ordering, ordered
from wirer.papers.schematic.layered.placing import merit, placed
from wirer.papers.schematic.layered.rows import STRANDS, parted, rows_of
from wirer.papers.schematic.planning import Cast, Slot, planned
from wirer.papers.schematic.symbols.single import NamedEnd, Single
from wirer.papers.schematic.symbols.symbol import Plan, Symbol, Way
from wirer.papers.schematic.wires import dots_of, tidied

DISORDER = 2
MOST_ORDERS = 3
MOST_TRIED = 300
"""How many symbols are laid out over again at most, to better a first layout."""


@dataclass(frozen=True)
class Layout:
    """A way to lay a cast out, with its merit: the lower the better."""

    cast: Cast
    graph: LayeredGraph
    ordering: Ordering
    placement: Placement

    @cached_property
    def merit(self) -> tuple[int, int, int]:
        """Crossings, uprights and parts out of their order, length."""
        crossings, uprights, length = merit(self.placement)
        return crossings, uprights + DISORDER * self._disorder, length

    @property
    def _disorder(self) -> int:
        """How many pairs of the first layer stand otherwise than their parts are listed."""
        first = [v for v in self.ordering.order[1] if v < len(self.cast.symbols)]
        return sum(a > b for a, b in combinations(first, 2))


def laid_out(
    symbols: Sequence[Symbol],
    ways: Sequence[Sequence[Way]],
    screens: Mapping[Slot, bool],
    names: Mapping[int, str],
) -> Drawn:
    """Return the picture of symbols that wires hold together."""
    return picture_of(best_layout(cast_of(symbols, ways, screens, names)))


def best_layout(cast: Cast) -> Layout:
    """Return the best layout found.

    While wires cross, nets are led singly for a while, and what hangs on a wire alone is hung from
    its other side, where they then cross less.
    """
    tries = MOST_TRIED // len(cast.symbols)
    best = _layout(cast, [], max(1, min(MOST_ORDERS, tries)))
    late: list[int] = []
    nets = {port.net for node in best.graph.nodes for port in node.ports if port.net < STRANDS}
    for net in sorted(nets):
        if tries > 0 and best.merit[0] and parted(best.graph, net) is not None:
            tries -= 1
            other = _layout(cast, [*late, net], 1)
            if other.merit < best.merit:
                best, late = other, [*late, net]
    for number, symbol in enumerate(cast.symbols):
        lone = isinstance(symbol, Single | NamedEnd)
        mirrored = _mirrored(best.cast, number) if lone and best.merit[0] and tries > 0 else None
        if mirrored is not None:
            tries -= 1
            other = _layout(mirrored, late, 1)
            best = min(other, best, key=lambda layout: layout.merit)
    return best


def _mirrored(cast: Cast, number: int) -> Cast | None:
    """Return the cast with a symbol of one end on the other side of its wire, a layer off."""
    plan, layer = cast.plans[number], cast.layers[number]
    side = plan.ends[0].side
    first = min((n for s, n in zip(cast.symbols, cast.layers, strict=True) if not s.source))
    if plan.ends[0].way != "port" or not first <= layer + side <= max(cast.layers):
        return None
    plans, layers = list(cast.plans), list(cast.layers)
    plans[number] = Plan((replace(plan.ends[0], side=-side),), plan.heading)
    layers[number] = layer + side
    if set(layers) != set(cast.layers):
        return None
    return Cast(list(cast.symbols), plans, layers)


def _layout(cast: Cast, late: Sequence[int], most: int) -> Layout:
    """Return the best of some orders, with the `late` nets led singly where they can be."""
    choices, variants = choices_of(cast)
    layouts = []
    for ordering in ordered(rows_of(_parted(graph_of(cast), late)), choices, most):
        own = Cast(list(cast.symbols), list(cast.plans), cast.layers)
        turn(own, ordering, variants)
        gather_kin(own, ordering)
        hang(own, ordering)
        graph = _parted(graph_of(own), late)
        layouts.append(Layout(own, graph, ordering, placed(graph, ordering)))
    return min(layouts, key=lambda layout: layout.merit)


def _parted(graph: LayeredGraph, late: Sequence[int]) -> LayeredGraph:
    for net in late:
        graph = parted(graph, net) or graph
    return graph


def cast_of(
    symbols: Sequence[Symbol],
    ways: Sequence[Sequence[Way]],
    screens: Mapping[Slot, bool],
    names: Mapping[int, str],
) -> Cast:
    """Return the symbols of a component with their plans and layers."""
    facing = facing_of(symbols, ways)
    return planned(symbols, ways, facing.sides, facing.layers, screens, names)


def graph_of(cast: Cast) -> LayeredGraph:
    """Return the graph of a cast: the room that each symbol takes."""
    nodes = [symbol.node(plan) for symbol, plan in zip(cast.symbols, cast.plans, strict=True)]
    return LayeredGraph(tuple(nodes), tuple(cast.layers), max(cast.layers) + 1)


def picture_of(layout: Layout) -> Drawn:
    """Return the picture of a layout."""
    cast, placement = layout.cast, layout.placement
    drawn = Drawn()
    for number, (symbol, plan) in enumerate(zip(cast.symbols, cast.plans, strict=True)):
        picture = symbol.placed(plan, placement.stations[number], layout.graph.nodes[number])
        drawn.add(shifted(picture, placement.axes[cast.layers[number]], 0.0))
    drawn.strokes += [Stroke(net, (x1, y1), (x2, y2)) for net, x1, y1, x2, y2 in placement.lines]
    drawn.strokes = tidied(drawn.strokes)
    drawn.dots = dots_of(drawn.strokes, drawn.glyphs)
    drawn.links += kin_links(cast, layout.ordering, placement)
    return drawn
