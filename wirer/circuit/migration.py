"""Older documents brought up to the present form, one pure step a version."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from wirer.circuit.errors import DocumentError, Problem, shown

VERSION: Final = 1

Step = Callable[[dict[str, Any]], dict[str, Any]]

STEPS: Mapping[int, Step] = {}
"""The step that turns version n into n + 1, by n."""


def migrated(raw: Any, steps: Mapping[int, Step] = STEPS, newest: int = VERSION) -> dict[str, Any]:
    """Return a parsed document in the newest form.

    Raises
    ------
    DocumentError
        It is no wirer document, or of a version that this program does not know.
    """
    if not isinstance(raw, dict):
        raise DocumentError([Problem("", "is not a JSON object")])
    if raw.get("format") != "wirer":
        raise DocumentError([Problem("format", 'is not "wirer"; this is no document of wirer')])
    version = raw.get("version")
    if not isinstance(version, int) or isinstance(version, bool):
        raise DocumentError([Problem("version", f"should be a whole number such as {newest}")])
    if version > newest:
        text = f"{shown(version)} is newer than the {newest} that this program reads"
        raise DocumentError([Problem("version", f"{text}; get a newer wirer")])
    document: dict[str, Any] = raw
    while version < newest:
        if version not in steps:
            text = f"{shown(version)} never was a version of wirer"
            raise DocumentError([Problem("version", text)])
        document = {**steps[version](document), "version": version + 1}
        version += 1
    return document
