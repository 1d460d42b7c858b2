"""Schematics read back: the nets that a drawing shows are the circuit's, and nothing overlaps."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings

from tests.drawing.schematic_reading import circuit_nets, differences, overlaps, read_back
from tests.examples.sheets import NAMES, opened
from tests.support.circuits import documents
from wirer.circuit.kind import (
    Actuator,
    BondElement,
    CapacitorElement,
    CoilElement,
    Kind,
    Lug,
    Parameter,
    ResistorElement,
    Shape,
)
from wirer.circuit.model import Circuit, Part, Wire
from wirer.circuit.stance import Stance, default_stance
from wirer.drawing.schematic.symbols import SYMBOLS, UnknownSymbolError, element_of
from wirer.drawing.schematic.whole import WholeDrawing, whole_drawing
from wirer.layout.box import Box
from wirer.papers.schematic.drawn import Drawn, Glyph
from wirer.papers.schematic.schematic import schematic_of

every_example = pytest.mark.parametrize("name", NAMES)


def placed(circuit: Circuit, stance: Stance | None = None) -> Drawn:
    return schematic_of(circuit, stance or default_stance(circuit)).drawn


def faults(circuit: Circuit, stance: Stance | None = None) -> list[str]:
    """What is wrong with the schematic of a circuit."""
    drawn = placed(circuit, stance)
    return [*differences(circuit, read_back(whole_drawing(drawn))), *overlaps(drawn)]


def soldered(*pairs: tuple[str, str]) -> tuple[Wire, ...]:
    return tuple(Wire(id=f"w{n}", from_lug=a, to_lug=b) for n, (a, b) in enumerate(pairs))


def own_kind(name: str, lugs: str, **more: object) -> Kind:
    """A kind that a document carries, its lugs in a row."""
    own = tuple(Lug(name=lug, at=(3.0 * n, 0.0)) for n, lug in enumerate(lugs.split()))
    body = Shape(form="rect", size=(20.0, 10.0))
    return Kind(id=name, name=name, group="own", letter="A", body=body, lugs=own, **more)


@every_example
def test_an_example_reads_back_as_its_circuit(name: str) -> None:
    circuit, stance = opened(name)
    assert faults(circuit, stance) == []


@settings(max_examples=150)
@given(documents(wired_like_a_guitar=True, most_parts=10))
def test_any_guitar_reads_back_as_its_circuit(document: tuple[Circuit, Stance]) -> None:
    assert faults(*document) == []


@settings(max_examples=150)
@given(documents(most_parts=8, most_wires=14))
def test_anything_wired_reads_back_as_it_is(document: tuple[Circuit, Stance]) -> None:
    """However wrongly wired: no jack, several, islands, wires from a lug to itself."""
    assert faults(*document) == []


@pytest.mark.study
@given(documents(most_parts=40, most_wires=70))
def test_large_ones_read_back_as_well(document: tuple[Circuit, Stance]) -> None:
    assert faults(*document) == []


def tangle(parts: int) -> Circuit:
    """Many switches in a chain, whose throws lead back far along it and forth again."""
    switches = tuple(Part(id=f"S{n}", kind="slide-1p2t") for n in range(parts))
    coil, jack = Part(id="N", kind="coil-2wire"), Part(id="J", kind="jack-ts")
    pairs = [("N.start", "J.sleeve"), ("N.finish", "S0.A0"), (f"S{parts - 1}.A1", "J.tip")]
    pairs += [(f"S{n}.A1", f"S{n + 1}.A0") for n in range(parts - 1)]
    pairs += [("S0.A2", f"S{parts - 1}.A2"), ("S1.A2", f"S{parts // 2}.A2")]
    return Circuit(parts=(coil, *switches, jack), wires=soldered(*pairs))


def test_nets_that_would_cross_the_sheet_get_named_ends() -> None:
    circuit = tangle(12)
    names = [glyph.name for glyph in placed(circuit).glyphs if glyph.form == "flag"]
    assert len(names) >= 2
    assert all(names.count(name) >= 2 for name in names)
    assert faults(circuit) == []


def test_nothing_is_a_drawing_too() -> None:
    assert faults(Circuit()) == []
    assert placed(Circuit()).glyphs == []


def test_a_crowd_of_parts_nobody_wired_is_drawn() -> None:
    kinds = ("coil-tapped", "pot", "resistor", "battery", "bridge", "jack-trs", "inductor")
    parts = tuple(Part(id=f"P{n}", kind=kinds[n % len(kinds)]) for n in range(400))
    circuit = Circuit(parts=parts)
    assert faults(circuit) == []
    drawn = {glyph.name.partition(".")[0] for glyph in placed(circuit).glyphs}
    assert drawn >= {part.id for part in parts}


CROSSOVER = own_kind(
    "reverser",
    "a b c d",
    actuator=Actuator(
        positions=("straight", "crossed"),
        contacts={"straight": (("a", "c"), ("b", "d")), "crossed": (("a", "d"), ("b", "c"))},
    ),
)
"""A reversing switch whose contacts have no common: every other kind of pole has one."""

RESISTANCE = Parameter(quantity="resistance", default="1k")
LOADED = own_kind(
    "loaded-coil",
    "hot cold shell clip",
    elements=(
        CoilElement(start="cold", finish="hot"),
        ResistorElement(between=("hot", "cold"), value="load"),
        CapacitorElement(between=("hot", "shell"), value="stray"),
        BondElement(lugs=("shell", "clip")),
    ),
    parameters={
        "load": RESISTANCE,
        "resistance": RESISTANCE,
        "stray": Parameter(quantity="capacitance", default="1n"),
        "winding": Parameter(quantity="choice", default="cw", choices=("cw", "ccw")),
        "pole": Parameter(quantity="choice", default="north", choices=("north", "none")),
    },
)
"""A pickup with parts of its own: the lug `hot` is an end of three elements."""


@pytest.mark.parametrize("position", ["straight", "crossed"])
def test_contacts_without_a_common_are_a_box(position: str) -> None:
    circuit = Circuit(
        parts=(
            Part(id="N", kind="coil-2wire"),
            Part(id="X", kind="reverser"),
            Part(id="J", kind="jack-ts"),
        ),
        wires=soldered(
            ("N.start", "X.a"), ("N.finish", "X.b"), ("X.c", "J.sleeve"), ("X.d", "J.tip")
        ),
        kinds=(CROSSOVER,),
    )
    assert faults(circuit, Stance(positions={"X": position})) == []
    (box,) = [glyph for glyph in placed(circuit).glyphs if glyph.form == "matrix"]
    assert len([name for name in box.points if name.startswith("bar")]) == 4


def test_a_kind_of_a_document_with_elements_of_its_own_is_drawn_by_them() -> None:
    circuit = Circuit(
        parts=(Part(id="N", kind="loaded-coil"), Part(id="J", kind="jack-ts")),
        wires=soldered(("N.hot", "J.tip"), ("N.cold", "J.sleeve"), ("N.clip", "J.sleeve")),
        kinds=(LOADED,),
    )
    drawing = whole_drawing(placed(circuit))
    reading = read_back(drawing)
    forms = [glyph.form for glyph, _ in drawing.symbols]
    assert {"coil", "resistor", "capacitor"} <= set(forms)
    assert overlaps(placed(circuit)) == []
    nets = circuit_nets(circuit)
    for lug, other in (("N.hot", "J.tip"), ("N.cold", "J.sleeve"), ("N.shell", "J.sleeve")):
        assert nets[lug] == nets[other]
        assert reading.net_of[lug] == reading.net_of[other]
    assert reading.net_of["N.hot"] != reading.net_of["N.cold"]


def spoilt(drawing: WholeDrawing) -> list[WholeDrawing]:
    """A drawing with one thing wrong each: no dots, a wire less, a ground symbol less."""
    fewer = replace(drawing, symbols=tuple(s for s in drawing.symbols if s[0].form != "ground"))
    wires = whole_drawing(placed(opened(NAMES[0])[0])).wires
    wires.segments = wires.segments[1:]
    return [replace(drawing, dots=()), replace(drawing, wires=wires), fewer]


def test_the_reader_sees_what_is_wrong_with_a_drawing() -> None:
    circuit, _ = opened(NAMES[0])
    drawing = whole_drawing(placed(circuit))
    assert differences(circuit, read_back(drawing)) == []
    for wrong in spoilt(drawing):
        assert differences(circuit, read_back(wrong)) != []


def test_the_measure_sees_what_lies_on_what() -> None:
    drawn = placed(opened(NAMES[0])[0])
    text = drawn.texts[0]
    assert overlaps(replace(drawn, texts=[*drawn.texts, text])) != []
    on_wire = replace(text, at=drawn.strokes[0].start, across="center")
    assert overlaps(replace(drawn, texts=[*drawn.texts, on_wire])) != []
    other = replace(drawn.strokes[0], net=9_999)
    assert overlaps(replace(drawn, strokes=[*drawn.strokes, other])) != []


def test_a_form_without_a_symbol_is_refused() -> None:
    assert "lamp" not in SYMBOLS
    lamp = Glyph("lamp", "L1", {}, Box(0, 0, 1, 1))  # type: ignore[arg-type]
    with pytest.raises(UnknownSymbolError, match='no symbol for "lamp" of L1'):
        element_of(lamp)
