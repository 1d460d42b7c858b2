"""Lines to fill in by hand: a name, and room to write."""

from __future__ import annotations

from collections.abc import Sequence

from wirer.drawing.papers.flow import Flow
from wirer.drawing.papers.marks import Rule, Words
from wirer.drawing.papers.typeface import BODY, ascent_mm, width_mm

LINE_MM = 7.0
GAP_MM = 4.0
INK = "#000000"


def put_blanks(flow: Flow, names: Sequence[str]) -> None:
    """Set a line of names, each with a rule to write on, sharing the width evenly."""
    flow.need(LINE_MM)
    baseline = flow.down + LINE_MM - 2.0 - (BODY.line_mm - ascent_mm(BODY))
    share = flow.body.width / len(names)
    for number, name in enumerate(names):
        left = flow.body.left + number * share
        start = left + width_mm(name, BODY) + 1.5
        end = flow.body.left + (number + 1) * share - GAP_MM
        flow.put(Words(name, BODY, left, baseline))
        flow.put(Rule((start, baseline + 0.8), (end, baseline + 0.8), 0.15, INK))
    flow.down += LINE_MM
