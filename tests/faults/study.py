"""The fault study: what the rules say of every slip of every correct example."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache

from msgspec.structs import replace

from tests.examples.sheets import CORRECT, circuit
from tests.faults.behaviour import Behaviour, Class, class_of
from tests.faults.slips import Slip, all_slips
from wirer.circuit.model import Circuit, split_lug
from wirer.rules.check import findings_in
from wirer.rules.finding import Finding
from wirer.rules.inspection import Inspection


@dataclass(frozen=True)
class Heard:
    """The rules that catch a slip, and whether their places name the slip's own."""

    rules: tuple[str, ...] = ()
    at_part: bool = False
    at_lug: bool = False
    most_places: int = 0

    @property
    def caught(self) -> bool:
        return bool(self.rules)


@dataclass(frozen=True)
class Verdict:
    """One slip judged: what it changes, and what is found with and without the wanted table."""

    example: str
    sort: str
    text: str
    changes: Class
    wanted: Heard
    unwanted: Heard


@cache
def right(example: str) -> Behaviour:
    """What a correct example does."""
    return Behaviour(circuit(example))


def false_alarms(example: str) -> list[str]:
    """Return the errors and warnings of a correct example, with its wanted table and without."""
    asked = Inspection(circuit(example))
    each = (asked, asking_nothing(asked))
    return [f"{f.rule}: {f.message}" for inspection in each for f in grave(inspection)]


def without_wanted(circuit: Circuit) -> Circuit:
    """Return a circuit of which nothing is wanted."""
    return replace(circuit, wanted=())


def grave(inspection: Inspection) -> list[Finding]:
    """Return the errors and warnings that are not waived."""
    return [f for f in findings_in(inspection) if f.severity != "note" and f.waived is None]


def asking_nothing(inspection: Inspection) -> Inspection:
    """Return the inspection with nothing wanted; what it has worked out depends on no wish."""
    other = Inspection(without_wanted(inspection.circuit))
    known = {name: value for name, value in vars(inspection).items() if name != "circuit"}
    vars(other).update(known)
    return other


def judged(example: str, slip: Slip) -> Verdict:
    """Judge one slip of an example."""
    changes = class_of(right(example), Behaviour(slip.circuit))
    inspection = Inspection(slip.circuit)
    return Verdict(
        example=example,
        sort=slip.sort,
        text=slip.text,
        changes=changes,
        wanted=heard(slip, inspection),
        unwanted=heard(slip, asking_nothing(inspection)),
    )


def heard(slip: Slip, inspection: Inspection) -> Heard:
    """Return what the rules say of a slip, in the circuit as it is or with nothing wanted."""
    found = grave(inspection)
    named = {place for finding in found for place in finding.places}
    parts = {split_lug(place)[0] for place in slip.places}
    return Heard(
        rules=tuple(dict.fromkeys(finding.rule for finding in found)),
        at_part=bool(named & (slip.places | parts)),
        at_lug=bool(named & slip.places),
        most_places=max((len(finding.places) for finding in found), default=0),
    )


def slips_of(examples: Iterable[str] = CORRECT) -> list[tuple[str, Slip]]:
    """Return every slip of some examples."""
    return [(example, slip) for example in examples for slip in all_slips(circuit(example))]


def spread(slips: Sequence[tuple[str, Slip]], count: int) -> list[tuple[str, Slip]]:
    """Return so many of the slips, spread evenly and always the same."""
    return [slips[i * len(slips) // count] for i in range(min(count, len(slips)))]
