"""Whether a kind is consistent with itself."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import chain, islice

from wirer.circuit.errors import shown
from wirer.circuit.kind import (
    Actuator,
    BondElement,
    CellElement,
    CoilElement,
    CouplingElement,
    Element,
    Kind,
    TrackElement,
)
from wirer.circuit.kind_shapes import kind_shape_problems
from wirer.circuit.kind_values import kind_value_problems
from wirer.circuit.tables import table_problem

MOST_LUGS = 200
MOST_ELEMENTS = 400
MOST_POSITIONS = 100
MOST_PROBLEMS = 100
_KIND_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_NAME = re.compile(r"[^\s.,=]{1,32}")


def kind_problems(kind: Kind) -> list[str]:
    """Return what contradicts itself in a kind, a line each; empty when it is sound.

    At most `MOST_PROBLEMS` are returned.
    """
    problems = _crowd_problems(kind) or chain(
        _name_problems(kind),
        _lug_problems(kind),
        _element_problems(kind),
        _actuator_problems(kind, kind.actuator) if kind.actuator else (),
        _output_problems(kind),
        kind_shape_problems(kind),
        kind_value_problems(kind),
    )
    return list(dict.fromkeys(islice(problems, MOST_PROBLEMS)))


def element_lugs(element: Element) -> tuple[str, ...]:
    """Return the lugs that an element touches (none for a coupling)."""
    match element:
        case CoilElement():
            return (element.start, element.finish)
        case TrackElement():
            return element.ends
        case BondElement():
            return element.lugs
        case CellElement():
            return (element.plus, element.minus)
        case CouplingElement():
            return ()
        case _:
            return element.between


def _crowd_problems(kind: Kind) -> list[str]:
    counts = {
        "lugs": (len(kind.lugs), MOST_LUGS),
        "elements": (len(kind.elements), MOST_ELEMENTS),
        "parameters": (len(kind.parameters), MOST_LUGS),
        "shafts": (len(kind.shafts), MOST_LUGS),
    }
    return [f"it has more than {most} {what}" for what, (n, most) in counts.items() if n > most]


def _name_problems(kind: Kind) -> Iterator[str]:
    if len(kind.id) > 64 or not _KIND_ID.fullmatch(kind.id):
        yield f'"{shown(kind.id)}" is not the id of a kind; write for example slide-2p2t'
    coils = [coil.name for coil in kind.coils]
    tracks = [e.name for e in kind.elements if isinstance(e, TrackElement)]
    shafts = [shaft.name for shaft in kind.shafts]
    yield from _name_doubles("coils", coils)
    yield from _name_doubles("tracks", tracks)
    yield from _name_doubles("shafts", shafts)
    names = {getattr(element, "name", "") for element in kind.elements} - {""}
    yield from _bad_names("an element", names | set(shafts))


def _name_doubles(what: str, names: Iterable[str]) -> Iterator[str]:
    for name, count in Counter(names).items():
        if count > 1:
            yield f'two {what} are named "{shown(name)}"' if name else f"two {what} have no name"


def _bad_names(whose: str, names: Iterable[str]) -> Iterator[str]:
    for name in names:
        if not (_NAME.fullmatch(name) and name.isprintable()):
            yield f'"{shown(name)}" is not a name for {whose}; write letters and figures'


def _lug_problems(kind: Kind) -> Iterator[str]:
    if not kind.lugs:
        yield "it has no lugs"
    names = (*(lug.name for lug in kind.lugs), *kind.inner)
    yield from _name_doubles("lugs", names)
    yield from _bad_names("a lug", names)


def _element_problems(kind: Kind) -> Iterator[str]:
    lugs = {lug.name for lug in kind.lugs} | set(kind.inner)
    shafts = {shaft.name for shaft in kind.shafts}
    coils = {coil.name for coil in kind.coils}
    for element in kind.elements:
        own = element_lugs(element)
        for name in own:
            if name not in lugs:
                yield f'an element joins the lug "{shown(name)}", which it does not have'
        if len(set(own)) < len(own):
            yield f'an element joins the lug "{shown(own[0])}" to itself'
        match element:
            case BondElement() if len(own) < 2:
                yield "a bond joins at least two lugs"
            case TrackElement() if element.shaft not in shafts:
                yield f'a track turns with the shaft "{shown(element.shaft)}", which it lacks'
            case TrackElement() if element.law and (problem := table_problem(element.law)):
                yield f"the law of a track {problem}"
            case CouplingElement() if not set(element.coils) <= coils:
                yield "a coupling names a coil that it does not have"
            case CouplingElement() if element.coils[0] == element.coils[1]:
                yield "a coupling couples a coil with itself"


def _actuator_problems(kind: Kind, actuator: Actuator) -> Iterator[str]:
    if not 2 <= len(actuator.positions) <= MOST_POSITIONS:
        yield f"an actuator has between 2 and {MOST_POSITIONS} positions"
    yield from _name_doubles("positions", actuator.positions)
    yield from _bad_names("a position", actuator.positions)
    if set(actuator.contacts) != set(actuator.positions):
        yield "its contact table and its positions do not agree"
    if not set(actuator.moving.places) <= set(actuator.positions):
        yield "what moves has a place for a position that there is not"
    lugs = {lug.name for lug in kind.lugs}
    for position, groups in actuator.contacts.items():
        for name in set(chain.from_iterable(groups)) - lugs:
            text = f'position "{shown(position)}" joins the lug "{shown(name)}"'
            yield f"{text}, which it does not have"


def _output_problems(kind: Kind) -> Iterator[str]:
    if kind.output:
        for name in (kind.output.tip, kind.output.sleeve):
            if kind.lug(name) is None:
                yield f'its output is at the lug "{shown(name)}", which it does not have'
        if kind.output.tip == kind.output.sleeve:
            yield "the tip and the sleeve of its output are one lug"
