"""The hand that operates what lies in the wiring view: throws switches, turns shafts. Free of Qt.

Points are in the wiring view, in mm.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from wirer.circuit.kind import Point, Shaft
from wirer.circuit.model import Part
from wirer.circuit.stance import positions_in_use
from wirer.layout.layout import Layout
from wirer.window.operate import STEP, caught_by_detent, position_at, turned_by
from wirer.window.session import Session
from wirer.window.targets import Spot, Targets

What = Literal["lug", "choice", "grip", "wire", "shaft", "part"]


@dataclass(frozen=True)
class Pointed:
    """What a point means: a lug, wire or part by its id; for a choice also its position."""

    what: What
    id: str
    position: str = ""


@dataclass
class _Turning:
    """A shaft in the hand; `rotation` is where it would be without its detent."""

    part: Part
    shaft: Shaft
    at: Point
    rotation: float


@dataclass
class _Throwing:
    """An actuator in the hand: whether it goes on by one when it is let go where it was taken."""

    spot: Spot
    goes_on: bool
    springs_back: bool


class Hand:
    """Operates the session's circuit."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._held: _Turning | _Throwing | None = None

    @property
    def is_holding(self) -> bool:
        """Whether an actuator or a shaft is being held."""
        return self._held is not None

    def pointed(self, targets: Targets, point: Point, reach: float) -> Pointed | None:
        """Return what a point means, what is small before what is large."""
        return next(self._pointed(targets, point, reach), None)

    def _pointed(self, targets: Targets, point: Point, reach: float) -> Iterator[Pointed]:
        if lug := targets.lug(point, reach):
            yield Pointed("lug", lug)
        if choice := targets.choice(point):
            yield Pointed("choice", *choice)
        if spot := targets.grip(point):
            yield Pointed("grip", spot.part.id)
        if wire := targets.wire(point, reach):
            yield Pointed("wire", wire)
        if turnable := targets.shaft(point):
            yield Pointed("shaft", turnable[0].part.id)
        if part := targets.part(point):
            yield Pointed("part", part)

    def take(self, targets: Targets, point: Point, pointed: Pointed | None) -> bool:
        """Take hold of what is pointed at; return whether there is something to operate."""
        if pointed is None:
            return False
        if pointed.what == "choice":
            self._session.throw(pointed.id, pointed.position)
            return True
        if pointed.what == "grip" and (spot := targets.grip(point)):
            self._take_grip(spot)
            return True
        if pointed.what == "part":
            return self._tap(pointed.id)
        turnable = targets.shaft(point) if pointed.what in {"shaft", "wire"} else None
        if turnable is None:
            return False
        spot, shaft = turnable
        rotation = self._session.stance.rotations[f"{spot.part.id}.{shaft.name}"]
        self._held = _Turning(spot.part, shaft, spot.point, rotation)
        return True

    def move(self, layout: Layout, point: Point) -> None:
        """Move what is held."""
        match self._held:
            case _Turning() as held:
                own = layout.placements[held.part.id].transform.back(point)
                swept = turned_by(held.shaft, held.at, own)
                held.rotation = min(max(held.rotation + swept, 0.0), 1.0)
                held.at = own
                self._turn(held.part, held.shaft, held.rotation)
            case _Throwing(spot=spot) as held if not held.springs_back:
                own = layout.placements[spot.part.id].transform.back(point)
                side = self._side(Spot(spot.part, spot.kind, own))
                if side and side != self._session.stance.positions[spot.part.id]:
                    held.goes_on = False
                    self._session.throw(spot.part.id, side)

    def let_go(self) -> None:
        """Let go of what is held; an actuator that was only tapped goes on by one position."""
        held, self._held = self._held, None
        if not isinstance(held, _Throwing):
            return
        part = held.spot.part.id
        if held.springs_back:
            self._session.throw_on(part, -1)
        elif held.goes_on:
            self._session.throw_on(part, 1, around=True)

    def wheel(self, targets: Targets, point: Point, clicks: float) -> bool:
        """Turn the shaft under a point by clicks of a wheel; return whether there is one."""
        turnable = targets.shaft(point)
        if turnable is None:
            return False
        spot, shaft = turnable
        self.turn_on(spot.part, shaft, clicks)
        return True

    def turn_on(self, part: Part, shaft: Shaft, steps: float) -> None:
        """Turn a shaft on by so many steps."""
        rotation = self._session.stance.rotations[f"{part.id}.{shaft.name}"]
        self._turn(part, shaft, round(rotation + steps * STEP, 6))

    def _turn(self, part: Part, shaft: Shaft, rotation: float) -> None:
        self._session.turn(f"{part.id}.{shaft.name}", caught_by_detent(shaft, rotation))

    def _tap(self, part_id: str) -> bool:
        """Throw a switch on by a click anywhere on its body; return whether it is one."""
        circuit = self._session.circuit
        kind = circuit.kind_of(circuit.part_by_id[part_id])
        if kind.actuator is None or kind.actuator.momentary or kind.shafts:
            return False
        self._session.throw_on(part_id, 1, around=True)
        return True

    def _take_grip(self, spot: Spot) -> None:
        actuator = spot.kind.actuator
        if actuator and actuator.momentary:
            self._session.throw_on(spot.part.id, 1)
            self._held = _Throwing(spot, goes_on=False, springs_back=True)
            return
        side = self._side(spot)
        present = self._session.stance.positions[spot.part.id]
        self._held = _Throwing(spot, goes_on=side in {None, present}, springs_back=False)
        if side and side != present:
            self._session.throw(spot.part.id, side)

    def _side(self, spot: Spot) -> str | None:
        """Return the position on whose side of the grip a point lies."""
        positions = positions_in_use(spot.kind, spot.part)
        actuator = spot.kind.actuator
        return position_at(actuator, positions, spot.point) if actuator else None
