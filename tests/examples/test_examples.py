"""The examples are good documents of one workshop: read, written, labelled and laid out with care.

Customary figures are marked "common practice"; they are the trade's habits and no standard.
"""

import json
import re
from itertools import combinations
from math import dist

import jsonschema
import pytest

from tests.examples.sheets import CORRECT, MISTAKES, NAMES, circuit, opened, raw
from wirer.circuit.document import write_document
from wirer.circuit.elements import Capacitor, Coil, Inductor, Resistor, Track, circuit_elements
from wirer.circuit.model import Circuit, Part
from wirer.circuit.resources import resource_root
from wirer.layout.lay_out import lay_out
from wirer.layout.overlap import overlapping_parts
from wirer.layout.placement import place_parts

# What may stand inside a sentence with a capital: the workshop, months, lugs and coils, a label.
NAMED = {"Third", "Shelf", "Workshop", "January", "February", "March", "Tone", *"ABCDMNE"}

every_example = pytest.mark.parametrize("name", NAMES)
every_correct_one = pytest.mark.parametrize("name", CORRECT)


def test_the_first_is_the_baritone_that_the_program_opens_by_itself() -> None:
    assert NAMES[0] == "01-baritone-three-coils-series"
    assert len(NAMES) >= 9


@every_example
def test_reading_and_writing_gives_the_same_bytes(name: str) -> None:
    assert write_document(*opened(name)) == raw(name)


@every_example
def test_it_obeys_the_schema(name: str) -> None:
    schema = json.loads((resource_root() / "schema" / "wirer-1.schema.json").read_text("utf-8"))
    jsonschema.validate(json.loads(raw(name)), schema)


@every_example
def test_it_reads_like_a_job_sheet(name: str) -> None:
    sheet = circuit(name)
    assert sheet.title
    assert sheet.notes
    assert sheet.job.startswith("Third Shelf Workshop, ")
    assert re.search(r"\b\d{1,2} (January|February|March) 2026\b", sheet.job)
    assert all(part.label for part in sheet.parts)


@every_example
def test_it_names_nobody_and_nothing_that_could_be_real(name: str) -> None:
    sheet = circuit(name)
    labels = [text for part in sheet.parts for text in (part.label, *part.position_labels.values())]
    for line in "\n".join([sheet.title, sheet.job, sheet.notes, *labels]).splitlines():
        assert "://" not in line
        assert "@" not in line
        for sentence in re.split(r"(?<=[.:?;]) ", line):
            inside = sentence.split(" ")[1:]
            words = (re.sub(r"'s$|[^A-Za-z]", "", word.strip(".,:;?")) for word in inside)
            capitals = {w for w in words if re.fullmatch(r"[A-Z][a-z]*", w)}
            assert capitals <= NAMED, sentence


@every_example
def test_it_fits_a_landscape_a4_sheet_at_true_scale(name: str) -> None:
    box = lay_out(circuit(name)).box  # ISO 216: A4 is 297 × 210 mm; 10 mm are left all round
    assert box.right - box.left <= 277
    assert box.bottom - box.top <= 190


@every_correct_one
def test_no_bodies_collide(name: str) -> None:
    assert not overlapping_parts(place_parts(circuit(name)))


@every_example
def test_knobs_leave_room_for_fingers(name: str) -> None:
    sheet = circuit(name)
    shafts = [part.at for part in sheet.parts if sheet.kind_of(part).shafts]
    # Common practice: knob centres 28 to 38 mm apart at least.
    assert all(dist(a, b) >= 28 for a, b in combinations(shafts, 2))


@every_correct_one
def test_no_lug_takes_more_wires_than_it_holds(name: str) -> None:
    sheet = circuit(name)
    ends = [
        lug
        for wire in sheet.wires
        if wire.style != "mount"
        for lug in (*wire.ends, wire.screen_from, wire.screen_to)
        if lug
    ]
    for part in sheet.parts:
        for lug in sheet.kind_of(part).lugs:
            assert ends.count(f"{part.id}.{lug.name}") <= lug.holds, f"{part.id}.{lug.name}"


@every_correct_one
def test_every_needed_lug_and_all_metal_has_a_wire_or_a_bolt(name: str) -> None:
    sheet = circuit(name)
    joined = {lug for wire in sheet.wires for lug in wire.ends}
    for part in sheet.parts:
        for lug in sheet.kind_of(part).lugs:
            if lug.needed or lug.metal:
                assert f"{part.id}.{lug.name}" in joined


@every_example
def test_a_string_ground_is_laid_out(name: str) -> None:
    sheet = circuit(name)
    assert any("string-ground" in sheet.kind_of(part).traits for part in sheet.parts)


@every_correct_one
def test_ground_is_black_and_nothing_else_is(name: str) -> None:
    """The workshop's own colours, as its notes state them."""
    sheet = circuit(name)
    on_ground = _ground_lugs(sheet)
    for wire in sheet.wires:
        if wire.colour and wire.style != "screened":
            assert (wire.colour == "BK") == (wire.from_lug in on_ground), wire.id


def _ground_lugs(sheet: Circuit) -> set[str]:
    """Every lug that wires and bonds alone join to the sleeve."""
    joints = [set(wire.ends) for wire in sheet.wires]
    joints += [
        {f"{part.id}.{lug}" for lug in element.lugs}
        for part in sheet.parts
        for element in sheet.kind_of(part).elements
        if hasattr(element, "lugs")
    ]
    reached = {f"{sheet.jacks[0].id}.sleeve"}
    while more := {lug for joint in joints if joint & reached for lug in joint} - reached:
        reached |= more
    return reached


@every_correct_one
def test_values_are_customary(name: str) -> None:
    """Common practice: coils 2-20 kΩ, 0.5-12 H, 20-400 pF; pots 100 kΩ-1 MΩ.

    Tone capacitors 1-220 nF, bleed capacitors from 100 pF; resistors 47 kΩ-22 MΩ.
    """
    for element in circuit_elements(circuit(name)):
        match element:
            case Coil():
                assert 2e3 <= element.resistance_ohm <= 20e3
                assert 0.5 <= element.inductance_henry <= 12
                assert 20e-12 <= element.capacitance_farad <= 400e-12
            case Track():
                assert 100e3 <= element.ohm <= 1.2e6  # a pot of 1 MΩ may measure 20 % over
            case Capacitor():
                assert 100e-12 <= element.farad <= 220e-9
            case Resistor():
                assert 47e3 <= element.ohm <= 22e6
            case Inductor():
                pytest.fail("no example has a choke")


@every_correct_one
def test_every_value_that_matters_is_written_down(name: str) -> None:
    for part in circuit(name).parts:
        assert _assumed(circuit(name), part) == set(), part.id


def _assumed(sheet: Circuit, part: Part) -> set[str]:
    """The parameters whose customary value would have to be taken."""
    needed = {n for n, p in sheet.kind_of(part).parameters.items() if p.assumed}
    return needed - set(part.values)


def test_together_they_show_the_ways_of_writing_a_value() -> None:
    written = {
        str(value)
        for name in NAMES
        for part in circuit(name).parts
        for values in (part.values, part.measured)
        for value in values.values()
    }
    for form in (r"\d+k\d+", r"\d+\.\d+k", r"0\.\d+u", r"\d+n\d*", r"\dH\d", r"\d\.\d+", r"\d+%"):
        assert any(re.fullmatch(form, text) for text in written), form
    styles = {wire.style for name in NAMES for wire in circuit(name).wires}
    assert styles == {"solid", "stranded", "bare", "screened", "mount"}


@every_correct_one
def test_every_screen_is_grounded_at_one_end(name: str) -> None:
    sheet = circuit(name)
    ground = _ground_lugs(sheet)
    for wire in sheet.wires:
        if wire.style == "screened":
            screens = [lug for lug in (wire.screen_from, wire.screen_to) if lug]
            assert len(screens) == 1
            assert screens[0] in ground


def test_the_practice_loom_says_what_is_wrong_with_it() -> None:
    assert len(re.findall(r"^\d+\. \S+: .+\.$", circuit(MISTAKES).notes, re.MULTILINE)) >= 12
