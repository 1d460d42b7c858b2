"""Wanted sounds are read as people write them and compared by network, not by text."""

from __future__ import annotations

import pytest

from tests.examples.sheets import CORRECT, circuit
from tests.rules.loom import humbucker, two_coils
from wirer.analysis.combinations import combination_table
from wirer.analysis.sound_text import SoundError, read_sound
from wirer.circuit.edits import change_circuit
from wirer.circuit.stance import default_stance
from wirer.rules.check import findings_of
from wirer.rules.inspection import Inspection
from wirer.rules.wanted import wanted_of

SPELLINGS = [
    ("N+B", "N + B"),
    ("B + N", "N + B"),
    ("N || B", "N ∥ B"),
    ("n | b", "N ∥ B"),
    ("Neck // Bridge", "N ∥ B"),
    ("-B", "B"),
    ("−N + B", "N + −B"),
    ("-(N + B)", "N + B"),
    ("(N)", "N"),
]


@pytest.mark.parametrize(("written", "formula"), SPELLINGS)
def test_a_sound_is_read_leniently(written: str, formula: str) -> None:
    sound = read_sound(written, Inspection(two_coils().circuit()).harness)
    assert sound is not None
    assert sound.formula == formula


def test_silence_is_a_sound_that_can_be_wanted() -> None:
    assert read_sound("silent", Inspection(two_coils().circuit()).harness) is None


def test_a_part_with_two_coils_means_both_in_series_in_phase() -> None:
    harness = Inspection(humbucker().circuit()).harness
    assert read_sound("H", harness) == read_sound("H.B + H.A", harness)
    assert read_sound("H", harness) != read_sound("H.A + -H.B", harness)


FAULTS = [
    ("N + X", 5, '"X" is no coil'),
    ("N + ", 4, "the end"),
    ("N + B ∥ N", 7, "brackets"),
    ("(N + B", 1, "never closed"),
    ("N + N", 5, "named twice"),
    ("N B", 1, "no coil"),
    ("+ N", 1, "a coil should stand"),
]


@pytest.mark.parametrize(("written", "character", "words"), FAULTS)
def test_an_error_points_at_the_character(written: str, character: int, words: str) -> None:
    harness = Inspection(two_coils().circuit()).harness
    with pytest.raises(SoundError, match=f"at character {character}: .*{words}"):
        read_sound(written, harness)


def test_a_sound_that_cannot_be_read_is_an_error_of_the_check() -> None:
    [finding] = two_coils().wanted("N + X", S="up").findings("wanted-differs")
    assert finding.severity == "error"
    assert "at character 5" in finding.message


@pytest.mark.parametrize("name", CORRECT)
def test_what_a_circuit_gives_is_what_it_then_has(name: str) -> None:
    plain = circuit(name)
    wanted = wanted_of(combination_table(plain, default_stance(plain)))
    found = findings_of(change_circuit(plain, wanted=wanted))
    assert not [f for f in found if f.rule.startswith("wanted")]
    settings = [w.setting for w in wanted]
    rows = combination_table(plain, default_stance(plain))
    for row in rows:
        assert any(all(row.setting[k] == v for k, v in s.items()) for s in settings)
