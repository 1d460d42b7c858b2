"""What a builder types finds the kind that is meant; the words are common practice."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.circuit.papers import document, encoded, own_kind
from wirer.circuit.catalogue import catalogue, catalogue_kind
from wirer.circuit.document import read_document
from wirer.circuit.model import Circuit
from wirer.circuit.trade_names import GROUPS, found_kinds, grouped_kinds, kinds_to_choose


def found(text: str) -> list[str]:
    return [kind.id for kind in found_kinds(text, catalogue())]


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("push-pull", "pot-switch"),
        ("Push Pull", "pot-switch"),
        ("pushpull", "pot-switch"),
        ("cap", "capacitor"),
        ("condenser", "capacitor"),
        ("humbucker 4", "humbucker-4wire"),
        ("4 conductor", "humbucker-4wire"),
        ("kill switch", "momentary"),
        ("no load", "pot-open-end"),
        ("blend", "pot-blend"),
        ("star ground", "bus"),
        ("stereo jack", "jack-trs"),
        ("4PDT", "toggle-4p2t"),
        ("3-way toggle", "selector-3"),
        ("resistor", "resistor"),
        ("pot", "pot"),
        ("9v", "battery"),
    ],
)
def test_the_trades_word_finds_the_kind_first(text: str, first: str) -> None:
    assert found(text)[0] == first


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("5-way", {"lever-2p5", "lever-4p5t"}),
        ("five way", {"lever-2p5", "lever-4p5t"}),
        ("humbucker", {"humbucker-3wire", "humbucker-4wire", "humbucker-screened"}),
        ("jack", {"jack-ts", "jack-trs", "jack-ts-switched"}),
    ],
)
def test_what_several_kinds_are_called_finds_them_all_before_others(
    text: str, kinds: set[str]
) -> None:
    assert set(found(text)[: len(kinds)]) == kinds


def test_every_switch_comes_before_what_is_only_switched_too() -> None:
    switches = {kind.id for kind in catalogue() if kind.group == "switches"}
    assert set(found("switch")[: len(switches)]) == switches


@pytest.mark.parametrize(
    ("text", "first"),
    [("humbuker", "humbucker-3wire"), ("capasitor", "capacitor"), ("potentiometre", "pot")],
)
def test_a_misspelt_word_finds_it_too(text: str, first: str) -> None:
    assert found(text)[0] == first


def test_every_word_must_be_found() -> None:
    assert found("lever zither") == []
    assert found("toggle DPDT") == found("dpdt toggle")
    assert all(name.startswith("toggle-2p") for name in found("toggle DPDT"))


@given(st.sampled_from(catalogue()), st.data())
def test_every_kind_is_found_by_all_that_it_is_called(kind: object, data: st.DataObject) -> None:
    names = [kind.id, kind.name, *kind.search]  # type: ignore[attr-defined]
    assert kind.id in found(data.draw(st.sampled_from(names)))  # type: ignore[attr-defined]
    assert found(kind.id)[0] == kind.id  # type: ignore[attr-defined]


@given(st.text(max_size=30))
def test_any_text_can_be_looked_for(text: str) -> None:
    names = found(text)
    assert len(set(names)) == len(names)


def test_all_kinds_lie_in_drawers_in_a_builders_order() -> None:
    drawers = grouped_kinds(catalogue())
    assert [drawer.name for drawer in drawers] == list(GROUPS)
    assert sorted(k.id for d in drawers for k in d.kinds) == [k.id for k in catalogue()]
    odd = replace(catalogue_kind("pot"), group="odds and ends")
    assert grouped_kinds([odd, catalogue_kind("jack-ts")])[1].name == "odds and ends"


def test_the_documents_own_kinds_are_offered_first_and_instead_of_the_catalogues() -> None:
    assert kinds_to_choose(Circuit()) == catalogue()
    circuit, _ = read_document(encoded(document(kinds=[own_kind(), own_kind(id="pot")])))
    offered = kinds_to_choose(circuit)
    assert [kind.id for kind in offered[:2]] == ["trimmed-load", "pot"]
    assert len(offered) == len(catalogue()) + 1
    assert found_kinds("trimmed", offered)[0].id == "trimmed-load"
