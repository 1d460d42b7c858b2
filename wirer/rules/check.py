"""The check: every rule over a circuit, waivers applied."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from wirer.analysis.combinations import Progress
from wirer.circuit.model import Circuit, Waiver
from wirer.rules.finding import SEVERITIES, Finding, Remark
from wirer.rules.inspection import Inspection
from wirer.rules.registry import Rule, all_rules
from wirer.rules.settings import summed_up
from wirer.rules.waivers import idle_waivers, matches


def findings_of(circuit: Circuit, progress: Progress | None = None) -> tuple[Finding, ...]:
    """Return what every rule finds, the gravest first; a waived finding carries its reason.

    Raises
    ------
    TooManyToCheckError
        The circuit has more settings than rules look through.
    """
    return findings_in(Inspection(circuit, progress))


def findings_in(inspection: Inspection) -> tuple[Finding, ...]:
    """Return what every rule finds in an inspection, the gravest first."""
    circuit = inspection.circuit
    found = [f for rule in all_rules().values() for f in _findings(rule, inspection)]
    found = [_waived(finding, circuit.waived) for finding in found]
    found += idle_waivers(circuit, found)
    return tuple(sorted(found, key=lambda finding: SEVERITIES.index(finding.severity)))


def _findings(rule: Rule, inspection: Inspection) -> Iterator[Finding]:
    for remark in rule.speaks(inspection):
        if remark.rows is None or remark.rows.any():
            yield _finding(rule, remark, inspection)


def _finding(rule: Rule, remark: Remark, inspection: Inspection) -> Finding:
    settings = None
    if remark.rows is not None:
        settings = summed_up(remark.rows, inspection.table.positions)
    return Finding(
        rule=rule.id,
        severity=remark.severity or rule.severity,
        message=remark.message,
        places=remark.places,
        settings=settings,
        fix=remark.fix,
    )


def _waived(finding: Finding, waivers: tuple[Waiver, ...]) -> Finding:
    for waiver in waivers:
        if matches(waiver, finding):
            return replace(finding, waived=waiver.reason or "no reason given")
    return finding
