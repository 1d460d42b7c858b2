"""`wirer draw` and `wirer netlist`: what goes to the bench and to a simulator."""

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from tests.command.support import BARITONE, environment, printed, refused, start

SIGNATURES = {"png": b"\x89PNG\r\n\x1a\n", "pdf": b"%PDF-", "svg": b"<?xml"}
"""How files of these kinds begin: ISO/IEC 15948, ISO 32000, W3C XML 1.0."""


@pytest.mark.qt
@pytest.mark.parametrize("suffix", SIGNATURES)
def test_the_wiring_is_drawn_without_a_display(suffix: str, tmp_path: Path) -> None:
    out = tmp_path / f"job.{suffix.upper() if suffix == 'png' else suffix}"
    hidden = {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}
    bare = {name: text for name, text in environment().items() if name not in hidden}
    ran = start("draw", BARITONE, "-o", str(out), env=bare)
    said = ran.communicate(timeout=120)
    assert (ran.returncode, *said) == (0, b"", b"")
    assert out.read_bytes().startswith(SIGNATURES[suffix])
    assert len(out.read_bytes()) > 10_000


@pytest.mark.usefixtures("qapp")
def test_a_setting_is_drawn_as_thrown(tmp_path: Path) -> None:
    pictures = []
    for name, setting in (("on", "SN=on"), ("off", "SN=off"), ("again", "SN=up")):
        out = tmp_path / f"{name}.svg"
        printed("draw", BARITONE, "-o", str(out), "--setting", setting)
        ET.parse(out)
        pictures.append(out.read_bytes())
    assert pictures[0] == pictures[2] != pictures[1]


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("suffix", SIGNATURES)
def test_one_combination_is_drawn(suffix: str, tmp_path: Path) -> None:
    out = tmp_path / f"a.{suffix}"
    printed("draw", BARITONE, "-o", str(out), "--view", "combination")
    assert out.read_bytes().startswith(SIGNATURES[suffix])


@pytest.mark.usefixtures("qapp")
def test_the_combination_is_that_of_the_setting(tmp_path: Path) -> None:
    out = tmp_path / "a.svg"
    setting = "SM=off,SB=on,PB=reversed"
    printed("draw", BARITONE, "-o", str(out), "--view", "combination", "--setting", setting)
    said = ET.parse(out).getroot().find("{http://www.w3.org/2000/svg}desc")
    assert said is not None
    assert (said.text or "").startswith("N + −B; Neck in series with Bridge reversed")


@pytest.mark.usefixtures("qapp")
def test_silence_is_drawn_as_such(tmp_path: Path) -> None:
    out = tmp_path / "a.svg"
    off = "SN=off,SM=off,SB=off"
    printed("draw", BARITONE, "-o", str(out), "--view", "combination", "--setting", off)
    assert "the output is shorted" in out.read_text(encoding="utf-8")


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("suffix", SIGNATURES)
def test_the_schematic_is_drawn(suffix: str, tmp_path: Path) -> None:
    out = tmp_path / f"a.{suffix}"
    printed("draw", BARITONE, "-o", str(out), "--view", "schematic")
    assert out.read_bytes().startswith(SIGNATURES[suffix])


@pytest.mark.usefixtures("qapp")
def test_the_schematic_shows_the_setting(tmp_path: Path) -> None:
    pictures = []
    for name, setting in (("on", "SN=on"), ("off", "SN=off"), ("again", "SN=up")):
        out = tmp_path / f"{name}.svg"
        printed("draw", BARITONE, "-o", str(out), "--setting", setting, "--view", "schematic")
        pictures.append(out.read_bytes())
    assert pictures[0] == pictures[2] != pictures[1]


def test_other_files_and_places_are_declined(tmp_path: Path) -> None:
    assert "a.gif: a drawing's name ends in one of .svg, .pdf, .png" in refused(
        "draw", BARITONE, "-o", str(tmp_path / "a.gif")
    )
    assert "invalid value for '--view'" in refused("draw", BARITONE, "-o", "a.svg", "--view", "x")
    assert "missing option '-o'" in refused("draw", BARITONE)
    assert "there is no switch" in refused("draw", BARITONE, "-o", "a.svg", "--setting", "Q=up")


@pytest.mark.usefixtures("qapp")
def test_a_folder_that_is_not_there_can_not_be_drawn_into(tmp_path: Path) -> None:
    out = tmp_path / "nowhere" / "a.svg"
    said = refused("draw", BARITONE, "-o", str(out))
    assert said.startswith(f"wirer: {out}: can't be written: ")


def test_the_netlist_is_a_deck_of_the_setting() -> None:
    # A SPICE deck begins with its title and ends with .end (the simulator's own manual).
    deck = printed("netlist", BARITONE).splitlines()
    assert "Baritone, three coils in series" in deck[0]
    assert deck[-1] == ".end"
    thrown = printed("netlist", BARITONE, "--setting", "Neck on/off=off").splitlines()
    assert thrown != deck
    assert "there is no position" in refused("netlist", BARITONE, "--setting", "SN=sideways")
