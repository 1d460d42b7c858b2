"""Every refusal of a document: the place as a path or a line, and what would be right."""

import pickle
from typing import Any

import pytest

from tests.circuit.papers import EXAMPLE, document, encoded, own_kind, part, wire
from wirer.circuit.document import LARGEST_BYTES, read_document
from wirer.circuit.errors import DocumentError


def refusal(data: bytes) -> DocumentError:
    with pytest.raises(DocumentError) as refused:
        read_document(data, "job.wirer")
    return refused.value


def lines(raw: Any) -> list[str]:
    return [str(problem) for problem in refusal(encoded(raw)).problems]


NOT_JSON = [
    (b"", "is empty"),
    (b" \n\t", "is empty"),
    (b"\xef\xbb\xbf", "is empty"),
    (b"\xff\xfe{\x00", "line 1: is not UTF-8 text"),
    (b'{"format":\n"w\xffrer"}', "line 2: is not UTF-8 text"),
    (b"{", "line 1, column 2: is not JSON: expecting property name enclosed in double quotes; "
     "the file ends early, so look for an older copy"),
    (b'{"format": "wirer" "a": 1}', "line 1, column 20: is not JSON: expecting ',' delimiter"),
    (b'{"format": "wirer",\n "version": }', "line 2, column 13: is not JSON: expecting value"),
    ('{"title": "Ω∥µ", x}'.encode(), "line 1, column 18: is not JSON: expecting property name "
     "enclosed in double quotes"),
    (b'\xef\xbb\xbf{"a" 1}', "line 1, column 6: is not JSON: expecting ':' delimiter"),
    (b'{"title": "half', "line 1, column 11: is not JSON: unterminated string; the file "
     "ends early, so look for an older copy"),
    (b'{"title": "a\tb"}', "line 1, column 13: is not JSON: invalid control character at"),
    (b"{} {}", "line 1, column 4: is not JSON: extra data"),
    (b'{"title": "NaN", "version":\n NaN}', "line 2, column 2: is not JSON: NaN is no number"),
    (b'{"at": [0, -Infinity]}', "line 1, column 12: is not JSON: -Infinity is no number"),
    (b'{"title": "\\ud83d"}', "has half of a surrogate pair, which is no character"),
    (b"[" * 100_000, "is nested too deeply"),
    (b'{"kinds":' * 100_000, "is nested too deeply"),
    (b'{"version":' + b"9" * 5000 + b"}", "has a number with more figures than any quantity"),
    (b"1" + b" " * LARGEST_BYTES, "is larger than 64 MiB, the most that is read"),
]  # fmt: skip


@pytest.mark.parametrize(("data", "line"), NOT_JSON, ids=[line for _, line in NOT_JSON])
def test_what_is_no_json_is_refused_with_line_and_column(data: bytes, line: str) -> None:
    assert str(refusal(data)) == f"job.wirer: {line}"


# RFC 8259 section 4: names in an object should be unique, what a reader makes of doubles is open.
@pytest.mark.parametrize(
    ("data", "line"),
    [
        (
            b'{"format":"wirer","version":1,"title":"a","parts":[],"wires":[],"title":"b"}',
            '"title" stands twice in one object; leave one of them out',
        ),
        (
            EXAMPLE.replace('"flip": false', '"at": [0, 0]').encode(),
            '"at" stands twice in the object with the id "N"; leave one of them out',
        ),
    ],
)
def test_a_key_that_stands_twice_is_refused(data: bytes, line: str) -> None:
    assert str(refusal(data)) == f"job.wirer: {line}"


NO_DOCUMENT = [
    ([], "is not a JSON object"),
    ("wirer", "is not a JSON object"),
    (None, "is not a JSON object"),
    ({}, 'format: is not "wirer"; this is no document of wirer'),
    ({"format": "other", "version": 1}, 'format: is not "wirer"; this is no document of wirer'),
    ({"format": "wirer"}, "version: should be a whole number such as 1"),
    (document(version="1"), "version: should be a whole number such as 1"),
    (document(version=1.0), "version: should be a whole number such as 1"),
    (document(version=True), "version: should be a whole number such as 1"),
    (document(version=0), "version: 0 never was a version of wirer"),
    (document(version=2), "version: 2 is newer than the 1 that this program reads; get a newer "
     "wirer"),
    (document(version=10**300), "version: 1000000000000000000000000000000000000000… is newer than "
     "the 1 that this program reads; get a newer wirer"),
    ({"format": "wirer", "version": 1, "wires": []}, 'lacks "parts"'),
    ({"format": "wirer", "version": 1, "parts": []}, 'lacks "wires"'),
    (document(part=[]), 'has an unknown "part"; is it parts?'),
    (document(author="me"), 'has an unknown "author"; it may have format, version, title, job, '
     "notes, parts, wires, output_load, wanted, waived, kinds, underlay"),
]  # fmt: skip


@pytest.mark.parametrize(("raw", "line"), NO_DOCUMENT, ids=[line for _, line in NO_DOCUMENT])
def test_what_is_no_document_of_this_program_is_refused(raw: Any, line: str) -> None:
    assert lines(raw) == [line]


WRONG_FORM = [
    (document(title=5), "title: must be text, not a whole number"),
    (document(title=None), "title: must be text, not null"),
    (document(parts={}), "parts: must be a list, not an object"),
    (document(parts=[3]), "parts[0]: must be an object, not a whole number"),
    (document(parts=[part(), {"id": "N"}]), 'parts[1]: lacks "kind"'),
    (document(parts=[part(colour="BK")]), 'parts[0]: has an unknown "colour"; it may have id, '
     "kind, label, at, turn, flip, values, measured, position_labels, lug_labels, position, "
     "rotation"),
    (document(parts=[part(value={})]), 'parts[0]: has an unknown "value"; is it values?'),
    (document(parts=[part(turn=45)]), 'parts[0].turn: "45" is not one of 0, 90, 180, 270'),
    (document(parts=[part(turn=90.0)]), 'parts[0].turn: must be a whole number, not a number'),
    (document(parts=[part(flip=1)]), "parts[0].flip: must be true or false, not a whole number"),
    (document(parts=[part(at=[1])]), "parts[0].at: must be a list of 2 and has 1"),
    (document(parts=[part(at=[1, "2"])]), "parts[0].at[1]: must be a number, not text"),
    (document(parts=[part(at=[10**400, 0])]), "parts[0].at[0]: is wrong: number out of range"),
    (document(parts=[part(at=[1e308, 0])]), "parts[0].at: lies farther than 100000 mm out; write "
     "millimetres"),
    (document(parts=[part(values={"taper": "audio", "resistance": True})]),
     "parts[0].values.resistance: must be a number or text or a list, not true or false"),
    (document(parts=[part(values={"taper": [[0, 0], [1]]})]),
     "parts[0].values.taper[1]: must be a list of 2 and has 1"),
    (document(parts=[part(rotation={"shaft": "1"})]),
     "parts[0].rotation.shaft: must be a number, not text"),
    (document(parts=[part(lug_labels={"1": 2})]),
     "parts[0].lug_labels.1: must be text, not a whole number"),
    (document(parts=[part(position=2)]),
     "parts[0].position: must be text or null, not a whole number"),
    (document(wires=[{"id": "w1", "from": "V.1"}]), 'wires[0]: lacks "to"'),
    (document(wires=[wire(style="silk")]),
     'wires[0].style: "silk" is not one of solid, stranded, bare, screened, mount'),
    (document(wires=[wire(bends=[[0, 0], [1, None]])]),
     "wires[0].bends[1][1]: must be a number, not null"),
    (document(output_load={"cable": 500}), "output_load.cable: must be text, not a whole number"),
    (document(output_load=[]), "output_load: must be an object, not a list"),
    (document(wanted=[{"sound": "N"}]), 'wanted[0]: lacks "setting"'),
    (document(wanted=[{"setting": {"S": 1}, "sound": "N"}]),
     "wanted[0].setting.S: must be text, not a whole number"),
    (document(waived=[{"places": []}]), 'waived[0]: lacks "rule"'),
]  # fmt: skip


@pytest.mark.parametrize(("raw", "line"), WRONG_FORM, ids=[line for _, line in WRONG_FORM])
def test_a_wrong_form_is_refused_with_its_place(raw: Any, line: str) -> None:
    assert lines(raw) == [line]


NO_CIRCUIT = [
    (document(parts=[part("1st")]),
     'parts[0].id: "1st" is not a part id; write a letter, then letters, figures or _'),
    (document(parts=[part("Vé")]),
     'parts[0].id: "Vé" is not a part id; write a letter, then letters, figures or _'),
    (document(parts=[part("two\nlines")]),
     'parts[0].id: "two\\nlines" is not a part id; write a letter, then letters, figures or _'),
    (document(parts=[part("V" * 70)]),
     f'parts[0].id: "{"V" * 40}…" is not a part id; write a letter, then letters, figures or _'),
    (document(parts=[part("V"), part("V", "jack-ts")]),
     'parts[1].id: "V" is already the id of parts[0]; ids must differ'),
    (document(parts=[part()], wires=[wire("V")]),
     'wires[0].id: "V" is already the id of a part; ids must differ'),
    (document(parts=[part()], wires=[wire("a"), wire("a")]),
     'wires[1].id: "a" is already the id of wires[0]; ids must differ'),
    (document(parts=[part()], wires=[wire("V.2")]),
     'wires[0].id: "V.2" is not a wire id; write for example w1'),
    (document(parts=[part("V", "pott")]), 'parts[0].kind: there is no kind "pott"; is it pot?'),
    (document(parts=[part("V", "slide-2p2")]),
     'parts[0].kind: there is no kind "slide-2p2"; is it slide-2p2t?'),
    (document(parts=[part("V", "../pot")]), 'parts[0].kind: there is no kind "../pot"; is it pot?'),
    (document(parts=[part("V", "qqq")]),
     'parts[0].kind: there is no kind "qqq"; `wirer kinds` lists them'),
    (document(parts=[part("V", "")]),
     'parts[0].kind: there is no kind ""; `wirer kinds` lists them'),
    (document(parts=[part("V", "own")], kinds=[own_kind(id="own-1")]),
     'parts[0].kind: there is no kind "own"; is it own-1?'),
    (document(parts=[part(values={"resistance": "4kk7"})]),
     'parts[0].values.resistance: "4kk7" is not a resistance; write for example 4k7'),
    (document(parts=[part(measured={"tolerance": "5"})]),
     'parts[0].measured.tolerance: "5" is not a tolerance; write for example 20%'),
    (document(parts=[part(values={"ohms": "1k"})]),
     'parts[0].values.ohms: pot has no value "ohms"; it has end, resistance, share, taper'),
    (document(parts=[part(lug_labels={"4": "x"})]),
     'parts[0].lug_labels: pot has no lug "4"; it has 1, 2, 3, can'),
    (document(parts=[part(position_labels={"up": "x"})]),
     'parts[0].position_labels: pot has no position "up"; it is no switch'),
    (document(parts=[part("S", "toggle-2p2t", position_labels={"on": "x"})]),
     'parts[0].position_labels: toggle-2p2t has no position "on"; it has up, down'),
    (document(parts=[part(position="up")]),
     'parts[0].position: pot has no position "up"; it is no switch'),
    (document(parts=[part("S", "rotary-2p6t", values={"stop": 3}, position="4")]),
     'parts[0].position: rotary-2p6t has no position "4"; it has 1, 2, 3'),
    (document(parts=[part(rotation={"upper": 1})]),
     'parts[0].rotation: pot has no shaft "upper"; it has shaft'),
    (document(parts=[part("R", "resistor", rotation={"shaft": 1})]),
     'parts[0].rotation: resistor has no shaft "shaft"; nothing of it turns'),
    (document(parts=[part(rotation={"shaft": 1.1})]),
     "parts[0].rotation.shaft: 1.1 is not between 0 and 1"),
    (document(parts=[part()], wires=[wire(to="V.4")]),
     'wires[0].to: there is no lug "V.4"; V has 1, 2, 3, can'),
    (document(parts=[part()], wires=[wire(**{"from": "V"})]),
     'wires[0].from: there is no lug "V"; V has 1, 2, 3, can'),
    (document(parts=[part()], wires=[wire(to="X.tip")]),
     'wires[0].to: there is no lug "X.tip"; there is no part "X"'),
    (document(parts=[part("H", "humbucker-screened"), part()], wires=[wire(to="H.joint")]),
     'wires[0].to: there is no lug "H.joint"; H has braid, core'),
    (document(parts=[part()], wires=[wire(style="screened", screen_to="V.x")]),
     'wires[0].screen_to: there is no lug "V.x"; V has 1, 2, 3, can'),
    (document(parts=[part()], wires=[wire(screen_to="V.can")]),
     'wires[0].style: a stranded wire has no screen; write "screened"'),
    (document(parts=[part()], wires=[wire(colour="black")]),
     'wires[0].colour: "black" is not a colour of IEC 60757; write BK, BN, RD, OG, YE, GN, BU, VT, '
     "GY, WH, PK, TQ, GD, SR or a pair such as GNYE"),
    (document(parts=[part()], wires=[wire(gauge="24")]),
     'wires[0].gauge: "24" is not a gauge; write for example 24 AWG or 0.22 mm2'),
    (document(parts=[part()], wires=[wire(bends=[[0, 0], [0, 2e5]])]),
     "wires[0].bends[1]: lies farther than 100000 mm out; write millimetres"),
    (document(parts=[part()], wires=[wire(bends=[[0, 0]] * 201)]),
     "wires[0].bends: a wire has at most 200 bends"),
    (document(wanted=[{"setting": {"S": "up"}, "sound": "N"}]),
     'wanted[0].setting: there is no switch "S"'),
    (document(parts=[part()], wanted=[{"setting": {"V": "up"}, "sound": "N"}]),
     'wanted[0].setting: there is no switch "V"'),
    (document(parts=[part("S", "lever-2p3t")], wanted=[{"setting": {"S": "4"}, "sound": "N"}]),
     'wanted[0].setting: S has no position "4"; it has 1, 2, 3'),
    (document(output_load={"cable": "500x"}),
     'output_load.cable: "500x" is not a capacitance; write for example 22n'),
    (document(output_load={"input": "0"}),
     "output_load.input: an input of 0 Ω shorts the guitar; write 1M"),
]  # fmt: skip


@pytest.mark.parametrize(("raw", "line"), NO_CIRCUIT, ids=[line for _, line in NO_CIRCUIT])
def test_what_is_no_circuit_is_refused_with_what_would_be_one(raw: Any, line: str) -> None:
    assert lines(raw) == [line]


def test_every_problem_is_told_and_counted() -> None:
    parts = [part("A", "pott"), part("B", values={"resistance": "x"}), part("C"), part("C")]
    refused = refusal(encoded(document(parts=parts)))
    assert [p.place for p in refused.problems] == [
        "parts[3].id",
        "parts[0].kind",
        "parts[1].values.resistance",
    ]
    assert str(refused) == (
        'job.wirer: parts[3].id: "C" is already the id of parts[2]; ids must differ'
        " (and 2 more problems)"
    )


def test_no_more_problems_are_looked_for_than_a_person_would_read() -> None:
    parts = [part(f"P{n}") for n in range(300)]
    wires = [wire(f"w{n}", to="X.1") for n in range(3000)]
    assert len(lines(document(parts=parts, wires=wires))) == 100


@pytest.mark.parametrize("field", ["parts", "wires", "kinds", "wanted", "waived"])
def test_crowds_are_refused_before_they_are_looked_at(field: str) -> None:
    many: list[Any] = [{}] * 100_000
    [line] = lines(document(**{field: many}))
    assert line.startswith(f"{field}: 100000 {field} are more than the ")
    assert line.endswith(" that a circuit may have")


def test_an_error_is_picklable_so_that_a_worker_can_send_it() -> None:
    refused = refusal(b"[]")
    again = pickle.loads(pickle.dumps(refused))
    assert (str(again), again.problems, again.source) == (
        str(refused),
        refused.problems,
        "job.wirer",
    )


def test_a_key_that_looks_like_a_path_misleads_nobody() -> None:
    odd = "x` - at `$.parts[3]"
    [line] = lines(document(**{odd: 1}))
    assert line.startswith(f'has an unknown "{odd}"; ')
