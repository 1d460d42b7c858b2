"""The present combination said to a player and a builder, in sounds rather than circuits."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from wirer.analysis.analyst import Combination
from wirer.analysis.sound import BridgeSound, CoilSound
from wirer.analysis.unused import CoilState
from wirer.papers.figures import decibel_text, hertz_text, percent_text, reading_text


@dataclass(frozen=True)
class Phrase:
    """A fact with its name, what it is, and what that means (which may be empty)."""

    name: str
    value: str
    meaning: str = ""


HEADLINES = {
    "shorted": "Silent: the output is shorted",
    "open": "Silent: nothing reaches the jack",
    "faint": "Silent: next to nothing reaches the jack",
}
SILENT_MEANINGS = {
    "shorted": "Hot is joined to ground. Dead quiet, as a standby should be.",
    "open": "No coil has a path to the jack. The line hangs open and may hiss or hum.",
    "faint": "A coil still has a path, but what arrives can't be heard.",
}
CHARACTERS = {
    "single": "One coil on its own: clear.",
    "split": "One coil of two: quieter and brighter than both.",
    "series": "In series: fuller and louder, with less treble.",
    "parallel": "In parallel: clear, about as loud as one alone.",
    "mixed": "Series and parallel mixed: between full and clear.",
    "bridge": "A bridge: neither series nor parallel; judge it by ear.",
    "whole": "Both coils of one pickup: full.",
}
OUT_OF_PHASE = "Out of phase: thin, hollow and quieter, since the coils work against each other."
CANCELLING = "The coils nearly cancel: very little is left but what differs between them."
HUNG = (
    "hangs from hot by one end and works as an antenna: the sound is normal, the buzz is more. "
    "Screening helps, hum-cancelling does not."
)
STATES = {
    CoilState.FREE: "off, both ends free",
    CoilState.SHORTED: "off, shorted on itself",
    CoilState.HUNG_FROM_GROUND: "off, hangs from ground (quiet)",
    CoilState.HUNG_FROM_SIGNAL: "off, hangs from hot (buzzes more)",
}
BUZZ = "Buzz is another matter: screens and grounds keep it out, not coils."


def headline(combination: Combination, labels: Mapping[str, str]) -> str:
    """Return the sound in words, or what kind of silence it is."""
    if combination.sound is None:
        return HEADLINES.get(combination.silent or "", "Silent")
    return combination.sound.words(labels)


def formula(combination: Combination) -> str:
    """Return the sound in signs; an empty text in silence."""
    return combination.sound.formula if combination.sound else ""


def character(combination: Combination) -> str:
    """Return what it sounds like, in a sentence or two."""
    if combination.sound is None:
        return SILENT_MEANINGS.get(combination.silent or "", "")
    sentences = [CHARACTERS[_shape(combination)]]
    if "cancelling" in combination.remarks:
        sentences.append(CANCELLING)
    elif "out-of-phase" in combination.remarks:
        sentences.append(OUT_OF_PHASE)
    return " ".join(sentences)


def _shape(combination: Combination) -> str:
    """Return how the pickups, not the coils within them, are joined."""
    sound = combination.sound
    if sound is None or isinstance(sound.network, BridgeSound):
        return "bridge"
    if isinstance(sound.network, CoilSound):
        return "split" if "." in sound.network.name else "single"
    signs = sound.formula
    if "(" in signs:
        return "mixed"
    if "∥" in signs:
        return "parallel"
    return "series" if "+" in signs else "whole"


def figures(combination: Combination) -> tuple[Phrase, ...]:
    """Return hum, reading, resonance and level."""
    reading = Phrase("Meter at the jack", reading_text(combination.resistance))
    if combination.sound is None:
        return (reading,)
    resonance = combination.resonance
    peak = "none" if resonance is None else hertz_text(resonance.hertz)
    height = "" if resonance is None else _height(resonance.peak_db)
    level = "–" if combination.level_db is None else _level(combination.level_db)
    return (
        Phrase("Mains hum", _hum_value(combination.hum), _hum_meaning(combination.hum)),
        reading,
        Phrase("Resonance", peak, height),
        Phrase("Level", level, "at 1 kHz"),
    )


def _level(level_db: float) -> str:
    return f"{decibel_text(level_db)} dB".replace("-", "−")


def _height(peak_db: float) -> str:
    """Return how far a peak stands over what is at 100 Hz."""
    side = "over" if peak_db >= 0 else "under"
    return f"{abs(peak_db):.1f} dB {side} the lows"


def _hum_value(hum: float | None) -> str:
    return "–" if hum is None else f"{percent_text(hum)} %"


def _hum_meaning(hum: float | None) -> str:
    if hum is None:
        return ""
    if hum < 0.1:
        return "cancels"
    return "hums in full" if hum > 0.9 else "cancels in part"


def coils(
    names: Sequence[str], combination: Combination, labels: Mapping[str, str]
) -> Iterator[Phrase]:
    """Yield what each coil does, in part order."""
    for name, weight, state in zip(names, combination.weights, combination.states, strict=True):
        part, _, own = name.partition(".")
        called = f"{labels.get(part, part)} {own}".strip()
        if state != CoilState.LIVE:
            yield Phrase(called, STATES[state])
        elif abs(weight) < 1e-3:
            yield Phrase(called, "joined, but not heard")
        else:
            yield Phrase(called, f"{percent_text(abs(weight))} %", "reversed" if weight < 0 else "")


def warnings(
    names: Sequence[str], combination: Combination, labels: Mapping[str, str]
) -> Iterator[str]:
    """Yield what a builder should know besides: coils that work as antennas."""
    for name, state in zip(names, combination.states, strict=True):
        if state == CoilState.HUNG_FROM_SIGNAL:
            part, _, own = name.partition(".")
            yield f"{labels.get(part, part)} {own}".strip() + f" {HUNG}"
