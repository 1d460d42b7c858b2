"""The test sheet on paper: readings, taps, polarity, the ground round."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from wirer.drawing.papers.blanks import put_blanks
from wirer.drawing.papers.cells import BLANK, EMPTY, Cell, cell, ticked
from wirer.drawing.papers.columns import PAD_MM, Column, natural_widths
from wirer.drawing.papers.flow import Flow
from wirer.drawing.papers.page import Page
from wirer.drawing.papers.paper import Form, Paper
from wirer.drawing.papers.table import Band, Entry, put_table, rows_of, table_height
from wirer.drawing.papers.typeface import CELL, CELL_BOLD, HEAD, SMALL, width_mm
from wirer.papers.bench.bands import Band as ReadingBand
from wirer.papers.bench.bench_test import BenchTest, ReadingGroup, SettingTest
from wirer.papers.bench.job_papers import JobPapers
from wirer.papers.bench.spread import MEASURED, ROOM_CELSIUS, TRACK, UNTRIMMED
from wirer.papers.figures import reading_text, three_figures

SHEET = "Test sheet"
WRITING_MM = 17.0
BEFORE = (
    "Every knob fully clockwise, a blend in its detent; battery out; nothing plugged in but the "
    "meter, tip to sleeve; fingers off the probes; parts at room temperature. Set the switches as "
    "a line says, and write down what the meter reads."
)
BANDS = (
    "A band is the worst case of all parts together: the tolerance that the document gives, else "
    f"±{100 * MEASURED:.0f}\u00a0% of a measured value, ±{100 * TRACK:.0f}\u00a0% of a pot, "
    f"±{100 * UNTRIMMED:.0f}\u00a0% of anything else; copper between "
    f"{ROOM_CELSIUS[0]:.0f} and {ROOM_CELSIUS[1]:.0f}\u00a0°C (0.393\u00a0% by kelvin, nominal at "
    "20\u00a0°C); 20\u00a0Ω more either way for meter and contacts."
)
TAPS = (
    "Tap: touch each coil lightly with a small steel screwdriver, the amplifier turned low: a "
    "clear thump from the coils named, next to nothing from the others. Polarity: meter on its "
    "lowest DC millivolts, tip to +; bring steel quickly to a coil's poles: with + the needle "
    "first swings the same way as for the first coil named, with − the other way. Plate screwed "
    "down: read again when everything is closed; a changed reading is something squeezed."
)


def reading_pages(papers: JobPapers, paper: Paper) -> list[Page]:
    """Return the pages of the test sheet, across the paper where the switches ask for it."""
    sheet = papers.test
    columns, entries = _table(papers)
    upright = Form(paper)
    wide = sum(natural_widths(columns, list(rows_of(entries)))) > upright.body.width
    flow = Flow(Form(paper, across=wide), SHEET, SHEET)
    flow.paragraph(BEFORE)
    put_blanks(flow, ("Date", "Meter", "Room °C", "By"))
    _put_stand_ins(flow, papers, sheet)
    flow.heading("Readings at the jack", kept=40.0)
    if not sheet.is_whole:
        flow.paragraph(
            f"Of {sheet.settings:,} settings the first {sheet.listed:,} that differ are listed."
        )
    flow.paragraph(BANDS)
    put_table(flow, columns, entries)
    flow.paragraph(TAPS)
    _put_grounds(flow, sheet)
    return flow.pages


def _put_stand_ins(flow: Flow, papers: JobPapers, sheet: BenchTest) -> None:
    if not sheet.stand_ins:
        return
    flow.heading("Before the pickups go in", kept=20.0)
    flow.paragraph(
        "Clip a resistor in place of each coil and meter the harness: every way of joining these "
        "reads differently, so a wrong wire shows before there is a pickup to unsolder. Use "
        "1\u00a0% parts, or write in what yours measure."
    )
    columns = [Column("Coil"), Column("Between"), Column("Resistor"), Column("Yours", 20.0)]
    rows = [
        [
            cell(_coils(papers, stand_in.coils), CELL_BOLD),
            cell(" and ".join(stand_in.lugs)),
            cell(three_figures(stand_in.ohm, "resistance"), CELL_BOLD),
            BLANK,
        ]
        for stand_in in sheet.stand_ins
    ]
    put_table(flow, columns, rows)
    if sheet.confused:
        pairs = ", ".join(f"{a + 1} and {b + 1}" for a, b in sheet.confused if a != b)
        if pairs:
            flow.paragraph(f"These settings read alike all the same: {pairs}. Tap them with care.")
        if any(a == b for a, b in sheet.confused):
            flow.paragraph(
                "Where a capacitor keeps the meter out, several sounds read alike: tap them."
            )


def _coils(papers: JobPapers, coils: Sequence[str]) -> str:
    labels = papers.circuit.part_by_id
    part = coils[0].partition(".")[0]
    own = " and ".join(coil.partition(".")[2] for coil in coils if "." in coil)
    name = labels[part].name
    return f"{name}, coil {own}" if own and len(coils) == 1 else name


def _table(papers: JobPapers) -> tuple[list[Column], list[Entry]]:
    circuit = papers.circuit
    switches = [
        Column(circuit.part_by_id[part].name, least=_head_room(circuit.part_by_id[part].name))
        for part in papers.table.positions
    ]
    to_write = partial(Column, least=WRITING_MM, grows=True)
    harness = [to_write("Harness read")] if papers.test.stand_ins else []
    columns = [
        Column("", right=True),
        *switches,
        Column("Sound", whole=True),
        *harness,
        to_write("Read"),
        to_write("Plate screwed down"),
        Column("Tap"),
        Column("Thumps at"),
        Column("Swings"),
        Column("Polarity"),
    ]
    return columns, list(_entries(papers.test, bool(harness)))


def _head_room(name: str) -> float:
    """Return a least width that keeps a switch's name on about two lines."""
    return min(20.0, width_mm(name, HEAD) / 2)


def _entries(sheet: BenchTest, with_harness: bool) -> Iterator[Entry]:
    for group in sheet.groups:
        yield Band(_band_text(group, with_harness))
        for row in group.rows:
            yield _row(row, with_harness)


def _band_text(group: ReadingGroup, with_harness: bool) -> str:
    whole = f"With the pickups {reading_words(group.finished)}"
    if not with_harness:
        return whole
    return f"Harness with stand-ins {reading_words(group.harness)}    ·    {whole}"


def reading_words(band: ReadingBand) -> str:
    """Write a band: `21.2 kΩ (19.7 to 22.6 kΩ)`, `0 Ω (under 5 Ω)`, `open (over 2 MΩ)`."""
    if band.ohm is None or band.least is None or band.most is None:
        return "open (over 2 MΩ)"
    if band.is_short:
        return f"{reading_text(band.ohm)} (under {band.most:.0f} Ω)"
    least, most = (three_figures(ohm, "resistance") for ohm in (band.least, band.most))
    number, _, unit = least.partition(" ")
    shorter = number if most.endswith(f" {unit}") else least
    return f"{three_figures(band.ohm, 'resistance')} ({shorter} to {most})"


def _row(row: SettingTest, with_harness: bool) -> list[Cell]:
    signs = " ".join("+" if sign > 0 else "−" for sign in row.signs)
    return [
        cell(str(row.index + 1), SMALL),
        *(cell(name) for name in row.positions),
        cell(row.sound, CELL_BOLD),
        *([BLANK] if with_harness else []),
        BLANK,
        BLANK,
        ticked(False),
        cell(" ".join(row.coils) or "none"),
        cell(signs),
        ticked(False) if row.coils else EMPTY,
    ]


def _put_grounds(flow: Flow, sheet: BenchTest) -> None:
    if not sheet.grounds:
        return
    columns = [
        Column("Metal"),
        Column(""),
        Column("Should read"),
        Column("Read", least=WRITING_MM + 2 * PAD_MM),
        Column("Plate screwed down", least=WRITING_MM + 2 * PAD_MM),
    ]
    rows = [
        [
            cell(check.place.lug, CELL_BOLD),
            cell(check.place.words),
            cell(check.expected, CELL if check.grounded else CELL_BOLD),
            BLANK,
            BLANK,
        ]
        for check in sheet.grounds
    ]
    kept = table_height(flow, columns, rows)
    flow.heading("Ground round: each piece of metal to the sleeve", kept)
    put_table(flow, columns, rows)
