"""What is worked out away from the window. Free of Qt: the worker process imports this."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from wirer.analysis.combinations import CombinationTable, Progress, combination_table
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance
from wirer.layout.crossings import under_passes
from wirer.layout.lay_out import lay_out
from wirer.layout.layout import Layout
from wirer.layout.tags import Tag, place_lug_names, place_tags
from wirer.rules.check import findings_of
from wirer.rules.finding import Finding


@dataclass(frozen=True)
class Laid:
    """A layout with the places of small texts by wire and by lug, and where wires pass under."""

    layout: Layout
    tags: Mapping[str, Tag]
    lug_names: Mapping[str, Tag]
    under: Mapping[str, tuple[float, ...]]


def laid_out(_progress: Progress, circuit: Circuit, previous: Layout | None) -> Laid:
    """Lay a circuit out; routes of the previous layout are kept where nothing has changed."""
    layout = lay_out(circuit, previous)
    tags = place_tags(layout, {wire.id: wire.colour for wire in circuit.wires})
    names = place_lug_names(layout, _lug_texts(circuit), tags.values())
    return Laid(layout, tags, names, under_passes(layout.routes))


def _lug_texts(circuit: Circuit) -> dict[str, str]:
    """Return each lug's name, with what is written on the real part."""
    return {
        f"{part.id}.{lug.name}": f"{lug.name} ({own})" if own else lug.name
        for part in circuit.parts
        for lug in circuit.kind_of(part).lugs
        for own in (part.lug_labels.get(lug.name),)
    }


def tabled(progress: Progress, circuit: Circuit, stance: Stance) -> CombinationTable:
    """Work out the combination table.

    Raises
    ------
    TooManySettingsError
        There are more settings than a table can hold.
    """
    return combination_table(circuit, stance, progress)


def checked(progress: Progress, circuit: Circuit) -> tuple[Finding, ...]:
    """Ask every rule.

    Raises
    ------
    TooManyToCheckError
        There are more settings than rules look through.
    """
    return findings_of(circuit, progress)
