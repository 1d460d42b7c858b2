"""The number and the colour beside every wire, as the wire list has them."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QLineF, QPointF
from PySide6.QtGui import QColor, QPainter, QPen

from wirer.drawing.notes import rect
from wirer.drawing.palette import Theme
from wirer.drawing.text import Lettering, paint_text
from wirer.drawing.wiring import WiringNotes
from wirer.layout.callouts import Callout, place_callouts
from wirer.layout.layout import Layout
from wirer.layout.tags import place_tags


def fitting_texts(layout: Layout, texts: Mapping[str, str]) -> dict[str, str]:
    """Return the text of each wire, cut to its number where there is no room for more.

    Wires that have no room for that either are left out: they get a callout.
    """
    roomy = place_tags(layout, texts)
    short = {wire: text.split()[0] for wire, text in texts.items() if wire not in roomy}
    tried = {**{wire: texts[wire] for wire in roomy}, **short}
    placed = place_tags(layout, tried)
    return {wire: tried[wire] for wire in placed}


def callouts_of(layout: Layout, texts: Mapping[str, str], notes: WiringNotes) -> dict[str, Callout]:
    """Return the callouts of the wires that have no text along them."""
    boxes = [tag.box for tag in (*notes.tags.values(), *notes.lug_names.values())]
    missing = {wire: text for wire, text in texts.items() if wire not in notes.tags}
    return place_callouts(layout, missing, boxes)


def paint_callouts(painter: QPainter, callouts: Mapping[str, Callout], theme: Theme) -> None:
    """Paint each callout with a hairline to its wire, which ends there in a dot."""
    for callout in callouts.values():
        foot, at = QPointF(*callout.foot), QPointF(*callout.box.centre)
        painter.setPen(QPen(QColor(theme.ink), 0.13))
        painter.drawLine(QLineF(foot, at))
        painter.setBrush(QColor(theme.ink))
        painter.drawEllipse(foot, 0.3, 0.3)
    for callout in callouts.values():
        painter.setPen(QPen(QColor(theme.ink), 0.13))
        painter.setBrush(QColor(theme.paper))
        painter.drawRoundedRect(rect(callout.box), 0.4, 0.4)
        lettering = Lettering(theme.ink, as_paths=False)
        room = callout.box.width - 0.5
        paint_text(painter, callout.text, callout.box.centre, callout.height_mm, lettering, room)
