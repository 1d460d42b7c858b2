"""The underlay: a photograph of what is there, over which a harness is drawn.

The picture is a file beside the document, or its bytes are kept inside.
"""

from __future__ import annotations

import binascii
import math
from collections.abc import Iterator
from functools import lru_cache
from pathlib import PurePosixPath

from msgspec import Struct

from wirer.circuit.errors import Problem, shown
from wirer.circuit.kind import Point

LARGEST_PICTURE_BYTES = 12 * 2**20
MOST_MM_PER_PIXEL = 1000.0
LONGEST_PATH = 1000
SIGNATURES = (b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff")
"""How a PNG (ISO/IEC 15948) and a JPEG (ISO/IEC 10918-1) begin."""


class Underlay(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True, kw_only=True):
    """A photograph (PNG or JPEG) under the wiring view.

    It is in the file `path`, relative to the document's folder with `/` between names, or `data`
    has its bytes in base64. `at` is its middle in mm; one pixel is `mm_per_pixel` wide and high; it
    is turned clockwise by `turn` degrees. `dim` is how much of it fades into the sheet: 0 as taken,
    1 gone. A `locked` one can't be taken hold of.
    """

    path: str = ""
    data: str = ""
    at: Point = (0.0, 0.0)
    mm_per_pixel: float = 0.25
    turn: float = 0.0
    dim: float = 0.5
    locked: bool = False


def underlay_problems(underlay: Underlay | None) -> Iterator[Problem]:
    """Yield what is wrong with an underlay but for its place."""
    if underlay is None:
        return
    if bool(underlay.path) == bool(underlay.data):
        text = "needs its picture either as a path or as data, and not as both"
        yield Problem("underlay", text)
    elif problem := path_problem(underlay.path):
        yield Problem("underlay.path", problem)
    elif problem := _data_problem(underlay.data):
        yield Problem("underlay.data", problem)
    if not 0 < underlay.mm_per_pixel <= MOST_MM_PER_PIXEL:
        text = f"must be more than 0 and at most {MOST_MM_PER_PIXEL:g}, in mm"
        yield Problem("underlay.mm_per_pixel", text)
    if not math.isfinite(underlay.turn):
        yield Problem("underlay.turn", "must be degrees")
    if not 0 <= underlay.dim <= 1:
        yield Problem("underlay.dim", "must be between 0 (as taken) and 1 (gone)")


def path_problem(path: str) -> str:
    """Say why a path does not lead to a file beside the document; empty where it may."""
    if not path:
        return ""
    parts = PurePosixPath(path).parts
    outside = path.startswith("/") or ".." in parts or "\\" in path or ":" in parts[0]
    if outside or len(path) > LONGEST_PATH or not path.isprintable():
        return f'"{shown(path)}" is no file beside the document; write for example photos/back.jpg'
    return ""


def picture_problem(picture: bytes) -> str:
    """Say why bytes can't be an underlay; empty where they can."""
    if len(picture) > LARGEST_PICTURE_BYTES:
        most = LARGEST_PICTURE_BYTES // 2**20
        return f"is larger than {most} MiB; make the picture smaller, or keep it beside"
    if not picture.startswith(SIGNATURES):
        return "is neither a PNG nor a JPEG picture"
    return ""


@lru_cache(maxsize=1)
def _data_problem(data: str) -> str:
    if not data:
        return ""
    try:
        picture = binascii.a2b_base64(data.encode(), strict_mode=True)
    except (binascii.Error, UnicodeEncodeError):
        return "is not base64; the picture is damaged"
    return picture_problem(picture)
