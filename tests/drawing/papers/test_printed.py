"""The papers as a PDF, read from outside by poppler."""

import re
from itertools import pairwise
from pathlib import Path

import pytest

from tests.support.hostile import TEXTS, hostile_circuit
from tests.support.printed import (
    extents_of,
    fonts,
    lines_of,
    overlaps,
    page_sizes_mm,
    said_by,
    text_of,
    words_of,
)
from wirer.circuit.files import read_file
from wirer.circuit.model import Circuit, Part, Wire
from wirer.drawing.papers.book import book_of
from wirer.drawing.papers.paper import PAPERS
from wirer.drawing.papers.printing import write_book
from wirer.drawing.render import DrawingError
from wirer.papers.bench.job_papers import JobPapers

pytestmark = pytest.mark.usefixtures("qapp")

EXAMPLES = sorted((Path(__file__).parents[3] / "resources" / "examples").glob("*.wirer"))

SIZES_MM = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""ISO 216; ANSI/ASME Y14.1."""


def printed(circuit: Circuit, folder: Path, paper: str = "A4", *sheets: str, **more: bool) -> Path:
    papers = JobPapers(circuit, "2026-03-14")
    out = folder / "papers.pdf"
    chosen = {"sheets": sheets} if sheets else {}
    write_book(book_of(papers, PAPERS[paper], **chosen, **more), out)  # type: ignore[arg-type]
    return out


@pytest.mark.parametrize("paper", SIZES_MM)
def test_pages_have_the_papers_size(paper: str, tmp_path: Path) -> None:
    sizes = page_sizes_mm(printed(read_file(EXAMPLES[0])[0], tmp_path, paper))
    assert len(sizes) > 8
    width, height = SIZES_MM[paper]
    for size in sizes:  # whole points, a third of a millimetre, are what Qt writes
        assert sorted(size) == pytest.approx([width, height], abs=0.18)
    assert {a < b for a, b in sizes} == {True, False}


@pytest.fixture(scope="module", params=EXAMPLES, ids=lambda path: path.stem[:2])
def example(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[JobPapers, Path]:
    """The papers of an example and the PDF of them."""
    papers = JobPapers(read_file(request.param)[0], "2026-03-14")
    out = tmp_path_factory.mktemp(request.param.stem) / "papers.pdf"
    write_book(book_of(papers), out)
    return papers, out


def test_fonts_are_embedded_and_can_be_read_back(example: tuple[JobPapers, Path]) -> None:
    found = fonts(example[1])
    assert found
    assert all(font["embedded"] and font["unicode"] for font in found)


def test_everything_can_be_found_in_the_text(example: tuple[JobPapers, Path]) -> None:
    papers, pdf = example
    circuit = papers.circuit
    said = " ".join(text_of(pdf).split())
    pressed = said.replace(" ", "")
    assert circuit.title in said
    assert f"revision {papers.revision}" in said
    assert all(part.id in said for part in circuit.parts)
    for row in papers.wires.rows:
        assert {row.wire.id, row.wire.from_lug, row.wire.to_lug} <= set(said.split())
        assert row.colour_both in said
    sounds = {test.sound for group in papers.test.groups for test in group.rows}
    assert all(sound.replace(" ", "") in pressed for sound in sounds)
    assert "finish" in said or "core" in said  # f and i are not joined to a sign of their own


def test_every_wire_has_its_number_in_the_drawing(example: tuple[JobPapers, Path]) -> None:
    papers, pdf = example
    words = [word.text for word in words_of(pdf, 1)]
    for row in papers.wires.rows:
        assert row.length_mm is None or str(row.number) in words


def test_words_of_the_lists_do_not_lie_on_one_another(example: tuple[JobPapers, Path]) -> None:
    for page in range(3, len(page_sizes_mm(example[1])) + 1):
        words = words_of(example[1], page)
        # A word's box is as high as its font reaches, which is more than a line.
        boxes = [(w.left + 0.08, w.top + 0.28, w.right - 0.08, w.bottom - 0.28) for w in words]
        assert [(words[a], words[b]) for a, b in overlaps(boxes)] == []


@pytest.mark.parametrize("paper", SIZES_MM)
def test_the_scale_bar_of_a_true_drawing_is_50_mm(paper: str, tmp_path: Path) -> None:
    pdf = printed(two_posts(), tmp_path, paper, "wiring")
    assert "scale 1:1" in text_of(pdf)
    lines = list(lines_of(pdf, 1, tmp_path))
    foot = max(line.start[1] for line in lines)
    bars = [
        line.length
        for line in lines
        if line.is_level and 40 < line.length < 60 and line.start[1] > foot - 15
    ]
    assert bars == pytest.approx([50.0], abs=0.1)
    ticks = sorted({round(x, 1) for x in tick_places(pdf, tmp_path, foot)})
    assert [b - a for a, b in pairwise(ticks)] == pytest.approx([10] * 5, abs=0.11)


def tick_places(pdf: Path, folder: Path, foot: float) -> list[float]:
    return [
        line.start[0]
        for line in lines_of(pdf, 1, folder)
        if abs(line.start[0] - line.end[0]) < 0.01
        and 1.5 < line.length < 4
        and line.start[1] > foot - 6
    ]


def two_posts() -> Circuit:
    """Two posts 120 mm apart on one line, joined by a blue wire."""
    posts = (
        Part(id="A", kind="terminal", at=(0.0, 0.0)),
        Part(id="B", kind="terminal", at=(120.0, 0.0)),
    )
    wire = Wire(id="w", from_lug="A.1", to_lug="B.1", colour="BU")
    return Circuit(title="Two posts", parts=posts, wires=(wire,))


def test_a_drawing_at_1_to_1_is_as_long_as_the_thing(tmp_path: Path) -> None:
    pdf = printed(two_posts(), tmp_path, "A4", "wiring")
    widths = [width for width, height in extents_of(pdf, 1, tmp_path) if height < 1.5]
    assert any(width == pytest.approx(120.0, abs=0.1) for width in widths)


def test_a_tiled_drawing_is_at_true_size_on_every_tile(tmp_path: Path) -> None:
    parts = tuple(Part(id=f"V{n}", kind="pot", at=(150.0 * n, 0.0)) for n in range(5))
    pdf = printed(Circuit(parts=parts), tmp_path, "A4", "wiring", true_scale=True)
    pages = len(page_sizes_mm(pdf))
    assert pages > 1
    for page in range(1, pages + 1):
        assert f"tile A{page}" in text_of(pdf, page)
        lines = list(lines_of(pdf, page, tmp_path))
        assert any(line.length == pytest.approx(50.0, abs=0.1) for line in lines if line.is_level)


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_a_second_reader_opens_papers_of_hostile_texts(text: str, tmp_path: Path) -> None:
    pdf = printed(hostile_circuit(text), tmp_path)
    said_by("pdftocairo", "-png", "-r", "30", str(pdf), str(tmp_path / "page"))
    assert len(list(tmp_path.glob("page*.png"))) == len(page_sizes_mm(pdf))


def test_markup_is_printed_as_it_was_written(tmp_path: Path) -> None:
    said = text_of(printed(hostile_circuit(TEXTS["markup"]), tmp_path, "A4", "wires"))
    assert '<script>alert("x & y")</script>' in " ".join(said.split())


def test_a_document_says_its_title(tmp_path: Path) -> None:
    said = said_by("pdfinfo", str(printed(two_posts(), tmp_path, "A4", "card")))
    assert re.search(r"Title: +Two posts", said)


def test_a_book_without_pages_is_declined(tmp_path: Path) -> None:
    papers = JobPapers(two_posts())
    with pytest.raises(DrawingError, match="choose at least one"):
        write_book(book_of(papers, sheets=()), tmp_path / "a.pdf")
    assert list(tmp_path.iterdir()) == []
