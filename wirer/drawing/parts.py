"""Parts as they lie before the person who solders them, painted in millimetres."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainter, QTransform

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Actuator, Kind, Shape
from wirer.circuit.model import Circuit, Part
from wirer.drawing.lugs import paint_lug
from wirer.drawing.palette import Role, Theme
from wirer.drawing.shafts import paint_shafts
from wirer.drawing.shapes import finish, paint_shape


@dataclass(frozen=True)
class Look:
    """How a part is to look.

    `position` is its actuator's (None: the kind's first), `rotations` its shafts' by name (left
    out: the kind's default), `roles` its lugs' by name; `faded` sets it back.
    """

    theme: Theme
    position: str | None = None
    rotations: Mapping[str, float] = field(default_factory=FrozenMap)
    roles: Mapping[str, Role] = field(default_factory=FrozenMap)
    faded: bool = False


def part_transform(part: Part) -> QTransform:
    """Return the way from a part's own millimetres to the wiring view's.

    A part is first mirrored left to right if it is flipped, then turned clockwise, then moved.
    """
    transform = QTransform.fromTranslate(*part.at)
    transform.rotate(part.turn)
    transform.scale(-1.0 if part.flip else 1.0, 1.0)
    return transform


def paint_part(painter: QPainter, circuit: Circuit, part: Part, look: Look) -> None:
    """Paint a part at its place in the wiring view, in mm."""
    place = part_transform(part)
    painter.save()
    painter.setTransform(place, True)
    _paint(painter, circuit.kind_of(part), look, _without_place(place).inverted()[0])
    painter.restore()


def paint_kind(painter: QPainter, kind: Kind, look: Look) -> None:
    """Paint a kind with the middle of its body at the origin, in mm."""
    painter.save()
    _paint(painter, kind, look, QTransform())
    painter.restore()


def _without_place(t: QTransform) -> QTransform:
    return QTransform(t.m11(), t.m12(), t.m21(), t.m22(), 0.0, 0.0)


def _paint(painter: QPainter, kind: Kind, look: Look, upright: QTransform) -> None:
    actuator = kind.actuator
    if actuator:
        _paint_moving(painter, actuator.moving.behind, actuator, look, upright)
    _paint_shapes(painter, kind.picture or (kind.body,), look, upright)
    if actuator:
        _paint_moving(painter, actuator.moving.shapes, actuator, look, upright)
        _paint_moving(painter, actuator.moving.against, actuator, look, upright, against=True)
    paint_shafts(painter, kind, look.rotations, look.theme, look.faded)
    for lug in kind.lugs:
        role = look.roles.get(lug.name)
        paint_lug(painter, lug, look.theme, role, look.faded)


def _paint_shapes(
    painter: QPainter, shapes: Iterable[Shape], look: Look, upright: QTransform
) -> None:
    for shape in shapes:
        paint_shape(painter, shape, finish(look.theme, shape.material, look.faded), upright)


def _paint_moving(
    painter: QPainter,
    shapes: tuple[Shape, ...],
    actuator: Actuator,
    look: Look,
    upright: QTransform,
    against: bool = False,
) -> None:
    if not shapes:
        return
    position = look.position or actuator.positions[0]
    x, y, turn = actuator.moving.places.get(position, (0.0, 0.0, 0.0))
    painter.save()
    painter.translate(-QPointF(x, y) if against else QPointF(x, y))
    painter.rotate(-turn if against else turn)
    _paint_shapes(painter, shapes, look, upright)
    painter.restore()
