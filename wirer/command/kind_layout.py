"""Kinds for people: the catalogue by groups, one kind with its lugs, contacts and values."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from wirer.circuit.kind import Actuator, Kind, Lug, Parameter, Shaft, Shape, Table, Value
from wirer.circuit.parameter import read_number
from wirer.circuit.quantity import UNITS, format_quantity
from wirer.command.grid import Column, head_lines, row_lines, widest
from wirer.command.paragraphs import clean, heading, paragraph, text_width

GROUPS = ("pickups", "switches", "pots", "components", "jacks", "grounds", "terminals")


def catalogue_lines(kinds: Iterable[Kind], *, colour: bool) -> Iterator[str]:
    """Yield every kind with its id, name and number of lugs, by groups."""

    def place(kind: Kind) -> tuple[int, str]:
        known = GROUPS.index(kind.group) if kind.group in GROUPS else len(GROUPS)
        return known, kind.group

    ordered = sorted(kinds, key=place)
    columns = [
        Column(("kind",), widest(kind.id for kind in ordered)),
        Column(("name",), widest(kind.name for kind in ordered)),
        Column(("lugs",), len("lugs"), right=True),
    ]
    yield from (f"  {line}" for line in head_lines(columns))
    for group, members in groupby(ordered, key=lambda kind: kind.group):
        yield heading(group.upper(), colour=colour)
        for kind in members:
            cells = (kind.id, kind.name, str(len(kind.lugs)))
            yield from (f"  {clean(line)}" for line in row_lines(columns, cells))
        yield ""
    yield clean("Lugs, contacts and values of one: wirer kinds KIND")


def kind_lines(kind: Kind, *, colour: bool) -> Iterator[str]:
    """Yield what there is to know about a kind."""
    yield heading(f"{kind.id}: {kind.name}", colour=colour)
    if kind.about:
        yield from paragraph(kind.about, text_width(), indent=2)
    yield from paragraph(_measures(kind), text_width(), indent=2)
    yield from _section("LUGS, seen from the solder side", _lugs(kind.lugs), colour=colour)
    if kind.actuator:
        title = f"POSITIONS and the lugs they join ({_timing(kind.actuator)})"
        yield from _section(title, _contacts(kind.actuator), colour=colour)
    if kind.shafts:
        yield from _section("SHAFTS", _shafts(kind.shafts), colour=colour)
    if kind.parameters:
        yield from _section("VALUES", _values(kind), colour=colour)


def _section(title: str, lines: Iterable[str], *, colour: bool) -> Iterator[str]:
    yield ""
    yield heading(title, colour=colour)
    yield from (f"  {clean(line)}".rstrip() for line in lines)


def _measures(kind: Kind) -> str:
    said = [f"{kind.group}, reference letter {kind.letter}", f"body {_extent(kind.body)}"]
    if kind.depth:
        said.append(f"{kind.depth:g} mm deep behind the panel")
    if kind.heat_sensitive:
        said.append("sensitive to heat")
    return "; ".join(said) + "."


def _extent(body: Shape) -> str:
    if body.form == "circle":
        return f"{2 * body.radius:g} mm across"
    if body.form == "polygon":
        xs, ys = zip(*body.points, strict=True)
        return f"{max(xs) - min(xs):g} × {max(ys) - min(ys):g} mm"
    return f"{body.size[0]:g} × {body.size[1]:g} mm"


def _lugs(lugs: Sequence[Lug]) -> list[str]:
    rows = [(lug.name, lug.label, ", ".join(_marks(lug))) for lug in lugs]
    return _table(("lug", "what it is", ""), rows)


def _marks(lug: Lug) -> Iterator[str]:
    if lug.metal:
        yield "metal, to be grounded"
    if lug.needed:
        yield "needed"
    yield f"holds {lug.holds} wire{'s' if lug.holds != 1 else ''}"


def _timing(actuator: Actuator) -> str:
    names = {"break": "break before make", "make": "make before break", "unknown": "timing unknown"}
    return names[actuator.timing] + (", springs back" if actuator.momentary else "")


def _contacts(actuator: Actuator) -> list[str]:
    """Return the contact table, positions by poles."""
    poles = _poles(actuator)
    rows = []
    for position in actuator.positions:
        joined = actuator.contacts[position]
        cells = [" ".join("–".join(g) for g in joined if set(g) <= pole) or "·" for pole in poles]
        rows.append((position, *cells))
    return _table(("", *("" for _ in poles)), rows)


def _poles(actuator: Actuator) -> list[set[str]]:
    """Return the lugs of each pole: what one position or another joins."""
    poles: list[set[str]] = []
    for groups in actuator.contacts.values():
        for group in groups:
            meeting = [pole for pole in poles if pole & set(group)]
            if not meeting:
                poles.append(set(group))
                continue
            meeting[0].update(group, *meeting[1:])
            poles = [pole for pole in poles if pole not in meeting[1:]]
    return poles


def _shafts(shafts: Iterable[Shaft]) -> list[str]:
    rows = []
    for shaft in shafts:
        detent = f"detent at {shaft.detent:g}" if shaft.detent is not None else ""
        rows.append((shaft.name, f"stands at {shaft.default:g} of 0 to 1", detent))
    return _table(("", "", ""), rows)


def _values(kind: Kind) -> list[str]:
    rows = [
        (name, _default(parameter), _usual(parameter), parameter.about)
        for name, parameter in kind.parameters.items()
    ]
    return _table(("value", "if left out", "customary", "what it is"), rows)


def _default(parameter: Parameter) -> str:
    return "none" if parameter.default is None else _written(parameter.default, parameter)


def _written(value: Value, parameter: Parameter) -> str:
    if parameter.quantity in UNITS:
        return format_quantity(read_number(value, parameter), parameter.quantity)
    return _points(value) if isinstance(value, tuple) else str(value)


def _points(table: Table) -> str:
    return " ".join(f"{x:g}:{y:g}" for x, y in table)


def _usual(parameter: Parameter) -> str:
    if parameter.usual:
        low, high = (_written(edge, parameter) for edge in parameter.usual)
        return f"{low} to {high}"
    return " or ".join(parameter.choices)


def _table(head: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Return a table of which the last column is wrapped to what is left of the width."""
    widths = [widest([head[i], *(row[i] for row in rows)]) for i in range(len(head))]
    left = text_width() - 2 - sum(widths[:-1]) - 2 * (len(widths) - 1)
    widths[-1] = max(12, min(widths[-1], left))
    columns = [Column((name,), width) for name, width in zip(head, widths, strict=True)]
    lines = head_lines(columns) if any(head) else []
    return [*lines, *(line for row in rows for line in row_lines(columns, row))]
