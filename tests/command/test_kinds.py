"""`wirer kinds`: the catalogue."""

import json
import re

import pytest

from tests.circuit.catalogue_table import LUGS, METAL, POSITIONS
from tests.command.support import printed, refused
from wirer.circuit.catalogue import catalogue, kind_ids
from wirer.circuit.kind import Kind

every_kind = pytest.mark.parametrize("kind", catalogue(), ids=lambda kind: kind.id)


def test_the_list_has_every_kind_with_its_name_and_lugs() -> None:
    text = printed("kinds", COLUMNS="80")
    for kind in catalogue():
        (line,) = re.findall(rf"^  {kind.id}  .*$", text, re.MULTILINE)
        assert kind.name in line
        assert line.endswith(f" {len(LUGS[kind.id].split())}")
    assert max(map(len, text.splitlines())) <= 80
    assert "SWITCHES" in text


@every_kind
def test_a_kind_is_shown_with_its_lugs_metal_and_values(kind: Kind) -> None:
    text = printed("kinds", kind.id, COLUMNS="80")
    assert max(map(len, text.splitlines())) <= 80
    assert text.startswith(f"{kind.id}: {kind.name}\n")
    for lug in LUGS[kind.id].split():
        (line,) = re.findall(rf"^  {re.escape(lug)} .*holds.*$", text, re.MULTILINE)
        assert ("metal" in line) == (lug in METAL.get(kind.id, "").split())
    for name in kind.parameters:
        assert re.search(rf"^  {name}  ", text, re.MULTILINE)


@pytest.mark.parametrize("kind_id", sorted(POSITIONS))
def test_a_switch_is_shown_as_positions_by_poles(kind_id: str) -> None:
    kind = next(kind for kind in catalogue() if kind.id == kind_id)
    assert kind.actuator
    text = printed("kinds", kind_id, COLUMNS="80")
    grid = text[text.index("POSITIONS") :].splitlines()[1:]
    for position, line in zip(kind.actuator.positions, grid, strict=False):
        words = line.split()
        assert words[0] == position
        joined = {frozenset(word.split("–")) for word in words[1:] if word != "·"}
        assert joined == set(map(frozenset, kind.actuator.contacts[position]))
    poles = {len(line.split()) for line in grid[: len(kind.actuator.positions)]}
    assert len(poles) == 1


def test_the_on_on_on_switch_is_the_designs() -> None:
    # Which lugs each position joins: the design's table, the usual data-sheet order.
    text = printed("kinds", "toggle-2p-on-on-on")
    assert re.search(r"^  up +A0–A2  B0–B2$", text, re.MULTILINE)
    assert re.search(r"^  middle +A0–A2  B0–B1$", text, re.MULTILINE)
    assert re.search(r"^  down +A0–A1  B0–B1$", text, re.MULTILINE)


def test_a_pots_lugs_are_named_by_what_they_do() -> None:
    text = printed("kinds", "pot")
    assert re.search(r"1 +0 end", text)
    assert re.search(r"2 +wiper", text)
    assert re.search(r"3 +10 end", text)
    assert "100 kΩ to 1 MΩ" in text


@pytest.mark.parametrize(
    ("wished", "hint"),
    [
        ("humbucker", "is it humbucker-3wire, humbucker-4wire or humbucker-screened?"),
        ("slide2p2t", "slide-2p2t"),
        ("push-pull", "pot-switch"),
        ("zzzz", "`wirer kinds` lists them"),
        ("", "`wirer kinds` lists them"),
    ],
)
def test_a_kind_that_is_not_there_is_answered_with_near_ones(wished: str, hint: str) -> None:
    said = refused("kinds", wished)
    assert said.startswith(f'wirer: kinds: there is no kind "{wished}"')
    assert hint in said


def test_the_catalogue_is_there_as_json_too() -> None:
    record = json.loads(printed("kinds", "--json"))
    assert {kind["id"] for kind in record["kinds"]} == set(kind_ids())
    one = json.loads(printed("kinds", "toggle-1p2t", "--json"))
    assert one["actuator"]["contacts"] == {"up": [["A0", "A2"]], "down": [["A0", "A1"]]}
