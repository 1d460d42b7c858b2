"""The elements of a circuit with their numbers, in SI units, between lugs named `PART.lug`.

This is all that the later stages know of a part: they never ask for its kind.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from wirer.circuit import kind as k
from wirer.circuit.model import Circuit, Part
from wirer.circuit.values import choice_of, number_of, value_of, written_apart

_WINDING = {"cw": 1, "ccw": -1}
_POLE = {"north": 1, "south": -1, "none": 0}


@dataclass(frozen=True, slots=True)
class Coil:
    """A coil; `winding` is +1 for cw, `pole` +1 for north up and 0 for a dummy.

    Its EMF is `turns` volt per volt of level; `capacitance` and `loss` lie across it.
    """

    name: str
    part: str
    start: str
    finish: str
    resistance_ohm: float
    inductance_henry: float
    capacitance_farad: float
    loss_ohm: float | None
    winding: int
    pole: int
    level_volt: float
    turns: float = 1.0

    @property
    def sign(self) -> int:
        """Sign of its signal: winding times pole, or winding alone for a dummy coil."""
        return self.winding * (self.pole or 1)

    @property
    def ends(self) -> tuple[str, ...]:
        """The lugs at which it ends."""
        return self.start, self.finish


@dataclass(frozen=True, slots=True)
class Resistor:
    """A fixed resistance between two lugs.

    `eddy` marks one that stands for the losses in metal round a coil: a meter does not see it.
    """

    part: str
    kind: str
    a: str
    b: str
    ohm: float
    eddy: bool = False

    @property
    def ends(self) -> tuple[str, ...]:
        """The lugs at which it ends."""
        return self.a, self.b


@dataclass(frozen=True, slots=True)
class Capacitor:
    """A capacitance between two lugs."""

    part: str
    kind: str
    a: str
    b: str
    farad: float

    @property
    def ends(self) -> tuple[str, ...]:
        """The lugs at which it ends."""
        return self.a, self.b


@dataclass(frozen=True, slots=True)
class Inductor:
    """An inductance with its resistance in series, between two lugs."""

    part: str
    kind: str
    a: str
    b: str
    henry: float
    ohm: float

    @property
    def ends(self) -> tuple[str, ...]:
        """The lugs at which it ends."""
        return self.a, self.b


@dataclass(frozen=True, slots=True)
class Coupling:
    """Two coils, by name, with M = √(L₁L₂) between them."""

    a: str
    b: str

    @property
    def ends(self) -> tuple[str, ...]:
        """No lugs: it couples coils through their flux."""
        return ()


@dataclass(frozen=True, slots=True)
class Track:
    """A pot's track with the law of its taper."""

    part: str
    kind: str
    name: str
    shaft: str
    ccw: str
    wiper: str
    cw: str
    ohm: float
    end_ohm: float
    taper: str | k.Table
    share: float
    cut: bool

    @property
    def ends(self) -> tuple[str, ...]:
        """The lugs at which it ends."""
        return self.ccw, self.wiper, self.cw


@dataclass(frozen=True, slots=True)
class Bond:
    """Lugs that are one piece of metal; with `plug`, that the plug in the jack makes so."""

    lugs: tuple[str, ...]
    plug: bool = False

    @property
    def ends(self) -> tuple[str, ...]:
        """The lugs at which it ends."""
        return self.lugs


@dataclass(frozen=True, slots=True)
class Cell:
    """A battery between two lugs."""

    part: str
    plus: str
    minus: str

    @property
    def ends(self) -> tuple[str, ...]:
        """The lugs at which it ends."""
        return self.plus, self.minus


Element = Coil | Resistor | Capacitor | Inductor | Coupling | Track | Bond | Cell


def elements_of(circuit: Circuit, part: Part) -> tuple[Element, ...]:
    """Return the elements of one part."""
    return _elements(circuit.kind_of(part), part)


@lru_cache(maxsize=4096)
def _elements(kind: k.Kind, part: Part) -> tuple[Element, ...]:
    return tuple(e for element in kind.elements for e in _resolved(part, kind, element))


def circuit_elements(circuit: Circuit) -> tuple[Element, ...]:
    """Return every element of a circuit, in part order."""
    return tuple(e for part in circuit.parts for e in elements_of(circuit, part))


def _resolved(part: Part, kind: k.Kind, element: k.Element) -> Iterator[Element]:
    def lug(name: str) -> str:
        return f"{part.id}.{name}"

    match element:
        case k.CoilElement():
            yield _coil(part, kind, element)
        case k.TrackElement():
            yield _track(part, kind, element)
        case k.BondElement():
            yield Bond(tuple(map(lug, element.lugs)), element.plug)
        case k.CellElement():
            yield Cell(part.id, lug(element.plus), lug(element.minus))
        case k.CouplingElement():
            yield Coupling(*(f"{part.id}.{name}" for name in element.coils))
        case _:
            yield from _two_ended(part, kind, element)


def _two_ended(
    part: Part, kind: k.Kind, element: k.ResistorElement | k.CapacitorElement | k.InductorElement
) -> Iterator[Element]:
    value = number_of(part, kind, element.value, element.name)
    if value is None:
        return
    a, b = (f"{part.id}.{name}" for name in element.between)
    match element:
        case k.ResistorElement():
            yield Resistor(part.id, kind.id, a, b, value, eddy=element.value == "loss")
        case k.CapacitorElement():
            yield Capacitor(part.id, kind.id, a, b, value)
        case k.InductorElement():
            series = number_of(part, kind, element.series, element.name) or 0.0
            yield Inductor(part.id, kind.id, a, b, value, series)


def _coil(part: Part, kind: k.Kind, element: k.CoilElement) -> Coil:
    def number(name: str) -> float | None:
        return number_of(part, kind, name, element.name) if name in kind.parameters else None

    def own_share(name: str, factor: float) -> float:
        """Return the part's value by the coil's share, or the coil's own where it has one."""
        apart = written_apart(part, name, element.name)
        return (number(name) or 0.0) * (1.0 if apart else factor)

    share = number(element.turns) if element.turns else None
    turns = 1.0 if share is None else 1.0 - share if element.rest else share
    opposite = element.opposite_pole and not written_apart(part, "pole", element.name)
    level = number("level")
    return Coil(
        name=f"{part.id}.{element.name}" if element.name else part.id,
        part=part.id,
        start=f"{part.id}.{element.start}",
        finish=f"{part.id}.{element.finish}",
        resistance_ohm=own_share("resistance", turns),
        inductance_henry=own_share("inductance", turns**2),
        capacitance_farad=(number("capacitance") or 0.0) if element.shunt else 0.0,
        loss_ohm=number("loss") if element.shunt else None,
        winding=_WINDING.get(choice_of(part, kind, "winding", element.name), 1),
        pole=_POLE.get(choice_of(part, kind, "pole", element.name), 1) * (-1 if opposite else 1),
        level_volt=1.0 if level is None else level,
        turns=turns,
    )


def _track(part: Part, kind: k.Kind, element: k.TrackElement) -> Track:
    def number(name: str, default: float) -> float:
        if name not in kind.parameters:
            return default
        found = number_of(part, kind, name, element.name)
        return default if found is None else found

    taper: str | k.Table = element.law
    if not taper and "taper" in kind.parameters:
        taper = written_taper(part, kind, element.name)
    ccw, wiper, cw = (f"{part.id}.{name}" for name in element.ends)
    return Track(
        part=part.id,
        kind=kind.id,
        name=element.name,
        shaft=element.shaft,
        ccw=ccw,
        wiper=wiper,
        cw=cw,
        ohm=number("resistance", 0.0),
        end_ohm=number("end", 0.0),
        taper=taper or "linear",
        share=number("share", 0.15),
        cut=element.cut,
    )


def written_taper(part: Part, kind: k.Kind, element: str = "") -> str | k.Table:
    """Return the taper of a track: a word or a table."""
    value = value_of(part, kind, "taper", element)
    return value if isinstance(value, (str, tuple)) else "linear"
