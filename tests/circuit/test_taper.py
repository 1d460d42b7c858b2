"""Tapers: the exponential law, tables, loaded pots, end resistance, cut and blended tracks."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.support.quantities import taper_tables
from wirer.circuit.elements import Track, elements_of
from wirer.circuit.model import Circuit, Part
from wirer.circuit.taper import taper_share, track_segments

ROTATIONS = st.floats(0, 1, allow_subnormal=False)
SHARES = st.floats(0.01, 0.49)
LAWS = st.sampled_from(["linear", "audio", "reverse-audio"]) | taper_tables()


def tracks(kind: str, **values: object) -> list[Track]:
    part = Part(id="V", kind=kind, values=values)  # type: ignore[arg-type]
    circuit = Circuit(parts=(part,))
    return [e for e in elements_of(circuit, part) if isinstance(e, Track)]


def track(kind: str = "pot", **values: object) -> Track:
    [only] = tracks(kind, **{"resistance": "100k", **values})
    return only


# f(x) = (e^λx − 1)/(e^λ − 1) with λ = 2 ln(1/mid − 1), worked out apart from the program.
EXPONENTIAL = [
    (0.05, 5.88888, {0.1: 0.00223, 0.25: 0.00933, 0.5: 0.05, 0.75: 0.22728, 0.9: 0.55371}),
    (0.10, 4.39445, {0.1: 0.00690, 0.25: 0.02500, 0.5: 0.10, 0.75: 0.32500, 0.9: 0.63995}),
    (0.15, 3.46920, {0.1: 0.01333, 0.25: 0.04437, 0.5: 0.15, 0.75: 0.40144, 0.9: 0.69744}),
    (0.20, 2.77259, {0.1: 0.02130, 0.25: 0.06667, 0.5: 0.20, 0.75: 0.46667, 0.9: 0.74172}),
]


@pytest.mark.parametrize(("share", "exponent", "values"), EXPONENTIAL)
def test_the_audio_law_is_the_exponential_through_its_share(
    share: float, exponent: float, values: dict[float, float]
) -> None:
    for rotation, expected in values.items():
        found = taper_share("audio", share, rotation)
        assert found == pytest.approx(expected, abs=6e-6)
        law = (math.exp(exponent * rotation) - 1) / (math.exp(exponent) - 1)
        assert found == pytest.approx(law, abs=1e-5)


def test_military_tapers_are_a_tenth_at_half_rotation() -> None:
    """MIL-R-94, from memory: taper C is 10 % and taper F 90 % at half rotation, A is linear."""
    assert taper_share("audio", 0.10, 0.5) == pytest.approx(0.10)
    assert taper_share("reverse-audio", 0.10, 0.5) == pytest.approx(0.90)
    assert taper_share("linear", 0.10, 0.5) == 0.5


# Holmes and van Walstijn, "Potentiometer law modelling and identification", DAFx-19: ohms at 150 of
# 300 degrees and end to end, three logarithmic and three linear pots.
MEASURED_LOG = [(16500, 98140), (13501, 83400), (15156, 100420)]
MEASURED_LINEAR = [(54040, 99450), (48360, 93640), (47140, 95040)]


def test_measured_pots_lie_about_the_laws() -> None:
    """Within 20 % of the nominal curve, as MIL-PRF-94G 3.5.3 allows."""
    for half, whole in MEASURED_LOG:
        assert half / whole == pytest.approx(taper_share("audio", 0.15, 0.5), rel=0.2)
    for half, whole in MEASURED_LINEAR:
        assert half / whole == pytest.approx(taper_share("linear", 0.15, 0.5), rel=0.2)


# The same paper's fit of a maker's 15 % curve; at 0.500 by a straight line, worked out by hand.
FITTED_15A = (
    (0.0, 0.0), (0.05, 0.003), (0.30, 0.063), (0.51, 0.162), (0.70, 0.410), (0.92, 0.958),
    (0.97, 1.0), (1.0, 1.0),
)  # fmt: skip


def test_a_table_is_read_by_straight_lines_and_exactly_at_its_points() -> None:
    assert taper_share(FITTED_15A, 0.15, 0.5) == pytest.approx(0.157, abs=5e-4)
    assert [taper_share(FITTED_15A, 0.15, x) for x, _ in FITTED_15A] == [y for _, y in FITTED_15A]


# Loaded linear pot, output over input: c·r/(r + c − c²), c the share below the wiper and r the load
# over the pot (derived in kenny-peng.com, "linear to logarithmic", whose example is r = 0.12).
LOADED = {
    0.12: {0.10: 0.057143, 0.25: 0.097561, 0.50: 0.162162, 0.75: 0.292683, 0.90: 0.514286},
    0.15: {0.10: 0.062500, 0.25: 0.111111, 0.50: 0.187500, 0.75: 0.333333, 0.90: 0.562500},
}


@pytest.mark.parametrize("load", LOADED)
def test_a_loaded_linear_pot_divides_as_published(load: float) -> None:
    pot = track(taper="linear")
    for rotation, expected in LOADED[load].items():
        below, above = track_segments(pot, rotation)
        shunted = 1 / (1 / below + 1 / (load * 100e3))
        assert shunted / (shunted + above) == pytest.approx(expected, abs=6e-7)


@given(LAWS, SHARES, ROTATIONS)
def test_a_track_has_its_whole_resistance_at_every_rotation(
    taper: object, share: float, rotation: float
) -> None:
    pot = track(taper=taper, share=f"{share}")
    below, above = track_segments(pot, rotation)
    assert min(below, above) >= 0
    assert below + above == pytest.approx(100e3)


@given(LAWS, SHARES)
def test_at_its_stops_a_track_is_a_joint(taper: object, share: float) -> None:
    """Exactly 0 Ω: whatever is left would be taken for a resistor."""
    pot = track(taper=taper, share=f"{share}")
    assert track_segments(pot, 0.0) == (0.0, 100e3)
    assert track_segments(pot, 1.0) == (100e3, 0.0)


@given(LAWS, SHARES, ROTATIONS, ROTATIONS)
def test_clockwise_puts_more_of_the_track_below_the_wiper(
    taper: object, share: float, one: float, other: float
) -> None:
    pot = track(taper=taper, share=f"{share}")
    lower, higher = (track_segments(pot, x)[0] for x in sorted((one, other)))
    assert lower <= higher * (1 + 1e-12)


@given(SHARES, ROTATIONS)
def test_reverse_audio_is_audio_seen_from_the_other_end(share: float, rotation: float) -> None:
    """Common practice: a left-handed player takes the reverse taper."""
    audio = track_segments(track(taper="audio", share=f"{share}"), rotation)
    reverse = track_segments(track(taper="reverse-audio", share=f"{share}"), 1 - rotation)
    assert audio == pytest.approx(reverse[::-1], rel=1e-9, abs=1e-6)


def test_an_end_resistance_stays_at_both_stops() -> None:
    """The paper's pots read about 1.1 Ω at the stop; R is what a meter reads end to end."""
    pot = track(end="1.1")
    assert track_segments(pot, 0.0) == pytest.approx((1.1, 100e3 - 1.1))
    assert track_segments(pot, 1.0) == pytest.approx((100e3 - 1.1, 1.1))
    assert track_segments(pot, 0.5) == pytest.approx((50e3, 50e3))


def test_end_resistances_never_make_more_than_the_track() -> None:
    assert track_segments(track(end="1M"), 0.3) == pytest.approx((50e3, 50e3))


def test_a_cut_track_is_free_at_its_clockwise_end() -> None:
    """Common practice: a no-load pot is out of the circuit when it is turned full up."""
    pot = track("pot-open-end", taper="linear")
    assert track_segments(pot, 1.0) == (math.inf, 0.0)
    assert track_segments(pot, 0.0) == (0.0, math.inf)
    assert track_segments(pot, 0.4) == (pytest.approx(40e3), math.inf)


@given(ROTATIONS)
def test_a_blend_keeps_one_side_full_while_it_turns_down_the_other(rotation: float) -> None:
    """The law min(1, 2 − 2x) and min(1, 2x); common practice for blend and balance pots."""
    a, b = tracks("pot-blend", resistance="100k", taper="audio")
    assert track_segments(a, rotation)[0] == pytest.approx(100e3 * min(1, 2 - 2 * rotation))
    assert track_segments(b, rotation)[0] == pytest.approx(100e3 * min(1, 2 * rotation))


def test_both_sources_of_a_blend_are_joined_in_the_middle() -> None:
    a, b = tracks("pot-blend", resistance="100k")
    assert [track_segments(t, 0.5)[1] for t in (a, b)] == [0, 0]
    assert [track_segments(t, 1.0)[0] for t in (a, b)] == [0, 100e3]
    assert [track_segments(t, 0.0)[0] for t in (a, b)] == [100e3, 0]
