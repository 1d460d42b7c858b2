"""The findings as JSON: what `wirer check --json` prints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import Any

from wirer.circuit.model import Circuit
from wirer.rules.finding import SEVERITIES, Finding
from wirer.rules.registry import all_rules


def what_to_do(finding: Finding) -> str:
    """Return how to mend a finding: its own fix, else what its rule says.

    A finding that is less grave than its rule's usual ones may be meant.
    """
    if finding.fix:
        return finding.fix.text
    rule = all_rules()[finding.rule]
    if SEVERITIES.index(finding.severity) <= SEVERITIES.index(rule.severity):
        return rule.mend
    return f"Nothing, if it is meant; else {rule.mend[:1].lower()}{rule.mend[1:]}"


def findings_json(findings: Sequence[Finding], circuit: Circuit) -> dict[str, Any]:
    """Return the findings as one JSON object.

    Waived findings count nowhere and stand apart, under `waived`, each with its reason; where
    there are none the key is left out.
    """
    open_ones = [finding for finding in findings if finding.waived is None]
    count = Counter(finding.severity for finding in open_ones)
    waived = [{**_record(f), "reason": f.waived} for f in findings if f.waived is not None]
    return {
        "title": circuit.title,
        "errors": count["error"],
        "warnings": count["warning"],
        "notes": count["note"],
        "findings": [_record(finding) for finding in open_ones],
        **({"waived": waived} if waived else {}),
    }


def _record(finding: Finding) -> dict[str, Any]:
    settings = finding.settings
    return {
        "rule": finding.rule,
        "severity": finding.severity,
        "message": finding.message,
        "places": list(finding.places),
        "settings": None if settings is None else [dict(partial) for partial in settings],
        "fix": what_to_do(finding),
    }
