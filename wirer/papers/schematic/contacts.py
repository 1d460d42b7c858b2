"""The contacts of a switch as poles, or as a box where they have nothing in common."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import takewhile

from wirer.circuit import kind as k
from wirer.circuit.model import Circuit, Part
from wirer.circuit.stance import Stance, joined_lugs, positions_in_use
from wirer.papers.schematic.items import Pins
from wirer.papers.schematic.legends import heading, position_texts
from wirer.papers.schematic.lettering import clean
from wirer.papers.schematic.nets import DrawnNets
from wirer.papers.schematic.symbols.matrix import Matrix
from wirer.papers.schematic.symbols.pole import Pole, Throw
from wirer.papers.schematic.symbols.symbol import Pin

LONGEST_HEADING = 24
MOST_LETTERS = 26


@dataclass(frozen=True)
class Contacts:
    """The poles of a switch, what is not drawn of it, and what its drawing does not tell.

    `covered` are the lugs of its contacts, drawn or not; `unused` names poles that no wire
    reaches, `untold` describes what positions join where the throws don't say it.
    """

    poles: tuple[Pole | Matrix, ...] = ()
    covered: frozenset[str] = frozenset()
    unused: tuple[str, ...] = ()
    untold: str = ""


def part_contacts(circuit: Circuit, part: Part, nets: DrawnNets, stance: Stance) -> Contacts:
    """Return the contacts of a part that has an actuator (none where it has not)."""
    kind = circuit.kind_of(part)
    if kind.actuator is None:
        return Contacts()
    makes = {p: _groups(kind.actuator, kind, part, p, nets) for p in kind.actuator.positions}
    position = stance.positions.get(part.id, "")
    if position not in makes:
        position = positions_in_use(kind, part)[0]
    components = _components([g for groups in makes.values() for g in groups], kind, part)
    several = len(components) > 1 or bool(kind.elements)
    names = _names([_lugs(component, nets) for component in components])
    poles: list[Pole | Matrix] = []
    unused, complete = [], True
    for component, own in zip(components, names, strict=True):
        name = f"{part.id}.{own}" if several else part.id
        lugs = _lugs(component, nets)
        if not any(lug in nets.wired for lug in lugs):
            unused.append(f"{name} ({' '.join(lug.partition('.')[2] for lug in lugs)})")
            continue
        inside = {p: [g for g in groups if g <= component] for p, groups in makes.items()}
        maker = _PoleMaker(Pins(part, kind, nets), name, inside, position)
        poles.append(maker.pole(component))
        complete = complete and maker.complete
    covered = frozenset(lug for component in components for lug in _lugs(component, nets))
    untold = "" if complete else _untold(kind.actuator, kind, part)
    return Contacts(tuple(poles), covered, tuple(unused), untold)


def _groups(
    actuator: k.Actuator, kind: k.Kind, part: Part, position: str, nets: DrawnNets
) -> list[frozenset[str]]:
    """Return what a position joins, each piece by its first lug."""
    joined = joined_lugs(actuator, kind, part, position)
    groups = [frozenset(nets.pieces[lug][0] for lug in group) for group in joined]
    return [group for group in groups if len(group) > 1]


def _components(groups: Sequence[frozenset[str]], kind: k.Kind, part: Part) -> list[frozenset[str]]:
    """Return the pieces that any position joins, in the order of their lugs."""
    components: list[frozenset[str]] = []
    for group in groups:
        meeting = [c for c in components if c & group]
        components = [c for c in components if not c & group]
        components.append(group.union(*meeting))
    order = _order(kind, part)
    return sorted(components, key=lambda c: min(order.get(lug, 0) for lug in c))


def _order(kind: k.Kind, part: Part) -> dict[str, int]:
    return {f"{part.id}.{lug.name}": index for index, lug in enumerate(kind.lugs)}


def _lugs(component: frozenset[str], nets: DrawnNets) -> list[str]:
    return sorted(lug for piece in component for lug in nets.pieces[piece])


def _names(groups: Sequence[Sequence[str]]) -> list[str]:
    """Return a short name for each group of lugs: what their names begin with, else a letter."""
    starts = [_shared_start([lug.partition(".")[2] for lug in lugs]) for lugs in groups]
    if all(starts) and len(set(starts)) == len(starts):
        return [clean(start, 8) for start in starts]
    return [chr(ord("A") + i) if i < MOST_LETTERS else f"P{i + 1}" for i in range(len(groups))]


def _shared_start(names: Sequence[str]) -> str:
    alike = takewhile(lambda letters: len(set(letters)) == 1, zip(*names, strict=False))
    return "".join(letters[0] for letters in alike)


@dataclass
class _PoleMaker:
    """Makes a pole of the pieces that some position joins.

    `makes` has what each position joins of them; `complete` says afterwards whether the throws
    tell all that the positions do.
    """

    pins: Pins
    name: str
    makes: dict[str, list[frozenset[str]]]
    position: str
    complete: bool = False

    def pole(self, component: frozenset[str]) -> Pole | Matrix:
        """Return a pole, or a box where no piece is common to all that is joined."""
        order = _order(self.pins.kind, self.pins.part)
        pieces = sorted(component, key=lambda piece: order.get(piece, 0))
        groups = [group for found in self.makes.values() for group in found]
        commons = [piece for piece in pieces if all(piece in group for group in groups)]
        if not commons:
            return self._box(pieces)
        throws = [piece for piece in pieces if piece != commons[0]]
        actuator = self.pins.kind.actuator
        headings = (self._heading(self.name), self._heading(self.pins.part.id))
        button = actuator is not None and actuator.momentary
        common = self._pin(commons[0])
        contacts = self._throws(throws)
        return Pole(self.pins.part.id, self.name, headings, common, contacts, button=button)

    def _heading(self, name: str) -> tuple[str, ...]:
        return heading(self.pins.part, name, LONGEST_HEADING)

    def _pin(self, piece: str) -> Pin:
        return self.pins.pin(piece.partition(".")[2])

    def _throws(self, throws: Sequence[str]) -> list[Throw]:
        joining = {
            position: frozenset(
                index for index, throw in enumerate(throws) for group in found if throw in group
            )
            for position, found in self.makes.items()
        }
        part, kind = self.pins.part, self.pins.kind
        texts, self.complete = position_texts(part, kind, joining, len(throws))
        contacts = []
        for index, (throw, text) in enumerate(zip(throws, texts, strict=True)):
            pin = self._pin(throw)
            written = f"{pin.text}  {text}" if text else pin.text
            contacts.append(Throw(replace(pin, text=written), index in joining[self.position]))
        return contacts

    def _box(self, pieces: Sequence[str]) -> Matrix:
        closed = [sorted(map(pieces.index, group)) for group in self.makes[self.position]]
        pins = [self._pin(piece) for piece in pieces]
        return Matrix(self.pins.part.id, self.name, self._heading(self.name), pins, closed)


def _untold(actuator: k.Actuator, kind: k.Kind, part: Part) -> str:
    """Describe what each position joins."""
    told = []
    for position in positions_in_use(kind, part):
        groups = joined_lugs(actuator, kind, part, position)
        joined = ", ".join("–".join(lug.partition(".")[2] for lug in group) for group in groups)
        told.append(f"{clean(part.position_name(position), 20)}: {joined or 'nothing'}")
    return "; ".join(told)
