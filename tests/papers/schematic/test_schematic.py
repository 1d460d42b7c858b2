"""What a draughtsman looks for in a schematic: flow, ground, labels, switches as they stand."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from tests.examples.sheets import NAMES, opened
from wirer.circuit.model import Circuit, Part, Wire
from wirer.circuit.stance import default_stance, thrown
from wirer.papers.schematic.drawn import Drawn, Glyph
from wirer.papers.schematic.schematic import Schematic, schematic_of

every_example = pytest.mark.parametrize("name", NAMES)


def soldered(*pairs: tuple[str, str]) -> tuple[Wire, ...]:
    return tuple(Wire(id=f"w{n}", from_lug=a, to_lug=b) for n, (a, b) in enumerate(pairs))


def schematic(circuit: Circuit, **positions: str) -> Schematic:
    stance = default_stance(circuit)
    for part, position in positions.items():
        stance = thrown(circuit, stance, part, position)
    return schematic_of(circuit, stance)


def glyphs(drawn: Drawn, form: str, name: str = "") -> list[Glyph]:
    return [g for g in drawn.glyphs if g.form == form and (not name or g.name == name)]


def written(drawn: Drawn) -> list[str]:
    return [text.text for text in drawn.texts]


PLAIN = Circuit(
    parts=(
        Part(id="N", kind="coil-2wire", label="Neck", measured={"resistance": "7.08k"}),
        Part(
            id="S",
            kind="slide-2p2t",
            label="On/off",
            position_labels={"up": "on", "down": "off"},
            lug_labels={"A0": "7"},
        ),
        Part(id="V", kind="pot", label="Volume", values={"resistance": "250k"}),
        Part(id="T", kind="pot", label="Tone"),
        Part(id="C", kind="capacitor", values={"capacitance": "22n"}),
        Part(id="J", kind="jack-ts", label="Output"),
        Part(id="E", kind="bridge", label="Strings"),
    ),
    wires=(
        *soldered(
            ("N.start", "J.sleeve"), ("N.finish", "S.A1"), ("S.A0", "V.3"), ("V.1", "J.sleeve"),
            ("T.2", "V.3"), ("T.1", "C.1"), ("C.2", "J.sleeve"), ("E.1", "J.sleeve"),
        ),
        Wire(id="s", from_lug="V.2", to_lug="J.tip", style="screened", screen_to="J.sleeve"),
    ),
)  # fmt: skip


@every_example
def test_the_signal_runs_from_left_to_right(name: str) -> None:
    drawn = schematic_of(*opened(name)).drawn
    coils = [glyph.box.right for glyph in glyphs(drawn, "coil")]
    poles = [glyph.box.left for glyph in glyphs(drawn, "pole")]
    (jack,) = glyphs(drawn, "jack")
    assert max(coils) < min([*poles, jack.box.left])
    assert all(pole.box.left < jack.box.right for pole in glyphs(drawn, "pole"))


@every_example
def test_ground_hangs_down(name: str) -> None:
    drawn = schematic_of(*opened(name)).drawn
    grounds = glyphs(drawn, "ground")
    assert grounds
    assert all(glyph.box.bottom > glyph.points["top"][1] for glyph in grounds)


def test_what_leads_to_ground_hangs_below_its_control() -> None:
    """Common practice: a tone control is drawn as its track with the capacitor below."""
    drawn = schematic(PLAIN).drawn
    (tone,), (cap,) = glyphs(drawn, "resistor", "T"), glyphs(drawn, "capacitor", "C")
    assert tone.points["b"] == cap.points["a"]
    (ground,) = [g for g in glyphs(drawn, "ground") if g.points["top"] == cap.points["b"]]
    assert ground.points["top"][1] > cap.box.bottom


def test_labels_give_name_and_value_and_mark_what_was_measured() -> None:
    result = schematic(PLAIN)
    texts = written(result.drawn)
    assert {"N Neck", "7.08 kΩ*, 2.5 H", "V Volume", "250 kΩ linear", "22 nF"} <= set(texts)
    assert any(note.startswith("* measured") for note in result.notes)


def test_the_cw_end_is_marked() -> None:
    assert "3 cw" in written(schematic(PLAIN).drawn)


def test_the_builders_own_names_stand_at_the_contacts() -> None:
    texts = written(schematic(PLAIN).drawn)
    assert {"A1  on", "A2  off", "A0 (7)"} <= set(texts)


@pytest.mark.parametrize(("position", "closed"), [("up", {"throw0"}), ("down", {"throw1"})])
def test_contacts_stand_as_the_switch_does(position: str, closed: set[str]) -> None:
    (pole,) = glyphs(schematic(PLAIN, S=position).drawn, "pole")
    assert pole.marks == closed


def test_both_blades_are_shown_where_two_contacts_are_joined() -> None:
    """The five-position lever joins two neighbouring throws in 2 and 4 (design, catalogue)."""
    circuit, _ = opened("04-three-single-coils-lever")
    poles = glyphs(schematic(circuit, S="2").drawn, "pole")
    assert [len(pole.marks) for pole in poles] == [2, 2]


def test_a_pole_that_nobody_wired_is_only_named() -> None:
    result = schematic(PLAIN)
    assert [pole.name for pole in glyphs(result.drawn, "pole")] == ["S.A"]
    assert "Not wired and not drawn: S.B (B0 B1 B2), V.can, T.can" in result.notes


def test_poles_below_one_another_are_linked_and_named_once() -> None:
    circuit, stance = opened("01-baritone-three-coils-series")
    drawn = schematic_of(circuit, stance).drawn
    assert len(drawn.links) == 6
    assert written(drawn).count("PN Neck phase") == 1
    assert not [text for text in written(drawn) if text.startswith("PN.")]


def test_poles_apart_are_named_each() -> None:
    texts = written(schematic_of(*opened("03-two-humbuckers-selector-split")).drawn)
    assert {"S.A Selector", "S.B Selector"} <= set(texts)


def test_the_tracks_of_a_dual_pot_are_linked() -> None:
    drawn = schematic_of(*opened("08-volume-shaped-dual-pot")).drawn
    (link,) = drawn.links
    heights = sorted(glyph.points["pin"][1] for glyph in glyphs(drawn, "wiper"))
    assert [link.start[1], link.end[1]] == heights


def test_a_screened_wire_has_its_sheath_and_a_screen_on_ground_its_symbol() -> None:
    drawn = schematic(PLAIN).drawn
    (sheath,) = glyphs(drawn, "sheath")
    assert sheath.marks == {"grounded"}
    floating = Circuit(
        parts=PLAIN.parts,
        wires=tuple(replace(wire, screen_to=None) for wire in PLAIN.wires),
    )
    (bare,) = glyphs(schematic(floating).drawn, "sheath")
    assert bare.marks == set()


def test_metal_is_shown_on_ground_and_off_it() -> None:
    """A ground symbol hangs from the strings where they are grounded, none where they are not."""
    for wires, grounded in ((PLAIN.wires, True), (PLAIN.wires[:7], False)):
        drawn = schematic(Circuit(parts=PLAIN.parts, wires=wires)).drawn
        (strings,) = glyphs(drawn, "metal", "E")
        hung = [g for g in glyphs(drawn, "ground") if g.points["top"] == strings.points["pin"]]
        assert bool(hung) == grounded


@pytest.mark.parametrize(
    ("winding", "pole", "end"),
    [("cw", "north", "a"), ("ccw", "north", "b"), ("ccw", "south", "a"), ("cw", "none", "a")],
)
def test_the_dot_is_at_the_end_that_goes_positive(winding: str, pole: str, end: str) -> None:
    """V(finish) − V(start) has the sign winding × pole, a dummy's that of its winding (design)."""
    coil = Part(id="N", kind="coil-2wire", values={"winding": winding, "pole": pole})
    circuit = Circuit(parts=(coil, PLAIN.parts[-2]), wires=soldered(("N.finish", "J.tip")))
    (glyph,) = glyphs(schematic(circuit).drawn, "coil")
    at_finish = "a" if glyph.lugs["a"] == ("N.finish",) else "b"
    other = {"a": "b", "b": "a"}[at_finish]
    assert glyph.marks == {at_finish if end == "a" else other}


def test_dots_are_where_nets_join_and_only_there() -> None:
    """The hot of the volume branches to the tone once; nothing else joins three ways."""
    assert len(schematic(PLAIN).drawn.dots) == 1


def test_a_jack_shows_its_other_contacts() -> None:
    circuit = Circuit(
        parts=(Part(id="J", kind="jack-trs"), Part(id="K", kind="jack-ts-switched")),
        wires=soldered(("J.ring", "K.break"), ("J.sleeve", "K.sleeve")),
    )
    points = {g.name: set(g.points) for g in glyphs(schematic(circuit).drawn, "jack")}
    assert points["J"] == {"tip0", "ring1", "sleeve", "barrel"}
    assert points["K"] == {"tip0", "parted1", "sleeve", "barrel"}


def test_a_push_button_has_something_to_press() -> None:
    circuit, stance = opened("06-one-humbucker-rotary")
    (kill,) = glyphs(schematic_of(circuit, stance).drawn, "pole", "K")
    assert "button" in kill.marks


@every_example
def test_the_same_circuit_is_always_drawn_alike(name: str) -> None:
    assert schematic_of(*opened(name)) == schematic_of(*opened(name))


def test_labels_of_any_text_are_shortened_to_lines() -> None:
    circuit = Circuit(
        parts=(Part(id="N", kind="coil-2wire", label="<b> & " + "ω" * 200 + "\n\x07"),)
    )
    texts = written(schematic(circuit).drawn)
    assert max(map(len, texts)) <= 24
    assert not any("\x07" in text or "\n" in text for text in texts)
