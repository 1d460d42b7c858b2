"""Older documents are brought up step by step, newer ones are refused."""

from typing import Any

import pytest

from wirer.circuit.errors import DocumentError
from wirer.circuit.migration import STEPS, VERSION, migrated


def rename_title(raw: dict[str, Any]) -> dict[str, Any]:
    """A step as the next version might need one: version 1 called the title `name`."""
    return {("title" if key == "name" else key): value for key, value in raw.items()}


def add_notes(raw: dict[str, Any]) -> dict[str, Any]:
    return {**raw, "notes": f"was {raw['title']}"}


FAKE_STEPS = {1: rename_title, 2: add_notes}


def test_there_is_a_step_from_every_older_version() -> None:
    assert set(STEPS) == set(range(1, VERSION))


def test_an_older_document_passes_through_every_step() -> None:
    old = {"format": "wirer", "version": 1, "name": "Job 3"}
    new = migrated(old, FAKE_STEPS, newest=3)
    assert new == {"format": "wirer", "version": 3, "title": "Job 3", "notes": "was Job 3"}
    assert old == {"format": "wirer", "version": 1, "name": "Job 3"}


def test_a_document_in_between_passes_only_through_what_is_left() -> None:
    between = {"format": "wirer", "version": 2, "title": "Job 4"}
    assert migrated(between, FAKE_STEPS, newest=3)["notes"] == "was Job 4"


def test_the_newest_document_is_left_as_it_is() -> None:
    new = {"format": "wirer", "version": 3, "title": "Job 5"}
    assert migrated(new, FAKE_STEPS, newest=3) == new


@pytest.mark.parametrize(
    ("version", "line"),
    [
        (4, "version: 4 is newer than the 3 that this program reads; get a newer wirer"),
        (0, "version: 0 never was a version of wirer"),
        (-1, "version: -1 never was a version of wirer"),
        ("2", "version: should be a whole number such as 3"),
    ],
)
def test_a_version_that_is_not_known_is_refused(version: object, line: str) -> None:
    with pytest.raises(DocumentError) as refused:
        migrated({"format": "wirer", "version": version}, FAKE_STEPS, newest=3)
    assert str(refused.value) == line
