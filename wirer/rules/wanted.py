"""The wanted sounds, read and laid over the settings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from wirer.analysis.combinations import CombinationTable
from wirer.analysis.facts import Mask
from wirer.analysis.sound import BridgeSound, Sound
from wirer.analysis.sound_text import SoundError, read_sound
from wirer.circuit.model import Wanted
from wirer.rules.inspection import Inspection
from wirer.rules.settings import MOST_TERMS, summed_up
from wirer.rules.silence import rows_with

SILENT = "silent"


@dataclass(frozen=True)
class Wish:
    """A wanted sound that could be read: None is silence; the settings that it speaks of."""

    wanted: Wanted
    sound: Sound | None
    rows: Mask


def wishes(inspection: Inspection) -> Iterator[Wish | SoundError]:
    """Yield each wanted sound, or what is wrong with its text."""
    for wanted in inspection.circuit.wanted:
        try:
            sound = read_sound(wanted.sound, inspection.harness)
        except SoundError as error:
            yield error
            continue
        yield Wish(wanted, sound, wanted_rows(inspection, wanted))


def wanted_rows(inspection: Inspection, wanted: Wanted) -> Mask:
    """Return the settings that agree with a wanted one, shape (settings,)."""
    return rows_with(inspection, {part: (position,) for part, position in wanted.setting.items()})


def rows_giving(inspection: Inspection, sound: Sound | None) -> Mask:
    """Return the settings that give a sound (None: silence), shape (settings,)."""
    if sound is None:
        return inspection.silent
    return inspection.over_rows(lambda c: c.sound is not None and c.sound == sound)


def rows_as_wanted(inspection: Inspection) -> Mask:
    """Return the settings for which a sound is wanted that they give, shape (settings,)."""
    rows = np.zeros(len(inspection.table), np.bool_)
    for wish in wishes(inspection):
        if isinstance(wish, Wish):
            rows |= wish.rows & rows_giving(inspection, wish.sound)
    return rows


def wanted_of(table: CombinationTable) -> tuple[Wanted, ...]:
    """Return what every setting gives as a wanted table, each sound by the fewest settings.

    Together the settings named cover the table, so that the circuit agrees with it; a bridge is
    left out, since no formula says it.
    """
    each = [c.sound if c.silent is None else None for c in table.combinations]
    sounds = [each[i] for i in table.which.tolist()]
    wanted: list[Wanted] = []
    for sound in dict.fromkeys(sounds):
        if sound and isinstance(sound.network, BridgeSound):
            continue
        rows = np.array([other == sound for other in sounds], np.bool_)
        text = sound.formula if sound else SILENT
        wanted += [Wanted(setting, text) for setting in _named(rows, table)]
    return tuple(wanted)


def _named(rows: Mask, table: CombinationTable) -> list[Mapping[str, str]]:
    partial = summed_up(rows, table.positions)
    if partial is None:
        return [{}]
    if len(partial) == MOST_TERMS:
        return [table.setting(index) for index in np.flatnonzero(rows).tolist()]
    return list(partial)
