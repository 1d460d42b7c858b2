"""Pictures of parts: every kind paints, shows how it stands, and reads however it lies."""

from collections.abc import Callable
from itertools import product
from typing import Any

import numpy as np
import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QImage, QPainter

from wirer.circuit.catalogue import catalogue, catalogue_kind
from wirer.circuit.kind import Kind, Shape
from wirer.circuit.model import Circuit, Part
from wirer.drawing.lugs import paint_role_ring
from wirer.drawing.palette import DARK, LIGHT, PRINT, THEMES, Role, Theme, contrast
from wirer.drawing.parts import Look, paint_kind, paint_part, part_transform
from wirer.drawing.shafts import pointer_angle
from wirer.layout.outline import shape_polygon
from wirer.layout.placement import place

pytestmark = pytest.mark.usefixtures("qapp")

every_kind = pytest.mark.parametrize("kind", catalogue(), ids=lambda kind: kind.id)
SWITCHES = [kind for kind in catalogue() if kind.actuator]
SHAFTS = [(kind, shaft) for kind in catalogue() for shaft in kind.shafts]

SCALE = 5
HALF_MM = 64


def painted(
    theme: Theme, paint: Callable[[QPainter], None], scale: int = SCALE, half_mm: int = HALF_MM
) -> QImage:
    """Return what is painted about the origin, on the theme's paper."""
    side = 2 * half_mm * scale
    image = QImage(side, side, QImage.Format.Format_RGB32)
    image.fill(QColor(theme.paper))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(side / 2, side / 2)
    painter.scale(scale, scale)
    paint(painter)
    painter.end()
    return image


def kind_image(kind: Kind, theme: Theme = LIGHT, **look: Any) -> QImage:
    return painted(theme, lambda painter: paint_kind(painter, kind, Look(theme, **look)))


def part_image(part: Part, theme: Theme = LIGHT, scale: int = SCALE, **look: Any) -> QImage:
    circuit = Circuit(parts=(part,))
    return painted(
        theme, lambda painter: paint_part(painter, circuit, part, Look(theme, **look)), scale
    )


def blank(theme: Theme) -> QImage:
    return painted(theme, lambda _painter: None)


def pixel(image: QImage, x_mm: float, y_mm: float) -> QColor:
    return image.pixelColor(round((x_mm + HALF_MM) * SCALE), round((y_mm + HALF_MM) * SCALE))


def raw(image: QImage) -> bytes:
    return bytes(image.constBits())


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
@every_kind
def test_every_kind_is_painted_in_every_theme(kind: Kind, theme: Theme) -> None:
    assert raw(kind_image(kind, theme)) != raw(blank(theme))


@pytest.mark.parametrize("kind", SWITCHES, ids=lambda kind: kind.id)
def test_every_position_of_a_switch_looks_different(kind: Kind) -> None:
    assert kind.actuator
    positions = kind.actuator.positions
    images = {raw(kind_image(kind, position=position)) for position in positions}
    assert len(images) == len(positions)


@pytest.mark.parametrize("kind", SWITCHES, ids=lambda kind: kind.id)
def test_a_switch_of_no_said_position_stands_in_its_first(kind: Kind) -> None:
    assert kind.actuator
    assert raw(kind_image(kind)) == raw(kind_image(kind, position=kind.actuator.positions[0]))


@pytest.mark.parametrize(
    ("kind", "shaft"), SHAFTS, ids=[f"{kind.id} {shaft.name}" for kind, shaft in SHAFTS]
)
def test_turning_a_shaft_turns_its_pointer(kind: Kind, shaft: Any) -> None:
    images = {raw(kind_image(kind, rotations={shaft.name: x})) for x in (0.0, 0.3, 0.7, 1.0)}
    assert len(images) == 4
    assert raw(kind_image(kind)) == raw(kind_image(kind, rotations={shaft.name: shaft.default}))


def test_seen_from_behind_clockwise_turning_runs_anticlockwise() -> None:
    """Common practice: from the knob 0 points to the lower left, so from behind to the lower
    right, where lug 1 is, and turning up brings it over the top towards lug 3."""
    kind = catalogue_kind("pot")
    angles = [pointer_angle(kind.shafts[0], x) for x in (0.0, 0.5, 1.0)]
    assert angles == sorted(angles, reverse=True)
    assert angles[1] == 0
    one, three = kind.lug("1"), kind.lug("3")
    assert one is not None
    assert three is not None
    assert angles[0] * one.at[0] > 0
    assert angles[2] * three.at[0] > 0


@every_kind
def test_every_lug_is_painted_at_its_place(kind: Kind) -> None:
    image = kind_image(kind, PRINT)
    for lug in kind.lugs:
        material = "tin" if lug.metal else "hole"
        assert pixel(image, *lug.at) == QColor(PRINT.materials[material].light), lug.name


@pytest.mark.parametrize("kind_id", ["pot-switch", "lever-2p5", "jack-ts"])
def test_a_part_is_painted_where_the_layout_puts_its_lugs(kind_id: str) -> None:
    kind = catalogue_kind(kind_id)
    for turn, flip in product((0, 90, 180, 270), (False, True)):
        part = Part(id="P", kind=kind_id, at=(7.0, -4.0), turn=turn, flip=flip)
        image = part_image(part, PRINT)
        for lug in kind.lugs:
            x, y = place(kind, part).lugs[lug.name]
            assert part_transform(part).map(QPointF(*lug.at)) == QPointF(x, y)
            material = "tin" if lug.metal else "hole"
            assert pixel(image, x, y) == QColor(PRINT.materials[material].light), (turn, flip)


def difference(one: QImage, other: QImage) -> int:
    a, b = (np.frombuffer(raw(image), np.uint8).astype(int) for image in (one, other))
    return int(np.abs(a - b).sum())


@pytest.mark.parametrize(("turn", "flip"), [(0, True), (90, False), (180, False), (270, True)])
def test_letters_stay_upright_however_a_part_lies(turn: Any, flip: bool) -> None:
    kind = catalogue_kind("humbucker-4wire")
    letter = next(shape for shape in kind.picture if shape.text == "B")

    def crop(part: Part) -> QImage:
        middle = part_transform(part).map(QPointF(*letter.at))
        x, y = round((middle.x() + HALF_MM) * 10), round((middle.y() + HALF_MM) * 10)
        return part_image(part, PRINT, scale=10).copy(x - 11, y - 11, 22, 22)

    straight = crop(Part(id="N", kind=kind.id))
    laid = crop(Part(id="N", kind=kind.id, turn=turn, flip=flip))
    mirrored = straight.flipped()
    assert difference(straight, laid) < 0.3 * difference(straight, mirrored)


@every_kind
@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_letters_on_a_part_are_legible(kind: Kind, theme: Theme) -> None:
    """WCAG 2.1, success criterion 1.4.3: text has 4.5:1 on its ground."""
    for index, shape in enumerate(kind.picture):
        if shape.form == "text":
            ground = next(s for s in reversed(kind.picture[:index]) if covers(s, shape))
            face = theme.materials[ground.material]
            ink = theme.materials[shape.material].light
            assert min(contrast(ink, c) for c in (face.light, face.shade)) >= 4.5


def covers(ground: Shape, shape: Shape) -> bool:
    xs, ys = zip(*shape_polygon(ground), strict=True)
    x, y = shape.at
    return bool(ground.text == "" and min(xs) < x < max(xs) and min(ys) < y < max(ys))


@every_kind
def test_a_faded_part_is_seen_but_set_back(kind: Kind) -> None:
    own, faded, paper = kind_image(kind, DARK), kind_image(kind, DARK, faded=True), blank(DARK)
    assert raw(faded) != raw(paper)
    assert difference(faded, paper) < 0.5 * difference(own, paper)


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
@pytest.mark.parametrize("role", ["signal", "ground", "open"])
def test_a_role_stands_on_paper_even_where_its_lug_lies_on_metal(theme: Theme, role: Role) -> None:
    """On paper every role has the 4.5:1 that the palette is held to."""
    plate = catalogue_kind("plate")

    def paint(painter: QPainter) -> None:
        painter.translate(-QPointF(*plate.lugs[0].at))
        paint_kind(painter, plate, Look(theme, roles={"1": role}))

    image = painted(theme, paint, scale=40, half_mm=3)
    colours = [image.pixelColor(x, 120).name() for x in range(240)]
    assert theme.roles[role] in colours
    assert theme.paper in colours[:120]
    assert colours[0] not in (theme.paper, theme.roles[role])


def test_the_roles_of_lugs_look_different_even_without_colour() -> None:
    roles: list[Role] = ["signal", "ground", "open"]
    rings = {
        raw(
            painted(
                PRINT,
                lambda p, role=role: paint_role_ring(p, QPointF(), "#000000", role, "#ffffff"),
            )
        )
        for role in roles
    }
    assert len(rings) == 3
    terminal = catalogue_kind("terminal")
    assert raw(kind_image(terminal, roles={"1": "ground"})) != raw(kind_image(terminal))


def test_a_kind_without_a_picture_shows_its_body() -> None:
    plain = Kind(
        id="box", name="Box", group="switches", letter="S", body=Shape("rect", size=(10, 10)),
        lugs=(catalogue_kind("terminal").lugs[0],),
    )  # fmt: skip
    assert pixel(kind_image(plain, PRINT), 4, 4) == QColor(PRINT.materials["metal"].light)
