"""Records one after another in a file that may break off anywhere.

A file begins with `HEADER`; each record is its length and the CRC-32 (ISO 3309) of its bytes, both
four bytes, big end first, and then its bytes: JSON compressed by zlib (RFC 1950).
"""

from __future__ import annotations

import json
import struct
import zlib
from collections.abc import Iterator
from typing import Any

HEADER = b"wirer journal 1\n"
_FRAME = struct.Struct(">II")


def packed(record: dict[str, Any]) -> bytes:
    """Return a record as it stands in the file."""
    payload = zlib.compress(json.dumps(record, ensure_ascii=False).encode(errors="replace"))
    return _FRAME.pack(len(payload), zlib.crc32(payload)) + payload


def whole_records(data: bytes) -> Iterator[dict[str, Any]]:
    """Yield the records of a file up to the first that is not whole."""
    if not data.startswith(HEADER):
        return
    place = len(HEADER)
    while place + _FRAME.size <= len(data):
        length, check = _FRAME.unpack_from(data, place)
        place += _FRAME.size
        payload = data[place : place + length]
        if len(payload) < length or not length or zlib.crc32(payload) != check:
            return
        yield json.loads(zlib.decompress(payload))
        place += length
