"""The values of a part: measured before nominal, nominal before the kind's customary one."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.circuit.errors import QuantityError
from wirer.circuit.kind import Kind, Parameter, Value
from wirer.circuit.model import Part
from wirer.circuit.quantity import UNITS, article, example, parse_quantity, parse_tolerance
from wirer.circuit.tables import table_problem

TAPERS = ("linear", "audio", "reverse-audio")
TIMINGS = ("break", "make", "unknown")


def written_value(part: Part, name: str, element: str = "") -> Value | None:
    """Return what the document says of a parameter, for one named element if it says so apart."""
    for source in (part.measured, part.values):
        for key in (f"{element}.{name}", name) if element else (name,):
            if key in source:
                return source[key]
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
    own = part.values.get("timing")
    if own is not None:
        return str(own)
    return kind.actuator.timing if kind.actuator else "break"


def read_number(value: Value, parameter: Parameter) -> float:
    """Read a written value of a parameter that is a quantity.

    Raises
    ------
    QuantityError
        It is no such quantity or out of the parameter's bounds.
    """
    plain = not UNITS[parameter.quantity]
    if isinstance(value, tuple) or (isinstance(value, float) and not plain):
        shown = "a table" if isinstance(value, tuple) else f"{value:g} without quotes"
        raise QuantityError(
            f"{shown} is not {article(parameter.quantity)}; a quantity is text, "
            f"{example(parameter.quantity)}"
        )
    number = parse_quantity(repr(value) if isinstance(value, float) else value, parameter.quantity)
    _check_bounds(number, parameter)
    return number


def _check_bounds(number: float, parameter: Parameter) -> None:
    least, most = parameter.least, parameter.most
    low = least is not None and (number < least or (parameter.exclusive and number == least))
    high = most is not None and (number > most or (parameter.exclusive and number == most))
    if low or high:
        bounds = "between" if not parameter.exclusive else "strictly between"
        ends = f"{least if least is not None else 0:g} and {most:g}" if most is not None else ""
        want = f"{bounds} {ends}" if ends else f"at least {least:g}"
        raise QuantityError(f"{number:g} is out of bounds; it must lie {want}")
    if parameter.quantity == "count" and number != int(number):
        raise QuantityError(f"{number:g} is not a whole number")


def value_problem(value: Value, parameter: Parameter) -> str | None:
    """Say what is wrong with a written value, or None."""
    if parameter.quantity == "choice":
        if value in parameter.choices:
            return None
        return f'"{value}" is not one of {", ".join(parameter.choices)}'
    if parameter.quantity == "taper":
        return _taper_problem(value)
    try:
        read_number(value, parameter)
    except QuantityError as error:
        return str(error)
    return None


def _taper_problem(value: Value) -> str | None:
    if isinstance(value, tuple):
        problem = table_problem(value)
        if problem is None and value[0][1] > value[-1][1]:
            problem = "must rise with rotation"
        return f"the table of a taper {problem}" if problem else None
    if value in TAPERS:
        return None
    return (
        f'"{value}" is not a taper; write {", ".join(TAPERS)} or a table such as [[0, 0], [1, 1]]'
    )


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
            place = f"{field}.{name}"
            if name.rpartition(".")[2] == "tolerance":
                problem = _tolerance_problem(value)
            elif name in known:
                problem = value_problem(value, known[name])
            else:
                choices = ", ".join(sorted(known)) or "none"
                problem = f'{kind.id} has no value "{name}"; it has {choices}'
            if problem:
                yield place, problem


def _tolerance_problem(value: Value) -> str | None:
    if not isinstance(value, str):
        return "a tolerance is text; write for example 20%"
    try:
        parse_tolerance(value)
    except QuantityError as error:
        return str(error)
    return None
