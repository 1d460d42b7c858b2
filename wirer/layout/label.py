"""Texts with the room that they take: names of parts, names of switch positions."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Point
from wirer.layout.box import Box, boxes_union


@dataclass(frozen=True, slots=True)
class Label:
    """A text of one or two lines in its box; `height_mm` is the height of its capitals."""

    text: str
    box: Box
    height_mm: float

    @property
    def lines(self) -> tuple[tuple[str, Point], ...]:
        """Its lines, each with the place of its middle."""
        lines = self.text.split("\n")
        x, step = self.box.centre[0], self.box.height / len(lines)
        return tuple(
            (line, (x, self.box.top + step * (index + 0.5))) for index, line in enumerate(lines)
        )


@dataclass(frozen=True, slots=True)
class Choice:
    """The name of one position of a switch."""

    position: str
    label: Label


@dataclass(frozen=True, slots=True)
class Labels:
    """The name of each part, and of the positions of each switch, by part id."""

    names: Mapping[str, Label] = FrozenMap()
    choices: Mapping[str, tuple[Choice, ...]] = FrozenMap()

    @property
    def boxes(self) -> Iterator[Box]:
        """The room taken by each name and by each switch's positions together."""
        yield from (label.box for label in self.names.values())
        for choices in self.choices.values():
            yield whole_box(choices)


NO_LABELS = Labels()


def whole_box(choices: Iterable[Choice]) -> Box:
    """Return the box round the names of a switch's positions."""
    return boxes_union(choice.label.box for choice in choices)
