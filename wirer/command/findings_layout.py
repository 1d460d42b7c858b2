"""Findings and rules for people: by severity and rule, with places, settings and what to do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from wirer.circuit.model import Circuit
from wirer.command.paragraphs import clean, heading, paragraph, text_width
from wirer.papers.findings_text import what_to_do
from wirer.rules.finding import SEVERITIES, Finding, Severity
from wirer.rules.registry import Rule
from wirer.rules.settings import in_words

INKS: dict[Severity, str | None] = {"error": "red", "warning": "yellow", "note": None}


def findings_lines(
    findings: Sequence[Finding], circuit: Circuit, title: str, *, colour: bool
) -> Iterator[str]:
    """Yield the findings, the gravest first, waived ones apart at the end."""
    standing = [finding for finding in findings if finding.waived is None]
    waived = [finding for finding in findings if finding.waived is not None]
    yield heading(title, colour=colour)
    yield from paragraph(f"{_counts(standing, waived)}.", text_width())
    for severity in SEVERITIES:
        of_it = [finding for finding in standing if finding.severity == severity]
        if of_it:
            yield ""
            yield heading(f"{severity}s".upper(), colour=colour, foreground=INKS[severity])
            yield from _by_rule(of_it, circuit, colour=colour)
    if waived:
        yield ""
        yield heading("WAIVED", colour=colour)
        for finding in waived:
            yield from _waived(finding)
    if standing:
        yield ""
        yield clean("More about a rule: wirer check --explain RULE")


def rule_lines(rule: Rule, *, colour: bool) -> Iterator[str]:
    """Yield what a rule means."""
    yield heading(rule.id, colour=colour, foreground=INKS[rule.severity])
    texts = {
        "Severity": f"usually {_with_article(rule.severity)}",
        "What is wrong": rule.wrong,
        "What one hears": rule.heard,
        "What a meter shows": rule.meter,
        "How to mend it": rule.mend,
    }
    for name, text in texts.items():
        yield from paragraph(f"{name}: {text}", text_width(), indent=2, hang=2)
    yield ""


def _counts(standing: Iterable[Finding], waived: Sequence[Finding]) -> str:
    severities = [finding.severity for finding in standing]
    counts = {severity: severities.count(severity) for severity in SEVERITIES}
    said = [f"{n} {name}{'s' if n > 1 else ''}" for name, n in counts.items() if n]
    if waived:
        said.append(f"{len(waived)} waived")
    return ", ".join(said) or "Nothing found wrong"


def _with_article(severity: Severity) -> str:
    return f"{'an' if severity[0] in 'aeiou' else 'a'} {severity}"


def _by_rule(findings: Iterable[Finding], circuit: Circuit, *, colour: bool) -> Iterator[str]:
    """Yield the findings of each rule together, and what to do once where it is the same."""
    ordered = sorted(findings, key=lambda finding: finding.rule)
    for rule_id, group in groupby(ordered, key=lambda finding: finding.rule):
        yield ""
        yield heading(f"  {rule_id}", colour=colour)
        for to_do, alike in groupby(group, key=what_to_do):
            for finding in alike:
                yield from _finding(finding, circuit)
            sentence = f"To do: {to_do[:1].upper()}{to_do[1:].rstrip('.')}."
            yield from paragraph(sentence, text_width(), indent=4, hang=2)


def _finding(finding: Finding, circuit: Circuit) -> Iterator[str]:
    places = f" [{', '.join(finding.places)}]" if finding.places else ""
    yield from paragraph(finding.message + places, text_width(), indent=4, hang=2)
    if finding.settings is not None:
        words = in_words(circuit, finding.settings)
        yield from paragraph(f"{words[:1].upper()}{words[1:]}.", text_width(), indent=6)


def _waived(finding: Finding) -> Iterator[str]:
    places = f" [{', '.join(finding.places)}]" if finding.places else ""
    yield ""
    yield from paragraph(f"{finding.rule}: {finding.message}{places}", text_width(), 2, hang=2)
    yield from paragraph(f"Reason: {finding.waived}", text_width(), 4, hang=2)
