"""The pots and pickups of the catalogue against what every builder knows of them.

"Common practice" marks a fact of the trade that any handbook of guitar wiring gives.
"""

import math

import pytest

from wirer.circuit.catalogue import catalogue_kind
from wirer.circuit.elements import Coil, Resistor, Track, circuit_elements
from wirer.circuit.model import Circuit, Part
from wirer.circuit.taper import track_segments


@pytest.mark.parametrize("kind_id", ["pot", "pot-switch", "pot-open-end"])
def test_from_behind_the_left_lug_of_a_pot_is_its_ten_end(kind_id: str) -> None:
    """Common practice: from the shaft, lugs down, 1 2 3 run from left to right."""
    lugs = {lug.name: lug for lug in catalogue_kind(kind_id).lugs}
    assert lugs["3"].at[0] < lugs["2"].at[0] < lugs["1"].at[0]
    assert lugs["2"].at[1] > 0
    assert [lugs[n].label for n in "123"] == ["0 end", "wiper", "10 end"]
    assert lugs["2"].needed
    assert lugs["can"].holds == 4


def tracks_of(kind_id: str) -> list[Track]:
    circuit = Circuit(parts=(Part(id="V", kind=kind_id, values={"resistance": "500k"}),))
    return [e for e in circuit_elements(circuit) if isinstance(e, Track)]


def test_both_sources_of_a_blend_pot_are_full_in_its_middle() -> None:
    """Common practice: each track conducts over one half and resists over the other."""
    a, b = tracks_of("pot-blend")
    assert catalogue_kind("pot-blend").shafts[0].detent == 0.5
    for rotation, below_a, below_b in [
        (0.0, 500e3, 0.0), (0.25, 500e3, 250e3), (0.5, 500e3, 500e3), (1.0, 0.0, 500e3),
    ]:  # fmt: skip
        assert track_segments(a, rotation)[0] == pytest.approx(below_a)
        assert track_segments(b, rotation)[0] == pytest.approx(below_b)


def test_a_no_load_pot_leaves_its_track_at_ten() -> None:
    """Common practice: at 10 the wiper has left the track, and 1 to 3 reads open everywhere."""
    (track,) = tracks_of("pot-open-end")
    assert track_segments(track, 1.0) == (math.inf, 0.0)
    assert track_segments(track, 0.9)[1] == math.inf


def test_the_tracks_of_a_concentric_pot_turn_apart_and_those_of_a_dual_pot_together() -> None:
    assert [t.shaft for t in tracks_of("pot-concentric")] == ["upper", "lower"]
    assert [t.shaft for t in tracks_of("pot-dual")] == ["shaft", "shaft"]


def coils_of(kind_id: str, values: dict[str, str] | None = None) -> list[Coil]:
    circuit = Circuit(parts=(Part(id="N", kind=kind_id, values=values or {}),))
    return [e for e in circuit_elements(circuit) if isinstance(e, Coil)]


HUMBUCKERS = ["humbucker-4wire", "humbucker-3wire", "humbucker-screened"]


@pytest.mark.parametrize("kind_id", HUMBUCKERS)
def test_the_coils_of_a_humbucker_in_series_add_the_strings_and_cancel_hum(kind_id: str) -> None:
    """Common practice: finish to finish, one magnet turned about.

    Going from A's start to B's start, A is passed from start to finish and B the other way.
    """
    a, b = coils_of(kind_id)
    assert (a.winding * a.pole) == -(b.winding * b.pole)
    assert a.winding == b.winding
    single = coils_of("coil-2wire")[0]
    assert -a.winding * a.pole == single.winding * single.pole


@pytest.mark.parametrize("kind_id", ["humbucker-3wire", "humbucker-screened"])
def test_a_humbucker_on_a_braid_has_its_finishes_joined_inside(kind_id: str) -> None:
    a, b = coils_of(kind_id)
    assert (a.start, b.start) == ("N.core", "N.braid")
    assert a.finish == b.finish == "N.joint"


def test_the_braid_of_a_screened_coil_is_its_cold_end() -> None:
    (coil,) = coils_of("coil-screened")
    assert (coil.start, coil.finish) == ("N.braid", "N.core")


def test_a_tap_divides_inductance_by_the_square_of_turns() -> None:
    """Textbook: L is proportional to the square of the turns, R of one wire to their number."""
    lower, upper = coils_of("coil-tapped", {"resistance": "10k", "inductance": "4", "tap": "0.25"})
    assert (lower.inductance_henry, upper.inductance_henry) == pytest.approx((0.25, 2.25))
    assert (lower.resistance_ohm, upper.resistance_ohm) == pytest.approx((2500, 7500))
    assert (lower.start, lower.finish, upper.finish) == ("N.start", "N.tap", "N.finish")


def test_the_loss_of_a_tapped_coil_lies_across_the_whole_of_it() -> None:
    circuit = Circuit(parts=(Part(id="N", kind="coil-tapped", values={"loss": "1M"}),))
    losses = [e for e in circuit_elements(circuit) if isinstance(e, Resistor)]
    assert [(r.a, r.b, r.ohm) for r in losses] == [("N.start", "N.finish", 1e6)]


def test_a_dummy_coil_hears_no_strings() -> None:
    assert coils_of("dummy-coil")[0].pole == 0
