"""A combination: what settings do to the pickups."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from wirer.analysis.network import Network
from wirer.analysis.resonance import Resonance
from wirer.analysis.sound import BridgeSound, Sound
from wirer.analysis.unused import CoilState
from wirer.analysis.voice import AUDIBLE, Voice

Silence = Literal["shorted", "faint", "open"]

SHORT_OHM = 1.0
NEARLY = 0.1
"""Below this share of what they would add up to, signals or hum count as cancelled."""


@dataclass(frozen=True)
class Combination:
    """What settings do to the pickups. Every value is in SI units or dB.

    `weights` and `states` are by coil, in part order; `sound`, `hum`, `resonance` and `level_db`
    are None in silence. `voice` is the solved network (None: nothing carries signal), `reversed`
    the branches that lie the other way round in it.
    """

    sound: Sound | None
    weights: tuple[float, ...]
    hum: float | None
    silent: Silence | None
    resistance: float | None
    states: tuple[CoilState, ...]
    voice: Voice | None
    network: Network | None
    reversed: frozenset[int]

    @property
    def resonance(self) -> Resonance | None:
        """Where the response peaks, if it does."""
        return self.voice.resonance if self.voice and not self.silent else None

    @property
    def level_db(self) -> float | None:
        """The response at 1 kHz in dB re 1 V."""
        return self.voice.level_db if self.voice and not self.silent else None

    @property
    def identity(self) -> object:
        """What makes two combinations the same: sound and loads, or the kind of silence."""
        if self.silent:
            return self.silent
        return self.sound, self.voice.loads if self.voice else ()

    @cached_property
    def remarks(self) -> tuple[str, ...]:
        """The remarks of the table's JSON, in its order."""
        hung = CoilState.HUNG_FROM_SIGNAL in self.states
        if self.silent or self.sound is None:
            return ("hung-from-signal",) if hung else ()
        # Shorted turns of a tapped coil oppose the others, which is no matter of wiring.
        weights = [
            weight
            for weight, state in zip(self.weights, self.states, strict=True)
            if abs(weight) >= AUDIBLE and state != CoilState.SHORTED
        ]
        found = {
            "hum-cancelling": len(self.sound.coils) > 1 and (self.hum or 0.0) < NEARLY,
            "out-of-phase": min(weights, default=0) < 0 < max(weights, default=0),
            "cancelling": abs(sum(weights)) < NEARLY * sum(map(abs, weights)),
            "hung-from-signal": hung,
            "bridge": isinstance(self.sound.network, BridgeSound),
        }
        return tuple(name for name, holds in found.items() if holds)


def silence_of(
    weights: Sequence[float], resistance: float | None, *, reaching: bool
) -> Silence | None:
    """Return how a setting is silent, or None; `reaching` if a coil has a path to the tip."""
    if any(abs(weight) >= AUDIBLE for weight in weights):
        return None
    if resistance is not None and resistance < SHORT_OHM:
        return "shorted"
    return "faint" if reaching else "open"
