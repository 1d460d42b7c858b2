"""What the papers say of the findings: those still open, and those waived, with the reason."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from wirer.circuit.model import Circuit
from wirer.papers.findings_text import what_to_do
from wirer.rules.finding import Finding, Severity
from wirer.rules.settings import in_words


@dataclass(frozen=True, slots=True)
class Remaining:
    """A finding as the papers have it; `waived` is the reason, None while it is open."""

    severity: Severity
    rule: str
    message: str
    when: str
    to_do: str
    places: tuple[str, ...]
    waived: str | None


def remaining_findings(findings: Sequence[Finding], circuit: Circuit) -> tuple[Remaining, ...]:
    """Return the findings in their order, open ones first."""
    ordered = sorted(findings, key=lambda finding: finding.waived is not None)
    return tuple(
        Remaining(
            finding.severity,
            finding.rule,
            finding.message,
            "" if finding.settings is None else in_words(circuit, finding.settings),
            _sentence(what_to_do(finding)),
            finding.places,
            finding.waived,
        )
        for finding in ordered
    )


def _sentence(text: str) -> str:
    return f"{text[:1].upper()}{text[1:].rstrip('.')}." if text else ""
