"""Every single slip of a wiring job, by construction: what a tired hand can do to a right circuit.

Which slips are made is stated in the project's own terms; that they happen is common practice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import combinations, product

from msgspec.structs import replace

from tests.faults.neighbours import about, neighbouring_pairs, within_reach
from wirer.circuit.elements import Coil, circuit_elements
from wirer.circuit.model import Circuit, Part, Wire
from wirer.circuit.values import value_of
from wirer.layout.placement import lug_points, place_parts

OPPOSITE = {"cw": "ccw", "ccw": "cw", "north": "south", "south": "north"}
POLAR = ("winding", "pole")
BRIDGE = "slip"
"""The id of the blob of solder that bridges two lugs."""


@dataclass(frozen=True)
class Slip:
    """One slip: its sort, what it is in words, its own lugs, wires and parts, and the result."""

    sort: str
    text: str
    places: frozenset[str]
    circuit: Circuit


def all_slips(circuit: Circuit) -> Iterator[Slip]:
    """Yield every slip of a circuit, in a fixed order."""
    for sort in SORTS.values():
        yield from sort(circuit)


def left_out(circuit: Circuit) -> Iterator[Slip]:
    """Each wire left out, a bolted joint left loose, a screen not soldered."""
    for wire in circuit.wires:
        rest = tuple(w for w in circuit.wires if w is not wire)
        places = frozenset((wire.id, *_lugs(wire)))
        text = f"{wire.id} left out ({' to '.join(wire.ends)})"
        yield Slip("left out", text, places, replace(circuit, wires=rest))
        for field in _screens(wire):
            loose = replace(wire, **{field: None})
            text = f"{wire.id} its screen off {getattr(wire, field)}"
            yield Slip("left out", text, places, _with(circuit, loose))


def moved(circuit: Circuit) -> Iterator[Slip]:
    """Each wire end at each other lug of the same part, and at each lug within 15 mm."""
    points = lug_points(place_parts(circuit))
    for wire in circuit.wires:
        if wire.style == "mount":
            continue
        for field in ("from_lug", "to_lug", *_screens(wire)):
            lug = getattr(wire, field)
            for other in within_reach(points, lug):
                places = frozenset((wire.id, lug, other))
                text = f"{wire.id} at {other} for {lug}"
                changed = replace(wire, **{field: other})
                yield Slip("moved", text, places, _with(circuit, changed))


def bridged(circuit: Circuit) -> Iterator[Slip]:
    """Each pair of neighbouring lugs joined by a blob of solder."""
    for a, b in neighbouring_pairs(lug_points(place_parts(circuit))):
        blob = Wire(id=BRIDGE, from_lug=a, to_lug=b, style="mount")  # takes no room on a lug
        text = f"{a} bridged to {b}"
        wires = (*circuit.wires, blob)
        yield Slip("bridged", text, frozenset((BRIDGE, a, b)), replace(circuit, wires=wires))


def swapped(circuit: Circuit) -> Iterator[Slip]:
    """Each two ends of wires that look alike exchanged."""
    soldered = [wire for wire in circuit.wires if wire.style != "mount"]
    for first, second in combinations(soldered, 2):
        if _look(first) != _look(second):
            continue
        for near, far in product(("from_lug", "to_lug"), repeat=2):
            a, b = getattr(first, near), getattr(second, far)
            if a == b:
                continue
            text = f"{first.id} at {b} and {second.id} at {a}"
            changed = replace(first, **{near: b}), replace(second, **{far: a})
            places = frozenset((first.id, second.id, a, b))
            yield Slip("swapped", text, places, _with(circuit, *changed))


def turned_about(circuit: Circuit) -> Iterator[Slip]:
    """Each part turned by 180° after its wires were cut to length: they go to the mirrored lugs."""
    placements = place_parts(circuit)
    for part in circuit.parts:
        kind = circuit.kind_of(part)
        sleeve = kind.output.sleeve if kind.output else ""
        free = [lug.name for lug in kind.lugs if not lug.metal or lug.name == sleeve]
        if len(free) > 1:
            lugs = placements[part.id].lugs
            to = about({f"{part.id}.{name}": lugs[name] for name in free})
            yield _rewired(circuit, "turned", f"{part.id} turned about", part, to)


def leads_swapped(circuit: Circuit) -> Iterator[Slip]:
    """Each coil's two leads exchanged, where both are led out."""
    lugs = set(circuit.lugs)
    for coil in circuit_elements(circuit):
        if isinstance(coil, Coil) and {coil.start, coil.finish} <= lugs:
            to = {coil.start: coil.finish, coil.finish: coil.start}
            part = circuit.part_by_id[coil.part]
            yield _rewired(circuit, "leads", f"leads of {coil.name} swapped", part, to)


def flipped(circuit: Circuit) -> Iterator[Slip]:
    """Each polar value turned about, of a part and of each of its coils alone."""
    for part in circuit.parts:
        kind = circuit.kind_of(part)
        coils = [coil.name for coil in kind.coils if coil.name]
        for name in POLAR:
            if name in kind.parameters:
                yield from _flips(circuit, part, name, "")
                for coil in coils:
                    yield from _flips(circuit, part, name, coil)


def _flips(circuit: Circuit, part: Part, name: str, coil: str) -> Iterator[Slip]:
    kind = circuit.kind_of(part)
    now = str(value_of(part, kind, name, coil))
    opposite = next((e.opposite_pole for e in kind.coils if coil and e.name == coil), False)
    if opposite and name == "pole" and f"{coil}.{name}" not in part.values:
        now = OPPOSITE.get(now, now)
    if now not in OPPOSITE:
        return
    key = f"{coil}.{name}" if coil else name
    field = "measured" if key in part.measured else "values"
    entries = {**getattr(part, field), key: OPPOSITE[now]}
    parts = tuple(replace(p, **{field: entries}) if p is part else p for p in circuit.parts)
    places = {part.id, *(f"{part.id}.{lug.name}" for lug in kind.lugs)}
    text = f"{part.id} {key} is {OPPOSITE[now]}"
    yield Slip("flipped", text, frozenset(places), replace(circuit, parts=parts))


SORTS: dict[str, Callable[[Circuit], Iterable[Slip]]] = {
    "left out": left_out,
    "moved": moved,
    "bridged": bridged,
    "swapped": swapped,
    "turned": turned_about,
    "leads": leads_swapped,
    "flipped": flipped,
}


def _lugs(wire: Wire) -> tuple[str, ...]:
    return tuple(lug for lug in (*wire.ends, wire.screen_from, wire.screen_to) if lug)


def _screens(wire: Wire) -> tuple[str, ...]:
    return tuple(f for f in ("screen_from", "screen_to") if getattr(wire, f))


def _look(wire: Wire) -> tuple[str, bool]:
    return wire.colour or wire.style, wire.style == "screened"


def _with(circuit: Circuit, *changed: Wire) -> Circuit:
    by_id = {wire.id: wire for wire in changed}
    return replace(circuit, wires=tuple(by_id.get(w.id, w) for w in circuit.wires))


def _rewired(circuit: Circuit, sort: str, text: str, part: Part, to: Mapping[str, str]) -> Slip:
    """Return the circuit with the wires of some lugs of a part at other lugs of it."""
    fields = ("from_lug", "to_lug", "screen_from", "screen_to")
    wires = tuple(
        replace(wire, **{f: to.get(lug, lug) for f in fields if (lug := getattr(wire, f))})
        for wire in circuit.wires
    )
    places = frozenset((part.id, *to))
    return Slip(sort, text, places, replace(circuit, wires=wires))
