"""The wire list: every wire in the order of soldering, with what it is cut from."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from wirer.circuit.colour import colour_words
from wirer.circuit.gauge import gauge_area_mm2
from wirer.circuit.model import Circuit, Wire
from wirer.layout.layout import Layout
from wirer.papers.bench.allowance import CUSTOMARY, Allowance, cut_length_mm
from wirer.papers.bench.copper import ohm_per_metre
from wirer.papers.bench.places import Place, place_of
from wirer.papers.bench.stages import Stage, stage_of
from wirer.papers.bench.wire_order import last_at_lugs, soldering_order


@dataclass(frozen=True, slots=True)
class WireEnd:
    """One end of a wire; `complete` if its lug then has all its wires and is soldered."""

    place: Place
    complete: bool


@dataclass(frozen=True, slots=True)
class WireRow:
    """One wire: `number` is what the drawing has beside it, `length_mm` None for a mount.

    `screens` says where the screen of a screened wire goes, at the first end and at the second.
    """

    number: int
    wire: Wire
    stage: Stage
    start: WireEnd
    end: WireEnd
    length_mm: float | None
    screens: tuple[WireEnd | None, WireEnd | None] = (None, None)

    @property
    def colour(self) -> str:
        """The colour in words, empty where none is said."""
        return colour_words(self.wire.colour) if self.wire.colour else ""

    @property
    def colour_both(self) -> str:
        """The colour in words with its letters by IEC 60757: `yellow-white YEWH`."""
        return f"{self.colour} {self.wire.colour}" if self.wire.colour else ""


@dataclass(frozen=True, slots=True)
class Cut:
    """Wire of one sort to have at hand: its pieces, and how long they are together by colour.

    `area_mm2` and `ohm_per_metre` (copper at 20 °C) are None where no gauge is said.
    """

    style: str
    gauge: str
    pieces: int
    colours: tuple[tuple[str, float], ...]
    area_mm2: float | None
    ohm_per_metre: float | None

    @property
    def length_mm(self) -> float:
        """The length of all pieces together."""
        return sum(length for _, length in self.colours)


@dataclass(frozen=True)
class WireList:
    """The wires of a circuit in the order of soldering."""

    rows: tuple[WireRow, ...]
    allowance: Allowance

    @cached_property
    def numbers(self) -> Mapping[str, int]:
        """The number of each wire by its id in the document."""
        return {row.wire.id: row.number for row in self.rows}

    @cached_property
    def drawing_texts(self) -> Mapping[str, str]:
        """What the drawing has beside each wire, by wire id: its number and its colour."""
        return {
            row.wire.id: f"{row.number} {row.wire.colour}".rstrip()
            for row in self.rows
            if row.length_mm is not None
        }

    @cached_property
    def cuts(self) -> tuple[Cut, ...]:
        """What to have at hand, by style and gauge."""
        sorts: dict[tuple[str, str], list[WireRow]] = defaultdict(list)
        for row in self.rows:
            if row.length_mm is not None:
                sorts[row.wire.style, row.wire.gauge].append(row)
        return tuple(_cut(*sort, sorts[sort]) for sort in sorted(sorts))


def _cut(style: str, gauge: str, rows: list[WireRow]) -> Cut:
    colours: dict[str, float] = defaultdict(float)
    for row in rows:
        colours[row.wire.colour] += row.length_mm or 0.0
    return Cut(
        style,
        gauge,
        len(rows),
        tuple(sorted(colours.items())),
        gauge_area_mm2(gauge) if gauge else None,
        ohm_per_metre(gauge) if gauge else None,
    )


def wire_list(circuit: Circuit, layout: Layout, allowance: Allowance = CUSTOMARY) -> WireList:
    """Return the wire list of a circuit as it is laid out."""
    ordered = soldering_order(circuit)
    last = last_at_lugs(circuit, ordered)

    def end(wire: Wire, lug: str) -> WireEnd:
        return WireEnd(place_of(circuit, lug), lug in last.get(wire.id, frozenset()))

    def screen(wire: Wire, lug: str | None) -> WireEnd | None:
        return end(wire, lug) if lug else None

    def length(wire: Wire) -> float | None:
        if wire.style == "mount":
            return None
        return cut_length_mm(circuit, wire, layout.routes[wire.id].length_mm, allowance)

    rows = (
        WireRow(
            number,
            wire,
            stage_of(circuit, wire),
            end(wire, wire.from_lug),
            end(wire, wire.to_lug),
            length(wire),
            (screen(wire, wire.screen_from), screen(wire, wire.screen_to)),
        )
        for number, wire in enumerate(ordered, 1)
    )
    return WireList(tuple(rows), allowance)
