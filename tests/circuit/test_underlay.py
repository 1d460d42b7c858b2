"""A photograph under the wiring view: kept, scaled by a known distance, levelled, refused."""

from __future__ import annotations

import json
import math
import struct
import zlib
from base64 import b64encode
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.circuit.papers import document, encoded
from wirer.circuit.document import read_document, write_document
from wirer.circuit.errors import DocumentError, EditError
from wirer.circuit.files import FileError
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance
from wirer.circuit.tracing import (
    change_underlay,
    keep_beside,
    keep_inside,
    lay_file,
    lay_picture,
    level_underlay,
    picture_of,
    remove_underlay,
    scale_underlay,
    without_underlay,
)
from wirer.circuit.underlay import LARGEST_PICTURE_BYTES, Underlay


def chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def grey_png() -> bytes:
    """A picture of one grey pixel, made by ISO/IEC 15948."""
    head = struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\x00\x80"))
        + chunk(b"IEND", b"")
    )


def underlay_of(circuit: Circuit) -> Underlay:
    assert circuit.underlay is not None
    return circuit.underlay


def traced(**changes: Any) -> Circuit:
    return change_underlay(lay_picture(Circuit(), grey_png()), **changes)


def on_sheet(underlay: Underlay, pixel: tuple[float, float]) -> tuple[float, float]:
    """Where a point of the picture, in pixels from its middle, lies in the wiring view."""
    angle = math.radians(underlay.turn)
    x, y = (p * underlay.mm_per_pixel for p in pixel)
    return (
        underlay.at[0] + x * math.cos(angle) - y * math.sin(angle),
        underlay.at[1] + x * math.sin(angle) + y * math.cos(angle),
    )


def test_a_document_keeps_its_picture_inside_or_beside() -> None:
    inside = traced(at=(30, 40), mm_per_pixel=0.1, turn=1.5, dim=0.7, locked=True)
    beside = lay_file(Circuit(), "photos/back.jpg")
    for circuit in (inside, beside):
        assert read_document(write_document(circuit, Stance()))[0] == circuit
    assert picture_of(underlay_of(inside), None) == grey_png()
    assert "underlay" not in json.loads(write_document(remove_underlay(inside), Stance()))


def test_version_1_documents_without_an_underlay_are_read_as_before() -> None:
    assert read_document(encoded(document()))[0].underlay is None


PIXELS = st.tuples(st.floats(-2000, 2000), st.floats(-2000, 2000))


@given(PIXELS, PIXELS, st.floats(1, 500), st.floats(0, 359), st.floats(0.01, 5))
def test_two_points_come_to_lie_at_their_known_distance(
    first: Any, second: Any, distance_mm: float, turn: float, mm_per_pixel: float
) -> None:
    if math.dist(first, second) < 10:
        return
    circuit = traced(turn=turn, mm_per_pixel=mm_per_pixel, at=(12, -7))
    a, b = (on_sheet(underlay_of(circuit), pixel) for pixel in (first, second))
    scaled = scale_underlay(circuit, a, b, distance_mm)
    after = [on_sheet(underlay_of(scaled), pixel) for pixel in (first, second)]
    assert math.dist(*after) == pytest.approx(distance_mm, rel=1e-6)
    assert after[0] == pytest.approx(a, abs=1e-6)
    levelled = level_underlay(scaled, *after)
    p, q = (on_sheet(underlay_of(levelled), pixel) for pixel in (first, second))
    assert p == pytest.approx(a, abs=1e-6)
    assert min(abs(p[0] - q[0]), abs(p[1] - q[1])) == pytest.approx(0, abs=1e-6)
    assert math.dist(p, q) == pytest.approx(distance_mm, rel=1e-6)


def test_a_picture_is_taken_in_and_put_beside(tmp_path: Path) -> None:
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "back.png").write_bytes(grey_png())
    beside = change_underlay(lay_file(Circuit(), "photos/back.png"), dim=0.2)
    inside = keep_inside(beside, tmp_path)
    assert underlay_of(inside).path == ""
    assert picture_of(underlay_of(inside), None) == grey_png()
    assert underlay_of(inside).dim == 0.2
    assert keep_inside(inside, tmp_path) is inside
    assert keep_beside(inside, "photos/back.png") == beside


def test_a_picture_that_can_not_be_read_is_said_to_be_so(tmp_path: Path) -> None:
    circuit = lay_file(Circuit(), "back.png")
    with pytest.raises(FileError, match=r"back\.png: can't be read: "):
        keep_inside(circuit, tmp_path)
    (tmp_path / "back.png").write_bytes(b"GIF89a")
    with pytest.raises(FileError, match=r"back\.png: is neither a PNG nor a JPEG"):
        picture_of(underlay_of(circuit), tmp_path)
    with pytest.raises(FileError, match="in no file yet"):
        picture_of(underlay_of(circuit), None)


@pytest.mark.parametrize(
    ("fields", "line"),
    [
        ({}, "underlay: needs its picture either as a path or as data"),
        ({"path": "a.png", "data": "eA=="}, "underlay: needs its picture either"),
        ({"path": "/etc/a.png"}, "underlay.path: .* is no file beside the document"),
        ({"path": "../a.png"}, "underlay.path: "),
        ({"path": "C:/a.png"}, "underlay.path: "),
        ({"path": "a\\b.png"}, "underlay.path: "),
        ({"path": "a\n.png"}, "underlay.path: "),
        ({"data": "not base64!"}, "underlay.data: is not base64"),
        ({"data": "é"}, "underlay.data: is not base64"),
        ({"data": b64encode(b"GIF89a").decode()}, "underlay.data: is neither a PNG nor a JPEG"),
        ({"path": "a.png", "mm_per_pixel": 0}, "underlay.mm_per_pixel: must be more than 0"),
        ({"path": "a.png", "dim": 1.5}, "underlay.dim: must be between 0"),
        ({"path": "a.png", "at": [1e9, 0]}, "underlay.at: lies farther"),
        ({"path": "a.png", "size": 3}, 'underlay: has an unknown "size"'),
        ({"path": 3}, "underlay.path: must be text"),
    ],
)
def test_what_is_no_underlay_is_refused_with_its_place(fields: dict[str, Any], line: str) -> None:
    with pytest.raises(DocumentError, match=line):
        read_document(encoded(document(underlay=fields)))


def test_edits_refuse_in_one_line() -> None:
    circuit = traced()
    for distance_mm in (0, -1, math.nan, math.inf):
        with pytest.raises(EditError, match="more than 0 mm"):
            scale_underlay(circuit, (0, 0), (10, 0), distance_mm)
    with pytest.raises(EditError, match="lie in one place"):
        scale_underlay(circuit, (1, 1), (1, 1), 10)
    with pytest.raises(EditError, match="no picture under"):
        change_underlay(Circuit(), dim=0.1)
    with pytest.raises(EditError, match="neither a PNG nor a JPEG"):
        lay_picture(Circuit(), b"BM")
    with pytest.raises(EditError, match="larger than 12 MiB"):
        lay_picture(Circuit(), grey_png() + bytes(LARGEST_PICTURE_BYTES))
    with pytest.raises(EditError, match=r"mm_per_pixel: must be"):
        scale_underlay(circuit, (0, 0), (0.1, 0), 1e9)


def test_the_wiring_alone_is_sent_without_the_picture() -> None:
    assert without_underlay(traced()) == Circuit()
    bare = Circuit()
    assert without_underlay(bare) is bare
    assert remove_underlay(bare) is bare
