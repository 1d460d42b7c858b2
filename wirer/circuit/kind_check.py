"""Whether a kind is consistent with itself."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator

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
from wirer.circuit.tables import table_problem

MOST_LUGS = 200
MOST_POSITIONS = 100


def kind_problems(kind: Kind) -> list[str]:
    """Return what contradicts itself in a kind, a line each; empty when it is sound."""
    return [
        *_lug_problems(kind),
        *_element_problems(kind),
        *(_actuator_problems(kind, kind.actuator) if kind.actuator else ()),
        *_output_problems(kind),
    ]


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


def _lug_problems(kind: Kind) -> Iterator[str]:
    if not kind.lugs:
        yield "it has no lugs"
    if len(kind.lugs) > MOST_LUGS:
        yield f"it has more than {MOST_LUGS} lugs"
    for name, count in Counter((*(lug.name for lug in kind.lugs), *kind.inner)).items():
        if count > 1:
            yield f'two lugs are named "{name}"'
        if not name or "." in name or not name.isprintable():
            yield f'"{name}" is not a lug name; write letters and figures without a point'
    for lug in kind.lugs:
        if not all(map(math.isfinite, lug.at)):
            yield f"lug {lug.name} lies nowhere"


def _element_problems(kind: Kind) -> Iterator[str]:
    lugs = {lug.name for lug in kind.lugs} | set(kind.inner)
    shafts = {shaft.name for shaft in kind.shafts}
    coils = {coil.name for coil in kind.coils}
    for element in kind.elements:
        for name in element_lugs(element):
            if name not in lugs:
                yield f'an element joins the lug "{name}", which it does not have'
        for parameter in _parameters(element):
            if parameter not in kind.parameters:
                yield f'an element takes the parameter "{parameter}", which it does not have'
        if isinstance(element, TrackElement):
            if element.shaft not in shafts:
                yield f'a track turns with the shaft "{element.shaft}", which it does not have'
            if element.law and (problem := table_problem(element.law)):
                yield f"the law of a track {problem}"
        if isinstance(element, CouplingElement) and not set(element.coils) <= coils:
            yield "a coupling names a coil that it does not have"


def _parameters(element: Element) -> tuple[str, ...]:
    match element:
        case CoilElement():
            return (element.turns,) if element.turns else ()
        case TrackElement() | BondElement() | CellElement() | CouplingElement():
            return ()
        case _:
            return (element.value,)


def _actuator_problems(kind: Kind, actuator: Actuator) -> Iterator[str]:
    lugs = {lug.name for lug in kind.lugs}
    if not 2 <= len(actuator.positions) <= MOST_POSITIONS:
        yield f"an actuator has between 2 and {MOST_POSITIONS} positions"
    if len(set(actuator.positions)) != len(actuator.positions):
        yield "two positions have one name"
    if set(actuator.contacts) != set(actuator.positions):
        yield "its contact table and its positions do not agree"
    for position, groups in actuator.contacts.items():
        for name in (name for group in groups for name in group):
            if name not in lugs:
                yield f'position "{position}" joins the lug "{name}", which it does not have'
    if actuator.stop and actuator.stop not in kind.parameters:
        yield f'its stop is the parameter "{actuator.stop}", which it does not have'
    if actuator.swap and actuator.swap[0] not in kind.parameters:
        yield f'its contacts depend on "{actuator.swap[0]}", which it does not have'


def _output_problems(kind: Kind) -> Iterator[str]:
    if kind.output:
        for name in (kind.output.tip, kind.output.sleeve):
            if kind.lug(name) is None:
                yield f'its output is at the lug "{name}", which it does not have'
