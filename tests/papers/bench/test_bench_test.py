"""The test sheet: settings, taps and polarity, stand-ins, the ground round."""

from itertools import combinations
from pathlib import Path

import pytest

from tests.command.support import chain
from tests.support import trade
from tests.support.wiring import Wiring
from wirer.analysis.combinations import combination_table
from wirer.circuit.edits import add_wires, remove_wires
from wirer.circuit.files import read_file
from wirer.circuit.model import Circuit, Wire
from wirer.circuit.stance import default_rotations, default_stance
from wirer.papers.bench.bench_test import BenchTest, bench_test

EXAMPLES = sorted((Path(__file__).parents[3] / "resources" / "examples").glob("*.wirer"))


def sheet_of(circuit: Circuit) -> BenchTest:
    table = combination_table(circuit, default_stance(circuit))
    return bench_test(circuit, table, default_rotations(circuit))


def test_stand_ins_of_three_coils_have_sums_and_parallels_that_all_differ() -> None:
    # 1.0, 2.2 and 4.7 kΩ (common practice): every sum and every parallel of some of them is unique.
    stand_ins = sheet_of(trade.series_chain(phase=False)).stand_ins
    ohms = [stand_in.ohm for stand_in in stand_ins]
    assert ohms == [1000, 2200, 4700]
    chosen = [some for n in (1, 2, 3) for some in combinations(ohms, n)]
    read = [sum(some) for some in chosen] + [
        1 / sum(1 / ohm for ohm in some) for some in chosen if len(some) > 1
    ]
    assert all(abs(a - b) > 0.03 * a for a, b in combinations(read, 2))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem[:2])
def test_stand_ins_tell_every_sound_of_an_example_from_every_other(path: Path) -> None:
    circuit = read_file(path)[0]
    sheet = sheet_of(circuit)
    assert sheet.confused == ()
    for one, other in combinations(sheet.groups, 2):
        coils = [{frozenset(row.coils) for row in group.rows} for group in (one, other)]
        if not coils[0] & coils[1]:
            assert not one.harness.meets(other.harness)


def test_coils_that_cannot_be_reached_apart_have_one_stand_in() -> None:
    bench = Wiring().part("H", "humbucker-screened").part("J", "jack-ts")
    sheet = sheet_of(bench.join("H.core J.tip").join("H.braid J.sleeve").circuit())
    (stand_in,) = sheet.stand_ins
    assert (stand_in.coils, set(stand_in.lugs)) == (("H.A", "H.B"), {"H.core", "H.braid"})
    assert sheet.groups[0].harness.ohm == pytest.approx(stand_in.ohm)


def test_settings_that_a_capacitor_hides_from_the_meter_are_said() -> None:
    bench = Wiring().part("J", "jack-ts").part("S", "slide-1p2t").part("C", "capacitor")
    for coil, throw in (("N", "S.A1"), ("B", "S.A2")):
        bench.part(coil, "coil-2wire").join(f"{coil}.start J.sleeve").join(f"{coil}.finish", throw)
    hidden = sheet_of(bench.join("S.A0 C.1").join("C.2 J.tip").circuit())
    assert hidden.confused == ((0, 0),)


def test_taps_and_polarity_are_the_sounds() -> None:
    # B7 of the trade: a phase switch turns the signal of its coil about.
    sheet = sheet_of(trade.series_chain(("N", "B")))
    by_sound = {row.sound: row for group in sheet.groups for row in group.rows}
    assert (by_sound["N + B"].coils, by_sound["N + B"].signs) == (("N", "B"), (1, 1))
    assert by_sound["N + −B"].signs == (1, -1)
    assert (by_sound["B"].coils, by_sound["B"].signs) == (("B",), (1,))
    assert by_sound["silent"].coils == ()


def test_settings_are_grouped_by_their_readings() -> None:
    # B20 of the trade: three equal coils in series, each in or out: 64 settings.
    sheet = sheet_of(trade.series_chain())
    assert sheet.is_whole
    rows = [row.index for group in sheet.groups for row in group.rows]
    assert sorted(rows) == list(range(64))
    heights = [group.finished.ohm or 0 for group in sheet.groups]
    assert heights == sorted(heights, reverse=True)
    assert heights[-1] == 0
    sizes = sorted(len(group.rows) for group in sheet.groups)
    assert sizes == [8] * 8


def test_of_many_settings_the_different_ones_are_listed() -> None:
    circuit = chain(4)
    sheet = sheet_of(circuit)
    table = combination_table(circuit, default_stance(circuit))
    assert (sheet.settings, sheet.is_whole) == (256, False)
    assert {row.index for group in sheet.groups for row in group.rows} == set(table.firsts)


def test_a_circuit_without_a_jack_reads_nothing() -> None:
    (group,) = sheet_of(Wiring().part("N", "coil-2wire").circuit()).groups
    assert group.finished.ohm is None


def grounds(circuit: Circuit) -> dict[str, str]:
    return {check.place.lug: check.expected for check in sheet_of(circuit).grounds}


def test_every_metal_is_metered_to_the_sleeve() -> None:
    # Metal reads under 1 Ω to the sleeve, screening paint about 100 Ω (common practice).
    bench = Wiring().part("J", "jack-ts").part("V", "pot").part("F", "foil").part("E", "bridge")
    circuit = bench.join("J.sleeve V.can F.1").join("V.can E.1").circuit()
    assert grounds(circuit) == {
        "V.can": "under 1 Ω",
        "F.1": "under 1 Ω; paint about 100 Ω",
        "E.1": "under 1 Ω",
    }


def test_metal_that_is_not_grounded_is_said() -> None:
    bench = Wiring().part("J", "jack-ts").part("V", "pot").join("J.sleeve V.can")
    circuit = remove_wires(bench.circuit(), ["w1"])
    assert grounds(circuit)["V.can"].startswith("not on ground as drawn")
    again = add_wires(circuit, [Wire(id="x", from_lug="V.can", to_lug="J.sleeve")])
    assert grounds(again)["V.can"] == "under 1 Ω"
