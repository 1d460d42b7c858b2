"""The values of a part: measured before nominal, nominal before the kind's customary one."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.circuit.errors import QuantityError, shown
from wirer.circuit.kind import Kind, Parameter, Value
from wirer.circuit.model import Part
from wirer.circuit.parameter import TAPERS, TIMINGS, read_number, value_problem
from wirer.circuit.quantity import parse_tolerance

__all__ = [
    "TAPERS",
    "TIMINGS",
    "choice_of",
    "known_value_names",
    "number_of",
    "read_number",
    "timing_of",
    "value_of",
    "value_problem",
    "value_problems",
    "written_apart",
    "written_value",
]


def written_value(part: Part, name: str, element: str = "") -> Value | None:
    """Return what the document says of a parameter, for one named element if it says so apart."""
    entry = _entry(part, name, element)
    return entry[1] if entry else None


def written_apart(part: Part, name: str, element: str) -> bool:
    """Tell whether the value that holds for a named element is its own, not the whole part's."""
    entry = _entry(part, name, element)
    return entry is not None and entry[0] != name


def _entry(part: Part, name: str, element: str) -> tuple[str, Value] | None:
    for source in (part.measured, part.values):
        for key in (f"{element}.{name}", name) if element else (name,):
            if key in source:
                return key, source[key]
    return None


def value_of(part: Part, kind: Kind, name: str, element: str = "") -> Value | None:
    """Return a parameter's value as written, else the kind's default (None: there is none)."""
    written = written_value(part, name, element)
    if written is not None:
        return written
    parameter = kind.parameters.get(name)
    return parameter.default if parameter else None


def number_of(part: Part, kind: Kind, name: str, element: str = "") -> float | None:
    """Return a parameter in the SI unit of its quantity, or None where it has no value.

    Raises
    ------
    QuantityError
        The value is no such quantity or out of the parameter's bounds.
    """
    value = value_of(part, kind, name, element)
    return None if value is None else read_number(value, kind.parameters[name])


def choice_of(part: Part, kind: Kind, name: str, element: str = "") -> str:
    """Return the chosen word of a parameter that is a choice."""
    return str(value_of(part, kind, name, element))


def timing_of(part: Part, kind: Kind) -> str:
    """Return how a switch passes from one position to the next: break, make or unknown."""
    own = written_value(part, "timing")
    if own is not None:
        return str(own)
    return kind.actuator.timing if kind.actuator else "break"


def known_value_names(kind: Kind) -> dict[str, Parameter]:
    """Return every key that `values` of this kind may have, with the parameter it sets."""
    names = dict(kind.parameters)
    for element in kind.elements:
        own = getattr(element, "name", "")
        if own:
            names.update({f"{own}.{name}": p for name, p in kind.parameters.items()})
    if kind.actuator:
        names["timing"] = Parameter(quantity="choice", choices=TIMINGS)
    return names


def value_problems(part: Part, kind: Kind) -> Iterator[tuple[str, str]]:
    """Yield (place, what is wrong) for each unreadable value of a part."""
    known = known_value_names(kind)
    for field in ("values", "measured"):
        for name, value in getattr(part, field).items():
            place = f"{field}.{shown(name)}"
            if _names_tolerance(name, kind):
                problem = _tolerance_problem(value)
            elif name in known:
                problem = value_problem(value, known[name])
            else:
                choices = ", ".join(sorted(known)) or "none"
                problem = f'{shown(kind.id)} has no value "{shown(name)}"; it has {choices}'
            if problem:
                yield place, problem


def _names_tolerance(name: str, kind: Kind) -> bool:
    element, _, last = name.rpartition(".")
    named = {"", *(getattr(e, "name", "") for e in kind.elements)}
    return last == "tolerance" and element in named and name != f".{last}"


def _tolerance_problem(value: Value) -> str | None:
    if not isinstance(value, str):
        return "a tolerance is text; write for example 20%"
    try:
        parse_tolerance(value)
    except QuantityError as error:
        return str(error)
    return None
