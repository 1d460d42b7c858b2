"""The registry of rules: each a function with its id, severity and the text that explains it."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache

import wirer.rules
from wirer.rules.finding import Remark, Severity
from wirer.rules.inspection import Inspection

Speaks = Callable[[Inspection], Iterator[Remark]]

_rules: dict[str, Rule] = {}


@dataclass(frozen=True)
class Rule:
    """A rule and the text that explains it.

    `wrong` is what it finds, `heard` what one would hear, `meter` how a meter shows it, `mend`
    how to mend it.
    """

    id: str
    family: str
    severity: Severity
    wrong: str
    heard: str
    meter: str
    mend: str
    speaks: Speaks


def rule(
    rule_id: str, severity: Severity, *, wrong: str, heard: str, meter: str, mend: str
) -> Callable[[Speaks], Speaks]:
    """Register a function as a rule; its family is the file that it stands in."""

    def register(speaks: Speaks) -> Speaks:
        if rule_id in _rules:
            raise ValueError(f"two rules are named {rule_id}")
        family = speaks.__module__.rpartition(".")[2]
        _rules[rule_id] = Rule(rule_id, family, severity, wrong, heard, meter, mend, speaks)
        return speaks

    return register


@cache
def all_rules() -> dict[str, Rule]:
    """Return every rule by its id, found by walking the package."""
    for module in pkgutil.iter_modules(wirer.rules.__path__):
        importlib.import_module(f"wirer.rules.{module.name}")
    return dict(sorted(_rules.items(), key=lambda item: (item[1].family, item[0])))
