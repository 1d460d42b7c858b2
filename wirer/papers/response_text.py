"""The response of one setting as figures: its curve as CSV, its level at the octaves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from wirer.analysis.analyst import Combination
from wirer.analysis.resonance import HIGH_HERTZ, LOW_HERTZ
from wirer.analysis.system import Real
from wirer.circuit.errors import WirerError
from wirer.papers.combination_text import SILENCES, SILENT

POINTS = 301
"""A hundred a decade over three decades."""

OCTAVES = (31.5, 63.0, 125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0, 16000.0)
"""Nominal octave mid-band frequencies of IEC 61260 in Hz."""


class NoResponseError(WirerError):
    """A setting of which there is no response: nothing sounds in it."""


def levels_db(combination: Combination, hertz: Sequence[float] | Real) -> Real:
    """Return the response in dB re 1 V, shape (frequencies,).

    Raises
    ------
    NoResponseError
        The setting is silent, or no coil that sounds gives any voltage.
    """
    if combination.silent or combination.voice is None:
        words = SILENCES.get(combination.silent or "", SILENT)
        raise NoResponseError(f"there is no response: this setting is {words}; choose another one")
    volts = combination.voice.response(np.asarray(hertz, np.float64))
    if not np.all(volts > 0):
        raise NoResponseError(
            'there is no response: the sounding coils have the level 0; write for example "1"'
        )
    return np.asarray(20 * np.log10(volts), np.float64)


def response_csv(combination: Combination) -> Iterator[str]:
    """Yield the curve as CSV (`frequency_hz,level_db`) at logarithmic points, 20 Hz to 20 kHz.

    Raises
    ------
    NoResponseError
        There is none.
    """
    hertz = np.geomspace(LOW_HERTZ, HIGH_HERTZ, POINTS)
    levels = levels_db(combination, hertz)
    yield "frequency_hz,level_db\n"
    for frequency, level in zip(hertz.tolist(), levels.tolist(), strict=True):
        yield f"{frequency:.7g},{round(level, 4) + 0.0}\n"
