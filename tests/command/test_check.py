"""`wirer check`: findings for people and for scripts, and the status that says it all."""

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from msgspec.structs import replace

from tests.command.support import BARITONE, EXAMPLES, FAULTY, printed, refused, run, written
from tests.papers.schemas import FINDINGS, assert_valid
from tests.support.circuits import circuits
from tests.support.labels import labelled
from tests.support.trade import phase_switch
from wirer.circuit.model import Circuit, Waiver
from wirer.command.findings_layout import findings_lines
from wirer.rules.check import findings_of
from wirer.rules.registry import all_rules

WIDTH = 80


def braid_on_a_phase_switch() -> Circuit:
    """A screened pickup turned round by a switch: its braid goes hot (common practice)."""
    positions = {"S": {"up": "turned | round", "down": "as bought"}}
    return labelled(phase_switch(pickup="coil-screened"), {"N": "Neck", "S": "Phase"}, positions)


def test_an_error_gives_status_one_and_what_is_good_nought() -> None:
    assert run("check", FAULTY).exit_code == 1
    assert run("check", FAULTY, "--json").exit_code == 1
    assert run("check", BARITONE).exit_code == 0


@pytest.mark.parametrize("file", [*map(str, EXAMPLES)], ids=lambda file: Path(file).stem)
def test_the_json_of_each_example_is_what_the_design_says(file: str) -> None:
    result = run("check", file, "--json")
    record = json.loads(result.stdout)
    assert_valid(record, FINDINGS)
    count = [finding["severity"] for finding in record["findings"]].count
    assert (record["errors"], record["warnings"]) == (count("error"), count("warning"))
    assert record["notes"] == count("note")
    assert result.exit_code == (1 if record["errors"] else 0)


def test_a_finding_says_where_when_and_what_to_do(tmp_path: Path) -> None:
    text = run("check", written(tmp_path, braid_on_a_phase_switch()), COLUMNS="80").stdout
    assert "ERRORS" in text
    errors = text[text.index("ERRORS") :]
    assert "  hot-metal" in errors
    assert "[N.braid" in errors
    assert "Whenever Phase is turned | round." in errors or "Whenever Phase is as bought." in errors
    assert "To do: Give the metal a lead of its own" in errors


def test_waived_findings_stand_apart_and_make_no_error(tmp_path: Path) -> None:
    circuit = braid_on_a_phase_switch()
    found = [f for f in findings_of(circuit) if f.severity == "error"]
    waivers = tuple(Waiver(rule=f.rule, places=f.places, reason="a bench trial") for f in found)
    file = written(tmp_path, replace(circuit, waived=waivers))
    result = run("check", file)
    assert result.exit_code == 0
    assert "ERRORS" not in result.stdout
    waived = result.stdout[result.stdout.index("WAIVED") :]
    assert "hot-metal" in waived
    assert "Reason: a bench trial" in waived
    record = json.loads(printed("check", file, "--json"))
    assert_valid(record, FINDINGS)
    assert record["errors"] == 0
    assert {finding["rule"] for finding in record["waived"]} == {f.rule for f in found}


def test_nothing_wrong_is_said_too() -> None:
    lines = list(findings_lines([], Circuit(), "job", colour=False))
    assert lines == ["job", "Nothing found wrong."]


@pytest.mark.parametrize("rule", sorted(all_rules()))
def test_each_rule_is_explained_without_a_file(rule: str) -> None:
    text = printed("check", "--explain", rule, COLUMNS=str(WIDTH))
    assert text.startswith(f"{rule}\n")
    for question in ("What is wrong:", "What one hears:", "What a meter shows:", "How to mend it:"):
        assert question in text
    assert max(map(len, text.splitlines())) <= WIDTH


def test_a_rule_is_explained_with_what_it_finds_in_a_file() -> None:
    result = run("check", FAULTY, "--explain", "hot-metal")
    assert result.exit_code == 1
    assert "How to mend it:" in result.stdout
    assert "[N.braid" in result.stdout
    assert "lost-coil" not in result.stdout
    assert run("check", BARITONE, "--explain", "hot-metal").exit_code == 0


def test_a_mistyped_rule_is_answered_with_near_names() -> None:
    assert "is it hot-metal?" in refused("check", "--explain", "hot-metl")
    assert "is it hot-metal or ungrounded-metal?" in refused("check", "--explain", "metal")
    assert "there are " in refused("check", "--explain", "zzzzzz")


def test_a_check_of_nothing_and_contradicting_options_are_usage_errors() -> None:
    assert refused("check") == "wirer: check: missing argument 'FILE'; see wirer check --help"
    assert "exclude each other" in refused("check", FAULTY, "--json", "--explain", "hot-metal")


@given(circuits(most_parts=4))
@settings(max_examples=15)
def test_any_circuits_findings_are_set_in_clean_lines(circuit: Circuit) -> None:
    lines = findings_lines(findings_of(circuit), circuit, "job", colour=False)
    assert all(line.isprintable() for line in lines)
