"""The values that a circuit has had in a session: undo is a list of earlier values."""

from __future__ import annotations

from dataclasses import dataclass

from wirer.circuit.model import Circuit


@dataclass(frozen=True, slots=True)
class Step:
    """A circuit and the name of the edit that led to it."""

    name: str
    circuit: Circuit


class History:
    """A line of circuits with the present one marked, and the one that is in the file."""

    def __init__(self, circuit: Circuit) -> None:
        self._steps = [Step("", circuit)]
        self._now = 0
        self._saved: Circuit | None = circuit

    @property
    def circuit(self) -> Circuit:
        """The present circuit."""
        return self._steps[self._now].circuit

    @property
    def is_clean(self) -> bool:
        """Whether the present circuit is the one in the file."""
        return self.circuit is self._saved

    @property
    def undo_name(self) -> str:
        """The edit that undo would take back, or an empty text."""
        return self._steps[self._now].name

    @property
    def redo_name(self) -> str:
        """The edit that redo would bring back, or an empty text."""
        following = self._steps[self._now + 1 : self._now + 2]
        return following[0].name if following else ""

    def do(self, name: str, circuit: Circuit) -> None:
        """Go on to a new circuit; what was undone before is forgotten."""
        del self._steps[self._now + 1 :]
        self._steps.append(Step(name, circuit))
        self._now += 1

    def undo(self) -> bool:
        """Go back by one edit; return whether there was one."""
        if self._now == 0:
            return False
        self._now -= 1
        return True

    def redo(self) -> bool:
        """Go on by one undone edit; return whether there was one."""
        if self._now + 1 == len(self._steps):
            return False
        self._now += 1
        return True

    def mark_saved(self) -> None:
        """Note that the present circuit is the one in the file."""
        self._saved = self.circuit
