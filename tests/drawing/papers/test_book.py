"""Whole papers as pages of marks: nothing lies on anything, nothing leaves the page."""

from itertools import pairwise
from pathlib import Path

import pytest

from tests.support.hostile import TEXTS, hostile_circuit
from tests.support.printed import overlaps
from wirer.circuit.catalogue import catalogue
from wirer.circuit.files import read_file
from wirer.circuit.model import Circuit, Part
from wirer.command.sheets import SHEETS as NAMED_SHEETS
from wirer.drawing.papers.book import SHEETS, Book, book_of
from wirer.drawing.papers.marks import Field, Mark, Picture, Rule, Swatch, TickBox, Words
from wirer.drawing.papers.page import Page
from wirer.drawing.papers.paper import PAPERS
from wirer.drawing.papers.printing import book_pdf
from wirer.drawing.papers.reading_pages import reading_words
from wirer.papers.bench.bands import OPEN, Band
from wirer.papers.bench.job_papers import JobPapers

pytestmark = pytest.mark.usefixtures("qapp")

EXAMPLES = sorted((Path(__file__).parents[3] / "resources" / "examples").glob("*.wirer"))
DAY = "2026-03-14"


def papers_of(circuit: Circuit) -> JobPapers:
    return JobPapers(circuit, DAY, "C")


def clashes(page: Page) -> list[tuple[Mark, Mark]]:
    """Marks that lie on one another, but for lines, bands of colour and what they frame."""
    kinds = Words | TickBox | Swatch | Picture
    marks = [m for m in page.marks if isinstance(m, kinds) or _is_frame(m)]
    boxes = [mark.box.grown(-0.12) for mark in marks]
    found = overlaps([(box.left, box.top, box.right, box.bottom) for box in boxes])
    return [(marks[a], marks[b]) for a, b in found]


def _is_frame(mark: Mark) -> bool:
    """Tell whether a mark is a frame to write in, which is no higher than a line of writing."""
    return isinstance(mark, Field) and bool(mark.edge) and not mark.fill and mark.box.height < 9


def strays(page: Page) -> list[Mark]:
    """Marks that reach beyond the page's margins."""
    form = page.form
    edge = form.margin - 0.3
    return [
        mark
        for mark in page.marks
        if mark.box.left < edge
        or mark.box.right > form.width - edge
        or mark.box.top < 6.5
        or mark.box.bottom > form.height - 6.5
        or (not isinstance(mark, (Words, Rule)) and mark.box.bottom > form.foot.top)
    ]


def assert_tidy(book: Book) -> None:
    for page in book.pages:
        assert clashes(page) == []
        assert strays(page) == []


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem[:2])
def test_papers_of_the_examples_are_tidy_and_say_whose_they_are(path: Path, paper: str) -> None:
    circuit = read_file(path)[0]
    book = book_of(papers_of(circuit), PAPERS[paper])
    assert_tidy(book)
    assert len(dict.fromkeys(page.sheet for page in book.pages)) == len(SHEETS)
    for number, page in enumerate(book.pages, 1):
        said = [mark.text for mark in page.marks if isinstance(mark, Words)]
        assert circuit.title in said
        assert circuit.job.splitlines()[0] in said
        assert any(text.endswith(f"page {number} of {len(book.pages)}") for text in said)
        assert any(DAY in text and "revision C" in text for text in said)
    for before, page in pairwise(book.pages):
        filled = max(m.box.bottom for m in page.marks if m.box.bottom < page.form.foot.top)
        # What goes on overleaf with a head and next to nothing below it is an orphan.
        assert page.sheet != before.sheet or filled > 40.0


@pytest.mark.parametrize("text", TEXTS.values(), ids=TEXTS)
def test_hostile_texts_stay_in_their_places(text: str) -> None:
    book = book_of(papers_of(hostile_circuit(text)))
    assert_tidy(book)
    assert book_pdf(book).startswith(b"%PDF-")


def test_sheets_are_chosen_by_name() -> None:
    papers = papers_of(read_file(EXAMPLES[0])[0])
    book = book_of(papers, sheets=("card", "wiring"))
    assert [page.sheet for page in book.pages] == ["Wiring", "Player's card"]
    assert list(NAMED_SHEETS) == list(SHEETS)


@pytest.mark.parametrize(
    "circuit",
    [Circuit(), Circuit(parts=(Part(id="N", kind="coil-2wire"),))],
    ids=["nothing", "one coil"],
)
def test_papers_of_next_to_nothing_are_made(circuit: Circuit) -> None:
    assert_tidy(book_of(papers_of(circuit)))


def test_every_kind_has_its_place_on_the_papers() -> None:
    kinds = [kind for kind in catalogue() if not kind.actuator]
    parts = tuple(
        Part(id=f"P{n}", kind=kind.id, at=(100.0 * (n % 6), 70.0 * (n // 6)))
        for n, kind in enumerate(kinds)
    )
    papers = papers_of(Circuit(title="All", parts=parts))
    book = book_of(papers, sheets=("parts", "test", "findings", "wires"))
    assert_tidy(book)
    said = {m.text for page in book.pages for m in page.marks if isinstance(m, Words)}
    assert {part.id for part in parts} <= said


def test_a_large_circuit_is_tiled_at_true_scale() -> None:
    parts = tuple(Part(id=f"V{n}", kind="pot", at=(150.0 * n, 0.0)) for n in range(5))
    papers = papers_of(Circuit(title="Long", parts=parts))
    fitted = book_of(papers, sheets=("wiring",))
    tiled = book_of(papers, sheets=("wiring",), true_scale=True)
    assert len(fitted.pages) == 1
    assert not fitted.pages[0].scale.startswith("scale 1:1,")
    assert [page.sheet for page in tiled.pages] == [
        f"Wiring, tile A{n}" for n in range(1, len(tiled.pages) + 1)
    ]
    assert all(page.scale.startswith("scale 1:1,") for page in tiled.pages)
    assert_tidy(tiled)


def test_bands_are_written_as_one_reads_a_meter() -> None:
    assert reading_words(Band(21_167.0, 19_740.0, 22_639.0)) == "21.2 kΩ (19.7 to 22.6 kΩ)"
    assert reading_words(Band(996.0, 966.0, 1_030.0)) == "996 Ω (966 Ω to 1.03 kΩ)"
    assert reading_words(Band(0.0, 0.0, 5.0)) == "0 Ω (under 5 Ω)"
    assert reading_words(OPEN) == "open (over 2 MΩ)"
