"""A page as a value: its form, the sheet it belongs to, and the marks on it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from wirer.drawing.page import BAR_MM
from wirer.drawing.papers.marks import Mark, Rule, Words
from wirer.drawing.papers.paper import Form
from wirer.drawing.papers.typeface import BODY_BOLD, SMALL, Style, elided, width_mm
from wirer.layout.box import Box

INK = "#000000"
BAR_ROOM_MM = BAR_MM + 12.0
_FIRST, _SECOND = 4.2, 8.0
_TICK_MM, _SHORT_TICK_MM = 1.6, 1.0


@dataclass(frozen=True, slots=True)
class Heading:
    """What every page says: title and job, date and revision."""

    title: str
    job: str
    date: str
    revision: str


@dataclass
class Page:
    """One page. `sheet` is named in its foot; `scale`, if any, says how it is drawn, by a bar."""

    form: Form
    sheet: str
    scale: str = ""
    marks: list[Mark] = field(default_factory=list)


def put_words(page: Page, text: str, style: Style, x: float, baseline: float) -> Words:
    """Put a line of text on a page."""
    words = Words(text, style, x, baseline)
    page.marks.append(words)
    return words


def foot_marks(page: Page, heading: Heading, number: int, count: int) -> Iterator[Mark]:
    """Yield the marks of a page's foot, the scale bar among them where the page has a scale."""
    foot = page.form.foot
    yield Rule((foot.left, foot.top), (foot.right, foot.top), 0.25, INK)
    right = (
        (f"{page.sheet} · page {number} of {count}", BODY_BOLD, _FIRST),
        (_joined(heading.date, f"revision {heading.revision}", page.scale), SMALL, _SECOND),
    )
    taken = max(min(width_mm(text, style), foot.width * 0.5) for text, style, _ in right)
    bar = BAR_ROOM_MM if page.scale else 0.0
    room = foot.width - taken - 6.0 - bar
    left = ((heading.title, BODY_BOLD, _FIRST), (heading.job, SMALL, _SECOND))
    for text, style, down in left:
        if line := elided(text, style, room):
            yield Words(line, style, foot.left, foot.top + down)
    for text, style, down in right:
        line = elided(text, style, foot.width * 0.5)
        yield Words(line, style, foot.right - width_mm(line, style), foot.top + down)
    if page.scale:
        yield from _scale_bar(foot.right - taken - 6.0 - BAR_MM, foot)


def _scale_bar(left: float, foot: Box) -> Iterator[Mark]:
    """Yield a bar of 50 mm in steps of 10, to check a print by."""
    y = foot.top + _SECOND - 0.6
    yield Rule((left, y), (left + BAR_MM, y), 0.3, INK)
    for step in range(6):
        x = left + 10.0 * step
        tick = _TICK_MM if step in (0, 5) else _SHORT_TICK_MM
        yield Rule((x, y - tick), (x, y + tick), 0.2, INK)
    text = "50 mm on paper"
    middle = left + BAR_MM / 2 - width_mm(text, SMALL) / 2
    yield Words(text, SMALL, middle, foot.top + _FIRST - 0.4)


def _joined(*texts: str) -> str:
    return " · ".join(text for text in texts if text)
