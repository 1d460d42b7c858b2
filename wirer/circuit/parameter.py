"""What a parameter of a kind admits: quantities within bounds, words of a choice, tapers."""

from __future__ import annotations

import math
from collections.abc import Iterator

from wirer.circuit.errors import QuantityError, shown
from wirer.circuit.kind import Parameter, Value
from wirer.circuit.quantity import UNITS, article, example, format_quantity, parse_quantity
from wirer.circuit.tables import table_problem

TAPERS = ("linear", "audio", "reverse-audio")
TIMINGS = ("break", "make", "unknown")


def read_number(value: Value, parameter: Parameter) -> float:
    """Read a written value of a parameter that is a quantity, in the SI unit of the quantity.

    Raises
    ------
    QuantityError
        It is no such quantity or out of the parameter's bounds.
    """
    plain = not UNITS[parameter.quantity]
    if isinstance(value, tuple) or (not isinstance(value, str) and not plain):
        written = "a table" if isinstance(value, tuple) else f"{shown(value)} without quotes"
        raise QuantityError(
            f"{written} is not {article(parameter.quantity)}; a quantity is text, "
            f"{example(parameter.quantity)}"
        )
    number = parse_quantity(str(value), parameter.quantity)
    if not _within_bounds(number, parameter):
        raise QuantityError(f'"{shown(value)}" is out of bounds; it must be {_bounds(parameter)}')
    if parameter.quantity == "count" and not number.is_integer():
        raise QuantityError(f'"{shown(value)}" is not a whole number')
    return number


def _within_bounds(number: float, parameter: Parameter) -> bool:
    edges = (parameter.least, parameter.most)
    if parameter.exclusive and number in edges:
        return False
    least, most = edges
    return (least is None or number >= least) and (most is None or number <= most)


def _bounds(parameter: Parameter) -> str:
    low, high = (
        None if edge is None else format_quantity(edge, parameter.quantity)
        for edge in (parameter.least, parameter.most)
    )
    if low and high:
        strictly = "strictly " if parameter.exclusive else ""
        return f"{strictly}between {low} and {high}"
    if low:
        return f"more than {low}" if parameter.exclusive else f"at least {low}"
    return f"less than {high}" if parameter.exclusive else f"at most {high}"


def value_problem(value: Value, parameter: Parameter) -> str | None:
    """Say what is wrong with a written value, or None."""
    if parameter.quantity == "choice":
        if value in parameter.choices:
            return None
        return f'"{shown(value)}" is not one of {", ".join(parameter.choices)}'
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
    words = ", ".join(TAPERS)
    return f'"{shown(value)}" is not a taper; write {words} or a table such as [[0, 0], [1, 1]]'


def parameter_problems(parameter: Parameter) -> Iterator[str]:
    """Yield what contradicts itself in a parameter of a kind."""
    if parameter.quantity == "choice" and not parameter.choices:
        yield "is a choice of nothing"
    least, most = parameter.least, parameter.most
    if not all(math.isfinite(edge) for edge in (least, most) if edge is not None):
        yield "has a bound that is no number"
    if least is not None and most is not None and least > most:
        yield "has bounds that nothing lies between"
    if parameter.default is not None and (problem := value_problem(parameter.default, parameter)):
        yield f"has a default of which {problem}"
    if parameter.usual:
        yield from _usual_problems(parameter, parameter.usual)


def _usual_problems(parameter: Parameter, usual: tuple[str, str]) -> Iterator[str]:
    if parameter.quantity in {"choice", "taper"}:
        yield "is no quantity and has no usual range"
        return
    try:
        low, high = (read_number(edge, parameter) for edge in usual)
    except QuantityError as error:
        yield f"has a usual range of which {error}"
        return
    if low > high:
        yield "has a usual range that ends below its beginning"
