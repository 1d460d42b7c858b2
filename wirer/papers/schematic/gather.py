"""Every symbol that a circuit needs, and what is said of it in words instead."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Literal

from wirer.circuit.kind import BondElement, Kind
from wirer.circuit.model import Circuit, Part
from wirer.circuit.stance import Stance
from wirer.papers.schematic.compose import Netting, composed
from wirer.papers.schematic.contacts import part_contacts
from wirer.papers.schematic.items import Pins, part_items
from wirer.papers.schematic.legends import heading
from wirer.papers.schematic.nets import DrawnNets
from wirer.papers.schematic.symbols.item import Item
from wirer.papers.schematic.symbols.jack import Contact, Jack, Spring
from wirer.papers.schematic.symbols.single import Single
from wirer.papers.schematic.symbols.symbol import Pin, Symbol

TOGETHER = ("coil", "track")


@dataclass
class Gathered:
    """The symbols of a circuit. `unused` names poles and lugs not drawn, `untold` by part id."""

    symbols: list[Symbol] = field(default_factory=list)
    unused: list[str] = field(default_factory=list)
    untold: dict[str, str] = field(default_factory=dict)


@dataclass
class _Parts:
    """What the parts come to before their elements are put together."""

    stacks: list[list[Item]] = field(default_factory=list)
    loose: list[Item] = field(default_factory=list)
    others: list[Symbol] = field(default_factory=list)


def gathered(circuit: Circuit, nets: DrawnNets, stance: Stance) -> Gathered:
    """Return the symbols of a circuit with its switches as they stand."""
    result, parts = Gathered(), _Parts()
    for part in circuit.parts:
        kind = circuit.kind_of(part)
        items = part_items(circuit, part, nets)
        stacks = _stacks(items)
        parts.stacks += stacks
        parts.loose += [item for item in items if item.form not in TOGETHER]
        contacts = part_contacts(circuit, part, nets, stance)
        parts.others += contacts.poles
        result.unused += contacts.unused
        if contacts.untold:
            result.untold[part.id] = contacts.untold
        covered = contacts.covered.union(*(_item_lugs(item) for item in items))
        if kind.output:
            jack = _jack(Pins(part, kind, nets), covered)
            parts.others.append(jack)
            covered = covered.union(*jack.slot_lugs)
        bare = not items and not contacts.covered and not kind.output
        _add_singles(Pins(part, kind, nets), covered, bare, parts, result)
    netting = _netting(parts, nets)
    result.symbols = [*composed(parts.stacks, parts.loose, netting), *parts.others]
    return result


def _stacks(items: Sequence[Item]) -> list[list[Item]]:
    """Return what stands together: the coils of a part, and the tracks that a shaft turns."""
    stacks: dict[tuple[str, str], list[Item]] = {}
    for item in items:
        if item.form in TOGETHER:
            stacks.setdefault((item.form, item.shaft), []).append(item)
    return list(stacks.values())


def _item_lugs(item: Item) -> set[str]:
    return {lug for pin in item.pins for lug in pin.lugs}


def _jack(pins: Pins, covered: frozenset[str]) -> Jack:
    output = pins.kind.output
    assert output is not None
    by_plug = {
        lug
        for element in pins.kind.elements
        if isinstance(element, BondElement) and element.plug
        for lug in element.lugs
    }
    contacts = [Contact(pins.pin(output.tip), "tip")]
    sleeve = pins.pin(output.sleeve)
    taken = {*covered, *contacts[0].pin.lugs, *sleeve.lugs}
    for lug in pins.kind.lugs:
        if f"{pins.part.id}.{lug.name}" in taken or lug.metal:
            continue
        pin = pins.pin(lug.name)
        spring: Spring = "ring" if lug.name in by_plug else "parted"
        contacts.append(Contact(pin, spring))
        taken.update(pin.lugs)
    return Jack(pins.part.id, heading(pins.part, pins.part.id), contacts, sleeve)


def _add_singles(
    pins: Pins, covered: frozenset[str], bare: bool, parts: _Parts, result: Gathered
) -> None:
    """Add the lugs that no element touches; one that no wire reaches is only named."""
    done = set(covered)
    for lug in pins.kind.lugs:
        reference = f"{pins.part.id}.{lug.name}"
        if reference in done:
            continue
        pin = pins.pin(lug.name)
        done.update(pin.lugs)
        if bare or any(each in pins.nets.wired for each in pin.lugs):
            lines = _single_lines(pins.part, pins.kind, pin, bare)
            form: Literal["metal", "post"] = "metal" if lug.metal else "post"
            parts.others.append(Single(form, pins.part.id, lines, pin))
        else:
            result.unused.append(reference)


def _single_lines(part: Part, kind: Kind, pin: Pin, bare: bool) -> tuple[str, ...]:
    names = heading(part, part.id)
    if bare and len(kind.lugs) == 1:
        return names
    return (*names, pin.text) if bare else (part.id, pin.text)


def _netting(parts: _Parts, nets: DrawnNets) -> Netting:
    return Netting(Counter(_pin_nets(parts)), nets.ground)


def _pin_nets(parts: _Parts) -> Iterator[int]:
    for item in (*parts.loose, *(item for stack in parts.stacks for item in stack)):
        yield from (pin.net for pin in item.pins)
    for symbol in parts.others:
        yield from symbol.nets
