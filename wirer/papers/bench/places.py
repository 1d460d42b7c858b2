"""How the papers name a lug: its reference, as the drawing has it, and what it is in words."""

from __future__ import annotations

from dataclasses import dataclass

from wirer.circuit.model import Circuit, split_lug


@dataclass(frozen=True, slots=True)
class Place:
    """A lug: `lug` is its reference `V.3`, `words` what it is: `Volume, 10 end`."""

    lug: str
    words: str

    def __str__(self) -> str:
        return f"{self.lug} {self.words}" if self.words else self.lug


def place_of(circuit: Circuit, reference: str) -> Place:
    """Return a lug by the part's label and the builder's name of the lug, else the kind's.

    Raises
    ------
    KeyError
        The circuit has no such part.
    """
    part_id, name = split_lug(reference)
    part = circuit.part_by_id[part_id]
    lug = circuit.kind_of(part).lug(name)
    own = part.lug_labels.get(name)
    function = f"marked {own}" if own else lug.label if lug and lug.label != name else ""
    words = [part.label if part.label != part_id else "", function]
    return Place(reference, ", ".join(word for word in words if word))
