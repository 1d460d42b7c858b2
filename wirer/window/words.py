"""What is said of a part, lug or wire that is pointed at."""

from __future__ import annotations

from collections.abc import Iterable

from wirer.circuit.colour import colour_codes, colour_words
from wirer.circuit.model import Circuit, Part, Wire, split_lug
from wirer.circuit.stance import Stance
from wirer.drawing.palette import Role
from wirer.rules.names import lug_name
from wirer.window.present import Present

ROLE_WORDS: dict[Role, str] = {
    "signal": "on signal",
    "ground": "on ground",
    "open": "not connected",
}
MOST_NAMED = 8


def lug_words(circuit: Circuit, present: Present, lug: str) -> tuple[str, ...]:
    """Return lines on a lug: names and function, kind, what its net is now, and with what."""
    part_id, name = split_lug(lug)
    part = circuit.part_by_id[part_id]
    kind = circuit.kind_of(part)
    known = kind.lug(name)
    own = part.lug_labels.get(name)
    lines = [lug_name(circuit, lug), f"{lug} · {kind.name}"]
    if own and known and known.label:
        lines.append(f"“{own}” on the part, {known.label}")
    if known and known.metal:
        lines.append("bare metal: belongs on ground")
    if lug in present.roles:
        lines.append(f"now {ROLE_WORDS[present.roles[lug]]}{_company(present, lug)}")
    return tuple(lines)


def _company(present: Present, lug: str) -> str:
    others = sorted(present.net_with(lug) - {lug})
    return f", joined to {_few(others)}" if others else ""


def _few(names: Iterable[str]) -> str:
    names = list(names)
    more = len(names) - MOST_NAMED
    shown = ", ".join(names[:MOST_NAMED])
    return f"{shown} and {more} more" if more > 0 else shown


def wire_words(present: Present, wire: Wire) -> tuple[str, ...]:
    """Return lines on a wire: its ends, what it is, and what its net is now."""
    make = [f"{wire.colour} ({colour_words(wire.colour)})"] if colour_codes(wire.colour) else []
    make += [wire.style] + ([wire.gauge] if wire.gauge else [])
    make += ["soldered"] if wire.done else []
    lines = [f"Wire {wire.id}: {wire.from_lug} to {wire.to_lug}", ", ".join(make)]
    if wire.from_lug in present.roles:
        lines.append(f"now {ROLE_WORDS[present.roles[wire.from_lug]]}")
    return tuple(lines)


def part_words(circuit: Circuit, part: Part, stance: Stance) -> tuple[str, ...]:
    """Return lines on a part: its name, its kind, and where it stands."""
    kind = circuit.kind_of(part)
    lines = [f"{part.name} ({part.id})" if part.label else part.id, kind.name]
    standing = standing_words(circuit, part, stance)
    return (*lines, standing) if standing else tuple(lines)


def standing_words(circuit: Circuit, part: Part, stance: Stance) -> str:
    """Return where a part's actuator and shafts stand; empty if it has none."""
    kind = circuit.kind_of(part)
    said = []
    if part.id in stance.positions:
        said.append(f"stands at {part.position_name(stance.positions[part.id])}")
    for shaft in kind.shafts:
        rotation = stance.rotations.get(f"{part.id}.{shaft.name}", shaft.default)
        which = f"{shaft.name} " if len(kind.shafts) > 1 else ""
        said.append(f"{which}at {rotation * 10:.1f} of 10")
    return ", ".join(said)
