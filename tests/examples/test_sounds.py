"""What the examples do: their wanted sounds, how many there are, what a meter reads at the jack.

Readings are closed formulas of the measured values: coils in series add, everything across the
jack is in parallel (Ohm and Kirchhoff; a volume pot at 10 lies across its source, common practice).
"""

from math import log10

import pytest

from tests.examples.sheets import CORRECT, NAMES, circuit, row, sound, table
from tests.support.nodal import transfers
from wirer.analysis.combinations import combination_table
from wirer.analysis.unused import CoilState
from wirer.circuit.edits import remove_parts
from wirer.circuit.model import Circuit
from wirer.circuit.stance import default_stance, turned


def parallel(*ohms: float) -> float:
    return 1 / sum(1 / ohm for ohm in ohms)


SERIES, PARALLEL = NAMES[0], NAMES[1]
SELECTOR = "03-two-humbuckers-selector-split"
FIVE = "04-three-single-coils-lever"
FOUR_POLE = "05-two-humbuckers-four-pole-lever"
ROTARY = "06-one-humbucker-rotary"
BASS = "07-bass-blend-dummy-coil"
SHAPED = "08-volume-shaped-dual-pot"
STARTER = "10-two-single-coils-lever"

# Settings, different sounds, silent settings. Three coils each off, normal or reversed give
# (3³ − 1)/2 = 13 sounds; their on/off slides all off leave 2³ silent settings (combinatorics).
COUNTS = {
    SERIES: (64, (3**3 - 1) // 2, 2**3),
    PARALLEL: (64, (3**3 - 1) // 2, 2**3),
    SELECTOR: (6, 6, 0),
    FIVE: (5, 5, 0),
    FOUR_POLE: (5, 5, 0),
    ROTARY: (8, 4, 4),
    BASS: (2, 2, 0),
    SHAPED: (1, 1, 0),
    STARTER: (3, 3, 0),
}

OFF = {"SN": "down", "SM": "down", "SB": "down"}
READINGS = [
    (SERIES, {}, parallel(7080 + 6850 + 8240, 468e3)),
    (SERIES, {"SM": "down", "PB": "down"}, parallel(7080 + 8240, 468e3)),
    (SERIES, OFF, 0.0),
    (PARALLEL, {}, parallel(7080, 6850, 8240, 468e3)),
    (PARALLEL, {"SM": "down", "PB": "down"}, parallel(7080, 8240, 468e3)),
    (PARALLEL, OFF, 468e3),
    (SELECTOR, {"S": "up", "T": "down"}, parallel(3880 + 3930, 523e3)),
    (SELECTOR, {"S": "middle", "T": "down"}, parallel(3880 + 3930, 4160 + 4210, 523e3)),
    (SELECTOR, {"S": "middle", "T": "up"}, parallel(3880, 4210, 523e3)),
    (SELECTOR, {"S": "down", "T": "up"}, parallel(4210, 523e3)),
    (FIVE, {"S": "1"}, parallel(6630, 243e3)),
    (FIVE, {"S": "2"}, parallel(6630, 6120, 243e3)),
    (FIVE, {"S": "3"}, parallel(6120, 243e3)),
    (FIVE, {"S": "4"}, parallel(6120, 5870, 243e3)),
    (FIVE, {"S": "5"}, parallel(5870, 243e3)),
    (FOUR_POLE, {"S": "1"}, parallel(4270 + 4340, 508e3)),
    (FOUR_POLE, {"S": "2"}, parallel(3780, 4340, 508e3)),
    (FOUR_POLE, {"S": "3"}, parallel(3780 + 3830, 4270 + 4340, 508e3)),
    (FOUR_POLE, {"S": "4"}, parallel(3780 + 3830 + 4270 + 4340, 508e3)),
    (FOUR_POLE, {"S": "5"}, parallel(3780 + 3830, 508e3)),
    (ROTARY, {"S": "1"}, parallel(4080 + 4150, 496e3)),
    (ROTARY, {"S": "2"}, parallel(4080, 496e3, 470e3)),
    (ROTARY, {"S": "3"}, parallel(4080, 4150, 496e3)),
    (ROTARY, {"S": "4"}, parallel(4150, 496e3, 470e3)),
    (ROTARY, {"K": "pressed"}, 0.0),
    # The blend in its middle has both tracks across the pickups: 500k ∥ 500k.
    (BASS, {"Q": "up"}, parallel(parallel(7160, 7930, 250e3) + 3270, 515e3)),
    (BASS, {"Q": "down"}, parallel(7160, 7930, 250e3, 515e3)),
    (SHAPED, {}, parallel(4020 + 3970, 980e3, 330e3)),
    (STARTER, {"S": "1"}, parallel(7000, 250e3)),
    (STARTER, {"S": "2"}, parallel(7000, 6400, 250e3)),
    (STARTER, {"S": "3"}, parallel(6400, 250e3)),
]

SOUNDS = [
    (SERIES, {}, "N + M + B"),
    (SERIES, {"PN": "down"}, "N + −M + −B"),
    (SERIES, OFF, "silent"),
    (PARALLEL, {"SN": "down", "PM": "down"}, "M ∥ −B"),
    (SELECTOR, {"S": "middle", "T": "up"}, "N.A ∥ B.B"),
    (FIVE, {"S": "4"}, "N ∥ M"),
    (FOUR_POLE, {"S": "2"}, "N.A ∥ B.B"),
    (FOUR_POLE, {"S": "3"}, "N ∥ B"),
    (FOUR_POLE, {"S": "4"}, "N + B"),
    (ROTARY, {"S": "1"}, "B"),
    (ROTARY, {"S": "3"}, "B.A ∥ B.B"),
    (BASS, {"Q": "up"}, "(N ∥ B) + −D"),
    (SHAPED, {}, "H"),
    (STARTER, {"S": "2"}, "N ∥ B"),
]

# Common practice: a pair of opposite winding and opposite magnet in phase cancels hum, two coils
# of one winding do not; a dummy coil cancels it for whatever it is in series with.
CANCELS = [
    (SERIES, {"SB": "down"}),
    (SELECTOR, {"T": "down"}),
    (SELECTOR, {"S": "middle", "T": "up"}),
    (FIVE, {"S": "2"}),
    (FIVE, {"S": "4"}),
    (FOUR_POLE, {"S": "2"}),
    (ROTARY, {"S": "3"}),
    (BASS, {"Q": "up"}),
    (STARTER, {"S": "2"}),
]
HUMS = [
    (SERIES, {"SM": "down"}),
    (SELECTOR, {"S": "up", "T": "up"}),
    (FIVE, {"S": "1"}),
    (FIVE, {"S": "3"}),
    (ROTARY, {"S": "4"}),
    (BASS, {"Q": "down"}),
    (STARTER, {"S": "3"}),
]


@pytest.mark.parametrize("name", CORRECT)
def test_each_setting_has_one_wanted_sound_and_gives_it(name: str) -> None:
    for each in table(name):
        wanted = [w for w in circuit(name).wanted if w.setting.items() <= each.setting.items()]
        assert [w.sound for w in wanted] == [sound(each)], each.setting


@pytest.mark.parametrize("name", CORRECT)
def test_how_many_settings_sounds_and_silences(name: str) -> None:
    found = table(name)
    assert (len(found), found.distinct, found.silent) == COUNTS[name]


@pytest.mark.parametrize(("name", "positions", "ohms"), READINGS)
def test_what_the_meter_reads(name: str, positions: dict[str, str], ohms: float) -> None:
    assert row(name, **positions).combination.resistance == pytest.approx(ohms, rel=1e-9)


@pytest.mark.parametrize(("name", "positions", "formula"), SOUNDS)
def test_what_is_heard(name: str, positions: dict[str, str], formula: str) -> None:
    assert sound(row(name, **positions)) == formula


@pytest.mark.parametrize(("name", "positions"), CANCELS)
def test_what_cancels_hum(name: str, positions: dict[str, str]) -> None:
    assert "hum-cancelling" in row(name, **positions).combination.remarks


@pytest.mark.parametrize(("name", "positions"), HUMS)
def test_what_hums(name: str, positions: dict[str, str]) -> None:
    assert row(name, **positions).combination.hum == pytest.approx(1.0)


@pytest.mark.parametrize("name", CORRECT)
def test_no_coil_hangs_from_the_signal(name: str) -> None:
    for each in table(name):
        assert CoilState.HUNG_FROM_SIGNAL not in each.combination.states, each.setting


@pytest.mark.parametrize("rotation", [0.25, 0.5, 0.75])
def test_the_shaped_volume_is_a_linear_track_with_its_resistor_below_the_wiper(
    rotation: float,
) -> None:
    """The meter sees the lower part of the track and 330k, and the upper part with the coils."""
    sheet = circuit(SHAPED)
    stance = turned(sheet, default_stance(sheet), "V", rotation)
    upper, lower = (1 - rotation) * 980e3, rotation * 980e3
    expected = parallel(lower, 330e3, upper + 4020 + 3970)
    reading = combination_table(sheet, stance)[0].combination.resistance
    assert reading == pytest.approx(expected, rel=1e-9)


def test_the_shaped_volume_keeps_the_treble_as_its_notes_say() -> None:
    """By plain nodal analysis, which shares nothing with the program's own."""
    sheet = circuit(SHAPED)
    assert _treble_lost_db(sheet) == pytest.approx(4, abs=0.5)
    assert _treble_lost_db(remove_parts(sheet, ["C"])) > 8


def _treble_lost_db(sheet: Circuit) -> float:
    """By how much more 3 kHz falls than 200 Hz when the volume goes from full to half turn."""
    full = default_stance(sheet)
    half = turned(sheet, full, "V", 0.5)
    low, high = (
        20 * log10(abs(transfers(sheet, full, hz)["H.A"] / transfers(sheet, half, hz)["H.A"]))
        for hz in (200, 3000)
    )
    return high - low


@pytest.mark.parametrize("rotation", [0.0, 0.25, 0.75, 1.0])
def test_the_dummy_coil_takes_the_hum_out_all_over_the_blend(rotation: float) -> None:
    sheet = circuit(BASS)
    stance = turned(sheet, default_stance(sheet), "X", rotation)
    found = combination_table(sheet, stance)
    quiet = next(r for r in found if r.setting["Q"] == "up")
    assert quiet.combination.hum is not None
    assert quiet.combination.hum < 0.1
