"""The wire list: lengths by hand, the order of soldering, what it is cut from."""

from itertools import groupby
from pathlib import Path

import pytest

from tests.support.wiring import Wiring
from wirer.circuit.edits import change_wire
from wirer.circuit.files import read_file
from wirer.circuit.model import Circuit, Part, Wire, split_lug
from wirer.layout.lay_out import lay_out
from wirer.papers.bench.allowance import Allowance, cut_length_mm
from wirer.papers.bench.places import place_of
from wirer.papers.bench.stages import Stage
from wirer.papers.bench.wire_list import WireList, wire_list
from wirer.papers.bench.wire_order import soldering_order

EXAMPLES = sorted((Path(__file__).parents[3] / "resources" / "examples").glob("*.wirer"))
every_example = pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem[:2])


def opened(path: Path) -> Circuit:
    return read_file(path)[0]


def listed(circuit: Circuit, allowance: Allowance | None = None) -> WireList:
    layout = lay_out(circuit)
    return wire_list(circuit, layout, allowance) if allowance else wire_list(circuit, layout)


def two_posts(**wire: object) -> Circuit:
    """Two posts 90 mm apart on one line, with one wire."""
    posts = (
        Part(id="A", kind="terminal", at=(0.0, 0.0)),
        Part(id="B", kind="terminal", at=(90.0, 0.0)),
    )
    return Circuit(parts=posts, wires=(Wire(id="w", from_lug="A.1", to_lug="B.1", **wire),))  # type: ignore[arg-type]


def test_a_straight_wire_is_cut_as_long_as_the_way_and_its_ends() -> None:
    # 90 mm from post to post, 5 mm to bare at each end (3-5 mm: common practice).
    assert listed(two_posts()).rows[0].length_mm == 100.0


@pytest.mark.parametrize(
    ("allowance", "length"),
    [(Allowance(end=0, step=0), 90), (Allowance(end=4, step=1), 98), (Allowance(12, 0, 25), 125)],
)
def test_the_allowance_can_be_set(allowance: Allowance, length: float) -> None:
    assert listed(two_posts(), allowance).rows[0].length_mm == length


@pytest.mark.parametrize(
    ("ends", "length"),
    [
        (("V.2", "T.2"), 110),
        (("V.2", "J.tip"), 170),
        (("N.finish", "T.2"), 170),
        (("N.finish", "J.tip"), 230),
    ],
    ids=lambda each: "-".join(each) if isinstance(each, tuple) else "",
)
def test_pickups_and_jacks_have_a_loop_to_be_lifted_by(
    ends: tuple[str, str], length: float
) -> None:
    # 100 mm routed, 5 mm at each end, a service loop of 60 mm at each pickup or jack (50-80 mm:
    # common practice).
    bench = Wiring().part("N", "coil-2wire").part("V", "pot").part("T", "pot")
    circuit = bench.part("J", "jack-ts").circuit()
    wire = Wire(id="w", from_lug=ends[0], to_lug=ends[1])
    assert cut_length_mm(circuit, wire, 100.0, Allowance()) == length


def test_what_is_bolted_together_has_no_length_and_comes_first() -> None:
    circuit = (
        Wiring().part("P", "plate").part("V", "pot").join("V.1 V.can").join("P.1 V.can").circuit()
    )
    mounted = change_wire(circuit, "w2", style="mount")
    rows = listed(mounted).rows
    assert [(row.wire.id, row.length_mm is None) for row in rows] == [("w2", True), ("w1", False)]
    assert "w2" not in listed(mounted).drawing_texts


@every_example
def test_every_wire_has_a_number_that_the_drawing_has_too(path: Path) -> None:
    circuit = opened(path)
    wires = listed(circuit)
    assert [row.number for row in wires.rows] == list(range(1, len(circuit.wires) + 1))
    assert {row.wire.id for row in wires.rows} == {wire.id for wire in circuit.wires}
    for row in wires.rows:
        if row.wire.style != "mount":
            assert wires.drawing_texts[row.wire.id].split()[0] == str(row.number)


@every_example
def test_pickups_come_last_and_what_heat_spoils_just_before(path: Path) -> None:
    # Common practice: the harness is metered with stand-ins before the pickups go in.
    circuit = opened(path)

    def lateness(wire: Wire) -> int:
        kinds = [circuit.kind_of(circuit.part_by_id[split_lug(lug)[0]]) for lug in wire.ends]
        if any(kind.coils for kind in kinds):
            return 2
        return int(wire.style != "mount" and any(kind.heat_sensitive for kind in kinds))

    order = [lateness(wire) for wire in soldering_order(circuit)]
    assert order == sorted(order)


@every_example
def test_a_lug_is_soldered_once_before_the_pickups_and_once_after(path: Path) -> None:
    circuit = opened(path)
    done = [
        each
        for row in listed(circuit).rows
        for each in {
            (end.place.lug, row.stage is Stage.PICKUPS)
            for end in (row.start, row.end, *row.screens)
            if end and end.complete
        }
    ]
    assert len(done) == len(set(done))
    wired = {lug for wire in circuit.wires if wire.style != "mount" for lug in wire.ends}
    assert {lug for lug, _ in done} == wired


def test_the_wires_of_a_lug_come_together() -> None:
    bench = Wiring()
    for name in "ABCDEFG":
        bench.part(name, "lever-2p3t")
    bench.join("A.A0 C.A1").join("B.A0 D.A1").join("A.A0 E.A1").join("B.A0 F.A1").join("A.A0 G.A1")
    stars = [row.start.place.lug for row in listed(bench.circuit()).rows]
    assert [lug for lug, _ in groupby(stars)] == ["A.A0", "B.A0"]


def test_what_lies_deepest_comes_first() -> None:
    # A pot's lugs (13 mm behind the panel) lie below a lever switch's (35 mm) for who looks in
    # from behind.
    bench = Wiring().part("S", "lever-2p3t").part("S2", "lever-2p3t")
    bench.part("V", "pot").part("T", "pot").join("S.A0 S2.A0").join("V.2 T.2")
    assert [row.wire.id for row in listed(bench.circuit()).rows] == ["w2", "w1"]


def test_links_come_before_wires_and_cans_before_links() -> None:
    bench = Wiring().part("V", "pot").part("T", "pot").part("S", "lever-2p3t").part("J", "jack-ts")
    bench.join("V.2 J.tip").join("V.3 S.A0").join("S.A1 S.A2").join("V.can T.can")
    stages = [row.stage for row in listed(bench.circuit()).rows]
    assert stages == [Stage.GROUND, Stage.LINKS, Stage.PARTS, Stage.JACK]


def test_ends_have_the_builders_names() -> None:
    part = Part(id="S", kind="slide-2p2t", label="Neck on/off", lug_labels={"A0": "2"})
    circuit = Circuit(parts=(part, Part(id="V", kind="pot", label="Volume")))
    assert str(place_of(circuit, "S.A0")) == "S.A0 Neck on/off, marked 2"
    assert str(place_of(circuit, "V.3")) == "V.3 Volume, 10 end"
    assert str(place_of(circuit, "S.A1")) == "S.A1 Neck on/off"


def test_colours_are_said_in_words_and_in_letters() -> None:
    # IEC 60757: GNYE is green-yellow.
    assert listed(two_posts(colour="GNYE")).rows[0].colour_both == "green-yellow GNYE"
    assert listed(two_posts()).rows[0].colour_both == ""


def test_wire_to_cut_is_summed_up_by_sort() -> None:
    bench = Wiring().part("A", "terminal").part("B", "terminal")
    circuit = bench.join("A.1 B.1 A.1 B.1").circuit()
    for wire, colour in (("w1", "RD"), ("w2", "BK"), ("w3", "RD")):
        circuit = change_wire(circuit, wire, colour=colour, gauge="24 AWG")
    wires = listed(circuit)
    (cut,) = wires.cuts
    lengths = {row.wire.id: row.length_mm or 0 for row in wires.rows}
    assert cut.pieces == 3
    assert dict(cut.colours) == {"BK": lengths["w2"], "RD": lengths["w1"] + lengths["w3"]}
    # ASTM B258: 24 AWG has 0.0201 in, that is 0.2047 mm².
    assert cut.area_mm2 == pytest.approx(0.2047, rel=1e-3)


def test_a_screened_wire_says_where_its_screen_goes() -> None:
    circuit = Wiring().part("V", "pot").part("J", "jack-ts").join("V.2 J.tip").circuit()
    row = listed(change_wire(circuit, "w1", style="screened", screen_to="J.sleeve")).rows[0]
    assert row.screens[0] is None
    assert row.screens[1] is not None
    assert row.screens[1].place.lug == "J.sleeve"
