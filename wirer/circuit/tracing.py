"""Edits of the underlay: laying, scaling, levelling, keeping it inside or beside.

Every edit raises `EditError` with one clear line where the result would be no circuit.
"""

from __future__ import annotations

import binascii
import math
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from wirer.circuit.edits import change_circuit
from wirer.circuit.errors import EditError
from wirer.circuit.files import FileError
from wirer.circuit.kind import Point
from wirer.circuit.model import Circuit
from wirer.circuit.underlay import LARGEST_PICTURE_BYTES, Underlay, picture_problem

NEAREST_MM = 0.01


def lay_picture(circuit: Circuit, picture: bytes, at: Point = (0.0, 0.0)) -> Circuit:
    """Return the circuit with a picture kept inside the document, its middle at a place in mm."""
    if problem := picture_problem(picture):
        raise EditError(f"the picture {problem}")
    data = binascii.b2a_base64(picture, newline=False).decode()
    return change_circuit(circuit, underlay=Underlay(data=data, at=at))


def lay_file(circuit: Circuit, path: str, at: Point = (0.0, 0.0)) -> Circuit:
    """Return the circuit with a picture that stays a file beside the document."""
    return change_circuit(circuit, underlay=Underlay(path=path, at=at))


def remove_underlay(circuit: Circuit) -> Circuit:
    """Return the circuit without an underlay."""
    return circuit if circuit.underlay is None else change_circuit(circuit, underlay=None)


def change_underlay(circuit: Circuit, **changes: Any) -> Circuit:
    """Return the circuit with its underlay's place, dimming, lock or other fields changed."""
    return change_circuit(circuit, underlay=replace(_underlay(circuit), **changes))


def scale_underlay(circuit: Circuit, first: Point, second: Point, distance_mm: float) -> Circuit:
    """Return the circuit with its underlay scaled by two points of known distance.

    `first` and `second` are where the two things on the picture now lie in the wiring view, in mm;
    the first stays there.
    """
    now_mm = _distance(first, second)
    if not (math.isfinite(distance_mm) and distance_mm > 0):
        raise EditError("the distance of the two points must be more than 0 mm")
    factor = distance_mm / now_mm
    underlay = _underlay(circuit)
    x, y = underlay.at
    at = first[0] + (x - first[0]) * factor, first[1] + (y - first[1]) * factor
    return change_underlay(circuit, at=at, mm_per_pixel=underlay.mm_per_pixel * factor)


def level_underlay(circuit: Circuit, first: Point, second: Point) -> Circuit:
    """Return the circuit with its underlay turned so that two points lie level or upright.

    The nearer of the two is taken; the first point stays where it is.
    """
    _distance(first, second)
    underlay = _underlay(circuit)
    slope = math.degrees(math.atan2(second[1] - first[1], second[0] - first[0]))
    by = 90 * round(slope / 90) - slope
    cos, sin = math.cos(math.radians(by)), math.sin(math.radians(by))
    x, y = underlay.at[0] - first[0], underlay.at[1] - first[1]
    at = first[0] + cos * x - sin * y, first[1] + sin * x + cos * y
    return change_underlay(circuit, at=at, turn=(underlay.turn + by) % 360)


def keep_inside(circuit: Circuit, folder: Path) -> Circuit:
    """Return the circuit with its picture taken into the document, from the document's folder.

    Raises
    ------
    FileError
        The picture can't be read.
    """
    underlay = _underlay(circuit)
    if underlay.data:
        return circuit
    inside = lay_picture(circuit, picture_of(underlay, folder)).underlay
    return change_underlay(circuit, path="", data=inside.data if inside else "")


def keep_beside(circuit: Circuit, path: str) -> Circuit:
    """Return the circuit with its picture named as a file beside, which the caller has written."""
    return change_underlay(circuit, path=path, data="")


def picture_of(underlay: Underlay, folder: Path | None) -> bytes:
    """Return the bytes of an underlay's picture; `folder` is the document's (None: it has none).

    Raises
    ------
    FileError
        It can't be read, or the document is in no file that it could lie beside.
    """
    if underlay.data:
        return binascii.a2b_base64(underlay.data)
    if folder is None:
        raise FileError(f"{underlay.path}: can't be found: the document is in no file yet")
    path = folder / underlay.path
    try:
        with path.open("rb") as file:
            picture = file.read(LARGEST_PICTURE_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = (error.strerror if isinstance(error, OSError) else None) or str(error)
        raise FileError(f"{path}: can't be read: {reason}") from error
    if problem := picture_problem(picture):
        raise FileError(f"{path}: {problem}")
    return picture


def without_underlay(circuit: Circuit) -> Circuit:
    """Return the circuit for those who look at the wiring alone: a picture is heavy to send."""
    return circuit if circuit.underlay is None else replace(circuit, underlay=None)


def _underlay(circuit: Circuit) -> Underlay:
    if circuit.underlay is None:
        raise EditError("there is no picture under the wiring; choose one first")
    return circuit.underlay


def _distance(first: Point, second: Point) -> float:
    distance = math.dist(first, second)
    if not distance >= NEAREST_MM:
        raise EditError("the two points lie in one place; choose two that are farther apart")
    return distance
