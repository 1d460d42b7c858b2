"""Damaged documents: whatever the bytes are, they are a circuit or refused in one clear line."""

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.circuit.papers import EXAMPLE, document, encoded, own_kind, part, wire
from wirer.circuit.document import read_document, write_document
from wirer.circuit.errors import DocumentError

WHOLE = EXAMPLE.encode()
RICH = encoded(
    document(
        kinds=[
            own_kind(
                actuator={"positions": ["a", "b"], "contacts": {"a": [["1", "2"]], "b": []}},
                shafts=[{"name": "shaft"}],
            )
        ],
        parts=[part(values={"taper": [[0, 0], [1, 1]]}), part("R", "trimmed-load")],
        wires=[wire(style="screened", screen_from="V.can", bends=[[1, 2]])],
        wanted=[{"setting": {"R": "b"}, "sound": "silent"}],
        waived=[{"rule": "lost-coil"}],
        underlay={"path": "photos/back.jpg", "at": [3, -4.5], "mm_per_pixel": 0.1, "dim": 0.3},
    )
)


def outcome(data: bytes) -> str:
    """What a reader of any data gets: nothing, or one line."""
    try:
        circuit, stance = read_document(data, "job.wirer")
    except DocumentError as error:
        return str(error)
    assert read_document(write_document(circuit, stance)) == (circuit, stance)
    return ""


def assert_clear(line: str) -> None:
    assert line.isprintable()
    assert len(line) < 600
    assert "msgspec" not in line
    assert "Error" not in line


def test_what_is_damaged_here_is_whole_to_begin_with() -> None:
    assert outcome(WHOLE) == ""
    assert outcome(RICH) == ""


@pytest.mark.parametrize("whole", [WHOLE, RICH], ids=["example", "rich"])
def test_a_file_cut_off_at_any_byte_is_refused(whole: bytes) -> None:
    for end in range(len(whole.rstrip())):
        line = outcome(whole[:end])
        assert line.startswith("job.wirer: ")
        assert_clear(line)


@given(
    st.sampled_from([WHOLE, RICH]),
    st.lists(st.tuples(st.integers(0, 10**6), st.integers(0, 255)), min_size=1, max_size=5),
)
def test_bytes_that_were_flipped_are_read_or_refused(
    whole: bytes, flips: list[tuple[int, int]]
) -> None:
    data = bytearray(whole)
    for place, byte in flips:
        data[place % len(data)] = byte
    assert_clear(outcome(bytes(data)))


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    line = outcome(data)
    assert line
    assert_clear(line)


ATOMS = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=9)
JSON = st.recursive(
    ATOMS | st.sampled_from([10**400, "4kk7", "V.1", "pot", "\x00", "é" * 5000, -1, 1e300]),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=9), inner),
    max_leaves=5,
)


def places(raw: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Every place in a document that something can stand at."""
    steps = (
        raw.items() if isinstance(raw, dict) else enumerate(raw) if isinstance(raw, list) else ()
    )
    return [path, *(place for key, value in steps for place in places(value, (*path, key)))]


def with_other(raw: Any, path: tuple[Any, ...], other: Any) -> Any:
    """The document with something else at a place."""
    if not path:
        return other
    copied = raw.copy()
    copied[path[0]] = with_other(raw[path[0]], path[1:], other)
    return copied


@pytest.mark.parametrize("whole", [WHOLE, RICH], ids=["example", "rich"])
@given(data=st.data())
def test_anything_in_any_place_is_read_or_refused(whole: bytes, data: st.DataObject) -> None:
    raw = json.loads(whole)
    place = data.draw(st.sampled_from(places(raw)))
    assert_clear(outcome(encoded(with_other(raw, place, data.draw(JSON)))))


WORDS = [None, True, -1, 3.5, "", "x", [], {}, [[]], [{}], {"x": 1}, {"type": "coil"}]


@pytest.mark.parametrize("whole", [WHOLE, RICH], ids=["example", "rich"])
def test_a_wrong_type_in_every_place_is_refused_at_that_place(whole: bytes) -> None:
    raw = json.loads(whole)
    for place in places(raw)[1:]:
        for word in WORDS:
            assert_clear(outcome(encoded(with_other(raw, place, word))))


OPEN = {
    "values", "measured", "setting", "position_labels", "lug_labels", "rotation",
    "parameters", "contacts",
}  # fmt: skip


def records(raw: Any) -> list[tuple[Any, ...]]:
    """The places of a document at which an object with fields stands."""
    found = []
    for place in places(raw):
        target = raw
        for step in place:
            target = target[step]
        if isinstance(target, dict) and not (place and place[-1] in OPEN):
            found.append(place)
    return found


@pytest.mark.parametrize("place", records(json.loads(RICH)), ids=repr)
def test_an_unknown_key_is_refused_wherever_there_are_fields(place: tuple[Any, ...]) -> None:
    """What a document says is understood or refused, never passed over."""
    raw = json.loads(RICH)
    target = raw
    for step in place:
        target = target[step]
    line = outcome(encoded(with_other(raw, place, {**target, "colours": []})))
    assert 'has an unknown "colours"; ' in line


def test_a_document_of_a_hundred_thousand_parts_is_refused_by_their_number() -> None:
    data = encoded(document(parts=[part(f"P{n}") for n in range(100_000)]))
    assert outcome(data).startswith("job.wirer: parts: 100000 parts are more than the ")


def test_a_hundred_thousand_keys_of_which_one_stands_twice() -> None:
    keys = ", ".join(f'"k{n}": 0' for n in [*range(100_000), 99_999])
    assert outcome(f"{{{keys}}}".encode()) == (
        'job.wirer: "k99999" stands twice in one object; leave one of them out'
    )


def test_a_document_of_very_long_texts_is_read_or_refused_in_a_short_line() -> None:
    long = "x" * 10**6
    assert outcome(encoded(document(notes=long))) == ""
    for raw in (
        document(parts=[part(long)]),
        document(parts=[part(kind=long)]),
        document(parts=[part(values={"taper": long})]),
        document(parts=[part(values={"resistance": long})]),
        document(parts=[part(values={long: "1"})]),
        document(parts=[part(position=long)]),
        document(parts=[part(rotation={long: 1})]),
        document(parts=[part(lug_labels={long: "1"})]),
        document(parts=[part(), part("R", "resistor")], wires=[wire(to=long)]),
        document(parts=[part()], wires=[wire(colour=long)]),
        document(parts=[part()], wires=[wire(gauge=long)]),
        document(wanted=[{"setting": {long: "1"}, "sound": "N"}]),
        document(output_load={"cable": long}),
        document(**{long: 1}),
        document(kinds=[own_kind(id=long)]),
        document(kinds=[own_kind(elements=[{"type": long}])]),
        document(kinds=[own_kind(elements=[{"type": "bond", "lugs": [long, "1"]}])]),
        {**document(), "format": long},
    ):
        line = outcome(encoded(raw))
        assert line
        assert_clear(line)
