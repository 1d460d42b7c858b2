"""In which ways the symbols of a cast may stand, for the ordering to choose from."""

from __future__ import annotations

from collections import defaultdict

from wirer.papers.schematic.layered.graph import LEFT, RIGHT
from wirer.papers.schematic.layered.ordering import Choice, Ordering
from wirer.papers.schematic.planning import Cast
from wirer.papers.schematic.symbols.symbol import Plan, Symbol, Variant

Variants = dict[tuple[int, int], Variant]
"""By the number of a symbol and that of the way in which it may stand (0: as it is)."""


def choices_of(cast: Cast) -> tuple[list[Choice], Variants]:
    """Return what may stand otherwise; the poles of a switch do so together."""
    variants: Variants = {}
    groups: dict[str, list[int]] = defaultdict(list)
    for number, (symbol, plan) in enumerate(zip(cast.symbols, cast.plans, strict=True)):
        found = symbol.variants(plan)
        variants |= {(number, way): variant for way, variant in enumerate(found, 1)}
        if found:
            groups[symbol.kin or f"{number}"].append(number)
    choices = []
    for group in groups.values():
        count = len([1 for number, _ in variants if number == group[0]])
        options = [{number: _places(cast, number, None) for number in group}]
        options += [
            {number: _places(cast, number, variants[number, way]) for number in group}
            for way in range(1, count + 1)
        ]
        choices.append(Choice(tuple(options)))
    return choices, variants


def _places(cast: Cast, number: int, variant: Variant | None) -> dict[int, list[int]]:
    """Return for each side the ports of a symbol, from top to bottom, by their first places."""
    plan = cast.plans[number]
    usual = _slots_by_height(cast.symbols[number], plan)
    slots = usual
    if variant is not None:
        slots = [variant.slots[slot] for slot in _slots_by_height(variant.symbol, variant.plan)]
    places: dict[int, list[int]] = {}
    for side in (LEFT, RIGHT):
        before = [slot for slot in usual if plan.ends[slot].side == side]
        places[side] = [before.index(slot) for slot in slots if plan.ends[slot].side == side]
    return places


def _slots_by_height(symbol: Symbol, plan: Plan) -> list[int]:
    stations = symbol.stations
    ports = [slot for slot, end in enumerate(plan.ends) if end.way == "port"]
    return sorted(ports, key=lambda slot: stations[slot])


def turn(cast: Cast, ordering: Ordering, variants: Variants) -> None:
    """Let symbols stand as the ordering has chosen."""
    for number, way in ordering.ways.items():
        if way:
            cast.symbols[number] = variants[number, way].symbol
            cast.plans[number] = variants[number, way].plan
