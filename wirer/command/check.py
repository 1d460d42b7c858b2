"""`wirer check`: what is wrong with a circuit, or what a rule means."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import click

from wirer.circuit.errors import shown
from wirer.command.document import opened, progress_of
from wirer.command.examples import examples
from wirer.command.near import hint
from wirer.command.output import coloured, put, put_data
from wirer.command.refusal import RefusalError

if TYPE_CHECKING:
    from wirer.circuit.model import Circuit
    from wirer.rules.finding import Finding
    from wirer.rules.registry import Rule

FOUND_AN_ERROR = 1


@click.command(
    short_help="Say what is wrong with the wiring.",
    epilog=examples(
        "wirer check job.wirer",
        "wirer check job.wirer --json",
        "wirer check --explain hot-metal",
    ),
)
@click.argument("file", type=click.Path(), required=False)
@click.option("--json", "as_json", is_flag=True, help="Write the findings as JSON.")
@click.option(
    "--explain",
    metavar="RULE",
    help="Explain a rule: what one hears, what a meter shows, how to mend it. "
    "With FILE, and what the rule finds in it.",
)
@click.pass_context
def check(context: click.Context, file: str | None, explain: str | None, *, as_json: bool) -> None:
    """Say what is wrong with the wiring in FILE, where, in which settings, and what to do.

    Ends with status 1 if there is an error that was not waived.
    """
    if explain is not None and as_json:
        raise click.UsageError("--json and --explain exclude each other; give one", context)
    if explain is None and file is None:
        raise click.UsageError("missing argument 'FILE'", context)
    rule = _rule(explain) if explain is not None else None
    if rule:
        from wirer.command.findings_layout import rule_lines

        put(rule_lines(rule, colour=coloured()))
    if file is not None:
        context.exit(_checked(file, rule, as_json=as_json))


def _rule(wished: str) -> Rule:
    from wirer.rules.registry import all_rules

    rules = all_rules()
    if wished not in rules:
        text = f'there is no rule "{shown(wished)}"; {hint(wished, rules)}'
        raise RefusalError(f"check: --explain: {text}")
    return rules[wished]


def _checked(file: str, rule: Rule | None, *, as_json: bool) -> int:
    """Print the findings, of one rule where one is given, and return the exit status."""
    with opened(file) as (circuit, _stance):
        from wirer.rules.check import findings_of

        with progress_of(circuit) as progress:
            findings = findings_of(circuit, progress)
        if rule:
            findings = tuple(finding for finding in findings if finding.rule == rule.id)
        _print(file, circuit, findings, as_json=as_json)
    wrong = any(f.severity == "error" and f.waived is None for f in findings)
    return FOUND_AN_ERROR if wrong else 0


def _print(file: str, circuit: Circuit, findings: tuple[Finding, ...], *, as_json: bool) -> None:
    if as_json:
        from wirer.papers.findings_text import findings_json

        record = findings_json(findings, circuit)
        put_data([json.dumps(record, ensure_ascii=False, indent=1), "\n"])
        return
    from wirer.command.findings_layout import findings_lines

    put(findings_lines(findings, circuit, circuit.title or file, colour=coloured()))
