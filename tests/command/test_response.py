"""`wirer response`: one setting in plain numbers, or as points of its curve."""

import csv
import io
import json
import re
from itertools import pairwise
from pathlib import Path

import pytest

from tests.command.support import BARITONE, EXAMPLES, printed, refused, written
from tests.support.wiring import Wiring
from wirer.circuit.model import OutputLoad

EVERYTHING_OFF = "SN=off,SM=off,SB=off"


def curve(*arguments: str) -> list[tuple[float, float]]:
    lines = list(csv.DictReader(io.StringIO(printed("response", *arguments, "--csv"))))
    assert list(lines[0]) == ["frequency_hz", "level_db"]
    return [(float(line["frequency_hz"]), float(line["level_db"])) for line in lines]


def plain_coil(folder: Path, level: str = "1") -> str:
    """One coil of 10 kΩ and nothing else into 10 kΩ and no cable."""
    bench = Wiring(OutputLoad(cable="0", input="10k")).part("J", "jack-ts")
    values = {"resistance": "10k", "inductance": "0", "capacitance": "0", "level": level}
    bench.part("N", "coil-2wire", values).join("N.finish J.tip").join("N.start J.sleeve")
    return written(folder, bench.circuit(title="Half"))


def test_the_csv_has_logarithmic_points_over_the_range_of_hearing() -> None:
    points = curve(BARITONE)
    assert len(points) >= 200
    assert (points[0][0], points[-1][0]) == (20.0, 20000.0)
    steps = [b[0] / a[0] for a, b in pairwise(points)]
    assert max(steps) / min(steps) == pytest.approx(1, abs=1e-4)


def test_a_coil_loaded_by_its_own_resistance_gives_half(tmp_path: Path) -> None:
    # Voltage divider: 20·log₁₀(1/2) = −6.0206 dB.
    assert {level for _, level in curve(plain_coil(tmp_path))} == {-6.0206}
    text = printed("response", plain_coil(tmp_path))
    assert "level      -6.0 dB re 1 V at 1 kHz" in text
    assert "meter      10 kΩ at the jack" in text
    assert "resonance  none" in text


def test_the_numbers_are_those_of_the_table() -> None:
    rows = json.loads(printed("combinations", BARITONE, "--json"))["combinations"]
    row = next(row for row in rows if row["sound"] == "N + −M + B")
    setting = ",".join(f"{part}={position}" for part, position in row["setting"].items())
    text = printed("response", BARITONE, "--setting", setting)
    assert "N + −M + B" in text
    assert f"{row['resonance'] / 1000:.2f} kHz" in text
    assert f"{row['peak_db']:+.1f} dB over 100 Hz" in text
    assert f"{row['level_db']:+.1f} dB re 1 V" in text
    assert f"{row['resistance'] / 1000:.1f} kΩ" in text
    level = dict(curve(BARITONE, "--setting", setting))
    top = max(level, key=lambda hertz: level[hertz])
    assert top == pytest.approx(row["resonance"], rel=0.02)


def test_the_document_says_how_switches_stand_and_an_option_throws_them() -> None:
    standing = printed("response", BARITONE)
    assert "N + M + B" in standing
    assert "Neck on/off on" in standing
    thrown = printed("response", BARITONE, "--setting", "Neck on/off=off")
    assert "sound      M + B" in thrown


def test_turning_the_treble_down_takes_treble_away() -> None:
    # A treble cut pot turned down leaves the capacitor across the line: common practice.
    bright = dict(curve(BARITONE))
    dull = dict(curve(BARITONE, "--rotation", "T=0"))
    assert dull[20000.0] < bright[20000.0]
    high = min(bright, key=lambda hertz: abs(hertz - 2000))
    assert dull[high] < bright[high] - 6
    assert dull[20.0] == pytest.approx(bright[20.0], abs=0.5)


def test_a_silent_setting_is_said_and_has_no_curve() -> None:
    text = printed("response", BARITONE, "--setting", EVERYTHING_OFF)
    assert "silent, the output is shorted" in text
    assert "meter     0 Ω at the jack" in text
    said = refused("response", BARITONE, "--setting", EVERYTHING_OFF, "--csv")
    assert said.startswith(f"wirer: {BARITONE}: there is no response: this setting is silent")


def test_coils_that_give_no_voltage_have_no_curve_either(tmp_path: Path) -> None:
    file = plain_coil(tmp_path, level="0")
    assert "level      none" in printed("response", file)
    assert "have the level 0" in refused("response", file, "--csv")


@pytest.mark.parametrize("file", [*map(str, EXAMPLES)], ids=lambda file: Path(file).stem)
def test_every_example_is_printed_in_eighty_columns(file: str) -> None:
    text = printed("response", file, COLUMNS="80")
    assert "at the jack" in text
    assert max(map(len, text.splitlines())) <= 80
    assert not re.search(r"\b(inf|nan|None)\b", text)
