"""Rules of ground and screens: metal must be on ground, always, and never on the signal."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.rules.finding import Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import lug_name
from wirer.rules.registry import rule


@rule(
    "ungrounded-metal",
    "warning",
    wrong="Exposed or screening metal is not joined to the jack's sleeve in any setting.",
    heard="Buzz that changes when the metal, or a hand near it, is touched.",
    meter="From the metal to the sleeve reads more than 1 Ω.",
    mend="Solder a ground wire to it, or bolt it to metal that is grounded.",
)
def ungrounded_metal(inspection: Inspection) -> Iterator[Remark]:
    """Find metal that is never grounded and never on the signal."""
    for lug in inspection.metals:
        net = inspection.net(lug)
        if inspection.facts.grounded(net).any() or inspection.facts.on_signal(net).any():
            continue
        strings = "string-ground" in inspection.kind(lug.partition(".")[0]).traits
        text = f"{lug_name(inspection.circuit, lug)} is not on ground."
        if strings:
            text = f"The strings are not grounded: {lug_name(inspection.circuit, lug)} is open."
        yield Remark(text, (lug,), None, "error" if strings else None)


@rule(
    "hot-metal",
    "error",
    wrong="Exposed or screening metal is on the signal.",
    heard="Loud hum and buzz, worse when the metal is touched.",
    meter="From the metal to the tip reads near 0 Ω, or a coil's resistance.",
    mend="Give the metal a lead of its own to ground, apart from both ends of the coil; a braided "
    "lead whose braid is one end of the coil can't be reversed or put on top of a series pair.",
)
def hot_metal(inspection: Inspection) -> Iterator[Remark]:
    """Find metal that is on the signal in some setting."""
    for lug in inspection.metals:
        rows = inspection.facts.on_signal(inspection.net(lug))
        if rows.any():
            text = f"{lug_name(inspection.circuit, lug)} is metal and carries signal."
            yield Remark(text, (lug,), rows)
