"""Ids and labels that number themselves: `R1`, `R2`; `Volume`, `Volume 2`.

Ids are told apart in any case, as a wanted sound names parts in any case.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Literal

from wirer.circuit.kind import Kind, Point
from wirer.circuit.model import Circuit, Part

_NUMBERED_ID = re.compile(r"(.*?)([0-9]*)", re.DOTALL)
_NUMBERED_LABEL = re.compile(r"(.*\S)\s+([0-9]{1,6})", re.DOTALL)
_LONGEST_STEM = 56


class Ids:
    """The ids that are taken, of parts and wires; handing one out takes it."""

    def __init__(self, circuit: Circuit, reserved: Iterable[str] = ()) -> None:
        names = (*circuit.part_by_id, *circuit.wire_by_id, *reserved)
        self._taken = {name.lower() for name in names}

    def kept_or_next(self, wished: str) -> str:
        """Take an id as it is while free, else with the next number: `N` → `N2`, `S1` → `S2`."""
        if wished.lower() not in self._taken:
            return self._take(wished)
        found = _NUMBERED_ID.fullmatch(wished)
        stem, digits = found.groups() if found else (wished, "")
        return self._counted(stem, int(digits[-6:]) + 1 if digits else 2)

    def first(self, stem: str) -> str:
        """Take the first of `stem1`, `stem2` and so on that is free."""
        return self._counted(stem, 1)

    def _counted(self, stem: str, number: int) -> str:
        stem = stem[:_LONGEST_STEM]
        while f"{stem}{number}".lower() in self._taken:
            number += 1
        return self._take(f"{stem}{number}")

    def _take(self, name: str) -> str:
        self._taken.add(name.lower())
        return name


class Labels:
    """The labels that are taken; handing one out takes it."""

    def __init__(self, circuit: Circuit) -> None:
        self._taken = {part.label for part in circuit.parts}

    def kept_or_next(self, wished: str) -> str:
        """Take a label as it is while free, else with the next number; an empty one stays so."""
        if not wished:
            return wished
        label, (stem, number) = wished, _label_parts(wished)
        while label in self._taken:
            number += 1
            label = f"{stem} {number}"
        self._taken.add(label)
        return label


def _label_parts(label: str) -> tuple[str, int]:
    found = _NUMBERED_LABEL.fullmatch(label)
    return (found[1], int(found[2])) if found else (label, 1)


def new_part(
    circuit: Circuit,
    kind: Kind,
    at: Point,
    turn: Literal[0, 90, 180, 270] = 0,
    *,
    flip: bool = False,
    label: str | None = None,
) -> Part:
    """Return a part of a kind to add to a circuit, its id and label numbered.

    The id is the kind's class letter with the first free number. The label is the one given, else
    the kind's name up to its first comma.
    """
    wished = kind.name.partition(",")[0] if label is None else label
    return Part(
        id=Ids(circuit).first(kind.letter),
        kind=kind.id,
        label=Labels(circuit).kept_or_next(wished),
        at=at,
        turn=turn,
        flip=flip,
    )
