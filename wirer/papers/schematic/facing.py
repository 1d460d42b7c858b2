"""Layers, and which way symbols face: mirrored where their nets then span less."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from wirer.papers.schematic.layered.graph import RIGHT
from wirer.papers.schematic.layered.layering import LayerDemands, Layers, layers_of
from wirer.papers.schematic.sides import before, flow_of
from wirer.papers.schematic.symbols.symbol import Symbol, Way

MIRROR_COST = 5.0
AGAINST_COST = 60.0
BEHIND_COST = 10.0
"""What it costs to mirror a symbol, to do so against all of the flow, to meet coils from behind."""

MOST_TRIED = 60
MOST_SYMBOLS = 120
"""In a larger drawing nothing is tried: the flow alone says how things face."""

Sides = tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class Facing:
    """The sides of each symbol's slots, and its layer."""

    sides: Sides
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

    def layered(sides: Sides) -> Layers:
        return _layers(symbols, ways, sides, flow.potential)

    fed = {net for symbol in symbols if symbol.source for net in symbol.nets}

    def awkward(sides: Sides) -> float:
        total = 0.0
        for number, (own, usual) in enumerate(zip(sides, flow.sides, strict=True)):
            if own != usual:
                nets = symbols[number].nets
                total += MIRROR_COST + AGAINST_COST * flow.against(number, nets)
                total += BEHIND_COST * sum(
                    net in fed and side == RIGHT for net, side in zip(nets, own, strict=True)
                )
        return total

    best, layers = flow.sides, layered(flow.sides)
    least = float(layers.cost)
    tries = MOST_TRIED if len(symbols) <= MOST_SYMBOLS else 0
    for group in _mirrored(symbols, best)[:tries]:
        sides = tuple(
            tuple(-side for side in own) if number in group else own
            for number, own in enumerate(best)
        )
        other = layered(sides)
        cost = other.cost + awkward(sides)
        if cost < least:
            best, layers, least = sides, other, cost
    return Facing(best, layers.of)


def _mirrored(symbols: Sequence[Symbol], sides: Sides) -> list[set[int]]:
    """Return what may be worth mirroring: poles of a switch that face otherwise than others."""
    kin: dict[str, list[int]] = defaultdict(list)
    for number, symbol in enumerate(symbols):
        if symbol.kin:
            kin[symbol.kin].append(number)
    groups: list[set[int]] = []
    for members in kin.values():
        one = {number for number in members if sides[number][0] == sides[members[0]][0]}
        other = set(members) - one
        groups += [each for each in (one, other) if other]
    free = [n for n, symbol in enumerate(symbols) if not (symbol.source or symbol.sink)]
    return [*groups, *({number} for number in free)]


def _layers(
    symbols: Sequence[Symbol],
    ways: Sequence[Sequence[Way]],
    sides: Sides,
    potential: Sequence[float],
) -> Layers:
    ends = [
        [(net, side) for net, side, way in zip(symbol.nets, own, how, strict=True) if way == "port"]
        for symbol, own, how in zip(symbols, sides, ways, strict=True)
    ]
    kin: dict[str, list[int]] = defaultdict(list)
    for number, symbol in enumerate(symbols):
        if symbol.kin:
            kin[symbol.kin].append(number)
    return layers_of(
        LayerDemands(
            ends,
            before=before(potential, ends),
            first=[number for number, symbol in enumerate(symbols) if symbol.source],
            last=[number for number, symbol in enumerate(symbols) if symbol.sink],
            kin=list(kin.values()),
        )
    )
