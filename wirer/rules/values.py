"""Rules of values: what is out of the ordinary, and what is only assumed."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from wirer.circuit.edits import set_value
from wirer.circuit.kind import Kind, Parameter
from wirer.circuit.model import Part
from wirer.circuit.quantity import UNITS, format_quantity, parse_quantity
from wirer.circuit.values import number_of, written_value
from wirer.rules.finding import Fix, Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import listed, part_name
from wirer.rules.registry import rule


@rule(
    "value-unusual",
    "note",
    wrong="A value is outside the range that is customary for it.",
    heard="Perhaps duller, thinner or weaker than meant; perhaps just what was meant.",
    meter="Measure the part and compare.",
    mend="Look for a slip in the prefix (nF for pF, k for M); otherwise leave it.",
)
def value_unusual(inspection: Inspection) -> Iterator[Remark]:
    """Find values outside the customary range."""
    for part in inspection.circuit.parts:
        kind = inspection.kind(part.id)
        for name, parameter in kind.parameters.items():
            for element in _names(part, kind, name):
                value = number_of(part, kind, name, element) if parameter.usual else None
                if value is not None and not _usual(value, parameter):
                    yield _unusual(inspection, part, name, value, parameter)


def _names(part: Part, kind: Kind, name: str) -> tuple[str, ...]:
    """Return the elements for which a parameter is given apart, and the empty name for all."""
    named = {getattr(element, "name", "") for element in kind.elements}
    own = (
        e for e in named if e and (f"{e}.{name}" in part.values or f"{e}.{name}" in part.measured)
    )
    return ("", *sorted(own))


def _usual(value: float, parameter: Parameter) -> bool:
    low, high = (parse_quantity(end, parameter.quantity) for end in parameter.usual or ("0", "0"))
    return low * (1 - 1e-9) <= value <= high * (1 + 1e-9)


def _unusual(
    inspection: Inspection, part: Part, name: str, value: float, parameter: Parameter
) -> Remark:
    ends = [parse_quantity(end, parameter.quantity) for end in parameter.usual or ()]
    low, high = (format_quantity(end, parameter.quantity) for end in ends)
    shown = format_quantity(value, parameter.quantity)
    text = (
        f"{part_name(inspection.circuit, part.id)}: {name} {shown}, customary is {low} to {high}."
    )
    return Remark(text, (part.id,))


@rule(
    "value-assumed",
    "note",
    wrong="A value was left out; the customary one of its kind is used.",
    heard="Nothing; what is predicted is as good as the guess.",
    meter="Measure the part.",
    mend="Write its nominal or measured value.",
)
def value_assumed(inspection: Inspection) -> Iterator[Remark]:
    """Find values that were left to the kind."""
    for part in inspection.circuit.parts:
        kind = inspection.kind(part.id)
        missing = [
            (name, parameter)
            for name, parameter in kind.parameters.items()
            if parameter.assumed and not _written(part, kind, name)
        ]
        if missing:
            shown = listed(f"{name} {_shown(parameter)}" for name, parameter in missing)
            text = f"{part_name(inspection.circuit, part.id)} is taken to have {shown}."
            first, default = missing[0][0], missing[0][1].default
            edit = partial(set_value, part_id=part.id, name=first, value=default)
            fix = Fix(f"write {first} down", edit) if len(missing) == 1 else None
            yield Remark(text, (part.id,), fix=fix)


def _written(part: Part, kind: Kind, name: str) -> bool:
    named = [getattr(element, "name", "") for element in kind.elements]
    elements = [element for element in named if element] or [""]
    return all(written_value(part, name, element) is not None for element in elements)


def _shown(parameter: Parameter) -> str:
    if parameter.quantity in UNITS and isinstance(parameter.default, str):
        return format_quantity(
            parse_quantity(parameter.default, parameter.quantity), parameter.quantity
        )
    return str(parameter.default)
