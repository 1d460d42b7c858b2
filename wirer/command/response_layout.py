"""The response of one setting for people: what stands how, and what comes of it."""

from __future__ import annotations

from collections.abc import Iterator

from wirer.analysis.analyst import Combination
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance
from wirer.command.grid import Column, head_lines, row_lines, widest
from wirer.command.paragraphs import clean, paragraph, text_width
from wirer.papers.combination_cells import REMARKS
from wirer.papers.combination_text import SILENCES, part_labels
from wirer.papers.figures import decibel_text, hertz_text, percent_text, reading_text, short_figure
from wirer.papers.response_text import OCTAVES, levels_db


def response_lines(combination: Combination, circuit: Circuit, stance: Stance) -> Iterator[str]:
    """Yield what one setting does, in plain numbers."""
    rows = {**_stance(circuit, stance), **_result(combination, circuit)}
    names = widest(rows) + 2
    if circuit.title:
        yield from [*paragraph(circuit.title, text_width()), ""]
    for name, text in rows.items():
        first, *rest = paragraph(text, text_width() - names)
        yield from [f"{name:{names}}{first}", *(" " * names + line for line in rest)]
    if not combination.silent and combination.level_db is not None:
        yield ""
        yield from _octaves(combination)


def _stance(circuit: Circuit, stance: Stance) -> dict[str, str]:
    labels = part_labels(circuit)
    parts = circuit.part_by_id
    positions = [f"{labels[p]} {parts[p].position_name(x)}" for p, x in stance.positions.items()]
    rotations = []
    for shaft, rotation in stance.rotations.items():
        part, _, name = shaft.partition(".")
        which = "" if name == "shaft" else f" {name}"
        rotations.append(f"{labels[part]}{which} {rotation:g}")
    rows = {"switches": ", ".join(positions), "knobs": ", ".join(rotations)}
    return {name: text for name, text in rows.items() if text}


def _result(combination: Combination, circuit: Circuit) -> dict[str, str]:
    reading = {"meter": f"{reading_text(combination.resistance)} at the jack"}
    remarks = ", ".join(REMARKS[remark] for remark in combination.remarks)
    said = {"remarks": remarks} if remarks else {}
    if combination.silent or combination.sound is None:
        return {"sound": SILENCES[combination.silent or "open"], **reading, **said}
    sound, words = combination.sound, combination.sound.words(part_labels(circuit))
    resonance, level = combination.resonance, combination.level_db
    peak = f"{decibel_text(resonance.peak_db)} dB over 100 Hz" if resonance else "none"
    return {
        "sound": sound.formula if sound.formula == words else f"{sound.formula} ({words})",
        "hum left": f"{percent_text(combination.hum or 0.0)} %",
        "resonance": hertz_text(resonance.hertz) if resonance else "none",
        "peak": peak,
        "level": "none" if level is None else f"{decibel_text(level)} dB re 1 V at 1 kHz",
        **reading,
        **said,
    }


def _octaves(combination: Combination) -> Iterator[str]:
    levels = levels_db(combination, OCTAVES).tolist()
    columns = [Column(("Hz",), 2)]
    columns += [Column((short_figure(hertz),), 5, right=True, gap=2) for hertz in OCTAVES]
    yield from head_lines(columns)
    yield from map(clean, row_lines(columns, ["dB", *map(decibel_text, levels)]))
