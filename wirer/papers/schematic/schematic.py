"""The whole schematic of a circuit, placed: signal from left to right, ground down."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance
from wirer.papers.schematic.component import laid_out
from wirer.papers.schematic.drawn import Drawn, shifted
from wirer.papers.schematic.gather import gathered
from wirer.papers.schematic.nets import drawn_nets
from wirer.papers.schematic.notes import notes_of
from wirer.papers.schematic.packing import packed
from wirer.papers.schematic.planning import components, screens_of, ways_of
from wirer.papers.schematic.symbols.single import Single
from wirer.papers.schematic.symbols.symbol import Symbol


@dataclass(frozen=True)
class Schematic:
    """A schematic: what is drawn, and what is said below it, a line each."""

    drawn: Drawn
    notes: tuple[str, ...]


def schematic_of(circuit: Circuit, stance: Stance) -> Schematic:
    """Return the schematic of a circuit with its switches as they stand."""
    nets = drawn_nets(circuit)
    found = gathered(circuit, nets, stance)
    ways = ways_of(found.symbols, nets)
    screens = screens_of(circuit, found.symbols, ways, nets)
    names = net_names(found.symbols)
    main: list[tuple[tuple[bool, int], Drawn]] = []
    shelf: list[Drawn] = []
    for group in components(found.symbols, ways):
        place = {number: index for index, number in enumerate(group)}
        own = {(place[n], slot): on for (n, slot), on in screens.at.items() if n in place}
        symbols = [found.symbols[number] for number in group]
        drawn = laid_out(symbols, [ways[number] for number in group], own, names)
        if len(symbols) == 1 and isinstance(symbols[0], Single):
            x, y = drawn.glyphs[0].points["pin"]
            shelf.append(shifted(drawn, -x, -y))
        else:
            main.append(((any(s.sink for s in symbols), len(symbols)), drawn))
    main.sort(key=lambda piece: piece[0], reverse=True)
    drawn = packed([drawn for _, drawn in main], shelf)
    return Schematic(drawn, notes_of(circuit, stance, found, screens))


def net_names(symbols: Sequence[Symbol]) -> dict[int, str]:
    """Return what each net is called where it is cut: by the first lug on it."""
    names: dict[int, str] = {}
    for symbol in symbols:
        for net, lugs in zip(symbol.nets, symbol.slot_lugs, strict=True):
            if lugs:
                names.setdefault(net, lugs[0])
    for symbol in symbols:
        for net in symbol.nets:
            names.setdefault(net, f"net {net}")
    return names
