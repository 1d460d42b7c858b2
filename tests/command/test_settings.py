"""`--setting` and `--rotation`: switches thrown and shafts turned by the names that people use."""

import pytest

from tests.support.labels import labelled
from tests.support.wiring import Wiring, stance_of
from wirer.circuit.errors import WirerError
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance
from wirer.command.settings import stance_with


@pytest.fixture(scope="module")
def circuit() -> Circuit:
    bench = Wiring().part("S1", "toggle-1p2t").part("S2", "toggle-2p-on-off-on")
    bench.part("S3", "toggle-1p2t").part("R", "rotary-3p4t", stop="3")
    bench.part("V", "pot").part("T", "pot-concentric")
    labels = {"S1": "Neck on/off", "S2": "Mini", "S3": "mini", "V": "Volume", "T": "Tone, both"}
    return labelled(bench.circuit(), labels, {"S1": {"up": "on", "down": "off, bridged"}})


def stance(circuit: Circuit, *settings: str, rotations: tuple[str, ...] = ()) -> Stance:
    return stance_with(circuit, stance_of(circuit), settings, rotations)


def complaint(circuit: Circuit, *settings: str, rotations: tuple[str, ...] = ()) -> str:
    with pytest.raises(WirerError) as refused:
        stance(circuit, *settings, rotations=rotations)
    return str(refused.value)


@pytest.mark.parametrize(
    "setting",
    ["S1=down", "S1=off, bridged", "neck  ON/off = Off, Bridged", "S1 = down,S2=up"],
)
def test_switches_and_positions_go_by_id_or_label(circuit: Circuit, setting: str) -> None:
    assert stance(circuit, setting).positions["S1"] == "down"


def test_what_is_not_named_stands_as_it_stood(circuit: Circuit) -> None:
    left = stance_of(circuit, {"S2": "middle", "S3": "down"}, {"V": 0.3})
    found = stance_with(circuit, left, ["S1=off, bridged,R=2"], ["T.lower=0.5"])
    assert dict(found.positions) == {"S1": "down", "S2": "middle", "S3": "down", "R": "2"}
    assert dict(found.rotations) == {"V.shaft": 0.3, "T.upper": 1.0, "T.lower": 0.5}


def test_several_options_add_up(circuit: Circuit) -> None:
    assert stance(circuit, "S1=down", "R=2").positions["R"] == "2"


@pytest.mark.parametrize("rotation", ["V=0.25", "V.shaft=.25", "Volume=25e-2", "volume = 0.25"])
def test_shafts_go_by_part_shaft_or_label(circuit: Circuit, rotation: str) -> None:
    assert stance(circuit, rotations=(rotation,)).rotations["V.shaft"] == 0.25


@pytest.mark.parametrize(
    ("setting", "said"),
    [
        ("S9=up", 'there is no switch "S9"; there are S1 (Neck on/off), '),
        ("Neck on=up", 'there is no switch "Neck on"; is it Neck on/off?'),
        ("qqq=up", "there are S1 (Neck on/off), S2 (Mini), S3 (mini), R"),
        ("S2=midle", '--setting S2: there is no position "midle"; is it middle?'),
        ("S1=xyz", "there are up (on), down (off, bridged)"),
        ("R=4", 'there is no position "4"; there are 1, 2, 3'),
        ("MINI=up", '"MINI" is the label of S2 and S3; write one of these'),
        ("S1", '"S1" is no pair; write for example S1=up'),
        ("S1=", '"S1=" is no pair'),
        ("=up", '"=up" is no pair'),
        ("", '"" is no pair'),
        ("S1=up,,S2=up", 'there is no position "up,"'),
        ("S1=up,S1=down", '"S1" is given twice'),
        ("Neck on/off=off", '--setting S1: there is no position "off"; is it off, bridged?'),
        ("S1=up,Neck on/off=on", '"S1" is given twice'),
        ("V=0.5", 'there is no switch "V"'),
    ],
)
def test_a_wrong_setting_is_answered_with_what_would_be_right(
    circuit: Circuit, setting: str, said: str
) -> None:
    assert said in complaint(circuit, setting)


@pytest.mark.parametrize(
    ("rotation", "said"),
    [
        ("V=2", "rotation 2 of V.shaft is not between 0 and 1"),
        ("V=nan", "rotation nan of V.shaft is not between 0 and 1"),
        ("V=half", '"half" of V is no rotation; write a number from 0 to 1, such as 0.5'),
        ("W=0.5", 'there is no shaft "W"; there are V.shaft (Volume), T.upper (Tone, both upper)'),
        ("T=0.5", 'there is no shaft "T"'),
        ("T.uper=0.5", "is it T.upper or T.lower?"),
        ("V=0.5,V.shaft=0.6", '"V.shaft" is given twice'),
        ("S1=0.5", 'there is no shaft "S1"'),
    ],
)
def test_a_wrong_rotation_is_answered_with_what_would_be_right(
    circuit: Circuit, rotation: str, said: str
) -> None:
    assert said in complaint(circuit, rotations=(rotation,))


def test_a_circuit_that_has_none_says_so() -> None:
    assert "the circuit has none" in complaint(Circuit(), "S1=up")
    assert "the circuit has none" in complaint(Circuit(), rotations=("V=1",))
