"""The present setting in words."""

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.window.conftest import EXAMPLES
from wirer.window import present
from wirer.window.messages import Answer
from wirer.window.window import Window


def shown(window: Window) -> str:
    """Everything that the panel says."""
    panel = window.setting_panel
    labels = [panel.headline, panel.formula, panel.character, panel.warnings, panel.buzz]
    texts = [label.text() for label in labels if label.isVisibleTo(panel)]
    tiles = [tile.accessibleName() for tile in panel._tiles if tile.isVisibleTo(panel)]
    rows = [
        f"{name.text()}: {value.text()}" for name, value in panel._rows if name.isVisibleTo(panel)
    ]
    return "\n".join([*texts, *tiles, *rows])


def test_it_says_what_sounds_how_it_hums_and_what_a_meter_reads(series: Window) -> None:
    text = shown(series)
    assert "Neck in series with Middle in series with Bridge" in text
    assert "N + M + B" in text
    assert "In series: fuller and louder" in text
    assert "Mains hum: 33 % cancels in part" in text
    assert "Meter at the jack: 21.2 kΩ" in text
    assert "Resonance: " in text
    assert "Level: " in text
    assert "Buzz is another matter" in text


def test_it_follows_the_switches_at_once(series: Window) -> None:
    series.session.take_setting({"SN": "down", "SB": "down"})
    text = shown(series)
    assert text.startswith("Middle\n")
    assert "One coil on its own" in text
    assert "Neck: off" in text
    assert "Mains hum: 100 % hums in full" in text


def test_coils_against_each_other_are_said_to_be_thin(series: Window) -> None:
    series.session.take_setting({"PB": "down"})
    assert "thin, hollow and quieter" in shown(series)
    assert "Bridge: 90 %, reversed" in shown(series)


def test_silence_is_explained_and_leaves_no_figures_behind(series: Window) -> None:
    series.session.take_setting({"SN": "down", "SM": "down", "SB": "down"})
    text = shown(series)
    assert "Silent: the output is shorted" in text
    assert "Meter at the jack: 0 Ω" in text
    assert "Resonance" not in text
    assert "Buzz" not in text
    series.session.take_setting({"SN": "up"})
    assert "Resonance" in shown(series)


def test_a_knob_changes_the_figures_at_once(small: Window) -> None:
    before = shown(small)
    small.session.turn("V.shaft", 0.5)
    assert shown(small) != before


def test_a_hung_coil_is_told_as_buzz_not_hum(opened: Callable[[Path], Window]) -> None:
    """A coil joined to hot by one end is an antenna (common practice)."""
    window = opened(next(EXAMPLES.glob("09*.wirer")))
    assert "Middle hangs from hot by one end and works as an antenna" in shown(window)
    assert "Middle: off, hangs from hot (buzzes more)" in shown(window)


def test_one_coil_of_a_humbucker_and_both(opened: Callable[[Path], Window]) -> None:
    """Split: quieter and brighter than both coils (common practice)."""
    window = opened(next(EXAMPLES.glob("06*.wirer")))
    said = set()
    part = window.session.circuit.switches[0].id
    for _ in range(4):
        said.add(window.setting_panel.character.text())
        window.session.throw_on(part, 1, around=True)
    assert "Both coils of one pickup: full." in said
    assert "One coil of two: quieter and brighter than both." in said


def test_a_circuit_too_large_to_work_out_at_once_waits_for_its_table(
    small: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(present, "QUICK_BRANCHES", 0)
    worker = small._worker
    worker.is_prompt = False  # type: ignore[attr-defined]
    small.session.turn("V.shaft", 0.5)
    assert small.setting_panel.headline.text() == "Being worked out…"
    worker.deliver()  # type: ignore[attr-defined]
    assert small.setting_panel.headline.text() == "Neck"
    small.session.turn("V.shaft", 0.4)
    token = small.studies.state("table").token
    worker.answered.emit(Answer(token, "refused", "there are too many settings"))  # type: ignore[attr-defined]
    assert small.setting_panel.headline.text() == "there are too many settings"


def test_long_headlines_are_written_smaller(small: Window) -> None:
    panel = small.setting_panel
    panel.show_nothing("short")
    large = panel.headline.font().pointSizeF()
    panel.show_nothing("a long sound in series with " * 5)
    assert panel.headline.font().pointSizeF() < large
