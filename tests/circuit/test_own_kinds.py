"""Kinds that a document carries: what contradicts itself is refused before anything trusts it."""

from typing import Any

import pytest

from tests.circuit.papers import OWN_KIND, document, encoded, own_kind, part
from wirer.circuit.catalogue import catalogue, catalogue_kind, read_kind
from wirer.circuit.document import read_document
from wirer.circuit.errors import DocumentError, KindError
from wirer.circuit.kind_check import kind_problems

RESISTANCE = {"quantity": "resistance", "default": "47k"}
SWITCH = {"positions": ["up", "down"], "contacts": {"up": [["1", "2"]], "down": []}}
TRACK = {"type": "track", "ends": ["1", "2", "3"]}
LUGS3 = [{"name": name, "at": [x, 0]} for x, name in enumerate("123")]
COIL = {"type": "coil", "start": "1", "finish": "2"}


def lines(**fields: Any) -> list[str]:
    raw = document(kinds=[own_kind(**fields)])
    with pytest.raises(DocumentError) as refused:
        read_document(encoded(raw))
    return [problem.text.partition(": ")[2] for problem in refused.value.problems]


def parameter(**fields: Any) -> dict[str, Any]:
    return {"parameters": {"resistance": {**RESISTANCE, **fields}}}


CONTRADICTIONS = [
    ({"id": "Trimmed Load"}, '"Trimmed Load" is not the id of a kind; write for example '
     "slide-2p2t"),
    ({"lugs": [*OWN_KIND["lugs"], {"name": "1", "at": [0, 0]}]}, 'two lugs are named "1"'),
    ({"lugs": [*OWN_KIND["lugs"], {"name": "a.b", "at": [0, 0]}]}, '"a.b" is not a name for a lug; '
     "write letters and figures"),
    ({"lugs": [*OWN_KIND["lugs"], {"name": "", "at": [0, 0]}]}, '"" is not a name for a lug; write '
     "letters and figures"),
    ({"lugs": [*OWN_KIND["lugs"], {"name": "x", "at": [0, 2000]}]}, "the lug x is farther than "
     "1000 mm away"),
    ({"inner": ["1"]}, 'two lugs are named "1"'),
    ({"elements": [{"type": "resistor", "between": ["1", "3"]}]}, 'an element joins the lug "3", '
     "which it does not have"),
    ({"elements": [{"type": "resistor", "between": ["1", "1"]}]}, 'an element joins the lug "1" to '
     "itself"),
    ({"elements": [{"type": "resistor", "between": ["1", "2"], "value": "ohm"}]},
     'it uses the parameter "ohm", which it does not have'),
    ({"elements": [{"type": "capacitor", "between": ["1", "2"], "value": "resistance"}]},
     'the parameter "resistance" is a resistance and should be a capacitance'),
    ({"elements": [{"type": "bond", "lugs": ["1"]}]}, "a bond joins at least two lugs"),
    ({"elements": [{"type": "bond", "lugs": []}]}, "a bond joins at least two lugs"),
    ({"elements": [{**TRACK, "shaft": "knob"}], "lugs": LUGS3}, 'a track turns with the shaft '
     '"knob", which it lacks'),
    ({"elements": [{**TRACK, "law": [[0, 0], [0.5, 2], [1, 1]]}], "lugs": LUGS3,
      "shafts": [{}]}, "the law of a track must have values between 0 and 1"),
    ({"elements": [TRACK, TRACK], "lugs": LUGS3, "shafts": [{}]}, "two tracks have no name"),
    ({"elements": [COIL, COIL]}, "two coils have no name"),
    ({"elements": [{**COIL, "name": "a.b"}]}, '"a.b" is not a name for an element; write letters '
     "and figures"),
    ({"elements": [{**COIL, "name": "A"}, {"type": "coupling", "coils": ["A", "B"]}]},
     "a coupling names a coil that it does not have"),
    ({"elements": [{**COIL, "name": "A"}, {"type": "coupling", "coils": ["A", "A"]}]},
     "a coupling couples a coil with itself"),
    ({"elements": [{**COIL, "turns": "tap"}]},
     'it uses the parameter "tap", which it does not have'),
    ({"elements": [{**COIL, "turns": "tap"}], "parameters": {"tap": {"quantity": "share"}}},
     'the parameter "tap" must be bounded by 0 and 1'),
    ({"elements": [COIL], "parameters": {"pole": {"quantity": "choice", "choices": ["up"]}}},
     'the parameter "pole" may only be none, north, south'),
    ({"elements": [TRACK], "lugs": LUGS3, "shafts": [{}],
      "parameters": {"share": {"quantity": "share", "least": 0, "most": 0.5}}},
     'the parameter "share" must be bounded by 0 and 0.5, themselves excluded'),
    ({"shafts": [{}, {}]}, 'two shafts are named "shaft"'),
    ({"shafts": [{"default": 2}]}, "the rotations of its shaft shaft must be between 0 and 1"),
    ({"shafts": [{"diameter": 0}]}, "the shaft shaft has a place, size or travel that can't be"),
    (parameter(default="4kk7"), 'the parameter "resistance" has a default of which "4kk7" is not a '
     "resistance; write for example 4k7"),
    (parameter(default="4", least=5), 'the parameter "resistance" has a default of which "4" is '
     "out of bounds; it must be at least 5 Ω"),
    (parameter(least=5, most=4, default=None), 'the parameter "resistance" has bounds that nothing '
     "lies between"),
    (parameter(most=float("inf"), default=None),
     'the parameter "resistance" has a bound that is no number'),
    (parameter(usual=["1k", "x"]), 'the parameter "resistance" has a usual range of which "x" is '
     "not a resistance; write for example 4k7"),
    (parameter(usual=["2k", "1k"]), 'the parameter "resistance" has a usual range that ends below '
     "its beginning"),
    ({"actuator": {**SWITCH, "positions": ["up"]}}, "an actuator has between 2 and 100 positions"),
    ({"actuator": {**SWITCH, "positions": ["up", "down", "up"]}}, 'two positions are named "up"'),
    ({"actuator": {**SWITCH, "positions": ["up", "mid", "down"]}}, "its contact table and its "
     "positions do not agree"),
    ({"actuator": {**SWITCH, "contacts": {"up": [["1", "3"]], "down": []}}}, 'position "up" joins '
     'the lug "3", which it does not have'),
    ({"actuator": {"positions": ["a=b", "c"], "contacts": {"a=b": [], "c": []}}}, '"a=b" is not a '
     "name for a position; write letters and figures"),
    ({"actuator": {**SWITCH, "moving": {"places": {"mid": [0, 0, 0]}}}}, "what moves has a place "
     "for a position that there is not"),
    ({"actuator": {**SWITCH, "stop": "stop"}}, 'it uses the parameter "stop", which it does '
     "not have"),
    ({"actuator": {**SWITCH, "stop": "resistance"}}, 'the parameter "resistance" is a resistance '
     "and should be a count"),
    ({"actuator": {**SWITCH, "stop": "stop"}, "parameters": {"resistance": RESISTANCE, "stop":
      {"quantity": "count", "default": "2", "least": 0, "most": 2}}},
     'the parameter "stop" must be bounded by 1 and its 2 positions'),
    ({"actuator": {**SWITCH, "swap": ["normally", "shut"]}, "parameters": {"resistance": RESISTANCE,
      "normally": {"quantity": "choice", "choices": ["open"], "default": "open"}}},
     'its contacts depend on "shut", which "normally" can never be'),
    ({"output": {"tip": "1", "sleeve": "3"}}, 'its output is at the lug "3", which it does not '
     "have"),
    ({"output": {"tip": "1", "sleeve": "1"}}, "the tip and the sleeve of its output are one lug"),
    ({"body": {"form": "rect"}}, "its body has no size"),
    ({"body": {"form": "text", "text": "x"}}, "its body has no size"),
    ({"picture": [{"form": "circle", "radius": -1}]}, "a circle of its picture has a negative "
     "size"),
    ({"picture": [{"form": "line", "points": [[0, 0]]}]}, "a line of its picture has too few "
     "points"),
    ({"picture": [{"form": "rect", "size": [1e9, 1]}]}, "a rect of its picture is farther than "
     "1000 mm away"),
    ({"picture": [{"form": "circle"}] * 2001}, "its picture has more than 2000 shapes"),
    ({"elements": [COIL] * 401}, "it has more than 400 elements"),
]  # fmt: skip


@pytest.mark.parametrize(("fields", "line"), CONTRADICTIONS, ids=[c[1] for c in CONTRADICTIONS])
def test_a_contradictory_kind_is_refused_in_one_line(fields: dict[str, Any], line: str) -> None:
    """Several lines where the contradiction breaks more than one thing; the right one is there."""
    assert line in lines(**fields)


def test_a_kind_without_lugs_is_refused() -> None:
    assert lines(lugs=[], elements=[]) == ["it has no lugs"]


def test_the_place_and_the_kind_are_named() -> None:
    raw = document(kinds=[own_kind(), own_kind(id="other", lugs=[], elements=[])])
    with pytest.raises(DocumentError) as refused:
        read_document(encoded(raw), "job.wirer")
    assert str(refused.value) == "job.wirer: kinds[1]: other: it has no lugs"


def test_two_kinds_of_one_id_are_refused() -> None:
    with pytest.raises(DocumentError, match=r'^kinds\[1\].id: "trimmed-load" is already the id'):
        read_document(encoded(document(kinds=[own_kind(), own_kind()])))


def test_a_kind_that_makes_sense_is_taken_whatever_it_is() -> None:
    """A switch, a pot and a load in one: no such part is in the catalogue, and none is needed."""
    fields = {
        "lugs": [*LUGS3, {"name": "A0", "at": [0, 5]}, {"name": "A1", "at": [5, 5]}],
        "shafts": [{"name": "knob"}],
        "elements": [
            {**TRACK, "shaft": "knob", "name": "t"},
            {"type": "resistor", "between": ["1", "3"], "value": "load"},
        ],
        "actuator": {"positions": ["off", "on"], "contacts": {"off": [], "on": [["A0", "A1"]]}},
        "parameters": {"resistance": RESISTANCE, "load": RESISTANCE},
    }
    own = part(
        "X", "trimmed-load", position="on", rotation={"knob": 0.5}, values={"t.resistance": "1k"}
    )
    circuit, stance = read_document(encoded(document(kinds=[own_kind(**fields)], parts=[own])))
    assert [p.id for p in circuit.switches] == ["X"]
    assert stance.rotations == {"X.knob": 0.5}


def test_a_kind_of_the_catalogue_lies_in_a_file_of_its_name() -> None:
    text = '[body]\nform = "circle"\n'
    with pytest.raises(KindError, match=r"^kind post: Object missing required field `id`"):
        read_kind(text, "post")
    whole = (
        'id = "pole"\nname = "Post"\ngroup = "x"\nletter = "E"\n'
        'lugs = [{name = "1", at = [0, 0]}]\nbody = {form = "circle", radius = 1}\n'
    )
    assert read_kind(whole, "pole").id == "pole"
    with pytest.raises(KindError, match=r'^kind post: its id is "pole"; a kind is named as its'):
        read_kind(whole, "post")
    with pytest.raises(KindError, match=r"^kind post: Invalid value \(at end of document\)$"):
        read_kind("id = ", "post")


@pytest.mark.parametrize("kind_id", ["", "pott", "../pot", "pot.toml", "POT", "a" * 1000])
def test_there_is_no_kind_but_those_of_the_catalogue(kind_id: str) -> None:
    with pytest.raises(KindError, match=r'^there is no kind "'):
        catalogue_kind(kind_id)


def test_every_kind_of_the_catalogue_passes_as_a_documents_own() -> None:
    assert {kind.id: kind_problems(kind) for kind in catalogue() if kind_problems(kind)} == {}
