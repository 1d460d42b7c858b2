"""`wirer combinations`: the table as a builder and as a script get it."""

import csv
import io
import json
import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from tests.command.support import (
    BARITONE,
    EXAMPLES,
    chain,
    environment,
    printed,
    refused,
    start,
    written,
)
from tests.papers.schemas import COMBINATIONS, assert_valid
from tests.support.circuits import documents
from tests.support.labels import labelled
from tests.support.wiring import Wiring, stance_of
from wirer.analysis.combinations import combination_table
from wirer.circuit.files import read_file
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance
from wirer.command.combination_layout import shortened
from wirer.command.combination_table import table_lines
from wirer.command.grid import text_width
from wirer.papers.combination_cells import CombinationCells

examples = pytest.mark.parametrize("file", [*map(str, EXAMPLES)], ids=lambda file: Path(file).stem)


def test_the_baritones_table_has_as_many_sounds_as_combinatorics_says() -> None:
    # Three coils, each off, normal or reversed, polarity of the whole unheard: (3³ − 1)/2 sounds.
    # All three off is silent whatever their 2³ phases: elementary combinatorics.
    record = json.loads(printed("combinations", BARITONE, "--json"))
    assert (record["settings"], record["distinct"], record["silent"]) == (64, 13, 8)
    assert {row["silent"] for row in record["combinations"]} == {None, "shorted"}


@examples
def test_the_json_of_each_example_is_what_the_design_says(file: str) -> None:
    record = json.loads(printed("combinations", file, "--json"))
    assert_valid(record, COMBINATIONS)
    assert len(record["combinations"]) == record["settings"]


def test_rows_are_in_counting_order_the_first_actuator_slowest() -> None:
    rows = json.loads(printed("combinations", BARITONE, "--json"))["combinations"]
    steps = [[row["setting"][name] == "down" for name in rows[0]["setting"]] for row in rows]
    assert steps == sorted(steps)


def test_distinct_leaves_one_row_a_sound() -> None:
    record = json.loads(printed("combinations", BARITONE, "--json", "--distinct"))
    assert len({row["sound"] for row in record["combinations"]}) == 13
    assert len(record["combinations"]) == 13
    assert record["settings"] == 64
    text = printed("combinations", BARITONE, "--distinct")
    assert len(re.findall(r"^ *\d+  on|^ *\d+  off", text, re.MULTILINE)) == 13


def test_csv_and_markdown_have_a_line_a_setting() -> None:
    lines = list(csv.DictReader(io.StringIO(printed("combinations", BARITONE, "--csv"))))
    assert len(lines) == 64
    assert lines[0]["sound"] == "N + M + B"
    text = printed("combinations", BARITONE, "--markdown")
    assert len([line for line in text.splitlines() if line.startswith("|")]) == 2 + 64


@pytest.mark.parametrize(
    "forms", [["--json", "--csv"], ["--csv", "--markdown"], ["--json", "--markdown", "--csv"]]
)
def test_the_forms_exclude_each_other(forms: list[str]) -> None:
    assert "exclude each other" in refused("combinations", BARITONE, *forms)


def numbers_of(circuit: Circuit, stance: Stance) -> list[list[str]]:
    """The figures of each row, in the order of the columns."""
    table = combination_table(circuit, stance)
    cells = CombinationCells(table, circuit)
    return [
        [cells.hum(c), cells.reading(c), cells.resonance(c), cells.level(c)]
        for c in (row.combination for row in table)
    ]


def rows_of(lines: list[str], columns: str) -> list[str]:
    """The lines below the rule that begin a row."""
    rule = next(i for i, line in enumerate(lines) if line.startswith("──"))
    return [line for line in lines[rule + 1 :] if re.match(columns, line)]


@examples
@pytest.mark.parametrize("width", [80, 100, 140, 200])
def test_every_figure_is_whole_and_no_line_too_long(file: str, width: int) -> None:
    lines = printed("combinations", file, COLUMNS=str(width)).splitlines()
    assert max(map(text_width, lines)) <= width
    rows = rows_of(lines, r" *\d+  ?\S")[: len(numbers_of(*read_file(file)))]
    for line, figures in zip(rows, numbers_of(*read_file(file)), strict=True):
        words = iter(line.split())
        assert all(figure in words for figure in figures), line


def test_a_narrow_terminal_shortens_names_and_a_wide_one_says_all() -> None:
    narrow = printed("combinations", BARITONE, COLUMNS="80")
    assert " nor nor rev " in narrow
    assert "normal / reversed" in narrow
    wide = printed("combinations", BARITONE, COLUMNS="220")
    assert "Neck in series with Middle reversed in series with Bridge" in wide
    assert "hum-cancelling" in wide
    assert "Neck in series with Middle reversed" in printed("combinations", BARITONE)


def test_twelve_switches_fit_seventy_columns() -> None:
    circuit = chain(6)
    table = combination_table(circuit, stance_of(circuit))
    lines = table_lines(table, circuit, stance_of(circuit), distinct=True, width=70, colour=False)
    assert max(map(text_width, lines)) <= 70


def test_where_there_is_hardly_room_positions_are_numbered_as_the_legend_says() -> None:
    text = printed("combinations", BARITONE, COLUMNS="60")
    assert max(map(text_width, text.splitlines())) <= 60
    assert "SN  Neck on/off    1 on / 2 off" in text
    assert re.search(r"^ 3  111121  N \+ −M \+ B ", text, re.MULTILINE)


def test_the_line_at_the_end_counts() -> None:
    end = printed("combinations", BARITONE).splitlines()[-1]
    assert end.startswith("64 settings: 13 distinct sounds, 8 silent (shorted).")
    assert "does the same as row n" in end


def test_a_row_that_repeats_another_says_which(tmp_path: Path) -> None:
    # A coil turned round alone sounds the same: absolute polarity is inaudible (common practice).
    text = printed("combinations", written(tmp_path, chain(1)))
    rows = text.splitlines()[-6:-2]
    assert [row.split()[0] for row in rows] == ["1", "2", "3", "4"]
    assert rows[0].endswith("output shorted")
    assert rows[1].endswith("= 1")
    assert rows[3].endswith("= 3")


def test_what_is_not_standing_at_its_usual_place_is_said(tmp_path: Path) -> None:
    bench = Wiring().part("J", "jack-ts").part("N", "coil-2wire").part("V", "pot")
    circuit = bench.join("N.finish V.3").join("V.2 J.tip").join("N.start V.1 J.sleeve").circuit()
    assert "knobs" not in printed("combinations", written(tmp_path, circuit))
    turned = stance_of(circuit, rotations={"V": 0.25})
    assert "V at 0.25" in printed("combinations", written(tmp_path, circuit, turned))


def test_labels_can_do_nothing_to_a_terminal_or_to_the_table(tmp_path: Path) -> None:
    hostile = labelled(
        chain(1),
        {"C0": "\x1b[31mred\x07", "S0": "two\nlines", "P0": "検査 | x"},
        {"S0": {"up": "on\n", "down": "on"}},
    )
    file = written(tmp_path, hostile)
    text = printed("combinations", file, COLUMNS="200")
    assert all(line.isprintable() for line in text.splitlines())
    assert "on (up)" in text
    rule = next(line for line in text.splitlines() if line.startswith("──"))
    assert all(text_width(line) <= len(rule) for line in rows_of(text.splitlines(), r"\d  "))
    markdown = printed("combinations", file, "--markdown")
    assert len([line for line in markdown.splitlines() if line.startswith("|")]) == 6
    assert "\x1b" not in markdown


def test_positions_are_cut_to_what_tells_them_apart() -> None:
    assert shortened(("on", "off"), 1) == ("on", "of")
    assert shortened(("normal", "reversed"), 3) == ("nor", "rev")
    assert shortened(("neck end", "neck + middle"), 3) == ("neck e", "neck +")
    assert shortened(("a", "ab"), 1) == ("a", "ab")
    assert shortened(("on", "off"), 0) == ("1", "2")


def test_no_switch_no_coil_and_no_part_make_a_table_too(tmp_path: Path) -> None:
    text = printed("combinations", written(tmp_path, Circuit()))
    assert "1 setting: 0 distinct sounds, 1 silent (open)." in text
    assert (
        json.loads(printed("combinations", written(tmp_path, Circuit()), "--json"))["silent"] == 1
    )


def test_more_settings_than_a_table_holds_are_declined_with_the_file(tmp_path: Path) -> None:
    bench = Wiring().part("J", "jack-ts")
    for n in range(21):
        bench.part(f"S{n}", "toggle-1p2t")
    file = written(tmp_path, bench.circuit())
    said = refused("combinations", file)
    assert said.startswith(f"wirer: {file}: the switches have 2,097,152 settings")


@given(documents(most_parts=4))
@settings(max_examples=25, suppress_health_check=[HealthCheck.too_slow])
def test_any_circuit_is_tabled_in_eighty_columns(document: tuple[Circuit, Stance]) -> None:
    circuit, stance = document
    table = combination_table(circuit, stance)
    lines = list(table_lines(table, circuit, stance, distinct=False, width=80, colour=False))
    assert all(line.isprintable() for line in lines)
    assert max(map(text_width, lines)) <= 80


def test_an_output_without_the_trades_signs_gets_ascii() -> None:
    ran = start("combinations", BARITONE, env=environment(PYTHONIOENCODING="ascii", COLUMNS="80"))
    said, complaint = ran.communicate(timeout=60)
    assert (ran.returncode, complaint) == (0, b"")
    assert "N + -M + B " in said.decode("ascii")
    assert "-----" in said.decode("ascii")
    data, _ = start("combinations", BARITONE, "--json", env=environment(LC_ALL="C")).communicate()
    assert "N + −M + B" in data.decode("utf-8")
