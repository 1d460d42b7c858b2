"""Rules of shorts: what is joined that should not be."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.rules.continuity import shorted_throughout
from wirer.rules.finding import Remark
from wirer.rules.inspection import Inspection
from wirer.rules.registry import rule
from wirer.rules.silence import deliberate_silence


@rule(
    "output-shorted",
    "warning",
    wrong="The jack's tip is joined to its sleeve.",
    heard="Dead silence.",
    meter="Tip to sleeve reads under 1 Ω.",
    mend="Find the wire, contact or solder bridge that joins hot to ground.",
)
def output_shorted(inspection: Inspection) -> Iterator[Remark]:
    """Find the output shorted, in all settings or in some."""
    shorted = inspection.over_rows(lambda c: c.silent == "shorted")
    if not shorted.any():
        return
    jack = inspection.circuit.jacks[0]
    output = inspection.circuit.kind_of(jack).output
    places = (f"{jack.id}.{output.tip}", f"{jack.id}.{output.sleeve}") if output else (jack.id,)
    if shorted_throughout(inspection):
        text = f"Hot is joined to ground at {jack.name}, whatever the switches do."
        yield Remark(text, places, None, "error")
        return
    meant = deliberate_silence(inspection)
    if (shorted & ~meant).any():
        yield Remark("Hot is joined to ground: the output is shorted.", places, shorted & ~meant)
    if (shorted & meant).any():
        text = "With everything switched off the output is shorted: dead quiet."
        yield Remark(text, places, shorted & meant, "note")
