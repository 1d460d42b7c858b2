"""The harness: a circuit with its shafts turned, its fixed joints contracted to numbered nets.

Wires, bonds, mounts, screens and track segments of 0 Ω are the same in every setting, so they are
contracted once; a setting then only joins some of these nets by its closed contacts.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Literal

import networkx as nx

from wirer.analysis.switches import Switch, switches_of
from wirer.circuit.elements import (
    Bond,
    Capacitor,
    Cell,
    Coil,
    Coupling,
    Element,
    Inductor,
    Resistor,
    Track,
    circuit_elements,
)
from wirer.circuit.model import Circuit
from wirer.circuit.taper import track_segments

View = Literal["signal", "meter", "unplugged"]
"""For signals a battery is a short; for the meter it is taken out and capacitors are open.

`unplugged` is the meter's view without the plug in the jack, to judge what drains a battery.
"""


LEAST_OHM = 1e-9
LEAST_HENRY = 1e-12
LEAST_FARAD = 1e-18
"""Less than this is a joint, or for a capacitor nothing: far below what any joint or air has."""


@dataclass(frozen=True, slots=True)
class Branch:
    """A two-ended element between the fixed nets `a` and `b` (a coil's start and finish).

    Its impedance is (`ohm` + s·`henry`), across it `farad` and `shunt_ohm`; a bare capacitor has
    infinite `ohm`. `load` is what distinguishes it when it is not a coil: kind and value.
    """

    part: str
    a: int
    b: int
    ohm: float
    henry: float = 0.0
    farad: float = 0.0
    shunt_ohm: float | None = None
    coil: Coil | None = None
    load: tuple[str, str, float] = ("", "", 0.0)

    @property
    def conducts(self) -> bool:
        """Whether direct current passes."""
        return math.isfinite(self.ohm)

    def impedance(self, hertz: float) -> complex:
        """Return its impedance in Ω at one frequency."""
        s = 2j * math.pi * hertz
        series = self.ohm + s * self.henry
        admittance = s * self.farad + (0 if math.isinf(self.ohm) else 1 / (series or 1e-12))
        return 1 / (admittance + (1 / self.shunt_ohm if self.shunt_ohm else 0))


@dataclass(frozen=True)
class Harness:
    """A circuit ready to be analysed setting by setting.

    `net_of` numbers the fixed net of every lug, and of every joint inside a part; `ground` and
    `hot` are the nets of the first jack's sleeve and tip (None: there is no jack). `couplings`
    are pairs of branch indices.
    """

    circuit: Circuit
    net_of: Mapping[str, int]
    net_count: int
    ground: int | None
    hot: int | None
    branches: tuple[Branch, ...]
    couplings: tuple[tuple[int, int], ...]
    switches: tuple[Switch, ...]

    @property
    def coils(self) -> tuple[Coil, ...]:
        """The coils, in part order."""
        return tuple(b.coil for b in self.branches if b.coil)


def harness_of(circuit: Circuit, rotations: Mapping[str, float], view: View = "signal") -> Harness:
    """Contract a circuit's fixed joints with its shafts at `rotations` (by `PART.shaft`)."""
    parts = list(turned_elements(circuit, rotations))
    joints = [*_wire_joints(circuit), *_joints(parts, view)]
    graph = nx.Graph()
    graph.add_nodes_from(_points(circuit))
    graph.add_edges_from(joints)
    net_of = {lug: n for n, net in enumerate(nx.connected_components(graph)) for lug in net}
    branches = tuple(_branches(parts, net_of, view))
    jack = circuit.jacks[0] if circuit.jacks else None
    output = circuit.kind_of(jack).output if jack else None
    return Harness(
        circuit=circuit,
        net_of=net_of,
        net_count=len(set(net_of.values())),
        ground=net_of[f"{jack.id}.{output.sleeve}"] if jack and output else None,
        hot=net_of[f"{jack.id}.{output.tip}"] if jack and output else None,
        branches=branches,
        couplings=_couplings(parts, branches),
        switches=switches_of(circuit, net_of),
    )


def with_segments(harness: Harness, track: Track, rotation: float) -> Harness:
    """Return a harness in which a track, there away from its stops, is turned to a rotation.

    Its segments keep at least 1 mΩ, so that the nets stay what they are.
    """
    below, above = track_segments(track, rotation)
    places = {
        (harness.net_of[track.ccw], harness.net_of[track.wiper]): below,
        (harness.net_of[track.wiper], harness.net_of[track.cw]): above,
    }

    def turned(branch: Branch) -> Branch:
        ohm = places.get((branch.a, branch.b))
        own = branch.part == track.part and branch.coil is None and ohm is not None
        return replace(branch, ohm=min(max(ohm or 0.0, 1e-3), 1e12)) if own else branch

    return replace(harness, branches=tuple(map(turned, harness.branches)))


def _points(circuit: Circuit) -> Iterator[str]:
    """Yield every lug, and every joint inside a part that no wire reaches."""
    yield from circuit.lugs
    for part in circuit.parts:
        yield from (f"{part.id}.{name}" for name in circuit.kind_of(part).inner)


def turned_elements(circuit: Circuit, rotations: Mapping[str, float]) -> Iterator[Element]:
    """Yield the elements, each track as the resistors and joints that it is at its rotation."""
    for element in circuit_elements(circuit):
        if not isinstance(element, Track):
            yield element
            continue
        rotation = rotations.get(f"{element.part}.{element.shaft}", 1.0)
        below, above = track_segments(element, rotation)
        for a, b, ohm in ((element.ccw, element.wiper, below), (element.wiper, element.cw, above)):
            if math.isfinite(ohm):
                yield Resistor(element.part, element.kind, a, b, ohm)


def _wire_joints(circuit: Circuit) -> Iterator[tuple[str, str]]:
    for wire in circuit.wires:
        yield wire.ends
        if wire.screen_from and wire.screen_to:
            yield wire.screen_from, wire.screen_to


def _joints(elements: Iterable[Element], view: View) -> Iterator[tuple[str, str]]:
    for element in elements:
        match element:
            case Bond() if not (element.plug and view == "unplugged"):
                yield from ((element.lugs[0], lug) for lug in element.lugs[1:])
            case Cell() if view == "signal":
                yield element.plus, element.minus
            case Resistor() if element.ohm < LEAST_OHM and _seen(element, view):
                yield element.a, element.b
            case Inductor() if element.ohm < LEAST_OHM and (
                element.henry < LEAST_HENRY or view != "signal"
            ):
                yield element.a, element.b
            case Coil() if element.resistance_ohm < LEAST_OHM and view != "signal":
                yield element.start, element.finish


def _seen(element: Resistor, view: View) -> bool:
    """Tell whether a view sees a resistance: eddy losses are none for direct current."""
    return view == "signal" or not element.eddy


def _branches(
    elements: Iterable[Element], net_of: Mapping[str, int], view: View
) -> Iterator[Branch]:
    for element in elements:
        if isinstance(element, Resistor) and not _seen(element, view):
            continue
        branch = _branch(element, net_of)
        if branch and (branch.conducts or view == "signal"):
            yield branch


def _branch(element: Element, net_of: Mapping[str, int]) -> Branch | None:
    match element:
        case Coil():
            return Branch(
                element.part,
                net_of[element.start],
                net_of[element.finish],
                element.resistance_ohm,
                element.inductance_henry,
                element.capacitance_farad,
                element.loss_ohm or None,
                element,
            )
        case Resistor() if element.ohm >= LEAST_OHM:
            load = ("resistance", element.kind, element.ohm)
            return Branch(*_place(element, net_of), element.ohm, load=load)
        case Capacitor() if element.farad >= LEAST_FARAD:
            load = ("capacitance", element.kind, element.farad)
            return Branch(*_place(element, net_of), math.inf, farad=element.farad, load=load)
        case Inductor() if element.ohm >= LEAST_OHM or element.henry >= LEAST_HENRY:
            load = ("inductance", element.kind, element.henry)
            return Branch(*_place(element, net_of), element.ohm, element.henry, load=load)
        case _:
            return None


def _place(
    element: Resistor | Capacitor | Inductor, net_of: Mapping[str, int]
) -> tuple[str, int, int]:
    return element.part, net_of[element.a], net_of[element.b]


def _couplings(
    elements: Iterable[Element], branches: tuple[Branch, ...]
) -> tuple[tuple[int, int], ...]:
    index = {b.coil.name: i for i, b in enumerate(branches) if b.coil}
    return tuple((index[e.a], index[e.b]) for e in elements if isinstance(e, Coupling))
