"""Circuits at random, over every kind of the catalogue: hypothesis strategies.

`circuits()` gives anything that is a circuit, however wrongly wired; `guitars()` (or
`circuits(wired_like_a_guitar=True)`) one with a jack whose coils are mostly connected between
ground and hot; `documents()` a circuit with a stance. All take the kinds to choose from; none
knows a kind by name.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import cycle
from typing import Any

from hypothesis import strategies as st

from tests.support.quantities import tolerances, written_quantities, written_values
from wirer.circuit.catalogue import catalogue
from wirer.circuit.colour import NAMES
from wirer.circuit.kind import BondElement, CellElement, CouplingElement, Kind, TrackElement
from wirer.circuit.kind_check import element_lugs
from wirer.circuit.model import Circuit, OutputLoad, Part, Waiver, Wanted, Wire
from wirer.circuit.stance import Stance, positions_in_use
from wirer.circuit.underlay import Underlay
from wirer.circuit.values import known_value_names

IDS = st.from_regex(r"[A-Za-z][A-Za-z0-9_]{0,5}", fullmatch=True)
TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
LENGTHS = st.floats(-500, 500, allow_nan=False).map(lambda x: round(x, 3))
POINTS = st.tuples(LENGTHS, LENGTHS)

# What a circuit looks like comes out of a drawer: a draw for every detail would be slow.
LOOKS: list[dict[str, Any]] = [
    {"colour": colour, "style": style, "gauge": gauge, "bends": bends, "done": done}
    for colour, style, gauge, bends, done in zip(
        ["", *NAMES, "GNYE", "RDBU"] * 3,
        cycle(["solid", "stranded", "bare", "screened", "mount"]),
        cycle(["", "24 AWG", "22AWG", "0.22 mm2", ".14mm2", ""]),
        cycle([(), ((42.0, 60.0),), ((-1.5, 0.0), (0.0, 99.125))]),
        cycle([False, True]),
        strict=False,
    )
]
STANDS: list[dict[str, Any]] = [
    {"label": label, "at": at, "turn": turn, "flip": flip}
    for label, at, turn, flip in zip(
        ["", "Neck", "Größe", "two words", "4.7 kΩ ∥", '"quoted"', "\n", "ω" * 30] * 5,
        cycle([(0.0, 0.0), (40.0, 20.0), (-3.25, 1e-3), (99_999.0, -0.5), (1 / 3, 2e-17)]),
        cycle([0, 90, 180, 270]),
        cycle([False, False, True]),
        strict=False,
    )
]

PICTURE = b64encode(b"\x89PNG\r\n\x1a\n and so on").decode()
UNDERLAYS = [
    None,
    Underlay(data=PICTURE, at=(10.5, -3.0), mm_per_pixel=1 / 3, locked=True),
    None,
    Underlay(path="photos/back of it.jpg", turn=359.5, dim=0.25),
]


@st.composite
def parts(draw: st.DrawFn, part_id: str, kind: Kind, *, usual: bool = False) -> Part:
    """A part of a kind with some of its values given, or only such as are usual."""
    known = known_value_names(kind)
    if usual:
        words = {"choice", "taper"}
        known = {n: p for n, p in known.items() if p.usual or (p.quantity in words and n != "pole")}
    return Part(
        id=part_id,
        kind=kind.id,
        **draw(st.sampled_from(STANDS)),
        values=draw(_some_values(known)),
        measured=draw(_some_values(known)),
        position_labels=draw(_some_texts(kind.actuator.positions if kind.actuator else ())),
        lug_labels=draw(_some_texts([lug.name for lug in kind.lugs])),
    )


@st.composite
def _some_values(draw: st.DrawFn, known: dict[str, Any]) -> dict[str, Any]:
    if not known:
        return {}
    names = draw(st.lists(st.sampled_from(sorted(known)), unique=True, max_size=4))
    values = {name: draw(written_values(known[name])) for name in names}
    if draw(st.booleans()):
        values["tolerance"] = draw(tolerances())
    return values


def _some_texts(names: Sequence[str]) -> st.SearchStrategy[dict[str, str]]:
    return st.dictionaries(st.sampled_from(names), TEXTS, max_size=2) if names else st.just({})


@st.composite
def wires(draw: st.DrawFn, wire_id: str, ends: tuple[str, str], lugs: Sequence[str]) -> Wire:
    """A wire between two lugs, of any style; a screen may end at any lug."""
    look = draw(st.sampled_from(LOOKS))
    screened = look["style"] == "screened"
    screens = (
        [draw(st.none() | st.sampled_from(lugs)) for _ in range(2)] if screened else [None] * 2
    )
    return Wire(
        id=wire_id,
        from_lug=ends[0],
        to_lug=ends[1],
        screen_from=screens[0],
        screen_to=screens[1],
        **look,
    )


@st.composite
def circuits(
    draw: st.DrawFn,
    kinds: Sequence[Kind] | None = None,
    most_parts: int = 6,
    most_wires: int = 10,
    *,
    wired_like_a_guitar: bool = False,
) -> Circuit:
    """A circuit of random parts and wires, with some sounds wanted and some findings waived."""
    choice = list(catalogue() if kinds is None else kinds)
    if wired_like_a_guitar:
        return draw(guitars(choice, most_parts))
    chosen = draw(st.lists(st.sampled_from(choice), max_size=most_parts))
    ids = draw(st.lists(IDS, unique=True, min_size=len(chosen), max_size=len(chosen)))
    some = tuple(draw(parts(name, kind)) for name, kind in zip(ids, chosen, strict=True))
    lugs = Circuit(parts=some).lugs
    count = draw(st.integers(0, most_wires)) if lugs else 0
    ends = [(draw(st.sampled_from(lugs)), draw(st.sampled_from(lugs))) for _ in range(count)]
    return draw(_finished(some, ends))


@st.composite
def _finished(draw: st.DrawFn, some: tuple[Part, ...], ends: Sequence[tuple[str, str]]) -> Circuit:
    """The circuit of some parts with its wires, its load and its texts."""
    lugs = Circuit(parts=some).lugs
    taken = {part.id for part in some}
    names = [name for n in range(2 * len(ends) + 1) if (name := f"w{n}") not in taken]
    title = draw(TEXTS)
    return Circuit(
        title=title,
        job=draw(TEXTS),
        notes=draw(TEXTS),
        parts=some,
        wires=tuple(draw(wires(name, pair, lugs)) for name, pair in zip(names, ends, strict=False)),
        output_load=draw(_loads()),
        wanted=tuple(draw(st.lists(_wanted(some), max_size=2))),
        waived=tuple(draw(st.lists(_waivers(lugs), max_size=2))),
        underlay=UNDERLAYS[len(title) % len(UNDERLAYS)],
    )


@st.composite
def _loads(draw: st.DrawFn) -> OutputLoad:
    cable, _ = draw(written_quantities("capacitance"))
    amplifier, _ = draw(written_quantities("resistance"))
    return draw(st.sampled_from([OutputLoad(), OutputLoad(cable=cable, input=amplifier)]))


@st.composite
def _wanted(draw: st.DrawFn, some: tuple[Part, ...]) -> Wanted:
    circuit = Circuit(parts=some)
    setting = {
        part.id: draw(st.sampled_from(positions_in_use(circuit.kind_of(part), part)))
        for part in circuit.switches
        if draw(st.booleans())
    }
    coils = [p.id for p in some if circuit.kind_of(p).coils]
    sounds = st.just("silent")
    if coils:
        sounds |= st.lists(st.sampled_from(coils), min_size=1, max_size=3).map(" + ".join)
        sounds |= st.lists(st.sampled_from(coils), min_size=1, max_size=3).map(" ∥ −".join)
    return Wanted(setting=setting, sound=draw(sounds))


def _waivers(lugs: Sequence[str]) -> st.SearchStrategy[Waiver]:
    places = st.lists(st.sampled_from(lugs), max_size=2).map(tuple) if lugs else st.just(())
    rules = st.sampled_from(["ground-loop", "lost-coil"])
    return st.builds(Waiver, rule=rules, places=places, reason=TEXTS)


@st.composite
def stances(draw: st.DrawFn, circuit: Circuit) -> Stance:
    """A stance of a circuit: any position in use, any rotation, both stops often."""
    rotation = st.sampled_from([0.0, 0.5, 1.0]) | st.floats(0, 1, allow_subnormal=False)
    return Stance(
        positions={
            part.id: draw(st.sampled_from(positions_in_use(circuit.kind_of(part), part)))
            for part in circuit.switches
        },
        rotations={
            f"{part.id}.{shaft.name}": draw(rotation)
            for part in circuit.parts
            for shaft in circuit.kind_of(part).shafts
        },
    )


@st.composite
def documents(draw: st.DrawFn, **options: Any) -> tuple[Circuit, Stance]:
    """A circuit (see `circuits`) with a stance of it."""
    circuit = draw(circuits(**options))
    return circuit, draw(stances(circuit))


@dataclass
class _Wiring:
    """A circuit being wired: the lugs so far on the ground side and on the hot side."""

    draw: st.DrawFn
    ground: list[str]
    hot: list[str]
    ends: list[tuple[str, str]] = field(default_factory=list)
    placed: set[str] = field(default_factory=set)

    def join(self, lug: str, side: list[str]) -> None:
        """Solder a lug to one side, once; now and then it is forgotten."""
        if lug not in self.placed and self.draw(st.integers(0, 15)) != 15:
            self.ends.append((lug, self.draw(st.sampled_from(side))))
        self.placed.add(lug)

    def between(self, part: Part, a: str, b: str) -> None:
        """Join what has two ends between the sides, or in series with what comes next."""
        near, far = (self.hot, self.ground) if self.draw(st.booleans()) else (self.ground, self.hot)
        self.join(f"{part.id}.{a}", near)
        if self.draw(st.integers(0, 3)) != 3:
            self.join(f"{part.id}.{b}", far)
        else:
            near.append(f"{part.id}.{b}")
            self.placed.add(f"{part.id}.{b}")

    def tracks(self, part: Part, kind: Kind) -> None:
        """Join a track across the output; its wiper is free to be joined as the hot side."""
        for element in kind.elements:
            if isinstance(element, TrackElement):
                low, wiper, high = (f"{part.id}.{name}" for name in element.ends)
                self.join(low, self.ground)
                self.join(high, self.hot)
                self.hot.append(wiper)

    def joined(self, part: Part, groups: Sequence[Sequence[str]]) -> None:
        """Join each group of lugs by one of them to a side, of which the others then are."""
        for group in groups:
            side = self.hot if self.draw(st.booleans()) else self.ground
            first, *others = (f"{part.id}.{name}" for name in group)
            self.join(first, side)
            side.extend(others)


def _poles(kind: Kind) -> list[list[str]]:
    """Return the lugs of each pole of a switch, and of each bond."""
    groups = [set(e.lugs) for e in kind.elements if isinstance(e, BondElement)]
    if kind.actuator:
        groups += [set(group) for groups in kind.actuator.contacts.values() for group in groups]
    poles: list[set[str]] = []
    for group in groups:
        meeting = [pole for pole in poles if pole & group]
        poles = [pole for pole in poles if not pole & group]
        poles.append(group.union(*meeting))
    return [sorted(pole) for pole in poles]


@st.composite
def guitars(draw: st.DrawFn, kinds: Sequence[Kind] | None = None, most_parts: int = 8) -> Circuit:
    """A circuit with one jack, coils, switches and pots of usual values, wired with few omissions.

    Of the kinds given at least one must be an output and one a coil with a magnet.
    """
    choice = list(catalogue() if kinds is None else kinds)
    coils = [k for k in choice if k.coils and k.parameters["pole"].default != "none"]
    others = [k for k in choice if not k.output and k not in coils]
    chosen = [draw(st.sampled_from([k for k in choice if k.output]))]
    chosen += draw(st.lists(st.sampled_from(others), max_size=most_parts - 2)) if others else []
    most_coils = max(1, min(4, most_parts - len(chosen)))
    chosen += draw(st.lists(st.sampled_from(coils), min_size=1, max_size=most_coils))
    some = tuple(draw(parts(f"P{n}", kind, usual=True)) for n, kind in enumerate(chosen))
    jack = chosen[0].output
    assert jack is not None
    wiring = _Wiring(draw, [f"P0.{jack.sleeve}"], [f"P0.{jack.tip}"])
    for part, kind in zip(some[1:], chosen[1:], strict=True):
        _wire_part(wiring, part, kind)
    return draw(_finished(some, wiring.ends))


def _wire_part(wiring: _Wiring, part: Part, kind: Kind) -> None:
    """Wire a part by what it consists of."""
    metal = {lug.name for lug in kind.lugs if lug.metal}
    for name in sorted(metal):
        wiring.join(f"{part.id}.{name}", wiring.ground)
    wiring.joined(part, _poles(kind))
    wiring.tracks(part, kind)
    for element in kind.elements:
        if isinstance(element, (TrackElement, BondElement, CellElement)):
            continue
        ends = element_lugs(element)
        free = [name for name in ends if kind.lug(name) and name not in metal]
        if len(free) == 2 and not isinstance(element, CouplingElement):
            wiring.between(part, *free)
        elif len(free) == 1:
            wiring.join(f"{part.id}.{free[0]}", wiring.hot)
