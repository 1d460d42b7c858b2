"""What rules say: remarks as a rule makes them, findings as a person gets them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal

from wirer.analysis.facts import Mask
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.model import Circuit

Severity = Literal["error", "warning", "note"]
SEVERITIES: tuple[Severity, ...] = ("error", "warning", "note")


@dataclass(frozen=True)
class Fix:
    """A way to mend a finding: what it does, and the edit (picklable, circuit → circuit)."""

    text: str
    edit: Callable[[Circuit], Circuit]


@dataclass(frozen=True)
class Remark:
    """One thing that a rule has to say.

    `places` are parts, lugs (`PART.lug`) and wires, the most telling first. `rows` (settings,)
    says in which settings it holds, None for all. `severity` None is the rule's usual one.
    """

    message: str
    places: tuple[str, ...]
    rows: Mask | None = None
    severity: Severity | None = None
    fix: Fix | None = None


@dataclass(frozen=True)
class Finding:
    """A remark with its rule, its settings summed up, and the reason if it is waived.

    `settings` are partial settings that together say when it holds: it holds in a setting that
    agrees with any of them; None means always.
    """

    rule: str
    severity: Severity
    message: str
    places: tuple[str, ...]
    settings: tuple[FrozenMap[str, str], ...] | None = None
    fix: Fix | None = None
    waived: str | None = None

    def holds_in(self, positions: Mapping[str, str]) -> bool:
        """Return whether it holds in a setting."""
        return self.settings is None or any(
            all(positions.get(part) == position for part, position in partial.items())
            for partial in self.settings
        )
