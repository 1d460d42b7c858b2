"""Parts list, player's card, findings, revision, and the lists as CSV."""

import csv
import io
from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.support import trade
from tests.support.wiring import Wiring
from wirer.circuit.edits import change_circuit, change_part, change_wire, set_measured, set_value
from wirer.circuit.files import read_file
from wirer.circuit.model import Circuit, Waiver, Wanted
from wirer.papers.bench.cautions import CAUTIONS
from wirer.papers.bench.job_papers import JobPapers
from wirer.papers.bench.lists_csv import LISTS
from wirer.papers.bench.player_card import CardRow
from wirer.papers.bench.revision import revision_of

EXAMPLES = sorted((Path(__file__).parents[3] / "resources" / "examples").glob("*.wirer"))


def one_coil(**values: str) -> Circuit:
    bench = Wiring().part("N", "coil-2wire", values).part("J", "jack-ts")
    return bench.join("N.finish J.tip").join("N.start J.sleeve").circuit()


def values_of(circuit: Circuit, part: str) -> dict[str, tuple[str, str, str, str]]:
    (row,) = (row for row in JobPapers(circuit).parts if row.part == part)
    return {v.name: (v.nominal, v.tolerance, v.measured, v.window) for v in row.values}


def test_a_lone_coil_may_be_what_keeps_the_reading_in_its_band() -> None:
    # By hand: 8000 · 0.9 · 0.9607 − 20 = 6897 Ω, 8000 · 1.1 · 1.0393 + 20 = 9166 Ω.
    found = values_of(one_coil(resistance="8k"), "N")
    assert found["resistance"] == ("8 kΩ", "", "", "6.90 to 9.17 kΩ")


def test_what_no_meter_sees_may_be_what_is_customary() -> None:
    # Coils of 0.5 to 12 H and 20 to 400 pF are customary (common practice).
    found = values_of(one_coil(inductance="2H6"), "N")
    assert found["inductance"] == ("2.6 H", "", "", "500 mH to 12 H")
    assert found["capacitance"][3] == "20 to 400 pF"


def test_a_volume_pot_is_bounded_by_custom_where_the_reading_hardly_feels_it() -> None:
    circuit = trade.series_chain(("N",), phase=False, volume="500k")
    circuit = set_measured(set_value(circuit, "V", "tolerance", "20%"), "V", "resistance", "468k")
    nominal, tolerance, measured, window = values_of(circuit, "V")["resistance"]
    assert (nominal, tolerance, measured) == ("500 kΩ", "20%", "468 kΩ")
    assert window == "100 kΩ to 1 MΩ"


def test_winding_and_pole_stand_together() -> None:
    found = values_of(one_coil(winding="ccw", pole="south"), "N")
    assert found["winding, pole"][0] == "ccw, south"


def card_of(circuit: Circuit) -> dict[str, CardRow]:
    return {row.who: row for row in JobPapers(circuit).card.rows}


def test_the_card_speaks_as_players_do() -> None:
    # "Fuller and louder", "thin, hollow, quieter": what the trade tells players.
    card = card_of(trade.series_chain(("N", "B")))
    assert card["N and B"].like == "fuller and louder"
    assert card["N against B"].like == "thin, hollow, quieter"
    assert card["N"].like == "plain, as the pickup is"
    assert card[""].like == "silence"
    parallel = card_of(trade.parallel_bus(("N", "B")))
    assert parallel["N and B"].like == "clear"


def test_a_split_humbucker_is_quieter_brighter_and_hums() -> None:
    # B9 of the trade: either coil alone, or both in series.
    rows = JobPapers(trade.split_on_one_pole()).card.rows
    assert [(row.who, row.like, row.hum) for row in rows if row.who] == [
        ("One coil of H", "quieter, brighter", "hums"),
        ("H", "full", "no hum"),
        ("One coil of H", "quieter, brighter", "hums"),
    ]


def test_a_button_that_springs_back_is_no_setting() -> None:
    bench = Wiring().part("K", "momentary").part("N", "coil-2wire").part("J", "jack-ts")
    circuit = bench.join("N.finish J.tip K.A0").join("N.start J.sleeve K.A1").circuit()
    card = JobPapers(change_part(circuit, "K", label="Kill")).card
    assert [row.who for row in card.rows] == ["N"]
    assert card.switches == ()
    assert "Kill: silence for as long as it is pressed." in card.remarks


def test_of_many_settings_the_card_lists_sounds_and_how_to_get_them() -> None:
    # B20 of the trade: 64 settings, 13 sounds; two ways to set the switches for all three in phase.
    card = JobPapers(trade.series_chain()).card
    assert card.by_sound
    assert len(card.rows) == 13 + 1
    assert [len(row.ways) for row in card.rows if row.who == "N, M and B"] == [2]
    assert "13 different sounds" in card.remarks[0]


def test_more_ways_than_the_card_has_room_for_are_counted() -> None:
    bench = Wiring().part("N", "coil-2wire").part("J", "jack-ts")
    bench.join("N.finish J.tip").join("N.start J.sleeve")
    for number in range(6):
        bench.part(f"S{number}", "toggle-1p2t").join(f"S{number}.A0 J.tip")
        bench.join(f"S{number}.A1 J.sleeve")
    rows = {row.who: row for row in JobPapers(bench.circuit()).card.rows}
    assert (len(rows["N"].ways), rows["N"].more) == (1, 0)
    assert (len(rows[""].ways), rows[""].more) == (4, 2)  # any of six switches silences it


def test_open_findings_come_before_waived_ones_with_their_reasons() -> None:
    circuit = Wiring().part("J", "jack-ts").part("V", "pot").part("W", "pot").circuit()
    waiver = Waiver(rule="ungrounded-metal", places=("V.can",), reason="goes on a metal plate")
    found = JobPapers(change_circuit(circuit, waived=(waiver,))).findings
    assert found is not None
    waived = [finding for finding in found if finding.waived]
    assert [(f.rule, f.waived) for f in waived] == [("ungrounded-metal", "goes on a metal plate")]
    assert found[-1] == waived[0]
    assert any(f.places == ("W.can",) and f.waived is None for f in found)
    assert all(f.to_do.endswith(".") for f in found)


def test_what_is_wanted_is_laid_beside_what_is_given() -> None:
    circuit = change_circuit(
        trade.series_chain(("N", "B"), phase=False),
        wanted=(Wanted({"SN": "up"}, "N"), Wanted({"SN": "up", "SB": "up"}, "N + B")),
    )
    wanted = JobPapers(circuit).wanted
    assert {row: (w.text, w.given) for row, w in wanted.items()} == {
        0: ("N + B", True),
        1: ("N", True),
    }


def test_more_settings_than_rules_look_through_are_said_and_no_error() -> None:
    bench = Wiring().part("J", "jack-ts")
    for number in range(17):
        bench.part(f"S{number}", "slide-1p2t")
    papers = JobPapers(bench.circuit())
    assert papers.findings is None
    assert not papers.wanted
    assert papers.test.settings == 2**17


def test_the_revision_follows_the_circuit_and_not_the_soldering() -> None:
    circuit = one_coil()
    assert revision_of(change_wire(circuit, "w1", done=True)) == revision_of(circuit)
    assert revision_of(change_wire(circuit, "w1", colour="RD")) != revision_of(circuit)
    assert JobPapers(circuit, revision="B").revision == "B"


def test_the_cautions_name_what_can_hurt_and_who_may_do_the_rest() -> None:
    text = " ".join(f"{head} {body}" for head, body in CAUTIONS).lower()
    for word in ("fume", "lead", "eye", "iron", "valve", "strings", "pcb", "batter"):
        assert word in text
    assert "licensed" in text
    assert "local codes" in text
    assert all(len(body) < 330 for _, body in CAUTIONS)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem[:2])
def test_every_list_reads_back_from_csv(path: Path) -> None:
    papers = JobPapers(read_file(path)[0])
    found = {name: list(csv.DictReader(io.StringIO(make(papers)))) for name, make in LISTS.items()}
    assert [row["id"] for row in found["wires"]] == [row.wire.id for row in papers.wires.rows]
    assert {row["part"] for row in found["parts"]} == {part.id for part in papers.circuit.parts}
    assert len(found["test"]) == len(papers.table)
    assert len(found["grounds"]) == len(papers.test.grounds)
    assert len(found["card"]) == len(papers.card.rows)
    assert all(
        None not in row and None not in row.values() for rows in found.values() for row in rows
    )


def test_a_label_with_commas_quotes_and_lines_survives_csv() -> None:
    label = 'a, "b"\n<script>=1+1</script>'
    circuit = change_part(one_coil(), "N", label=label)
    (row, *_) = csv.DictReader(io.StringIO(LISTS["parts"](JobPapers(circuit))))
    assert row["label"] == label
    assert replace(circuit.parts[0], label=label) == circuit.parts[0]
