"""The stance: where the switches and knobs stand. Throwing a switch is no edit."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field
from msgspec.structs import force_setattr

from wirer.circuit.errors import EditError, shown
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Actuator, Kind
from wirer.circuit.model import Circuit, Part
from wirer.circuit.values import choice_of, number_of


class Stance(Struct, frozen=True):
    """The position of every actuator by part id, the rotation of every shaft by `PART.shaft`."""

    positions: Mapping[str, str] = field(default_factory=FrozenMap)
    rotations: Mapping[str, float] = field(default_factory=FrozenMap)

    def __post_init__(self) -> None:
        force_setattr(self, "positions", FrozenMap.of(self.positions))
        force_setattr(self, "rotations", FrozenMap.of(self.rotations))


def positions_in_use(kind: Kind, part: Part) -> tuple[str, ...]:
    """Return the positions that the actuator can take, up to its stop."""
    actuator = kind.actuator
    if actuator is None:
        return ()
    stop = number_of(part, kind, actuator.stop) if actuator.stop else None
    return actuator.positions if stop is None else actuator.positions[: int(stop)]


def joined_lugs(
    actuator: Actuator, kind: Kind, part: Part, position: str
) -> tuple[tuple[str, ...], ...]:
    """Return the groups of `PART.lug` that a position joins."""
    source = position
    if actuator.swap:
        parameter, choice = actuator.swap
        first, second = actuator.positions[:2]
        if choice_of(part, kind, parameter) == choice and position in (first, second):
            source = second if position == first else first
    return tuple(tuple(f"{part.id}.{lug}" for lug in group) for group in actuator.contacts[source])


def default_rotations(circuit: Circuit) -> FrozenMap[str, float]:
    """Return every shaft at its full position (a blend in its middle)."""
    return FrozenMap(
        {
            f"{part.id}.{shaft.name}": shaft.default
            for part in circuit.parts
            for shaft in circuit.kind_of(part).shafts
        }
    )


def default_stance(circuit: Circuit) -> Stance:
    """Return the stance of a circuit that says nothing of it: first positions, shafts full."""
    positions = {p.id: positions_in_use(circuit.kind_of(p), p)[0] for p in circuit.switches}
    return Stance(positions=positions, rotations=default_rotations(circuit))


def fitted_stance(circuit: Circuit, stance: Stance) -> Stance:
    """Return the stance as far as the circuit still has its switches, positions and shafts."""
    usual = default_stance(circuit)
    positions = dict(usual.positions)
    for part in circuit.switches:
        wished = stance.positions.get(part.id)
        if wished in positions_in_use(circuit.kind_of(part), part):
            positions[part.id] = wished
    turned_to = {name: stance.rotations.get(name, x) for name, x in usual.rotations.items()}
    rotations = {n: x if 0 <= x <= 1 else usual.rotations[n] for n, x in turned_to.items()}
    return Stance(positions=positions, rotations=rotations)


def thrown(circuit: Circuit, stance: Stance, part_id: str, position: str) -> Stance:
    """Return the stance with one switch thrown.

    Raises
    ------
    EditError
        The circuit has no such switch, or the switch no such position.
    """
    part = circuit.part_by_id.get(part_id)
    kind = circuit.kind_of(part) if part else None
    if part is None or kind is None or kind.actuator is None:
        raise EditError(f'there is no switch "{shown(part_id)}"')
    choices = positions_in_use(kind, part)
    if position not in choices:
        having = ", ".join(choices)
        raise EditError(f'{part_id} has no position "{shown(position)}"; it has {having}')
    return Stance(FrozenMap({**stance.positions, part_id: position}), stance.rotations)


def turned(circuit: Circuit, stance: Stance, shaft: str, rotation: float) -> Stance:
    """Return the stance with one shaft (`PART.shaft`, or `PART` where it has but one) turned.

    Raises
    ------
    EditError
        The circuit has no such shaft, or the rotation is not between 0 and 1.
    """
    part_id, _, name = shaft.partition(".")
    part = circuit.part_by_id.get(part_id)
    shafts = [s.name for s in circuit.kind_of(part).shafts] if part else []
    if not name and len(shafts) == 1:
        name = shafts[0]
    if name not in shafts:
        having = f"; {part_id} has {', '.join(shafts)}" if shafts else ""
        raise EditError(f'there is no shaft "{shown(shaft)}"{having}')
    if not 0 <= rotation <= 1:
        raise EditError(f"rotation {rotation:g} of {shaft} is not between 0 and 1")
    return Stance(stance.positions, FrozenMap({**stance.rotations, f"{part_id}.{name}": rotation}))
