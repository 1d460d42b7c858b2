"""The job sheets in `resources/examples`, as the tests of them read them."""

from __future__ import annotations

from functools import cache

from wirer.analysis.combinations import CombinationTable, Row, combination_table
from wirer.circuit.document import read_document
from wirer.circuit.model import Circuit
from wirer.circuit.resources import resource_root
from wirer.circuit.stance import Stance

MISTAKES = "09-practice-loom-mistakes"


def _folder_names() -> list[str]:
    folder = resource_root() / "examples"
    return sorted(f.name.removesuffix(".wirer") for f in folder.iterdir() if f.suffix == ".wirer")


NAMES = _folder_names()
CORRECT = [name for name in NAMES if name != MISTAKES]


@cache
def raw(name: str) -> bytes:
    """The bytes of an example."""
    return (resource_root() / "examples" / f"{name}.wirer").read_bytes()


@cache
def opened(name: str) -> tuple[Circuit, Stance]:
    """An example with the stance that it was left in."""
    return read_document(raw(name), name)


def circuit(name: str) -> Circuit:
    """The circuit of an example."""
    return opened(name)[0]


@cache
def table(name: str) -> CombinationTable:
    """The combination table of an example, its shafts as it was left."""
    return combination_table(*opened(name))


def row(name: str, **positions: str) -> Row:
    """The first row of an example's table that agrees with the positions given."""
    return next(r for r in table(name) if positions.items() <= r.setting.items())


def sound(found: Row) -> str:
    """What a row gives, as a wanted sound is written."""
    combination = found.combination
    return combination.sound.formula if combination.sound else "silent"
