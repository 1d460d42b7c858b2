"""Whether the parameters of a kind are what its elements and its actuator take from them."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.circuit.kind import (
    CapacitorElement,
    CoilElement,
    Element,
    InductorElement,
    Kind,
    Parameter,
    ResistorElement,
    TrackElement,
)
from wirer.circuit.parameter import parameter_problems

_WORDS = {"winding": {"cw", "ccw"}, "pole": {"north", "south", "none"}}
_OF_A_COIL = {
    "resistance": "resistance",
    "inductance": "inductance",
    "capacitance": "capacitance",
    "loss": "resistance",
    "level": "voltage",
    "winding": "choice",
    "pole": "choice",
}
_OF_A_TRACK = {"resistance": "resistance", "end": "resistance", "share": "share", "taper": "taper"}


def kind_value_problems(kind: Kind) -> Iterator[str]:
    """Yield what is wrong with the parameters of a kind."""
    for name, parameter in kind.parameters.items():
        for problem in parameter_problems(parameter):
            yield f'the parameter "{name}" {problem}'
    for element in kind.elements:
        yield from _misfits(kind, _needed(element), needed=True)
        yield from _misfits(kind, _possible(element), needed=False)
        yield from _bound_problems(kind, element)
        if isinstance(element, CoilElement):
            yield from _word_problems(kind)
    yield from _actuator_problems(kind)


def _needed(element: Element) -> dict[str, str]:
    """Return the quantity of each parameter that an element cannot do without."""
    match element:
        case CoilElement(turns=turns) if turns:
            return {turns: "share"}
        case ResistorElement():
            return {element.value: "resistance"}
        case CapacitorElement():
            return {element.value: "capacitance"}
        case InductorElement():
            return {element.value: "inductance"}
        case _:
            return {}


def _possible(element: Element) -> dict[str, str]:
    """Return the quantity of each parameter that an element takes if the kind has it."""
    match element:
        case CoilElement():
            return _OF_A_COIL
        case TrackElement():
            return _OF_A_TRACK
        case InductorElement():
            return {element.series: "resistance"}
        case _:
            return {}


def _misfits(kind: Kind, quantities: dict[str, str], *, needed: bool) -> Iterator[str]:
    for name, quantity in quantities.items():
        parameter = kind.parameters.get(name)
        if parameter is None:
            if needed:
                yield f'it uses the parameter "{name}", which it does not have'
        elif parameter.quantity != quantity:
            yield f'the parameter "{name}" is a {parameter.quantity} and should be a {quantity}'


def _bound_problems(kind: Kind, element: Element) -> Iterator[str]:
    """Yield what lets a share be one that has no law: no audio taper goes through a half."""
    match element:
        case TrackElement() if share := kind.parameters.get("share"):
            if not (share.exclusive and _lies_within(share, 0, 0.5)):
                yield 'the parameter "share" must be bounded by 0 and 0.5, themselves excluded'
        case CoilElement() if turns := kind.parameters.get(element.turns):
            if not _lies_within(turns, 0, 1):
                yield f'the parameter "{element.turns}" must be bounded by 0 and 1'


def _lies_within(parameter: Parameter, least: float, most: float) -> bool:
    low, high = parameter.least, parameter.most
    return low is not None and high is not None and least <= low <= high <= most


def _word_problems(kind: Kind) -> Iterator[str]:
    for name, words in _WORDS.items():
        if name in kind.parameters and not words.issuperset(kind.parameters[name].choices):
            yield f'the parameter "{name}" may only be {", ".join(sorted(words))}'


def _actuator_problems(kind: Kind) -> Iterator[str]:
    actuator = kind.actuator
    if actuator is None:
        return
    if actuator.stop:
        yield from _misfits(kind, {actuator.stop: "count"}, needed=True)
        parameter = kind.parameters.get(actuator.stop)
        if parameter and not _lies_within(parameter, 1, len(actuator.positions)):
            most = len(actuator.positions)
            yield f'the parameter "{actuator.stop}" must be bounded by 1 and its {most} positions'
    if actuator.swap:
        name, choice = actuator.swap
        yield from _misfits(kind, {name: "choice"}, needed=True)
        if name in kind.parameters and choice not in kind.parameters[name].choices:
            yield f'its contacts depend on "{choice}", which "{name}" can never be'
