"""What keeps a set of parts and wires from being a circuit.

Wrong *wiring* (no jack, a wire from a lug to itself) is none of this: it is a circuit, and rules
speak of it.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator, Mapping, Set
from difflib import get_close_matches
from itertools import islice

from wirer.circuit.catalogue import kind_ids
from wirer.circuit.colour import NAMES, colour_codes
from wirer.circuit.errors import KindError, Problem, QuantityError, shown
from wirer.circuit.gauge import gauge_problem
from wirer.circuit.kind import Kind, Point
from wirer.circuit.kind_check import kind_problems
from wirer.circuit.model import Circuit, OutputLoad, Part, Wanted, Wire
from wirer.circuit.quantity import parse_quantity
from wirer.circuit.stance import positions_in_use
from wirer.circuit.underlay import underlay_problems
from wirer.circuit.values import value_problems

MOST_PARTS = 400
MOST_WIRES = 4000
MOST_BENDS = 200
MOST_PROBLEMS = 100
FARTHEST_MM = 100_000.0
PART_ID = re.compile(r"[A-Za-z][A-Za-z0-9_]{0,63}")
WIRE_ID = re.compile(r"[A-Za-z0-9_][A-Za-z0-9_-]{0,63}")


MOST = {
    "parts": MOST_PARTS,
    "wires": MOST_WIRES,
    "kinds": MOST_PARTS,
    "wanted": MOST_WIRES,
    "waived": MOST_WIRES,
}


def circuit_problems(circuit: Circuit) -> list[Problem]:
    """Return what keeps `circuit` from being one, each with its place, at most `MOST_PROBLEMS`.

    Wires and wanted sounds are looked at only when kinds and parts are sound.
    """
    for stage in (_size_problems, _part_problems, _joint_problems):
        problems = list(islice(stage(circuit), MOST_PROBLEMS))
        if problems:
            return problems
    return []


def crowd_problems(counts: Mapping[str, int]) -> Iterator[Problem]:
    """Yield which lists of a circuit (`parts`, `wires` …) are longer than one may be."""
    for name, most in MOST.items():
        if (count := counts.get(name, 0)) > most:
            text = f"{count} {name} are more than the {most} that a circuit may have"
            yield Problem(name, text)


def _size_problems(circuit: Circuit) -> Iterator[Problem]:
    yield from crowd_problems({name: len(getattr(circuit, name)) for name in MOST})


def _part_problems(circuit: Circuit) -> Iterator[Problem]:
    yield from _own_kind_problems(circuit)
    yield from _id_problems(circuit)
    for index, part in enumerate(circuit.parts):
        yield from part_problems(circuit, part, f"parts[{index}]")


def _joint_problems(circuit: Circuit) -> Iterator[Problem]:
    lugs = frozenset(circuit.lugs)
    for index, wire in enumerate(circuit.wires):
        yield from wire_problems(lugs, wire, f"wires[{index}]")
    for index, wanted in enumerate(circuit.wanted):
        yield from wanted_problems(circuit, wanted, f"wanted[{index}]")
    yield from load_problems(circuit.output_load)
    yield from underlay_problems(circuit.underlay)
    if circuit.underlay:
        yield from _point_problems(circuit.underlay.at, "underlay.at")


def _own_kind_problems(circuit: Circuit) -> Iterator[Problem]:
    for index, kind in enumerate(circuit.kinds):
        for text in kind_problems(kind):
            yield Problem(f"kinds[{index}]", f"{shown(kind.id)}: {text}")
    yield from _doubles("kinds", (kind.id for kind in circuit.kinds))


def _id_problems(circuit: Circuit) -> Iterator[Problem]:
    yield from _doubles("parts", (part.id for part in circuit.parts))
    yield from _doubles("wires", (wire.id for wire in circuit.wires))
    parts = {part.id for part in circuit.parts}
    for index, wire in enumerate(circuit.wires):
        if wire.id in parts:
            text = f'"{shown(wire.id)}" is already the id of a part; ids must differ'
            yield Problem(f"wires[{index}].id", text)


def _doubles(field: str, ids: Iterable[str]) -> Iterator[Problem]:
    seen: dict[str, int] = {}
    for index, name in enumerate(ids):
        if name in seen:
            text = f'"{shown(name)}" is already the id of {field}[{seen[name]}]; ids must differ'
            yield Problem(f"{field}[{index}].id", text)
        else:
            seen[name] = index


def part_problems(circuit: Circuit, part: Part, place: str = "") -> Iterator[Problem]:
    """Yield what is wrong with one part of a circuit."""
    if not PART_ID.fullmatch(part.id):
        text = f'"{shown(part.id)}" is not a part id; write a letter, then letters, figures or _'
        yield Problem(f"{place}.id", text)
    yield from _point_problems(part.at, f"{place}.at")
    try:
        kind = circuit.kind(part.kind)
    except KindError as error:
        yield Problem(f"{place}.kind", str(error) + _near(part.kind, circuit))
        return
    for where, text in value_problems(part, kind):
        yield Problem(f"{place}.{where}", text)
    yield from _label_problems(part, kind, place)


def _near(wished: str, circuit: Circuit) -> str:
    names = get_close_matches(wished[:80], [*(k.id for k in circuit.kinds), *kind_ids()], 1, 0.5)
    return f"; is it {names[0]}?" if names else "; `wirer kinds` lists them"


def _label_problems(part: Part, kind: Kind, place: str) -> Iterator[Problem]:
    for name in part.lug_labels:
        if kind.lug(name) is None:
            having = ", ".join(lug.name for lug in kind.lugs)
            text = f'{shown(kind.id)} has no lug "{shown(name)}"; it has {having}'
            yield Problem(f"{place}.lug_labels", text)
    positions = kind.actuator.positions if kind.actuator else ()
    for name in part.position_labels:
        if name not in positions:
            having = f"it has {', '.join(positions)}" if positions else "it is no switch"
            text = f'{shown(kind.id)} has no position "{shown(name)}"; {having}'
            yield Problem(f"{place}.position_labels", text)


def _point_problems(point: Point, place: str) -> Iterator[Problem]:
    if not all(math.isfinite(v) and abs(v) <= FARTHEST_MM for v in point):
        yield Problem(place, f"lies farther than {FARTHEST_MM:g} mm out; write millimetres")


def wire_problems(lugs: Set[str], wire: Wire, place: str = "") -> Iterator[Problem]:
    """Yield what is wrong with one wire, given every lug of the circuit."""
    if not WIRE_ID.fullmatch(wire.id):
        yield Problem(f"{place}.id", f'"{shown(wire.id)}" is not a wire id; write for example w1')
    ends = {"from": wire.from_lug, "to": wire.to_lug}
    screens = {"screen_from": wire.screen_from, "screen_to": wire.screen_to}
    for name, lug in {**ends, **screens}.items():
        if lug is not None and lug not in lugs:
            text = f'there is no lug "{shown(lug)}"{_lug_hint(lugs, lug)}'
            yield Problem(f"{place}.{name}", text)
    if wire.style != "screened" and (wire.screen_from or wire.screen_to):
        yield Problem(f"{place}.style", f'a {wire.style} wire has no screen; write "screened"')
    if wire.colour and colour_codes(wire.colour) is None:
        text = f'"{shown(wire.colour)}" is not a colour of IEC 60757; write {", ".join(NAMES)}'
        yield Problem(f"{place}.colour", f"{text} or a pair such as GNYE")
    if wire.gauge and (problem := gauge_problem(wire.gauge)):
        yield Problem(f"{place}.gauge", problem)
    if len(wire.bends) > MOST_BENDS:
        yield Problem(f"{place}.bends", f"a wire has at most {MOST_BENDS} bends")
    for index, bend in enumerate(wire.bends):
        yield from _point_problems(bend, f"{place}.bends[{index}]")


def _lug_hint(lugs: Set[str], wished: str) -> str:
    part = wished.partition(".")[0]
    own = sorted(lug.partition(".")[2] for lug in lugs if lug.partition(".")[0] == part)
    return f"; {part} has {', '.join(own)}" if own else f'; there is no part "{shown(part)}"'


def wanted_problems(circuit: Circuit, wanted: Wanted, place: str = "") -> Iterator[Problem]:
    """Yield what is wrong with the setting of a wanted sound."""
    for part_id, position in wanted.setting.items():
        part = circuit.part_by_id.get(part_id)
        choices = positions_in_use(circuit.kind_of(part), part) if part else ()
        if not choices:
            yield Problem(f"{place}.setting", f'there is no switch "{shown(part_id)}"')
        elif position not in choices:
            text = f'{part_id} has no position "{shown(position)}"; it has {", ".join(choices)}'
            yield Problem(f"{place}.setting", text)


def load_problems(load: OutputLoad) -> Iterator[Problem]:
    """Yield what is wrong with the output load."""
    for name, text, dimension in (
        ("cable", load.cable, "capacitance"),
        ("input", load.input, "resistance"),
    ):
        try:
            value = parse_quantity(text, dimension)
        except QuantityError as error:
            yield Problem(f"output_load.{name}", str(error))
            continue
        if name == "input" and value == 0:
            yield Problem("output_load.input", "an input of 0 Ω shorts the guitar; write 1M")
