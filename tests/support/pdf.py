"""A PDF read back by its own words: page size and the straight lines drawn on its page.

Enough of ISO 32000-1 for what Qt writes: Flate streams, q Q cm, m l S and their like.
"""

import re
import zlib
from collections.abc import Iterator

MM_PER_POINT = 25.4 / 72
Matrix = tuple[float, float, float, float, float, float]
Line = tuple[float, float, float, float]

_STREAM = re.compile(rb"stream\r?\n(.*?)\r?\nendstream", re.DOTALL)
_TOKEN = re.compile(rb"\[[^\]]*\]|\((?:\\.|[^\\)])*\)|<[^>]*>|/[^\s/\[\]()<>]+|[^\s\[\]()<>/]+")


def page_size_mm(data: bytes) -> tuple[float, float]:
    """Return width and height by the page's MediaBox."""
    box = re.search(rb"/MediaBox\s*\[([^\]]*)\]", data)
    assert box, "the file has a page"
    left, bottom, right, top = map(float, box[1].split())
    return (right - left) * MM_PER_POINT, (top - bottom) * MM_PER_POINT


def lines_mm(data: bytes) -> list[Line]:
    """Return the straight lines of the page's content as (x1, y1, x2, y2) in mm, y upwards."""
    return [line for stream in _streams(data) for line in _lines(stream)]


def _streams(data: bytes) -> Iterator[bytes]:
    for found in _STREAM.finditer(data):
        try:
            content = zlib.decompress(found[1])
        except zlib.error:
            continue
        if re.search(rb"\scm\s", content):
            yield content


def _times(one: Matrix, other: Matrix) -> Matrix:
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return (
        a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j,
        e * g + f * i + k, e * h + f * j + m,
    )  # fmt: skip


def _lines(content: bytes) -> Iterator[Line]:
    matrix: Matrix = (1, 0, 0, 1, 0, 0)
    kept: list[Matrix] = []
    numbers: list[float] = []
    at = (0.0, 0.0)
    for token in _TOKEN.findall(content):
        try:
            numbers.append(float(token))
            continue
        except ValueError:
            pass
        if token == b"q":
            kept.append(matrix)
        elif token == b"Q":
            matrix = kept.pop()
        elif token == b"cm":
            matrix = _times(tuple(numbers[-6:]), matrix)  # type: ignore[arg-type]
        elif token in (b"m", b"l"):
            point = _placed(matrix, numbers[-2], numbers[-1])
            if token == b"l":
                yield (*at, *point)
            at = point
        numbers = []


def _placed(matrix: Matrix, x: float, y: float) -> tuple[float, float]:
    a, b, c, d, e, f = matrix
    return (a * x + c * y + e) * MM_PER_POINT, (b * x + d * y + f) * MM_PER_POINT
