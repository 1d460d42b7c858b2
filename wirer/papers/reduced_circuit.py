"""The reduced circuit of a setting: what the amplifier sees, every element with its value."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from wirer.analysis.analyst import Analyst
from wirer.analysis.combination import Combination
from wirer.analysis.harness import Branch
from wirer.analysis.liveness import GROUND, HOT
from wirer.analysis.reduction import Ends, Tree, whole_tree
from wirer.analysis.system import Load
from wirer.circuit.quantity import format_quantity

Symbol = Literal["coil", "resistor", "capacitor", "inductor"]


@dataclass(frozen=True, slots=True)
class Item:
    """One element of a reduced circuit: its symbol, its name and its value, for people.

    `sign` is for a coil +1 if its signal is positive at the second of its nets, −1 at the first.
    """

    symbol: Symbol
    name: str
    value: str
    sign: int = 1


@dataclass(frozen=True)
class ReducedCircuit:
    """A reduced circuit: items (in places 0, 1 …) between nets, 0 ground and 1 hot.

    The items from `guitar` on are the output load, which is no part of the guitar.

    `tree` joins the places in series and parallel, from ground to hot; None where the network is
    not series-parallel, or where nothing carries signal.
    """

    items: tuple[Item, ...]
    ends: Ends
    tree: Tree | None
    guitar: int = 0


def reduced_circuit(
    analyst: Analyst, combination: Combination, *, by_id: bool = False
) -> ReducedCircuit:
    """Return the reduced circuit of a combination of an analyst's circuit.

    Parts are called by their labels, or `by_id` as in the formula of a sound.
    """
    network = combination.network
    if network is None:
        return ReducedCircuit((), (), None)
    load = tuple(_load_items(analyst.load))
    items = (*_items(analyst, combination, by_id=by_id), *load)
    ends = (*network.ends, *((GROUND, HOT) for _ in load))
    return ReducedCircuit(items, ends, whole_tree(ends), len(network.ends))


def without_load(circuit: ReducedCircuit) -> ReducedCircuit:
    """Return what of a reduced circuit is in the guitar."""
    count = circuit.guitar
    ends = circuit.ends[:count]
    return ReducedCircuit(circuit.items[:count], ends, whole_tree(ends) if ends else None, count)


def _items(analyst: Analyst, combination: Combination, *, by_id: bool) -> Iterator[Item]:
    harness = analyst.signal
    names = {part.id: part.id if by_id else part.name for part in harness.circuit.parts}
    network = combination.network
    for index in network.branches if network else ():
        branch = harness.branches[index]
        if branch.coil is None:
            yield _load_item(branch, names[branch.part])
            continue
        about = -1 if index in combination.reversed else 1
        own = branch.coil.name.partition(".")[2]
        name = f"{names[branch.part]}{'.' if by_id else ' '}{own}" if own else names[branch.part]
        yield Item("coil", name, _coil_value(branch), branch.coil.sign * about)


def _load_items(load: Load) -> Iterator[Item]:
    """Yield what the jack is plugged into, which is no part of the guitar."""
    if load.farad:
        yield Item("capacitor", "Cable", format_quantity(load.farad, "capacitance"))
    if load.ohm:
        yield Item("resistor", "Input", format_quantity(load.ohm, "resistance"))


def _coil_value(branch: Branch) -> str:
    ohm = format_quantity(branch.ohm, "resistance")
    return f"{ohm}, {format_quantity(branch.henry, 'inductance')}"


def _load_item(branch: Branch, name: str) -> Item:
    if not branch.conducts:
        return Item("capacitor", name, format_quantity(branch.farad, "capacitance"))
    if branch.henry:
        return Item("inductor", name, format_quantity(branch.henry, "inductance"))
    return Item("resistor", name, format_quantity(branch.ohm, "resistance"))
