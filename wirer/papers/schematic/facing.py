"""To which side the slots of symbols lead, and in which layer each symbol lies."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from wirer.papers.schematic.layered.layering import LayerDemands, layers_of
from wirer.papers.schematic.sides import before, flow_of
from wirer.papers.schematic.symbols.symbol import Symbol, Way


@dataclass(frozen=True)
class Facing:
    """The sides of each symbol's slots, and its layer."""

    sides: tuple[tuple[int, ...], ...]
    layers: list[int]


def facing_of(symbols: Sequence[Symbol], ways: Sequence[Sequence[Way]]) -> Facing:
    """Return how the symbols of a component face, and their layers."""
    joined = {
        net
        for symbol, own in zip(symbols, ways, strict=True)
        for net, way in zip(symbol.nets, own, strict=True)
        if way == "port"
    }
    flow = flow_of(symbols, joined)
    ends = [
        [(net, side) for net, side, way in zip(symbol.nets, own, how, strict=True) if way == "port"]
        for symbol, own, how in zip(symbols, flow.sides, ways, strict=True)
    ]
    kin: dict[str, list[int]] = defaultdict(list)
    for number, symbol in enumerate(symbols):
        if symbol.kin:
            kin[symbol.kin].append(number)
    demands = LayerDemands(
        ends,
        before=before(flow.potential, ends),
        first=[number for number, symbol in enumerate(symbols) if symbol.source],
        last=[number for number, symbol in enumerate(symbols) if symbol.sink],
        kin=list(kin.values()),
    )
    return Facing(flow.sides, layers_of(demands))
