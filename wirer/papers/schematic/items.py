"""The two-ended elements of a part as items of a drawing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from wirer.circuit import kind as k
from wirer.circuit.elements import Cell, Coil, Track, elements_of
from wirer.circuit.model import Circuit, Part
from wirer.circuit.values import number_of
from wirer.papers.schematic.legends import coil_value, heading, lug_text, track_value, value
from wirer.papers.schematic.nets import DrawnNets
from wirer.papers.schematic.symbols.item import Item, ItemForm
from wirer.papers.schematic.symbols.symbol import Pin

_FORMS: dict[type, ItemForm] = {
    k.ResistorElement: "resistor",
    k.CapacitorElement: "capacitor",
    k.InductorElement: "inductor",
}
_ROLES = ("finish", "start")


@dataclass(frozen=True)
class Pins:
    """Makes the pins of a part."""

    part: Part
    kind: k.Kind
    nets: DrawnNets

    def pin(self, name: str, text: str | None = None) -> Pin:
        """Return the pin of a lug, or of a joint inside; its text is the lug's name by default."""
        reference = f"{self.part.id}.{name}"
        inner = {f"{self.part.id}.{joint}" for joint in self.kind.inner}
        lugs = tuple(lug for lug in self.nets.pieces[reference] if lug not in inner)
        wired = [lug for lug in lugs if lug in self.nets.wired]
        names = [lug.partition(".")[2] for lug in wired or lugs]
        written = lug_text(self.part, names) if text is None else text
        return Pin(self.nets.of[reference], lugs, written)

    def plain(self, name: str) -> Pin:
        """Return the pin of a lug whose name says nothing, unless the builder gave it one."""
        return self.pin(name, None if self.part.lug_labels.get(name) else "")


def part_items(circuit: Circuit, part: Part, nets: DrawnNets) -> list[Item]:
    """Return the coils, tracks, resistors, capacitors, inductors and cells of a part.

    What stands for a coil's own capacitance and losses is no part of the drawing.
    """
    kind = circuit.kind_of(part)
    pins = Pins(part, kind, nets)
    resolved = list(elements_of(circuit, part))
    items: list[Item] = []
    coils = iter([e for e in resolved if isinstance(e, Coil)])
    tracks = iter([e for e in resolved if isinstance(e, Track)])
    cells = iter([e for e in resolved if isinstance(e, Cell)])
    for element in kind.elements:
        match element:
            case k.CoilElement():
                items.append(_coil(pins, element, next(coils)))
            case k.TrackElement():
                items.append(_track(pins, element, next(tracks)))
            case k.CellElement():
                next(cells)
                items.append(_plain(pins, "cell", "", element.plus, element.minus, ""))
            case k.ResistorElement() | k.CapacitorElement() | k.InductorElement():
                items += _two_ended(pins, element)
    return list(_headed(part, items))


def _headed(part: Part, items: list[Item]) -> Iterator[Item]:
    """Give the items their part's name; of several each value has the name of its piece."""
    title = heading(part, part.id)
    for item in items:
        own = item.name.partition(".")[2] if len(items) > 1 else ""
        lines = tuple(f"{own} {line}".strip() for line in item.lines if line)
        yield replace(item, title=title, lines=lines)


def _coil(pins: Pins, element: k.CoilElement, coil: Coil) -> Item:
    letters = tuple(
        "" if lug == role else role[0]
        for lug, role in zip((element.finish, element.start), _ROLES, strict=True)
    )
    return Item(
        "coil",
        pins.part.id,
        coil.name,
        pins.pin(element.finish),
        pins.pin(element.start),
        (coil_value(pins.part, coil),),
        positive="a" if coil.sign > 0 else "b",
        letters=(letters[0], letters[1]),
    )


def _track(pins: Pins, element: k.TrackElement, track: Track) -> Item:
    ccw, wiper, cw = element.ends
    end = pins.pin(cw)
    own = f"{pins.part.id}.{element.name}" if element.name else pins.part.id
    return Item(
        "track",
        pins.part.id,
        own,
        replace(end, text=f"{end.text} cw".strip()),
        pins.pin(ccw),
        (track_value(pins.part, track, own_law=bool(element.law)),),
        wiper=pins.pin(wiper),
        shaft=element.shaft,
    )


def _two_ended(
    pins: Pins, element: k.ResistorElement | k.CapacitorElement | k.InductorElement
) -> Iterator[Item]:
    if _is_of_a_coil(pins.kind, element):
        return
    if number_of(pins.part, pins.kind, element.value, element.name) is None:
        return
    text = value(pins.part, pins.kind, element.value, element.name)
    yield _plain(pins, _FORMS[type(element)], element.name, *element.between, text)


def _is_of_a_coil(kind: k.Kind, element: k.Element) -> bool:
    """Tell whether an element is the capacitance or the losses of a coil of the kind."""
    if not kind.coils:
        return False
    shared = any(not coil.shunt for coil in kind.coils)
    match element:
        case k.CapacitorElement():
            return shared and element.value == "capacitance"
        case k.ResistorElement():
            return element.value == "loss"
        case _:
            return False


def _plain(pins: Pins, form: ItemForm, own: str, a: str, b: str, text: str) -> Item:
    name = f"{pins.part.id}.{own}" if own else pins.part.id
    return Item(form, pins.part.id, name, pins.plain(a), pins.plain(b), (text,))
