"""What the picture of a wiring shows, looked at dot by dot."""

import math
from dataclasses import replace

import pytest
from msgspec.structs import replace as changed
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QImage, QPainter

from tests.layout.circuits import Bench, three_coils_six_slides
from wirer.circuit.catalogue import catalogue
from wirer.circuit.model import Circuit, Part
from wirer.circuit.stance import default_stance, thrown
from wirer.drawing.palette import DARK, LIGHT, WIRES, Role, contrast, mixed
from wirer.drawing.text import outlined, text_width_mm
from wirer.drawing.wires import rounded
from wirer.drawing.wiring import WiringLook, paint_wiring, part_look, wiring_notes
from wirer.layout.arrows import cw_arrows
from wirer.layout.labels import part_text
from wirer.layout.lay_out import lay_out
from wirer.layout.layout import Layout
from wirer.layout.lettering import text_width
from wirer.layout.route import Route

pytestmark = pytest.mark.usefixtures("qapp")

SCALE = 12
PLAIN = WiringLook(labels=False, wire_texts={})


class Picture:
    """A wiring view painted on its paper, to be asked for the colour at a place in mm."""

    def __init__(self, circuit: Circuit, layout: Layout, look: WiringLook) -> None:
        self.box = layout.box.grown(10)
        size = math.ceil(self.box.width * SCALE), math.ceil(self.box.height * SCALE)
        self.image = QImage(*size, QImage.Format.Format_RGB32)
        self.image.fill(QColor(look.theme.paper))
        painter = QPainter(self.image)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.scale(SCALE, SCALE)
        painter.translate(-self.box.left, -self.box.top)
        paint_wiring(painter, circuit, layout, look)
        painter.end()

    def at(self, x: float, y: float) -> str:
        dot = round((x - self.box.left) * SCALE), round((y - self.box.top) * SCALE)
        return self.image.pixelColor(*dot).name()


def pair(**more: object) -> Bench:
    """Two posts on a level, 60 mm apart, joined by a red wire."""
    bench = Bench()
    bench.part("A", "terminal", 0.0, 0.0)
    bench.part("B", "terminal", 60.0, 0.0)
    bench.wire("A.1", "B.1", "RD", **more)
    return bench


def cross() -> tuple[Circuit, Layout]:
    """A red level wire and a blue upright one that cross at (30, 0)."""
    bench = pair()
    bench.part("C", "terminal", 30.0, -30.0)
    bench.part("D", "terminal", 30.0, 30.0)
    bench.wire("C.1", "D.1", "BU")
    circuit = bench.circuit()
    routes = {"w1": Route(((0.0, 0.0), (60.0, 0.0))), "w2": Route(((30.0, -30.0), (30.0, 30.0)))}
    return circuit, replace(lay_out(circuit), routes=routes)


def test_a_wire_is_in_its_colour_and_the_one_below_has_a_gap() -> None:
    circuit, layout = cross()
    picture = Picture(circuit, layout, PLAIN)
    assert picture.at(30, 0) == WIRES["RD"]
    assert picture.at(30, 8) == WIRES["BU"]
    for y in (-0.75, 0.75):
        assert contrast(picture.at(30, y), LIGHT.paper) < 1.1


def test_a_wire_ends_in_solder_on_its_lug() -> None:
    circuit, layout = cross()
    assert Picture(circuit, layout, PLAIN).at(0, 0) == LIGHT.materials["tin"].light


def test_a_two_coloured_wire_shows_both() -> None:
    bench = pair()
    circuit = bench.circuit()
    circuit = changed(circuit, wires=(changed(circuit.wires[0], colour="GNYE"),))
    picture = Picture(circuit, lay_out(circuit), PLAIN)
    seen = {picture.at(10 + step / 10, 0) for step in range(100)}
    assert {WIRES["GN"], WIRES["YE"]} <= seen


def test_a_bare_wire_is_thinner_than_one_with_insulation() -> None:
    insulated, bare = pair().circuit(), pair(style="bare").circuit()
    thick = Picture(insulated, lay_out(insulated), PLAIN)
    thin = Picture(bare, lay_out(bare), PLAIN)
    assert thick.at(30, 0.35) == WIRES["RD"]
    assert contrast(thin.at(30, 0.35), LIGHT.paper) < 1.3


def test_a_screened_wire_has_its_screen_along_it_but_not_at_its_ends() -> None:
    circuit = pair(style="screened").circuit()
    picture = Picture(circuit, lay_out(circuit), PLAIN)
    beside = [contrast(picture.at(20 + step / 10, 0.55), LIGHT.paper) for step in range(100)]
    assert max(beside) > 1.5
    assert min(beside) < 1.2, "the screen is broken, so that it is not taken for a wire"
    assert contrast(picture.at(4.0, 0.55), LIGHT.paper) < 1.2


def test_bolted_metals_are_joined_by_a_dashed_line() -> None:
    circuit = pair(style="mount").circuit()
    picture = Picture(circuit, lay_out(circuit), PLAIN)
    seen = [contrast(picture.at(20 + step / 10, 0), LIGHT.paper) > 4 for step in range(100)]
    assert 0.2 < sum(seen) / len(seen) < 0.8


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=lambda theme: theme.name)
def test_roles_are_told_by_form_as_well(theme: object) -> None:
    """Along the wire's edge: signal unbroken, ground broken, not connected none and faded."""
    circuit = pair().circuit()
    layout = lay_out(circuit)
    edges: dict[Role, float] = {}
    for role in ("signal", "ground", "open"):
        look = replace(PLAIN, theme=theme, wire_roles={"w1": role})  # type: ignore[arg-type]
        picture = Picture(circuit, layout, look)
        band = look.theme.roles[role]
        dots = [contrast(picture.at(15 + step / 10, 0.58), band) < 1.3 for step in range(300)]
        edges[role] = sum(dots) / len(dots)
        core = picture.at(30, 0)
        if role == "open":
            assert core == mixed(WIRES["RD"], look.theme.paper, 0.3)
        else:
            assert core == WIRES["RD"]
    assert edges["signal"] == 1.0
    assert 0.3 < edges["ground"] < 0.75
    assert edges["open"] == 0.0


def test_a_foil_lies_under_the_parts_on_it_whatever_their_order() -> None:
    bench = Bench()
    bench.part("T", "terminal", 0.0, 0.0)
    bench.part("F", "foil", 0.0, 0.0)
    circuit = bench.circuit()
    alone = changed(circuit, parts=circuit.parts[:1])
    with_foil = Picture(circuit, lay_out(circuit), PLAIN)
    assert with_foil.at(0, 2.5) == Picture(alone, lay_out(alone), PLAIN).at(0, 2.5)


def test_the_present_position_stands_on_a_bar() -> None:
    bench = Bench()
    bench.part("S", "slide-2p2t", 0.0, 0.0)
    circuit = bench.circuit()
    layout = lay_out(circuit)
    boxes = {c.position: c.label.box for c in layout.labels.choices["S"]}
    for present, other in (("up", "down"), ("down", "up")):
        stance = thrown(circuit, default_stance(circuit), "S", present)
        picture = Picture(circuit, layout, WiringLook(stance=stance))
        ink = {p: picture.at(box.centre[0], box.top + 0.25) for p, box in boxes.items()}
        assert ink[present] == LIGHT.ink
        assert ink[other] == LIGHT.paper


def test_without_a_stance_a_switch_stands_where_its_kind_says_first() -> None:
    """A push button at rest is not pressed, though `pressed` is written above it."""
    bench = Bench()
    bench.part("K", "momentary", 0.0, 0.0, turn=180)
    circuit = bench.circuit()
    layout = lay_out(circuit)
    boxes = {c.position: c.label.box for c in layout.labels.choices["K"]}
    picture = Picture(circuit, layout, WiringLook())
    assert picture.at(boxes["rest"].centre[0], boxes["rest"].top + 0.25) == LIGHT.ink
    assert picture.at(boxes["pressed"].centre[0], boxes["pressed"].top + 0.25) == LIGHT.paper


def test_the_arrow_of_clockwise_turning_runs_anticlockwise_from_behind() -> None:
    """From the knob a pot turns clockwise; its back shows the mirror image (common practice).

    Below the shaft what turns anticlockwise as seen moves to the right: the head is at the right.
    """
    bench = Bench()
    bench.part("V", "pot", 0.0, 0.0)
    circuit = bench.circuit()
    picture = Picture(circuit, lay_out(circuit), PLAIN)
    (arrow,) = cw_arrows(circuit.kind("pot"))

    def ink(angle_deg: float) -> float:
        """Share of dark dots across the arc, at an angle clockwise from the top."""
        x, y = math.sin(math.radians(angle_deg)), -math.cos(math.radians(angle_deg))
        rs = [arrow.radius + step / 20 for step in range(-16, 17)]
        dots = [contrast(picture.at(r * x, r * y), "#ffffff") > 8 for r in rs]
        return sum(dots) / len(dots)

    assert ink(125) > 2 * ink(235)


@pytest.mark.parametrize("kind", [k for k in catalogue() if k.shafts], ids=lambda k: k.id)
def test_arrows_lie_on_no_lug(kind: object) -> None:
    for arrow in cw_arrows(kind):  # type: ignore[arg-type]
        assert all(math.dist(arrow.words, lug.at) > 1.5 for lug in kind.lugs)  # type: ignore[attr-defined]


def test_the_names_of_lugs_are_shown_when_asked_for() -> None:
    circuit = three_coils_six_slides()
    part = circuit.part_by_id["SN"]
    parts = tuple(changed(p, lug_labels={"A0": "2"}) if p is part else p for p in circuit.parts)
    circuit = changed(circuit, parts=parts)
    layout = lay_out(circuit)
    assert not wiring_notes(circuit, layout, WiringLook()).lug_names
    names = wiring_notes(circuit, layout, WiringLook(lug_names=True)).lug_names
    assert {tag.text for name, tag in names.items() if name == "SN.A0"} <= {"A0 (2)"}
    assert names["V.1"].text == "1"


def test_the_texts_beside_wires_are_their_codes_or_what_is_wanted() -> None:
    circuit, layout = cross()
    assert {t.text for t in wiring_notes(circuit, layout, WiringLook()).tags.values()} == {
        "RD",
        "BU",
    }
    numbered = wiring_notes(circuit, layout, WiringLook(wire_texts={"w1": "1 RD"}))
    assert [tag.text for tag in numbered.tags.values()] == ["1 RD"]


def test_a_soldered_wire_is_ticked() -> None:
    circuit = pair().circuit()
    done = changed(circuit, wires=(changed(circuit.wires[0], done=True),))
    layout = lay_out(circuit)
    plain, ticked = (Picture(c, layout, PLAIN) for c in (circuit, done))
    assert plain.at(30, 0.8) == LIGHT.paper
    assert any(ticked.at(30 + x / 10, 0.97) != LIGHT.paper for x in range(-5, 6))


def test_a_part_is_shown_as_it_stands() -> None:
    bench = Bench()
    bench.part("V", "pot", 0.0, 0.0)
    bench.part("S", "slide-2p2t", 60.0, 0.0)
    circuit = bench.circuit()
    stance = thrown(circuit, default_stance(circuit), "S", "down")
    roles: dict[str, Role] = {"S.A0": "signal", "V.can": "ground"}
    look = WiringLook(stance=stance, lug_roles=roles, faded_parts=frozenset({"V"}))
    pot, slide = (part_look(part, circuit, look) for part in circuit.parts)
    assert (slide.position, dict(slide.roles), slide.faded) == ("down", {"A0": "signal"}, False)
    assert (dict(pot.rotations), dict(pot.roles), pot.faded) == (
        {"shaft": 1.0}, {"can": "ground"}, True,
    )  # fmt: skip


def test_corners_are_rounded_and_runs_are_not() -> None:
    path = rounded([(0.0, 0.0), (20.0, 0.0), (20.0, 10.0)])
    outline = [path.pointAtPercent(step / 400) for step in range(401)]
    assert min(math.dist((p.x(), p.y()), (20.0, 0.0)) for p in outline) > 0.3
    assert min(math.dist((p.x(), p.y()), (10.0, 0.0)) for p in outline) < 0.1
    assert (path.currentPosition() - QPointF(20.0, 10.0)).manhattanLength() < 1e-9


def test_the_layout_leaves_room_for_the_words_as_qt_draws_them() -> None:
    """Estimated without a font, they are nowhere much wider than their room."""
    words = [part_text(part) for part in three_coils_six_slides().parts]
    words += ["W · Wide MOSTLY CAPITALS", "il · tilt fill", "Q1 · 123456", "R2 · Ωµ 4k7 ±20 %"]
    for text in words:
        assert text_width_mm(text, 2.0) < 1.12 * text_width(text, 2.0)


def test_capitals_are_as_high_as_they_should_be() -> None:
    box = outlined("E", 2.0).boundingRect()
    assert box.height() == pytest.approx(2.0, rel=0.05)
    assert box.center().y() == pytest.approx(0.0, abs=0.1)


def test_an_unrouted_part_paints_too() -> None:
    circuit = Circuit(parts=(Part(id="V", kind="pot"),))
    assert Picture(circuit, lay_out(circuit), WiringLook(lug_names=True)).at(11, 0) != LIGHT.paper
