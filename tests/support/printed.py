"""PDFs read from outside, by the programs of poppler: sizes, fonts, words, lines."""

from __future__ import annotations

import math
import re
import subprocess
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.support.tools import required_tool

MM_PER_POINT = 25.4 / 72
Box = tuple[float, float, float, float]
SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class Line:
    """A straight stroke in mm from the page's upper left corner."""

    start: tuple[float, float]
    end: tuple[float, float]

    @property
    def length(self) -> float:
        return math.dist(self.start, self.end)

    @property
    def is_level(self) -> bool:
        return abs(self.start[1] - self.end[1]) < 0.01


def overlaps(boxes: Sequence[Box]) -> Iterator[tuple[int, int]]:
    """Yield the places of the pairs of boxes (left, top, right, bottom) that overlap."""
    order = sorted(range(len(boxes)), key=lambda i: boxes[i][1])
    for place, i in enumerate(order):
        left, _, right, bottom = boxes[i]
        for j in order[place + 1 :]:
            other = boxes[j]
            if other[1] >= bottom:
                break
            if other[0] < right and left < other[2] and other[3] > boxes[i][1]:
                yield i, j


@dataclass(frozen=True)
class Word:
    """A word with its box in mm."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


def said_by(tool: str, *arguments: str) -> str:
    """What a program of poppler prints; it must end well and complain of nothing."""
    path = required_tool(tool, "poppler-utils")
    ran = subprocess.run([path, *arguments], capture_output=True, check=True, timeout=120)
    assert ran.stderr == b""
    return ran.stdout.decode("utf-8")


def page_sizes_mm(pdf: Path) -> list[tuple[float, float]]:
    said = said_by("pdfinfo", "-l", "9999", str(pdf))
    found = re.findall(r"Page +\d+ size: +([\d.]+) x ([\d.]+) pts", said)
    return [(float(w) * MM_PER_POINT, float(h) * MM_PER_POINT) for w, h in found]


def fonts(pdf: Path) -> list[dict[str, bool]]:
    """For each font whether it is embedded, and whether its letters can be read back."""
    lines = said_by("pdffonts", str(pdf)).splitlines()[2:]
    return [
        {"embedded": line.split()[-5] == "yes", "unicode": line.split()[-3] == "yes"}
        for line in lines
    ]


def text_of(pdf: Path, page: int | None = None) -> str:
    pages = [] if page is None else ["-f", str(page), "-l", str(page)]
    return said_by("pdftotext", *pages, "-layout", str(pdf), "-")


def words_of(pdf: Path, page: int) -> list[Word]:
    said = said_by("pdftotext", "-f", str(page), "-l", str(page), "-bbox", str(pdf), "-")
    pattern = r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>'
    return [
        Word(text, *(float(x) * MM_PER_POINT for x in box))
        for *box, text in re.findall(pattern, said)
    ]


def lines_of(pdf: Path, page: int, folder: Path) -> Iterator[Line]:
    """Yield every straight stroke of a page, as poppler's own renderer places it."""
    out = folder / f"page{page}.svg"
    said_by("pdftocairo", "-svg", "-f", str(page), "-l", str(page), str(pdf), str(out))
    for path in ET.parse(out).iter(f"{SVG}path"):
        found = re.fullmatch(r"M ([-\d.]+) ([-\d.]+) L ([-\d.]+) ([-\d.]+) ?", path.get("d", ""))
        if found:
            x1, y1, x2, y2 = map(float, found.groups())
            yield Line(_placed(path, x1, y1), _placed(path, x2, y2))


def extents_of(pdf: Path, page: int, folder: Path) -> Iterator[tuple[float, float]]:
    """Yield the width and height in mm of every path of a page, strokes by their middles."""
    out = folder / f"page{page}.svg"
    said_by("pdftocairo", "-svg", "-f", str(page), "-l", str(page), str(pdf), str(out))
    for path in ET.parse(out).iter(f"{SVG}path"):
        numbers = [float(x) for x in re.findall(r"-?[\d.]+", path.get("d", ""))]
        places = [_placed(path, x, y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
        if places:
            xs, ys = zip(*places, strict=True)
            yield max(xs) - min(xs), max(ys) - min(ys)


def _placed(path: ET.Element, x: float, y: float) -> tuple[float, float]:
    matrix = re.fullmatch(r"matrix\((.*)\)", path.get("transform", "matrix(1,0,0,1,0,0)"))
    assert matrix
    a, b, c, d, e, f = map(float, matrix[1].split(","))
    return (a * x + c * y + e) * MM_PER_POINT, (b * x + d * y + f) * MM_PER_POINT
