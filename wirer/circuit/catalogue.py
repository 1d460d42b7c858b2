"""The catalogue: kinds read from TOML files, one a kind, its id the file's name."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources.abc import Traversable

import msgspec

from wirer.circuit.errors import KindError, shown
from wirer.circuit.kind import Kind
from wirer.circuit.kind_check import kind_problems
from wirer.circuit.resources import resource_root


def _folder() -> Traversable:
    return resource_root() / "parts"


@cache
def kind_ids() -> tuple[str, ...]:
    """Return the ids of every kind in the catalogue, sorted."""
    return tuple(
        sorted(
            f.name.removesuffix(".toml") for f in _folder().iterdir() if f.name.endswith(".toml")
        )
    )


@cache
def catalogue_kind(kind_id: str) -> Kind:
    """Return a kind of the catalogue.

    Raises
    ------
    KindError
        There is no such kind, or its file is unreadable.
    """
    if kind_id not in kind_ids():
        raise KindError(f'there is no kind "{shown(kind_id)}"')
    file = _folder() / f"{kind_id}.toml"
    return read_kind(file.read_text(encoding="utf-8"), kind_id)


def read_kind(text: str, name: str) -> Kind:
    """Read a kind from the text of a TOML file, whose name is the kind's id.

    Raises
    ------
    KindError
        The text is no TOML, not of a kind's form, or a kind that contradicts itself.
    """
    try:
        kind = msgspec.convert(tomllib.loads(text), Kind)
    except (tomllib.TOMLDecodeError, msgspec.ValidationError) as error:
        raise KindError(f"kind {name}: {error}") from error
    problems = kind_problems(kind)
    if kind.id != name:
        raise KindError(f'kind {name}: its id is "{shown(kind.id)}"; a kind is named as its file')
    if problems:
        raise KindError(f"kind {name}: {problems[0]}")
    return kind


def catalogue() -> tuple[Kind, ...]:
    """Return every kind of the catalogue, sorted by id."""
    return tuple(catalogue_kind(kind_id) for kind_id in kind_ids())
