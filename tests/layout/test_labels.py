"""Names stand where they can be read: on no body, lug, wire or other name where there is room."""

import pytest
from msgspec.structs import replace

from tests.layout.circuits import (
    Bench,
    rotary_selector,
    three_coils_six_slides,
    two_humbuckers_one_lever,
)
from wirer.circuit.model import Circuit
from wirer.layout.box import Box
from wirer.layout.geometry import segments_of
from wirer.layout.labels import part_text
from wirer.layout.lay_out import lay_out
from wirer.layout.layout import Layout
from wirer.layout.lettering import in_two_lines, shortened, text_width
from wirer.layout.tags import place_lug_names, place_tags


def wire_boxes(layout: Layout, but: str = "") -> list[Box]:
    return [
        Box.around(segment).grown(0.4)
        for wire, route in layout.routes.items()
        for segment in segments_of(route.points)
        if wire != but
    ]


@pytest.fixture(
    scope="module", params=[three_coils_six_slides, two_humbuckers_one_lever, rotary_selector]
)
def laid(request: pytest.FixtureRequest) -> tuple[Circuit, Layout]:
    circuit = request.param()
    return circuit, lay_out(circuit)


def test_every_part_and_every_position_has_its_name(laid: tuple[Circuit, Layout]) -> None:
    circuit, layout = laid
    assert set(layout.labels.names) == {part.id for part in circuit.parts}
    for part in circuit.switches:
        positions = [choice.position for choice in layout.labels.choices[part.id]]
        actuator = circuit.kind_of(part).actuator
        assert actuator is not None
        assert sorted(positions) == sorted(actuator.positions)


def test_names_lie_on_nothing(laid: tuple[Circuit, Layout]) -> None:
    _, layout = laid
    boxes = list(layout.labels.boxes)
    bodies = [p.body_box for p in layout.placements.values() if not p.underlay]
    lugs = [Box.centred(at, 2, 2) for at in layout.lugs.values()]
    for index, box in enumerate(boxes):
        inner = box.grown(-0.05)
        assert not any(inner.meets(other) for other in (*bodies, *lugs, *wire_boxes(layout)))
        assert not any(inner.meets(other) for other in boxes[index + 1 :])


def test_the_notes_along_wires_lie_on_no_other_wire_lug_or_name(
    laid: tuple[Circuit, Layout],
) -> None:
    circuit, layout = laid
    tags = place_tags(layout, {wire.id: wire.colour for wire in circuit.wires})
    names = place_lug_names(
        layout, {lug: lug.partition(".")[2] for lug in layout.lugs}, tags.values()
    )
    assert len(tags) > len(circuit.wires) / 2
    assert len(names) > len(layout.lugs) / 2
    taken = list(layout.labels.boxes)
    for wire, tag in tags.items():
        assert not any(tag.box.meets(box) for box in (*taken, *wire_boxes(layout, but=wire)))
        taken.append(tag.box)
    for name in names.values():
        assert not any(name.box.meets(box) for box in (*taken, *wire_boxes(layout)))
        taken.append(name.box)


def test_positions_are_listed_as_the_lever_moves() -> None:
    """`up` is at the top (the catalogue's definition); turned half round it is at the bottom."""
    for turn, order in ((0, ["up", "down"]), (180, ["down", "up"])):
        bench = Bench()
        bench.part("S", "slide-2p2t", 0.0, 0.0, turn=turn)
        choices = lay_out(bench.circuit()).labels.choices["S"]
        assert [choice.position for choice in choices] == order
        assert choices[0].label.box.bottom <= choices[1].label.box.top + 1e-9


def test_the_builders_own_words_are_shown() -> None:
    bench = Bench()
    bench.part(
        "S", "slide-2p2t", 0.0, 0.0, label="Kill", position_labels={"up": "on", "down": "off"}
    )
    labels = lay_out(bench.circuit()).labels
    assert labels.names["S"].text.split() == ["S", "·", "Kill"]
    assert [choice.label.text for choice in labels.choices["S"]] == ["on", "off"]


def test_a_rotary_lists_only_the_positions_up_to_its_stop() -> None:
    bench = Bench()
    bench.part("R", "rotary-1p12t", 0.0, 0.0, values={"stop": "4"})
    choices = lay_out(bench.circuit()).labels.choices["R"]
    assert [choice.position for choice in choices] == ["1", "2", "3", "4"]


def test_a_very_long_label_is_cut_short() -> None:
    part = replace(three_coils_six_slides().parts[0], label="x" * 200)
    assert len(part_text(part)) == 32
    assert part_text(part).endswith("…")


def test_a_text_is_kept_on_one_line() -> None:
    assert shortened("two\n lines\tof  text") == "two lines of text"


def test_a_name_breaks_where_its_lines_are_most_alike() -> None:
    assert in_two_lines("C1 · Middle capacitor") == "C1 · Middle\ncapacitor"
    assert in_two_lines("V · Volume") == "V ·\nVolume"
    assert in_two_lines("Volume") == "Volume"


def test_wide_letters_take_more_room_than_narrow_ones() -> None:
    assert text_width("WWW", 2.0) > text_width("nnn", 2.0) > text_width("iii", 2.0)
    assert text_width("", 2.0) == 0


def test_in_a_heap_of_parts_names_are_placed_without_end_of_trying(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("wirer.layout.room.MOST_ASKED", 0)
    circuit = three_coils_six_slides()
    assert len(lay_out(circuit).labels.names) == len(circuit.parts)
