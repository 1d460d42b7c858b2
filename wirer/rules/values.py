"""Rules of values: what is out of the ordinary, and what is only assumed."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from msgspec.structs import replace

from wirer.circuit.edits import set_value
from wirer.circuit.kind import Kind, Parameter
from wirer.circuit.model import Part
from wirer.circuit.quantity import UNITS, format_quantity, parse_quantity, parse_tolerance
from wirer.circuit.values import known_value_names, number_of, read_number, written_value
from wirer.rules.finding import Fix, Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import listed, part_name
from wirer.rules.registry import rule

USUAL_TOLERANCE = 0.2


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
                value = _nominal(part, kind, name, element) if parameter.usual else None
                if value is not None and not _usual(value, parameter):
                    yield _unusual(inspection, part, name, value, parameter)


def _nominal(part: Part, kind: Kind, name: str, element: str) -> float | None:
    """Return the nominal value where one is written: a part may measure beyond what is sold."""
    plain = replace(part, measured={})
    written = written_value(plain, name, element) is not None
    return number_of(plain if written else part, kind, name, element)


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


@rule(
    "measured-off",
    "note",
    wrong="A part measures further from its nominal value than its tolerance allows.",
    heard="Perhaps nothing; a coil that reads low may have shorted turns and sound weak and thin.",
    meter="Measure it again out of circuit, at room temperature.",
    mend="Compare with its twin; replace it if it is faulty, or write down what it really is.",
)
def measured_off(inspection: Inspection) -> Iterator[Remark]:
    """Find measured values beyond the tolerance of the nominal ones, 20 % where none is stated."""
    for part in inspection.circuit.parts:
        kind = inspection.kind(part.id)
        known = known_value_names(kind)
        for name in part.measured:
            parameter = known.get(name)
            nominal = part.values.get(name, part.values.get(name.rpartition(".")[2]))
            if parameter is None or parameter.quantity not in UNITS or nominal is None:
                continue
            measured, meant = (read_number(v, parameter) for v in (part.measured[name], nominal))
            below, above = _tolerance(part)
            off = measured / meant - 1 if meant else 0.0
            if not -below - 1e-9 <= off <= above + 1e-9:
                shown = format_quantity(measured, parameter.quantity)
                side = f"{abs(off):.0%} {'above' if off > 0 else 'below'} its nominal value"
                text = f"{part_name(inspection.circuit, part.id)}: {name} measures {shown}, {side}."
                yield Remark(text, (part.id,))


def _tolerance(part: Part) -> tuple[float, float]:
    """Return the shares by which a part may fall short of and exceed its nominal value."""
    for source in (part.measured, part.values):
        if "tolerance" in source:
            return parse_tolerance(str(source["tolerance"]))
    return USUAL_TOLERANCE, USUAL_TOLERANCE
