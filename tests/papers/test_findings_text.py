"""The findings as JSON."""

from tests.papers.schemas import FINDINGS, assert_valid
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.model import Circuit
from wirer.papers.findings_text import findings_json, what_to_do
from wirer.rules.finding import Finding, Fix
from wirer.rules.registry import all_rules

HOT = Finding(
    "hot-metal", "error", "Neck braid carries signal.", ("N.braid",), (FrozenMap({"S": "down"}),)
)
KEPT = Finding("ungrounded-metal", "warning", "Foil is not on ground.", ("F.1",), waived="a trial")


def same(circuit: Circuit) -> Circuit:
    return circuit


def test_the_json_is_what_the_design_says() -> None:
    record = findings_json([HOT], Circuit(title="Bench"))
    assert_valid(record, FINDINGS)
    assert record["title"] == "Bench"
    assert (record["errors"], record["warnings"], record["notes"]) == (1, 0, 0)
    (finding,) = record["findings"]
    assert finding["settings"] == [{"S": "down"}]
    assert finding["fix"] == all_rules()["hot-metal"].mend


def test_waived_findings_count_nowhere_and_stand_apart() -> None:
    record = findings_json([HOT, KEPT], Circuit())
    assert_valid(record, FINDINGS)
    assert record["warnings"] == 0
    assert [finding["rule"] for finding in record["findings"]] == ["hot-metal"]
    assert [(f["rule"], f["reason"]) for f in record["waived"]] == [("ungrounded-metal", "a trial")]
    assert "waived" not in findings_json([HOT], Circuit())


def test_what_holds_always_has_null_for_its_settings() -> None:
    (finding,) = findings_json([KEPT], Circuit())["waived"]
    assert finding["settings"] is None


def test_a_findings_own_fix_goes_before_its_rules() -> None:
    fix = Fix("wire it to the sleeve", same)
    assert what_to_do(Finding("hot-metal", "error", "m", (), fix=fix)) == "wire it to the sleeve"


def test_what_a_rule_finds_less_grave_than_usual_may_be_meant() -> None:
    mend = all_rules()["output-shorted"].mend
    assert what_to_do(Finding("output-shorted", "error", "m", ())) == mend
    note = what_to_do(Finding("output-shorted", "note", "m", ()))
    assert note.startswith("Nothing, if it is meant; else find")
