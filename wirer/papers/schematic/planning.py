"""How each symbol of a circuit is to stand: what leads to ground, to a wire, or nowhere."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from wirer.circuit.model import Circuit, Wire
from wirer.papers.schematic.layered.graph import LEFT, RIGHT
from wirer.papers.schematic.nets import DrawnNets
from wirer.papers.schematic.symbols.single import NamedEnd
from wirer.papers.schematic.symbols.symbol import End, Plan, Symbol, Way

LONGEST_RUN = 3
"""A net that would pass through more layers in which it has no business gets named ends."""

Slot = tuple[int, int]
"""A symbol's number and the number of one of its slots."""


def ways_of(symbols: Sequence[Symbol], nets: DrawnNets) -> list[list[Way]]:
    """Return how each slot leads out, before any net is cut."""
    count = Counter(net for symbol in symbols for net in symbol.nets)
    return [
        [
            "ground" if net == nets.ground else "port" if count[net] > 1 else "open"
            for net in symbol.nets
        ]
        for symbol in symbols
    ]


def components(symbols: Sequence[Symbol], ways: Sequence[Sequence[Way]]) -> list[list[int]]:
    """Return the symbols by what wires hold together, in their order."""
    members: dict[int, list[int]] = defaultdict(list)
    for number, (symbol, own) in enumerate(zip(symbols, ways, strict=True)):
        for net, way in zip(symbol.nets, own, strict=True):
            if way == "port":
                members[net].append(number)
    group = list(range(len(symbols)))
    for found in members.values():
        roots = {_root(group, number) for number in found}
        for root in roots:
            group[root] = min(roots)
    gathered: dict[int, list[int]] = defaultdict(list)
    for number in range(len(symbols)):
        gathered[_root(group, number)].append(number)
    return list(gathered.values())


def _root(group: list[int], number: int) -> int:
    while group[number] != number:
        group[number] = group[group[number]]
        number = group[number]
    return number


@dataclass(frozen=True)
class Screens:
    """Which slots have a screened wire, and which wires' screens can't be shown.

    `at` says of a slot whether the screen there is on ground.
    """

    at: Mapping[Slot, bool]
    hidden: tuple[str, ...]


def screens_of(
    circuit: Circuit, symbols: Sequence[Symbol], ways: Sequence[Sequence[Way]], nets: DrawnNets
) -> Screens:
    """Return where the screens of wires are shown: at the end where the screen is led off."""
    slot_of = {
        lug: (number, slot)
        for number, symbol in enumerate(symbols)
        for slot, lugs in enumerate(symbol.slot_lugs)
        for lug in lugs
    }
    busy = Counter(lug for wire in circuit.wires for lug in wire.ends)
    at: dict[Slot, bool] = {}
    hidden = []
    for wire in circuit.wires:
        if wire.style != "screened" or wire.from_lug == wire.to_lug:
            continue
        shown = [
            (bool(screen), -busy[lug], slot_of[lug])
            for lug, screen in ((wire.from_lug, wire.screen_from), (wire.to_lug, wire.screen_to))
            if lug in slot_of and ways[slot_of[lug][0]][slot_of[lug][1]] == "port"
        ]
        if shown:
            slot = max(shown)[2]
            at[slot] = at.get(slot, False) or _is_grounded(wire, nets)
        else:
            hidden.append(wire.id)
    return Screens(at, tuple(hidden))


def _is_grounded(wire: Wire, nets: DrawnNets) -> bool:
    screens = [lug for lug in (wire.screen_from, wire.screen_to) if lug]
    return any(nets.ground is not None and nets.of.get(lug) == nets.ground for lug in screens)


@dataclass
class Cast:
    """The symbols of one component with their plans and layers, named ends included."""

    symbols: list[Symbol]
    plans: list[Plan]
    layers: list[int]


def planned(
    symbols: Sequence[Symbol],
    ways: Sequence[Sequence[Way]],
    sides: Sequence[Sequence[int]],
    layers: Sequence[int],
    screens: Mapping[Slot, bool],
    names: Mapping[int, str],
) -> Cast:
    """Return the plans of a component's symbols; nets that run too far get named ends.

    `screens` goes by the numbers of these symbols; `names` has what a net is called.
    """
    cast = Cast(list(symbols), [], list(layers))
    channels: dict[int, dict[Slot, int]] = defaultdict(dict)
    for number, (symbol, own) in enumerate(zip(symbols, ways, strict=True)):
        ends = []
        for slot, (net, way) in enumerate(zip(symbol.nets, own, strict=True)):
            side = sides[number][slot]
            screened = (number, slot) in screens
            grounded = screens.get((number, slot), False)
            ends.append(End(way, side, net, "", screened, grounded))
            if way == "port":
                channels[net][number, slot] = layers[number] + (side == RIGHT)
        cast.plans.append(Plan(tuple(ends)))
    spare = max((net for symbol in symbols for net in symbol.nets), default=0) + 1
    for net, slots in sorted(channels.items()):
        pieces = _pieces(slots)
        if len(pieces) > 1:
            for piece in pieces:
                _name_end(cast, piece, slots, spare, names[net])
                spare += 1
    return cast


def _pieces(slots: Mapping[Slot, int]) -> list[list[Slot]]:
    """Return the slots of a net in pieces that lie near each other."""
    ordered = sorted(slots, key=lambda slot: (slots[slot], slot))
    pieces: list[list[Slot]] = []
    for slot in ordered:
        if pieces and slots[slot] - slots[pieces[-1][-1]] <= LONGEST_RUN:
            pieces[-1].append(slot)
        else:
            pieces.append([slot])
    return pieces


def _name_end(
    cast: Cast, piece: Iterable[Slot], slots: Mapping[Slot, int], net: int, name: str
) -> None:
    """Give a piece of a net a number of its own and a named end."""
    own = list(piece)
    for number, slot in own:
        ends = list(cast.plans[number].ends)
        way: Way = "flag" if len(own) == 1 else "port"
        ends[slot] = replace(ends[slot], way=way, net=net, name=name)
        cast.plans[number] = replace(cast.plans[number], ends=tuple(ends))
    if len(own) > 1:
        channel = slots[own[0]]
        beyond = channel <= max(cast.layers)
        cast.symbols.append(NamedEnd(name, net))
        side = LEFT if beyond else RIGHT
        cast.plans.append(Plan((End("port", side, net),)))
        cast.layers.append(channel if beyond else channel - 1)
