"""What `--setting` and `--rotation` say: switches thrown, shafts turned."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING

import click

from wirer.circuit.errors import WirerError, shown
from wirer.command.near import hint

if TYPE_CHECKING:
    from wirer.circuit.model import Circuit, Part
    from wirer.circuit.stance import Stance

# A comma parts two entries only where a name and = come after it: labels may have commas.
_COMMA = re.compile(r",(?=[^,=]*=)")

setting_option = click.option(
    "--setting",
    "settings",
    multiple=True,
    metavar="S1=up,S2=down",
    help="Throw switches (by id or label, to a position or its label); the others stand as in "
    "the document.",
)
rotation_option = click.option(
    "--rotation",
    "rotations",
    multiple=True,
    metavar="V=0.5,T.shaft=0.2",
    help="Turn shafts: 0 is fully counter-clockwise, 1 fully clockwise.",
)


class SettingError(WirerError):
    """A setting or rotation that is none of the circuit's."""


def stance_with(
    circuit: Circuit, stance: Stance, settings: Iterable[str] = (), rotations: Iterable[str] = ()
) -> Stance:
    """Return the stance with the named switches thrown and the named shafts turned.

    Raises
    ------
    WirerError
        There is no such switch, position or shaft, a rotation is no share, or a name stands twice.
    """
    from wirer.circuit.stance import thrown, turned

    for part_id, position in _positions(circuit, settings).items():
        stance = thrown(circuit, stance, part_id, position)
    for shaft, rotation in _rotations(circuit, rotations).items():
        stance = turned(circuit, stance, shaft, rotation)
    return stance


def _positions(circuit: Circuit, texts: Iterable[str]) -> dict[str, str]:
    switches = {part.id: part for part in circuit.switches}
    labels = {part_id: part.name for part_id, part in switches.items()}
    positions: dict[str, str] = {}
    for name, wished in _entries("--setting", texts, "S1=up"):
        part_id = _named(name, labels, "--setting", "switch")
        if part_id in positions:
            raise _twice("--setting", part_id)
        positions[part_id] = _position(circuit, switches[part_id], wished)
    return positions


def _position(circuit: Circuit, part: Part, wished: str) -> str:
    from wirer.circuit.stance import positions_in_use

    positions = positions_in_use(circuit.kind_of(part), part)
    labels = {position: part.position_name(position) for position in positions}
    return _named(wished, labels, f"--setting {part.id}", "position")


def _rotations(circuit: Circuit, texts: Iterable[str]) -> dict[str, float]:
    shafts = {
        f"{part.id}.{shaft.name}": part
        for part in circuit.parts
        for shaft in circuit.kind_of(part).shafts
    }
    labels = {name: _shaft_label(circuit, name, part) for name, part in shafts.items()}
    rotations: dict[str, float] = {}
    for name, wished in _entries("--rotation", texts, "V=0.5"):
        own = [shaft for shaft, part in shafts.items() if part.id == name]
        shaft = own[0] if len(own) == 1 else _named(name, labels, "--rotation", "shaft")
        if shaft in rotations:
            raise _twice("--rotation", shaft)
        rotations[shaft] = _share(name, wished)
    return rotations


def _shaft_label(circuit: Circuit, shaft: str, part: Part) -> str:
    """Return what people call a shaft: its part's label where it is the only one."""
    alone = len(circuit.kind_of(part).shafts) == 1
    return part.name if alone else f"{part.name} {shaft.partition('.')[2]}"


def _share(name: str, wished: str) -> float:
    try:
        return float(wished)
    except ValueError as error:
        text = f'--rotation: "{shown(wished)}" of {shown(name)} is no rotation'
        raise SettingError(f"{text}; write a number from 0 to 1, such as 0.5") from error


def _entries(option: str, texts: Iterable[str], example: str) -> Iterator[tuple[str, str]]:
    for entry in (entry for text in texts for entry in _COMMA.split(text)):
        name, equals, wished = (piece.strip() for piece in entry.partition("="))
        if not (name and equals and wished):
            text = f'{option}: "{shown(entry)}" is no pair; write for example {example}'
            raise SettingError(text)
        yield name, wished


def _twice(option: str, name: str) -> SettingError:
    return SettingError(f'{option}: "{name}" is given twice; leave one out')


def _named(wished: str, labels: Mapping[str, str], option: str, what: str) -> str:
    """Return the id that a person means by an id or a label."""
    if wished in labels:
        return wished
    found = [name for name, label in labels.items() if _folded(label) == _folded(wished)]
    if len(found) == 1:
        return found[0]
    if found:
        text = f'"{shown(wished)}" is the label of {" and ".join(found)}; write one of these'
    elif not labels:
        text = f'there is no {what} "{shown(wished)}"; the circuit has none'
    else:
        listed = (f"{n} ({x})" if n != x else n for n, x in labels.items())
        meant = hint(wished, dict.fromkeys([*labels, *labels.values()]), _all_of(listed))
        text = f'there is no {what} "{shown(wished)}"; {meant}'
    raise SettingError(f"{option}: {text}")


def _all_of(names: Iterable[str]) -> str:
    return f"there are {', '.join(names)}"


def _folded(text: str) -> str:
    return " ".join(text.split()).casefold()
