"""The lists as CSV (RFC 4180, lines ended by LF): ids as in the document, numbers in SI or mm."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from wirer.papers.bench.bands import Band
from wirer.papers.bench.job_papers import JobPapers
from wirer.papers.figures import data_figure

Rows = Iterable[Sequence[object]]


def wires_csv(papers: JobPapers) -> str:
    """Return the wire list: a row a wire, in the order of soldering."""
    head = [
        "number", "id", "stage", "from", "from_words", "solder_from", "to", "to_words",
        "solder_to", "colour", "colour_words", "style", "gauge", "length_mm", "screen_from",
        "screen_to", "done",
    ]  # fmt: skip
    rows = (
        [
            row.number, row.wire.id, row.stage.name.lower(),
            row.start.place.lug, row.start.place.words, _flag(row.start.complete),
            row.end.place.lug, row.end.place.words, _flag(row.end.complete),
            row.wire.colour, row.colour, row.wire.style, row.wire.gauge,
            "" if row.length_mm is None else f"{row.length_mm:g}",
            row.wire.screen_from, row.wire.screen_to, _flag(row.wire.done),
        ]
        for row in papers.wires.rows
    )  # fmt: skip
    return _csv(head, rows)


def parts_csv(papers: JobPapers) -> str:
    """Return the parts list: a row a value, and one for a part that has none."""
    head = ["part", "label", "kind", "value", "nominal", "tolerance", "measured", "window"]
    return _csv(head, _part_rows(papers))


def _part_rows(papers: JobPapers) -> Iterator[Sequence[object]]:
    for part in papers.parts:
        who = part.part, part.label, part.kind
        for value in part.values:
            yield [*who, value.name, value.nominal, value.tolerance, value.measured, value.window]
        if not part.values:
            yield [*who, "", "", "", "", ""]


def readings_csv(papers: JobPapers) -> str:
    """Return the test sheet: a row a setting, readings in Ω; an open line reads nothing."""
    bands = [
        f"{what}_{edge}_ohm"
        for what in ("harness", "finished")
        for edge in ("nominal", "least", "most")
    ]
    head = ["row", *[f"setting.{p}" for p in papers.table.positions], "sound", *bands, "taps"]
    tests = (
        (test, [*_band(group.harness), *_band(group.finished)])
        for group in papers.test.groups
        for test in group.rows
    )
    rows = (
        [
            test.index,
            *papers.table.setting(test.index).values(),
            test.sound,
            *found,
            " ".join(
                f"{'-' if sign < 0 else '+'}{coil}"
                for coil, sign in zip(test.coils, test.signs, strict=True)
            ),
        ]
        for test, found in tests
    )
    return _csv(head, rows)


def grounds_csv(papers: JobPapers) -> str:
    """Return the ground round: a row a piece of metal, what it should read to the sleeve."""
    rows = ([check.place.lug, check.place.words, check.expected] for check in papers.test.grounds)
    return _csv(["lug", "words", "expected"], rows)


def card_csv(papers: JobPapers) -> str:
    """Return the player's card: a row a sound, the ways to get it parted by `; `."""
    rows = (
        [
            row.who,
            row.like,
            row.hum,
            "; ".join(", ".join(f"{name}: {at}" for name, at in way.switches) for way in row.ways),
        ]
        for row in papers.card.rows
    )
    return _csv(["pickups", "like", "hum", "ways"], rows)


LISTS: Mapping[str, Callable[[JobPapers], str]] = {
    "wires": wires_csv,
    "parts": parts_csv,
    "test": readings_csv,
    "grounds": grounds_csv,
    "card": card_csv,
}
"""The lists by the name of the file that each is written to."""


def _band(band: Band) -> list[object]:
    return ["" if x is None else data_figure(x) for x in (band.ohm, band.least, band.most)]


def _flag(value: bool) -> str:
    return "yes" if value else ""


def _csv(head: Sequence[str], rows: Rows) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(head)
    writer.writerows(rows)
    return out.getvalue()
