"""The parts list: every value of every part, nominal, tolerance, measured, and its window."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from wirer.circuit.kind import Kind, Parameter, Value
from wirer.circuit.model import Circuit, Part
from wirer.circuit.parameter import TIMINGS
from wirer.circuit.quantity import UNITS, format_quantity
from wirer.circuit.values import number_of, read_number
from wirer.papers.bench.bands import bands
from wirer.papers.bench.meter_model import MeterModel
from wirer.papers.bench.spread import RESISTANCE, TOLERANCE, spread_of
from wirer.papers.bench.windows import Window, customary_window, metered_window
from wirer.papers.figures import three_figures

NAMES = {"resistance": "resistance", "share": "half-turn share", "end": "end resistance"}
MEASURABLE = frozenset({"resistance", "inductance", "capacitance"})
WORDS = frozenset({"choice", "taper"})
TIMING = "timing"


@dataclass(frozen=True, slots=True)
class ValueRow:
    """One value of a part, as text; `assumed` if the document does not say it.

    `to_measure` tells whether a place to write a measured value is of use.
    """

    name: str
    nominal: str
    tolerance: str
    measured: str
    window: str
    assumed: bool
    to_measure: bool


@dataclass(frozen=True, slots=True)
class PartRow:
    """One part: its id, its label, what it is, its values."""

    part: str
    label: str
    kind: str
    letter: str
    values: tuple[ValueRow, ...]


def parts_list(circuit: Circuit, model: MeterModel) -> tuple[PartRow, ...]:
    """Return the parts in the document's order; `model` is the meter's of the listed settings."""
    found = bands(model, model.ohms, [spread_of(circuit, b) for b in model.branches])

    def window(part: Part, kind: Kind, name: str, element: str) -> Window | None:
        usual = customary_window(kind.parameters[name])
        if name != RESISTANCE:
            return usual
        nominal = number_of(part, kind, name, element) or 0.0
        return metered_window(model, found, part.id, nominal, usual) or usual

    rows = []
    for part in circuit.parts:
        kind = circuit.kind_of(part)
        label = part.label if part.label != part.id else ""
        values = tuple(_values(part, kind, window))
        rows.append(PartRow(part.id, label, kind.name, kind.letter, values))
    return tuple(rows)


def _values(
    part: Part, kind: Kind, window: Callable[[Part, Kind, str, str], Window | None]
) -> Iterator[ValueRow]:
    choices = []
    for key, name, element in _listed(part, kind):
        parameter = kind.parameters[name]
        row = _row(part, key, parameter, window(part, kind, name, element))
        if parameter.quantity == "choice":
            choices.append(row)
        else:
            yield row
    if choices:
        yield _together(choices)
    if TIMING in part.values or TIMING in part.measured:
        yield _row(part, TIMING, Parameter(quantity="choice", choices=TIMINGS), None)


def _listed(part: Part, kind: Kind) -> Iterator[tuple[str, str, str]]:
    """Yield the values to list as key, parameter and element: what is said and what counts."""
    said = {*part.values, *part.measured}
    for name, parameter in kind.parameters.items():
        apart = sorted(k for k in said if k.endswith(f".{name}"))
        counts = parameter.assumed or parameter.usual or parameter.quantity in WORDS
        if name in said or (not apart and counts):
            yield name, name, ""
        for key in apart:
            yield key, name, key.removesuffix(f".{name}")


def _row(part: Part, key: str, parameter: Parameter, window: Window | None) -> ValueRow:
    nominal = part.values.get(key)
    measured = part.measured.get(key)
    said = nominal is not None or measured is not None
    default = parameter.default if not said else None
    return ValueRow(
        name=_name(key),
        nominal=value_text(nominal if nominal is not None else default, parameter),
        tolerance=_tolerance(part.values, key) or _tolerance(part.measured, key),
        measured=value_text(measured, parameter),
        window=window_text(window, parameter.quantity),
        assumed=not said and parameter.default is not None,
        to_measure=parameter.quantity in MEASURABLE,
    )


def _together(rows: Sequence[ValueRow]) -> ValueRow:
    """Return the choices of a part in one row."""
    measured = [row.measured for row in rows]
    return ValueRow(
        name=", ".join(row.name for row in rows),
        nominal=", ".join(row.nominal or "–" for row in rows),
        tolerance="",
        measured=", ".join(text or "–" for text in measured) if any(measured) else "",
        window="",
        assumed=all(row.assumed for row in rows),
        to_measure=False,
    )


def _name(key: str) -> str:
    element, _, name = key.rpartition(".")
    words = NAMES.get(name, name)
    return f"{words}, {element}" if element else words


def _tolerance(source: Mapping[str, Value], key: str) -> str:
    """Return the tolerance that a part's written quantities have."""
    element, _, name = key.rpartition(".")
    if name not in MEASURABLE:
        return ""
    found = source.get(f"{element}.{TOLERANCE}" if element else TOLERANCE)
    return "" if found is None else str(found)


def value_text(value: Value | None, parameter: Parameter) -> str:
    """Return a written value as the papers show it: `6.8 kΩ`, a word, or that it is a table."""
    if value is None:
        return ""
    if isinstance(value, tuple):
        return "by a table"
    if parameter.quantity not in UNITS or not UNITS[parameter.quantity]:
        return str(value)
    return format_quantity(read_number(value, parameter), parameter.quantity)


def _edge_text(edge: float | None, quantity: str, *, metered: bool) -> str:
    if edge is None:
        return ""
    return three_figures(edge, quantity) if metered else format_quantity(edge, quantity)


def window_text(window: Window | None, quantity: str) -> str:
    """Return a window as text, empty where there is none: `6.4 to 7.4 kΩ`."""
    if window is None:
        return ""
    least = _edge_text(window.least, quantity, metered=window.least_metered)
    most = _edge_text(window.most, quantity, metered=window.most_metered)
    if not least:
        return f"up to {most}"
    if not most:
        return f"from {least}"
    number, _, unit = least.partition(" ")
    return f"{number} to {most}" if most.endswith(f" {unit}") and unit else f"{least} to {most}"
