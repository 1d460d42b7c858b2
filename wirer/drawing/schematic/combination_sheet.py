"""One combination on a sheet of its own: what the amplifier sees, with its figures."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

import schemdraw
from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QColor, QPainter, QPen

from wirer.analysis.analyst import Analyst
from wirer.analysis.combination import Combination
from wirer.analysis.facts import states_of
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance, fitted_stance
from wirer.drawing.palette import PRINT
from wirer.drawing.render import Sheet, ensure_gui
from wirer.drawing.schematic.reduced import reduced_drawing
from wirer.drawing.schematic.strokes import drawing_box, paint_drawing
from wirer.drawing.text import Lettering, paint_text, text_width_mm
from wirer.layout.box import Box
from wirer.layout.lettering import shortened
from wirer.papers.combination_text import SILENCES, part_labels
from wirer.papers.figures import decibel_text, hertz_text, percent_text, reading_text
from wirer.papers.reduced_circuit import reduced_circuit

MARGIN_MM = 10.0
HEAD_MM = 20.0
FOOT_MM = 14.0
LEAST_WIDTH_MM = 150.0
LONGEST = 160
BIG_MM, USUAL_MM, SMALL_MM = 4.0, 2.4, 2.0


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of text: its height of capitals, how far down it stands, whether it is quiet."""

    text: str
    height: float
    down: float
    quiet: bool = False


def combination_sheet(circuit: Circuit, stance: Stance, day: date | None = None) -> Sheet:
    """Return the sheet of what a circuit does as it stands, for `write_sheet`.

    Raises
    ------
    QuantityError
        The output load can't be read.
    """
    ensure_gui()
    stance = fitted_stance(circuit, stance)
    analyst = Analyst(circuit, stance.rotations)
    found = _combination(analyst, stance)
    drawing = reduced_drawing(reduced_circuit(analyst, found))
    content = drawing_box(drawing).grown(0.5)
    width = max(content.width + 2 * MARGIN_MM, LEAST_WIDTH_MM)
    height = content.height + HEAD_MM + 2 * MARGIN_MM + FOOT_MM
    head = _head(circuit, stance, found)
    foot = _foot(circuit, (day or date.today()).isoformat())  # the day where the user is

    def paint(painter: QPainter, as_paths: bool) -> None:
        painter.fillRect(QRectF(0, 0, width, height), QColor(PRINT.paper))
        _paint_lines(painter, head, MARGIN_MM, width, as_paths)
        _paint_drawing(painter, drawing, content, width, as_paths)
        top = height - MARGIN_MM / 2 - FOOT_MM
        painter.setPen(QPen(QColor(PRINT.ink), 0.25))
        painter.drawLine(QLineF(MARGIN_MM / 2, top, width - MARGIN_MM / 2, top))
        _paint_lines(painter, foot, top, width, as_paths)

    return Sheet(width, height, paint, circuit.title, "; ".join(line.text for line in head))


def _combination(analyst: Analyst, stance: Stance) -> Combination:
    states = states_of(analyst.signal, stance.positions)
    return analyst.combinations[int(analyst.survey(states)[0])]


def _head(circuit: Circuit, stance: Stance, found: Combination) -> tuple[_Line, ...]:
    labels = part_labels(circuit)
    words = found.sound.words(labels) if found.sound else SILENCES.get(found.silent or "", "silent")
    formula = found.sound.formula if found.sound else "silent"
    parts = circuit.part_by_id
    setting = ", ".join(
        f"{parts[part].name}: {parts[part].position_name(position)}"
        for part, position in stance.positions.items()
    )
    return (
        _Line(formula, BIG_MM, 3.0),
        _Line(" · ".join([words, *_figures(found)]), USUAL_MM, 10.0),
        _Line(setting, SMALL_MM, 15.0, quiet=True),
    )


def _figures(found: Combination) -> list[str]:
    said = [f"{reading_text(found.resistance)} at the jack"]
    if found.hum is not None:
        said.append(f"{percent_text(found.hum)} % of the hum")
    if found.resonance:
        peak = decibel_text(found.resonance.peak_db)
        said.append(f"resonance {hertz_text(found.resonance.hertz)}, {peak} dB")
    return said


def _foot(circuit: Circuit, today: str) -> tuple[_Line, ...]:
    job = next(iter(circuit.job.strip().splitlines()), "")
    below = " · ".join(words for words in (job, today, "what the amplifier sees") if words)
    return (
        _Line(circuit.title or "Untitled", 3.2, 4.5),
        _Line(below, SMALL_MM, 10.0, quiet=True),
    )


def _paint_lines(
    painter: QPainter, lines: tuple[_Line, ...], top: float, width: float, as_paths: bool
) -> None:
    room = width - MARGIN_MM
    for line in lines:
        text = shortened(line.text, LONGEST)
        if text:
            wide = min(text_width_mm(text, line.height), room)
            colour = PRINT.quiet if line.quiet else PRINT.ink
            middle = (MARGIN_MM / 2 + wide / 2, top + line.down)
            paint_text(painter, text, middle, line.height, Lettering(colour, as_paths), room)


def _paint_drawing(
    painter: QPainter, drawing: schemdraw.Drawing, content: Box, width: float, as_paths: bool
) -> None:
    painter.save()
    left = (width - content.width) / 2
    painter.translate(left - content.left, MARGIN_MM + HEAD_MM - content.top)
    paint_drawing(painter, drawing, PRINT, as_paths)
    painter.restore()
