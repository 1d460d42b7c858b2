"""The switches of the catalogue against what every builder knows of them.

"Common practice" marks a fact of the trade that any handbook of guitar wiring gives.
"""

import math
from itertools import pairwise

import pytest

from tests.circuit.catalogue_table import LUGS, POSITIONS, Contacts
from wirer.circuit.catalogue import catalogue_kind
from wirer.circuit.kind import Actuator, Point
from wirer.circuit.model import Part
from wirer.circuit.stance import joined_lugs, positions_in_use

every_switch = pytest.mark.parametrize("kind_id", sorted(POSITIONS))


def actuator_of(kind_id: str) -> Actuator:
    actuator = catalogue_kind(kind_id).actuator
    assert actuator is not None
    return actuator


def contacts(kind_id: str) -> Contacts:
    table = actuator_of(kind_id).contacts
    return {position: set(map(frozenset, groups)) for position, groups in table.items()}


def lug_at(kind_id: str, name: str) -> Point:
    lug = catalogue_kind(kind_id).lug(name)
    assert lug is not None
    return lug.at


def renamed(table: Contacts, names: dict[str, str]) -> list[set[object]]:
    return [{frozenset(map(names.__getitem__, g)) for g in groups} for groups in table.values()]


@every_switch
def test_poles_never_join_each_other(kind_id: str) -> None:
    """Common practice: poles are separate inside the part, and every joint is with a common."""
    for groups in contacts(kind_id).values():
        for group in groups:
            assert len({name[0] for name in group}) == 1
            assert f"{min(group)[0]}0" in group
        assert len(set().union(*groups)) == sum(map(len, groups))


GRIDS = [k for k in POSITIONS if not k.startswith("rotary") and k != "momentary"]


@pytest.mark.parametrize("kind_id", GRIDS)
def test_poles_stand_from_left_to_right_and_the_first_throw_of_a_on_top(kind_id: str) -> None:
    lugs = [lug for lug in catalogue_kind(kind_id).lugs if lug.name[1:].isdigit()]
    firsts = [lug.at[0] for lug in lugs if lug.name[1:] == "1"]
    assert firsts == sorted(firsts)
    highest = min((lug for lug in lugs if lug.name[0] == "A"), key=lambda lug: lug.at[1])
    assert highest.name == "A1"


SLIDES = ["slide-1p2t", "slide-2p2t"]
ROCKERS = ["toggle-1p2t", "toggle-2p2t", "toggle-3p2t", "toggle-4p2t", "toggle-1p-on-off-on",
           "toggle-2p-on-off-on", "toggle-1p-on-both-on", "toggle-2p-on-on-on"]  # fmt: skip


@pytest.mark.parametrize("kind_id", [*SLIDES, *ROCKERS])
def test_a_toggle_rocks_and_a_slide_does_not(kind_id: str) -> None:
    """Common practice: a lever up joins the lower lugs, a slider up joins the upper ones."""
    joined_ys = [
        lug_at(kind_id, name)[1]
        for group in contacts(kind_id)["up"]
        for name in group
        if not name.endswith("0")
    ]
    handle_y = actuator_of(kind_id).moving.places["up"][1]
    assert handle_y < 0
    assert all(y * handle_y > 0 for y in joined_ys) == (kind_id in SLIDES)
    assert all(y * handle_y < 0 for y in joined_ys) == (kind_id in ROCKERS)


def test_the_two_on_on_on_toggles_are_mirror_images_and_not_rotations() -> None:
    """Common practice: half a turn leaves each as it is, exchanging columns gives the other."""
    own, other = contacts("toggle-2p-on-on-on"), contacts("toggle-2p-on-on-on-mirrored")
    half_turn = {"A0": "B0", "A1": "B2", "A2": "B1", "B0": "A0", "B1": "A2", "B2": "A1"}
    columns = {"A0": "B0", "A1": "B1", "A2": "B2", "B0": "A0", "B1": "A1", "B2": "A2"}
    assert renamed(own, half_turn) == list(reversed(list(own.values())))
    assert renamed(other, half_turn) == list(reversed(list(other.values())))
    assert renamed(own, columns) == list(other.values())
    assert own != other


@pytest.mark.parametrize("kind_id", ["toggle-2p-on-on-on", "toggle-2p-on-on-on-mirrored"])
def test_one_pole_of_an_on_on_on_toggle_moves_at_a_time(kind_id: str) -> None:
    up, middle, down = contacts(kind_id).values()
    assert len(up - middle) == len(middle - down) == 1
    assert len(up - down) == 2


@pytest.mark.parametrize("position", ["2", "4"])
def test_between_two_throws_the_lever_of_five_joins_both_and_never_three(position: str) -> None:
    """Common practice: the blade touches two neighbours half-way, never all or the outer pair."""
    for group in contacts("lever-2p5")[position]:
        throws = sorted(int(name[1:]) for name in group if name[1:] != "0")
        assert throws in ([1, 2], [2, 3])


def test_the_odd_positions_of_five_are_those_of_the_lever_of_three() -> None:
    """Common practice: it is the same wafer with two detents more."""
    five, three = contacts("lever-2p5"), contacts("lever-2p3t")
    assert [five[p] for p in "135"] == [three[p] for p in "123"]
    assert LUGS["lever-2p5"] == LUGS["lever-2p3t"]


@pytest.mark.parametrize(
    ("kind_id", "last"), [("lever-2p3t", 3), ("lever-2p4t", 4), ("lever-2p5", 3)]
)
def test_the_commons_of_an_open_frame_lever_lie_at_opposite_ends(kind_id: str, last: int) -> None:
    """Common practice."""
    for pole, end in (("A", max), ("B", min)):
        ys = {n: lug_at(kind_id, f"{pole}{n}")[1] for n in range(last + 1)}
        assert end(ys.values()) == ys[0]
        throws = [ys[n] for n in range(1, last + 1)]
        assert throws == sorted(throws)


@pytest.mark.parametrize("kind_id", ["lever-2p3t", "lever-2p4t", "lever-2p5"])
def test_a_lever_joins_the_throw_at_the_end_opposite_to_its_tip(kind_id: str) -> None:
    """Common practice: pushed one way it joins the throw at the far opposite end."""
    places = actuator_of(kind_id).moving.places
    first, *_, last = actuator_of(kind_id).positions
    assert places[first][1] > 0 > places[last][1]


@pytest.mark.parametrize("kind_id", [k for k in POSITIONS if k.startswith("rotary")])
def test_the_throws_of_a_rotary_run_anticlockwise_from_behind_thirty_degrees_apart(
    kind_id: str,
) -> None:
    """Common practice for the twelve-throw wafer; the poles follow one another round it."""
    throws = [lug for lug in catalogue_kind(kind_id).lugs if lug.name[1:] != "0"]
    angles = [math.degrees(math.atan2(-lug.at[1], lug.at[0])) for lug in throws]
    assert len(throws) == 12
    for before, after in pairwise(angles):
        assert (after - before) % 360 == pytest.approx(30, abs=0.2)


def test_the_stop_of_a_rotary_keeps_its_last_positions_out_of_use() -> None:
    kind = catalogue_kind("rotary-2p6t")
    assert positions_in_use(kind, Part(id="S", kind=kind.id)) == tuple("123456")
    stopped = Part(id="S", kind=kind.id, values={"stop": "4"})
    assert positions_in_use(kind, stopped) == tuple("1234")


def test_a_normally_closed_button_parts_its_lugs_when_pressed() -> None:
    kind = catalogue_kind("momentary")
    closed = Part(id="S", kind=kind.id, values={"normally": "closed"})
    actuator = actuator_of("momentary")
    assert actuator.momentary
    assert joined_lugs(actuator, kind, closed, "rest") == (("S.A0", "S.A1"),)
    assert joined_lugs(actuator, kind, closed, "pressed") == ()
