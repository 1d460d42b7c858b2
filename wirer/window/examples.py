"""The examples that come with the program. Free of Qt."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache

from wirer.circuit.document import read_document
from wirer.circuit.model import Circuit
from wirer.circuit.resources import resource_root
from wirer.circuit.stance import Stance


@dataclass(frozen=True)
class Example:
    """A shipped document: its file's name and its title."""

    name: str
    title: str

    def read(self) -> tuple[Circuit, Stance]:
        """Read the document."""
        return read_document(_bytes(self.name), self.name)


@cache
def examples() -> tuple[Example, ...]:
    """Return the examples in the order of their names."""
    folder = resource_root() / "examples"
    names = sorted(f.name for f in folder.iterdir() if f.name.endswith(".wirer"))
    return tuple(Example(name, str(json.loads(_bytes(name))["title"])) for name in names)


def _bytes(name: str) -> bytes:
    return (resource_root() / "examples" / name).read_bytes()
