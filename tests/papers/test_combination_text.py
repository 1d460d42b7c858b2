"""The combination table as JSON, CSV and Markdown."""

import csv
import io
import json
import re
from typing import Any

import pytest
from hypothesis import given

from tests.papers.schemas import COMBINATIONS, assert_valid
from tests.support.circuits import guitars
from tests.support.labels import labelled
from tests.support.trade import five_way, phase_switch, three_ways_on_on_on
from tests.support.wiring import Wiring
from wirer.analysis.combinations import combination_table
from wirer.circuit.model import Circuit
from wirer.circuit.stance import default_stance
from wirer.papers.combination_csv import combinations_csv
from wirer.papers.combination_markdown import combinations_markdown
from wirer.papers.combination_text import combinations_json, combinations_json_text


def selector() -> Circuit:
    """Two pickups on a rotary of four positions: neck, bridge, both in series, nothing."""
    bench = Wiring().part("J", "jack-ts").part("N", "coil-2wire")
    bench.part("B", "coil-2wire", winding="ccw").part("R", "rotary-3p4t")
    bench.join("J.tip R.A0").join("R.A1 N.finish").join("R.A2 B.finish R.A3")
    bench.join("N.start R.B0").join("R.B1 J.sleeve")
    bench.join("B.start R.C0").join("R.C2 J.sleeve").join("R.C3 N.finish").join("R.B3 J.sleeve")
    circuit = bench.circuit(title="Bench")
    positions = {"R": {"1": "neck", "4": "dead"}}
    return labelled(circuit, {"N": "Neck", "B": "Bridge | rear"}, positions)


def as_json(circuit: Circuit, *, distinct: bool = False) -> dict[str, Any]:
    table = combination_table(circuit, default_stance(circuit))
    return combinations_json(table, circuit, distinct=distinct)


def test_the_json_is_what_the_design_says() -> None:
    record = as_json(selector())
    assert_valid(record, COMBINATIONS)
    assert (record["title"], record["settings"]) == ("Bench", 4)
    assert (record["distinct"], record["silent"]) == (3, 1)
    neck, bridge, both, dead = record["combinations"]
    assert [row["sound"] for row in record["combinations"]] == ["N", "B", "N + −B", "silent"]
    assert neck["setting"] == {"R": "1"}
    assert both["words"] == "Neck in series with Bridge | rear reversed"
    assert both["network"] == {"series": [{"coil": "N"}, {"coil": "B", "reversed": True}]}
    assert neck["weights"]["B"] == 0.0
    assert bridge["same_as"] == 1
    assert "out-of-phase" in both["remarks"]
    assert dead["silent"] == "open"
    assert dead["resistance"] is None


def test_hum_of_a_balanced_pair_is_nought_and_of_one_coil_one() -> None:
    # Equal coils wound opposite ways take up equal and opposite hum (common practice).
    neck, _, both, _ = as_json(selector())["combinations"]
    assert (neck["hum"], both["hum"]) == (1.0, 0.0)


def test_names_are_those_of_the_coils_where_a_part_has_two() -> None:
    # One coil of the pair alone in the middle of an on-on-on switch: common practice.
    rows = as_json(three_ways_on_on_on())["combinations"]
    assert {name for row in rows for name in row["weights"]} == {"H.A", "H.B"}
    assert any(row["sound"] == "H" for row in rows)
    assert {"H.A", "H.B"} & {row["sound"] for row in rows}


@pytest.mark.parametrize("circuit", [selector(), five_way(), phase_switch()])
def test_distinct_rows_are_the_first_of_each_sound(circuit: Circuit) -> None:
    every, few = as_json(circuit), as_json(circuit, distinct=True)
    firsts = [
        row
        for index, row in enumerate(every["combinations"])
        if row["same_as"] == index and row["silent"] is None
    ]
    assert few["combinations"] == firsts
    assert len(firsts) == few["distinct"] == every["distinct"]
    assert few["settings"] == every["settings"]


@pytest.mark.parametrize("distinct", [False, True])
@pytest.mark.parametrize("circuit", [selector(), five_way(), Wiring().circuit(title='a "b"\n')])
def test_what_is_streamed_is_the_same_json(circuit: Circuit, distinct: bool) -> None:
    table = combination_table(circuit, default_stance(circuit))
    text = "".join(combinations_json_text(table, circuit, distinct=distinct))
    whole = combinations_json(table, circuit, distinct=distinct)
    assert json.loads(text) == whole
    orders = [list(row) for row in json.loads(text)["combinations"]]
    assert orders == [list(row) for row in whole["combinations"]]


@given(guitars(most_parts=6))
def test_any_circuits_json_is_of_the_form(circuit: Circuit) -> None:
    record = as_json(circuit)
    assert_valid(record, COMBINATIONS)
    assert json.loads(json.dumps(record, allow_nan=False)) == record
    for index, row in enumerate(record["combinations"]):
        assert row["same_as"] <= index


@pytest.mark.parametrize("circuit", [selector(), five_way()])
def test_the_csv_says_the_same_as_the_json(circuit: Circuit) -> None:
    table = combination_table(circuit, default_stance(circuit))
    text = "".join(combinations_csv(table, circuit, distinct=False))
    lines = list(csv.DictReader(io.StringIO(text)))
    rows = as_json(circuit)["combinations"]
    assert len(lines) == len(rows)
    for index, (line, row) in enumerate(zip(lines, rows, strict=True)):
        assert line["row"] == str(index)
        assert {k[8:]: x for k, x in line.items() if k.startswith("setting.")} == row["setting"]
        assert {k[7:]: float(x) for k, x in line.items() if k[:7] == "weight."} == row["weights"]
        for name in ("hum", "resistance", "resonance", "peak_db", "level_db"):
            assert (float(line[name]) if line[name] else None) == row[name]
        assert (line["sound"], line["words"]) == (row["sound"], row["words"])
        assert (line["silent"] or None) == row["silent"]
        assert int(line["same_as"]) == row["same_as"]
        assert line["remarks"].split() == row["remarks"]


def test_the_csv_quotes_what_a_label_has_in_it() -> None:
    bench = Wiring().part("J", "jack-ts").part("N", "coil-2wire")
    circuit = bench.join("N.finish J.tip").join("N.start J.sleeve").circuit()
    circuit = labelled(circuit, {"N": '5" long,\nwide'})
    table = combination_table(circuit, default_stance(circuit))
    (line,) = csv.DictReader(io.StringIO("".join(combinations_csv(table, circuit, distinct=False))))
    assert line["words"] == '5" long,\nwide'


def test_the_markdown_is_a_table_in_the_builders_names() -> None:
    circuit = selector()
    table = combination_table(circuit, default_stance(circuit))
    lines = "".join(combinations_markdown(table, circuit, distinct=False)).splitlines()
    assert lines[0] == "# Bench"
    grid = [re.split(r"(?<!\\)\|", line)[1:-1] for line in lines if line.startswith("|")]
    assert len(grid) == 2 + 4
    assert len({len(cells) for cells in grid}) == 1
    assert [cell.strip() for cell in grid[2][:4]] == ["1", "neck", "N", "Neck"]
    assert grid[4][3].strip() == r"Neck in series with Bridge \| rear reversed"
    assert grid[5][1].strip() == "dead"
    assert lines[-1] == "4 settings: 3 distinct sounds, 1 silent (open)."
