"""How the combination table fits a width: what is shown, and how short it is said."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from wirer.analysis.analyst import Combination
from wirer.analysis.combinations import Row
from wirer.command.grid import Column, table_width, widest
from wirer.papers.combination_cells import CombinationCells

LEAST_SOUND = 12
LEAST_REMARKS = 12
LONGEST_HEAD = 12


@dataclass(frozen=True)
class Squeeze:
    """One way to say it, by what is shown and how.

    `short` remarks leave out what other columns say, `stacked` ones stand below each other;
    positions are cut to so many `letters` (None: whole; 0: numbered, as the legend says) and then
    parted by `setting_gap`, the other columns by `gap`.
    """

    words: bool = False
    peak: bool = False
    short: bool = True
    stacked: bool = True
    letters: int | None = None
    gap: int = 2
    setting_gap: int = 1


SQUEEZES = (
    Squeeze(words=True, peak=True, short=False, stacked=False),
    Squeeze(words=True, peak=True, short=False),
    Squeeze(peak=True, short=False, stacked=False),
    Squeeze(peak=True, short=False),
    Squeeze(peak=True),
    Squeeze(),
    Squeeze(letters=3),
    Squeeze(letters=3, gap=1),
    Squeeze(letters=1, gap=1),
    Squeeze(letters=0, gap=1),
    Squeeze(letters=0, gap=1, setting_gap=0),
)
"""From the roomiest to the tightest; the first that fits is taken."""


def shortened(names: tuple[str, ...], letters: int) -> tuple[str, ...]:
    """Return the beginnings of names, of at least so many letters, that still differ.

    Of no letters: their numbers.
    """
    if not letters:
        return tuple(map(str, range(1, len(names) + 1)))
    longest = max(map(len, names))
    for count in range(letters, longest):
        cut = tuple(name[:count].rstrip() for name in names)
        if len(set(cut)) == len(set(names)):
            return cut
    return names


@dataclass(frozen=True)
class Layout:
    """The columns of a table, and what each row has in them."""

    cells: CombinationCells
    squeeze: Squeeze
    fit: Callable[[str], str]

    @cached_property
    def positions(self) -> dict[str, dict[str, str]]:
        """How the positions of each actuator are shown."""
        shown = {}
        for part_id, names in self._names():
            ids = self.cells.table.positions[part_id]
            shown[part_id] = dict(zip(ids, map(self.fit, names), strict=True))
        return shown

    def _names(self) -> Iterator[tuple[str, tuple[str, ...]]]:
        for part_id, _, names in self.cells.legend():
            letters = self.squeeze.letters
            yield part_id, names if letters is None else shortened(names, letters)

    def legend(self, names: tuple[str, ...]) -> str:
        """Return the names of an actuator's positions as the legend lists them."""
        if self.squeeze.letters == 0:
            names = tuple(f"{number} {name}" for number, name in enumerate(names, 1))
        return " / ".join(names)

    @cached_property
    def columns(self) -> tuple[Column, ...]:
        """The columns as wide as their contents ask."""
        gap = self.squeeze.gap
        number = Column(("#",), len(str(len(self.cells.table))), right=True)
        settings = tuple(self._setting(part_id, names) for part_id, names in self.positions.items())
        if settings:
            settings = (replace(settings[0], gap=2), *settings[1:])
        rest = [replace(column, gap=gap) for column in self._results()]
        return (number, *settings, replace(rest[0], gap=2), *rest[1:])

    def _setting(self, part_id: str, names: dict[str, str]) -> Column:
        width = widest(names.values())
        if self.squeeze.letters is not None:
            return Column(
                (self.fit(part_id),), width, gap=self.squeeze.setting_gap if width == 1 else 1
            )
        head = self.fit(self.cells.labels[part_id])
        width = max(width, min(widest(head.split()), LONGEST_HEAD))
        return Column((head,), width, gap=self.squeeze.gap)

    def _results(self) -> Iterator[Column]:
        squeeze, cells = self.squeeze, self.cells
        yield self._texts("sound", cells.sound)
        if squeeze.words:
            yield self._texts("in words", cells.words)
        yield self._figures(("hum", "%"), cells.hum)
        yield self._figures(("meter", self.fit("Ω")), cells.reading)
        yield self._figures(("res." if squeeze.short else "resonance", "Hz"), cells.resonance)
        if squeeze.peak:
            yield self._figures(("peak", "dB"), cells.peak)
        yield self._figures(("level", "dB"), cells.level)
        yield Column(("remarks",), max(self._remarks_width(), len("remarks")))

    def _texts(self, head: str, say: Callable[[Combination], str]) -> Column:
        width = widest(self.fit(say(c)) for c in self.cells.table.combinations)
        return Column((head,), max(width, len(head)))

    def _figures(self, head: tuple[str, str], say: Callable[[Combination], str]) -> Column:
        width = widest(self.fit(say(c)) for c in self.cells.table.combinations)
        return Column(head, max(width, *map(len, head)), right=True)

    def _remarks_width(self) -> int:
        table = self.cells.table
        lines = (line for i in table.firsts for line in self._remarks(table[i]).split("\n"))
        return max(widest(lines), len(f"= {len(table)}"))

    def _remarks(self, row: Row) -> str:
        said = self.cells.remarks(row, short=self.squeeze.short)
        return ("\n" if self.squeeze.stacked else ", ").join(said)

    def row(self, row: Row) -> list[str]:
        """Return the cells of a row."""
        number = int(self.cells.table.which[row.index])
        if number not in self._results_of:
            self._results_of[number] = tuple(map(self.fit, self._said(row.combination)))
        positions = (self.positions[part][position] for part, position in row.setting.items())
        return [str(row.index + 1), *positions, *self._results_of[number], self._remarks(row)]

    @cached_property
    def _results_of(self) -> dict[int, tuple[str, ...]]:
        """The cells of each combination that was asked for: rows share them."""
        return {}

    def _said(self, found: Combination) -> Iterator[str]:
        cells = self.cells
        yield cells.sound(found)
        if self.squeeze.words:
            yield cells.words(found)
        yield cells.hum(found)
        yield cells.reading(found)
        yield cells.resonance(found)
        if self.squeeze.peak:
            yield cells.peak(found)
        yield cells.level(found)


def layout_for(
    cells: CombinationCells, width: int | None, fit: Callable[[str], str]
) -> tuple[Layout, tuple[Column, ...]]:
    """Return the roomiest layout that fits a width (None: any), with its columns.

    Where none does, sound and remarks of the tightest are wrapped to what is left.
    """
    layouts = [Layout(cells, squeeze, fit) for squeeze in SQUEEZES]
    for layout in layouts:
        if width is None or table_width(layout.columns) <= width:
            return layout, layout.columns
    return layouts[-1], _narrowed(layouts[-1], width or 0)


def _narrowed(layout: Layout, width: int) -> tuple[Column, ...]:
    """Take what is too much from the remarks, then from the sound."""
    columns = list(layout.columns)
    sound = next(i for i, column in enumerate(columns) if column.head == ("sound",))
    for index, least in ((len(columns) - 1, LEAST_REMARKS), (sound, LEAST_SOUND)):
        excess = max(0, table_width(columns) - width)
        had = columns[index].width
        columns[index] = replace(columns[index], width=max(min(had, least), had - excess))
    return tuple(columns)
