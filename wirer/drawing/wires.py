"""Wires in their colours, with rounded corners and a gap where one passes under another."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen

from wirer.circuit.kind import Point
from wirer.circuit.model import Wire
from wirer.drawing.palette import Role, Theme, wire_colours
from wirer.drawing.shapes import faint, finish
from wirer.layout.course import with_gaps
from wirer.layout.route import Route, Screen

WIRE_MM = 0.85
BARE_MM = 0.5
CORE_MM = 0.6
SCREEN_MM = 1.45
CORNER_MM = 1.3
GAP_MM = 1.0
HALO_MM = 0.35
CASING_MM = 0.16
SOLDER_MM = 0.7
TAIL_MM = 0.4
BAND_MM = 0.64
_BANDS: dict[Role, tuple[float, float] | None] = {"signal": None, "ground": (1.5, 1.2)}
"""The edging of a wire by its net's role: whole or in dashes of so many mm."""


@dataclass(frozen=True, slots=True)
class Course:
    """One wire to be drawn: where it runs, where it passes under others, and its screen."""

    wire: Wire
    route: Route
    under: tuple[float, ...] = ()
    screen: Screen | None = None

    @property
    def pieces(self) -> list[QPainterPath]:
        """What is left of it when the gaps are cut out."""
        return [rounded(piece) for piece in with_gaps(self.route.points, self.under, GAP_MM)]


def rounded(points: Sequence[Point], radius_mm: float = CORNER_MM) -> QPainterPath:
    """Return a polyline with its corners rounded, as far as its runs have room for it."""
    path = QPainterPath(QPointF(*points[0]))
    for before, corner, after in zip(points, points[1:], points[2:], strict=False):
        radius = min(radius_mm, math.dist(before, corner) / 2, math.dist(corner, after) / 2)
        path.lineTo(_towards(corner, before, radius))
        path.quadTo(QPointF(*corner), _towards(corner, after, radius))
    path.lineTo(QPointF(*points[-1]))
    return path


def _towards(start: Point, end: Point, distance: float) -> QPointF:
    length = math.dist(start, end)
    share = distance / length if length else 0.0
    return QPointF(start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


def paint_wire(painter: QPainter, course: Course, theme: Theme, role: Role | None = None) -> None:
    """Paint a wire; its net's role edges it (signal), edges it in dashes (ground) or fades it."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if course.route.manner == "link":
        _paint_link(painter, course.route, theme)
        return
    faded = role == "open"
    pieces = course.pieces
    width = _width(course.wire)
    if course.wire.style != "bare" or role in _BANDS:
        _stroke(painter, pieces, theme.paper, width + 2 * HALO_MM, opacity=0.85)
    if role is not None and role in _BANDS:
        _stroke(painter, pieces, theme.roles[role], width + BAND_MM, dashes=_BANDS[role])
    if course.screen:
        _paint_screen(painter, course, course.screen, theme, faded)
    _paint_core(painter, pieces, course.wire, theme, faded)


def _width(wire: Wire) -> float:
    return {"bare": BARE_MM, "screened": CORE_MM}.get(wire.style, WIRE_MM)


def _paint_core(
    painter: QPainter, pieces: list[QPainterPath], wire: Wire, theme: Theme, faded: bool
) -> None:
    colours = wire_colours(theme, wire.colour)
    width = _width(wire)
    core = faint(theme, colours.core) if faded else colours.core
    if wire.style == "bare" and not wire.colour:
        core = faint(theme, theme.wire) if faded else theme.wire
    elif colours.casing:
        casing = faint(theme, colours.casing) if faded else colours.casing
        _stroke(painter, pieces, casing, width)
        width -= 2 * CASING_MM
    _stroke(painter, pieces, core, width)
    if colours.stripe:
        stripe = faint(theme, colours.stripe) if faded else colours.stripe
        _stroke(painter, pieces, stripe, width * 0.6, dashes=(1.6, 1.6))


def _paint_screen(
    painter: QPainter, course: Course, screen: Screen, theme: Theme, faded: bool
) -> None:
    braid = finish(theme, "dark-metal", faded)
    if len(screen.cover) >= 2:
        gaps = [under - screen.begins_mm for under in course.under]
        cover = [rounded(piece) for piece in with_gaps(screen.cover, gaps, GAP_MM)]
        _stroke(painter, cover, braid.edge, SCREEN_MM, dashes=(1.7, 0.5))
        _stroke(painter, cover, braid.light, SCREEN_MM - 0.3, dashes=(1.7, 0.5))
    for tail in screen.tails:
        _stroke(painter, [rounded(tail.points)], braid.edge, TAIL_MM)


def _paint_link(painter: QPainter, route: Route, theme: Theme) -> None:
    path = [rounded(route.points)]
    _stroke(painter, path, theme.paper, 0.9, opacity=0.85)
    _stroke(painter, path, theme.ink, 0.35, dashes=(0.9, 0.7))


def paint_solder(painter: QPainter, at: Point, theme: Theme, faded: bool = False) -> None:
    """Paint the drop of solder at the end of a wire."""
    tin = finish(theme, "tin", faded)
    painter.setPen(QPen(QColor(tin.edge), 0.15))
    painter.setBrush(QColor(tin.light))
    painter.drawEllipse(QPointF(*at), SOLDER_MM, SOLDER_MM)


def _stroke(
    painter: QPainter,
    paths: list[QPainterPath],
    colour: str,
    width: float,
    dashes: tuple[float, float] | None = None,
    opacity: float = 1.0,
) -> None:
    """Draw paths; `dashes` are a stroke's and a gap's length in mm."""
    pen = QPen(QColor(colour), width)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if dashes:
        pen.setDashPattern([each / width for each in dashes])
    painter.setOpacity(painter.opacity() * opacity)
    painter.setPen(pen)
    for path in paths:
        painter.drawPath(path)
    painter.setOpacity(painter.opacity() / opacity)
