"""The JSON Schema of a document, judged by an independent validator."""

import json
from importlib.resources import files
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from tests.circuit.papers import document, encoded, example, own_kind, part, wire
from tests.circuit.test_document_damage import RICH, places, with_other
from tests.support.circuits import documents
from wirer.circuit.decoding import converted
from wirer.circuit.document import Document, read_document, write_document
from wirer.circuit.errors import DocumentError
from wirer.circuit.model import Circuit
from wirer.circuit.resources import resource_root
from wirer.circuit.schema import document_schema, schema_text
from wirer.circuit.stance import Stance

VALIDATOR = Draft202012Validator(document_schema())


def test_the_schema_that_is_kept_is_the_one_of_the_code() -> None:
    """`python -m wirer.circuit.schema > resources/schema/wirer-1.schema.json` renews it."""
    kept = resource_root() / "schema" / "wirer-1.schema.json"
    assert kept.read_text(encoding="utf-8") == schema_text()


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(document_schema())
    assert document_schema()["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_the_example_and_the_least_document_fit() -> None:
    for raw in (example(), document(), json.loads(RICH)):
        assert list(VALIDATOR.iter_errors(raw)) == []


def test_every_example_that_is_shipped_fits() -> None:
    folder = resource_root() / "examples"
    for file in (f for f in folder.iterdir() if f.name.endswith(".wirer")):
        raw = json.loads(file.read_text(encoding="utf-8"))
        assert [(file.name, e.json_path, e.message) for e in VALIDATOR.iter_errors(raw)] == []


@given(documents())
def test_everything_that_is_written_fits(given_document: tuple[Circuit, Stance]) -> None:
    assert VALIDATOR.is_valid(json.loads(write_document(*given_document)))


WRONG = {
    "nothing in it": {},
    "another format": {**document(), "format": "other"},
    "another version": document(version=2),
    "an unknown field": document(author=""),
    "no wires": {"format": "wirer", "version": 1, "parts": []},
    "a part without a kind": document(parts=[{"id": "V"}]),
    "an angle between": document(parts=[part(turn=45)]),
    "three coordinates": document(parts=[part(at=[1, 2, 3])]),
    "a truth for a value": document(parts=[part(values={"resistance": True})]),
    "a wire to nowhere": document(wires=[{"id": "w", "from": "V.1"}]),
    "a style that there is not": document(wires=[wire(style="silk")]),
    "a number for a load": document(output_load={"cable": 500}),
    "an element that there is not": document(kinds=[own_kind(elements=[{"type": "valve"}])]),
}


@pytest.mark.parametrize("raw", WRONG.values(), ids=WRONG.keys())
def test_what_is_wrong_does_not_fit_and_is_not_read(raw: Any) -> None:
    assert not VALIDATOR.is_valid(raw)
    with pytest.raises(DocumentError):
        read_document(encoded(raw))


# Neither whole numbers written with a point (which a schema takes for integers) nor huge ones.
VALUES = st.one_of(
    st.sampled_from([None, True, False, 1, 90, -3, 0.5, "", "x", "pot", "bond", [], {}, [[]]]),
    st.text(max_size=5),
    st.dictionaries(st.sampled_from(["id", "type", "at", "x"]), st.integers(-9, 9), max_size=2),
    st.lists(st.sampled_from([1, 0.5, "1"]), max_size=3),
)


@pytest.mark.parametrize("whole", [example(), json.loads(RICH)], ids=["example", "rich"])
@given(data=st.data())
def test_the_schema_and_the_program_agree_on_the_form(whole: Any, data: st.DataObject) -> None:
    place = data.draw(st.sampled_from(places(whole)))
    raw = with_other(whole, place, data.draw(VALUES))
    try:
        converted(raw, Document)
    except DocumentError:
        fits = False
    else:
        fits = True
    assert VALIDATOR.is_valid(raw) == fits


def test_resources_are_found_beside_the_package() -> None:
    assert (resource_root() / "parts" / "pot.toml").is_file()
    assert files("wirer").is_dir()
