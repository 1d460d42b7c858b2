"""The typesetting kit: lines that fit, columns that are fair, tables over pages."""

from itertools import pairwise

import pytest

from tests.support.hostile import TEXTS
from wirer.drawing.papers.cells import BLANK, EMPTY, Cell, cell, ticked
from wirer.drawing.papers.columns import PAD_MM, Column, column_widths
from wirer.drawing.papers.flow import Flow
from wirer.drawing.papers.marks import Mark, Words
from wirer.drawing.papers.paper import PAPERS, Form
from wirer.drawing.papers.scaling import best_fit, scale_words, tiled_form, tiles
from wirer.drawing.papers.table import Band, Kept, put_table
from wirer.drawing.papers.typeface import (
    BODY,
    CELL,
    HAIR_MM,
    SMALL,
    elided,
    plain,
    width_mm,
    wrapped,
)
from wirer.layout.box import Box

pytestmark = pytest.mark.usefixtures("qapp")

LOREM = "Every wire of the harness has a number, a colour and a length. " * 12


def flow() -> Flow:
    return Flow(Form(PAPERS["A4"]), "Sheet", "A sheet")


def words(marks: list[Mark]) -> list[Words]:
    return [mark for mark in marks if isinstance(mark, Words)]


def texts(page_marks: list[Mark]) -> list[str]:
    return [mark.text for mark in words(page_marks)]


@pytest.mark.parametrize("room", [12.0, 40.0, 186.0])
@pytest.mark.parametrize("text", [*TEXTS.values(), LOREM], ids=[*TEXTS, "plain"])
def test_every_line_fits_its_room_and_nothing_is_lost(text: str, room: float) -> None:
    lines = wrapped(text, BODY, room)
    assert all(width_mm(line, BODY) <= room + 2 * HAIR_MM for line in lines)
    assert "".join("".join(lines).split()) == "".join(plain(text).split())


def test_lines_break_between_words_where_they_can() -> None:
    lines = wrapped(LOREM, BODY, 60.0)
    assert " ".join(lines) == plain(LOREM)
    assert all(width_mm(f"{a} {b.split()[0]}", BODY) > 60.0 for a, b in pairwise(lines))


def test_a_fixed_space_keeps_a_figure_with_its_unit() -> None:
    for room in range(8, 40):
        assert not any(line.endswith("20") for line in wrapped("about 20\u00a0Ω more", BODY, room))


def test_text_is_on_one_line_and_has_no_controls() -> None:
    assert plain("a\x00b\n c\td\x1b\u202ee") == "ab c de"
    assert plain("\ud800x") == "\ufffdx"
    assert plain(" \n ") == ""
    assert wrapped(" ", BODY, 10) == ()


def test_what_is_elided_fits_and_says_so() -> None:
    short = elided(LOREM, SMALL, 50.0)
    assert width_mm(short, SMALL) <= 50.0 + HAIR_MM
    assert short.endswith("…")
    assert elided("short", SMALL, 50.0) == "short"


def test_columns_are_as_wide_as_what_they_hold() -> None:
    columns = [Column("No."), Column("What", grows=True)]
    rows = [[cell("12"), cell("a wire")]]
    first, second = column_widths(columns, rows, 100.0)
    assert first < 12
    assert first + second == pytest.approx(100.0)


def test_the_widest_column_gives_way_first() -> None:
    columns = [Column("A"), Column("B"), Column("C")]
    rows = [[cell("short"), cell(LOREM), cell("not so short")]]
    a, b, c = column_widths(columns, rows, 90.0)
    assert a == pytest.approx(width_mm("short", CELL) + 2 * PAD_MM)
    assert c == pytest.approx(width_mm("not so short", CELL) + 2 * PAD_MM)
    assert a + b + c == pytest.approx(90.0, abs=0.1)


def test_columns_fill_the_room_even_if_no_word_fits() -> None:
    columns = [Column(str(n)) for n in range(12)]
    rows = [[cell("Unbreakable" * 9) for _ in columns]]
    assert sum(column_widths(columns, rows, 120.0)) == pytest.approx(120.0)


def test_the_head_is_repeated_on_every_page() -> None:
    sheet = flow()
    put_table(
        sheet, [Column("Number"), Column("Text")], [[cell(str(n)), cell("x")] for n in range(150)]
    )
    assert len(sheet.pages) > 2
    for page in sheet.pages:
        assert texts(page.marks).count("Number") == 1
    everything = [text for page in sheet.pages for text in texts(page.marks)]
    assert [t for t in everything if t.isdigit()] == [str(n) for n in range(150)]


def test_a_band_stays_with_its_first_row_and_is_repeated() -> None:
    for before in range(40, 60):
        sheet = flow()
        rows = [[cell(f"a{n}")] for n in range(before)]
        put_table(
            sheet, [Column("H", grows=True)], [*rows, Band("The band"), *([[cell("b")]] * 60)]
        )
        on = [texts(page.marks) for page in sheet.pages]
        first = next(i for i, page in enumerate(on) if "The band" in page)
        assert "b" in on[first]
        assert "The band, continued" in on[first + 1]


def test_rows_that_belong_together_are_not_parted() -> None:
    sheet = flow()
    groups = [Kept([[cell(f"g{n}")], [cell(f"g{n}")], [cell(f"g{n}")]]) for n in range(60)]
    put_table(sheet, [Column("H")], groups)
    for page in sheet.pages:
        own = [text for text in texts(page.marks) if text.startswith("g")]
        assert len(own) % 3 == 0


def test_a_row_higher_than_a_page_goes_on_overleaf() -> None:
    sheet = flow()
    put_table(
        sheet,
        [Column("H"), Column("Narrow")],
        [[cell("a"), cell(LOREM * 40)], [cell("b"), cell("")]],
    )
    assert len(sheet.pages) > 1
    inside(sheet)
    found = " ".join(text for page in sheet.pages for text in texts(page.marks))
    assert found.count("Every wire of the harness") == 12 * 40


def inside(sheet: Flow) -> None:
    body = sheet.form.body
    for page in sheet.pages:
        for mark in page.marks:
            assert mark.box.left >= body.left - 0.2
            assert mark.box.right <= body.right + 0.2
            assert mark.box.bottom <= body.bottom + 0.2


def test_a_heading_is_never_alone_at_the_foot() -> None:
    for lines in range(50, 75):
        sheet = flow()
        for _ in range(lines):
            sheet.paragraph("x")
        sheet.heading("The heading")
        sheet.paragraph("after it")
        on = [texts(page.marks) for page in sheet.pages]
        assert any("The heading" in page and "after it" in page for page in on)


def test_a_paragraph_longer_than_a_page_is_broken() -> None:
    sheet = flow()
    sheet.paragraph(LOREM * 20)
    assert len(sheet.pages) > 1
    inside(sheet)


def test_cells_have_room_for_what_stands_before_their_text() -> None:
    striped = Cell((("green-yellow", CELL),), swatch="GNYE")
    marks = list(striped.marks(Box(0, 0, 40, 5), right=False, level=False))
    swatch, text = marks
    assert swatch.box.right < text.box.left
    assert ticked(True).natural > 2
    assert BLANK.height(20) > CELL.line_mm
    assert EMPTY.height(20) == 0


def test_a_drawing_is_at_true_size_if_it_fits_either_way() -> None:
    a4 = PAPERS["A4"]
    assert best_fit(a4, Box(0, 0, 150, 250)).form.across is False
    wide = best_fit(a4, Box(0, 0, 280, 150))
    assert (wide.form.across, wide.scale) == (True, 1.0)
    assert best_fit(a4, Box(0, 0, 560, 300)).scale < 0.51


@pytest.mark.parametrize(("width", "height"), [(100, 100), (500, 300), (281, 600), (1000, 90)])
def test_tiles_cover_the_drawing_and_overlap(width: float, height: float) -> None:
    content = Box(-20, 30, width - 20, height + 30)
    rows = tiles(tiled_form(PAPERS["A4"], content), content)
    assert rows[0][0].left <= content.left
    assert rows[0][0].top <= content.top
    assert rows[-1][-1].right >= content.right - 1e-6
    assert rows[-1][-1].bottom >= content.bottom - 1e-6
    for row in rows:
        for one, other in pairwise(row):
            assert one.right - other.left == pytest.approx(10.0)


def test_scales_are_said_as_draughtsmen_say_them() -> None:
    assert scale_words(1.0) == "scale 1:1"
    assert scale_words(0.5) == "scale 1:2"
    assert scale_words(2.0) == "scale 2:1"
