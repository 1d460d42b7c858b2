"""The session: the circuit that a window shows, where it stands, and what is selected.

It knows of Qt only the signals; they carry ids and values.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from PySide6.QtCore import QObject, Signal

from wirer.circuit.files import read_file, write_file
from wirer.circuit.model import Circuit
from wirer.circuit.stance import (
    Stance,
    default_stance,
    fitted_stance,
    positions_in_use,
    thrown,
    turned,
)
from wirer.window.history import History


class Session(QObject):
    """One circuit, its stance and its file.

    Throwing a switch or turning a shaft is no edit: it makes no step to undo and leaves the
    session clean.
    """

    opened = Signal()
    """Another document is shown."""
    circuit_changed = Signal()
    """The circuit is another value, by an edit or because another document was opened."""
    stance_changed = Signal(object)
    """A switch was thrown or a shaft turned; carries the stance before."""
    clean_changed = Signal(bool)
    """Whether the circuit is the one in the file."""
    file_changed = Signal(str)
    """The document has another name on disk."""
    selection_changed = Signal(tuple)
    """Other places are selected: ids of parts and wires, and lugs as `PART.lug`."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._history = History(Circuit())
        self.stance = Stance()
        self.path: Path | None = None
        self.is_open = False
        self.selection: tuple[str, ...] = ()

    @property
    def circuit(self) -> Circuit:
        """The circuit; an empty one while no document is open."""
        return self._history.circuit

    @property
    def is_clean(self) -> bool:
        """Whether there is nothing to save but the stance."""
        return self._history.is_clean

    @property
    def name(self) -> str:
        """What the document is called: its title, else its file's name."""
        return self.circuit.title or (self.path.stem if self.path else "")

    def open(self, path: str | Path) -> None:
        """Show the document in a file; what is shown now stays if it can't be read.

        Raises
        ------
        FileError
            It can't be read.
        DocumentError
            It is no document.
        """
        path = Path(path)
        circuit, stance = read_file(path)
        self.show(circuit, stance, path.absolute())

    def show(self, circuit: Circuit, stance: Stance, path: Path | None = None) -> None:
        """Show a circuit as a document of its own (`path` None: not in a file yet)."""
        self._history = History(circuit)
        self.stance = stance
        self.path = path
        self.is_open = True
        self.selection = ()
        self.opened.emit()
        self.circuit_changed.emit()
        self.selection_changed.emit(())
        self.file_changed.emit(str(path or ""))
        self.clean_changed.emit(True)

    def save(self, path: Path) -> None:
        """Write the circuit with its stance to a file, which is its own from now on.

        Raises
        ------
        FileError
            It can't be written; the old file is untouched.
        """
        write_file(path, self.circuit, self.stance)
        self.path = path.absolute()
        self._history.mark_saved()
        self.file_changed.emit(str(self.path))
        self.clean_changed.emit(True)

    # Operating

    def throw(self, part_id: str, position: str) -> None:
        """Throw a switch."""
        self._stand(thrown(self.circuit, self.stance, part_id, position))

    def throw_on(self, part_id: str, by: int, *, around: bool = False) -> None:
        """Throw a switch on by so many positions, stopping at its ends or going around."""
        part = self.circuit.part_by_id[part_id]
        choices = positions_in_use(self.circuit.kind_of(part), part)
        place = choices.index(self.stance.positions[part_id]) + by
        place = place % len(choices) if around else min(max(place, 0), len(choices) - 1)
        self.throw(part_id, choices[place])

    def turn(self, shaft: str, rotation: float) -> None:
        """Turn a shaft (`PART.shaft`); it stops at its ends."""
        self._stand(turned(self.circuit, self.stance, shaft, min(max(rotation, 0.0), 1.0)))

    def take_setting(self, positions: Mapping[str, str]) -> None:
        """Throw several switches at once."""
        stance = self.stance
        for part_id, position in positions.items():
            stance = thrown(self.circuit, stance, part_id, position)
        self._stand(stance)

    def take_usual_stance(self) -> None:
        """Bring every switch to its first position and every shaft to its full one."""
        self._stand(default_stance(self.circuit))

    def _stand(self, stance: Stance) -> None:
        before = self.stance
        if stance != before:
            self.stance = stance
            self.stance_changed.emit(before)

    # Editing

    @property
    def undo_name(self) -> str:
        """The edit that undo would take back, or an empty text."""
        return self._history.undo_name

    @property
    def redo_name(self) -> str:
        """The edit that redo would bring back, or an empty text."""
        return self._history.redo_name

    def apply(self, name: str, edit: Callable[[Circuit], Circuit]) -> None:
        """Change the circuit by an edit.

        Raises
        ------
        EditError
            The edit is refused; nothing has changed.
        """
        circuit = edit(self.circuit)
        if circuit is not self.circuit:
            self._history.do(name, circuit)
            self._follow_circuit()

    def undo(self) -> None:
        """Take the last edit back."""
        if self._history.undo():
            self._follow_circuit()

    def redo(self) -> None:
        """Bring the last undone edit back."""
        if self._history.redo():
            self._follow_circuit()

    def _follow_circuit(self) -> None:
        self.stance = fitted_stance(self.circuit, self.stance)
        self.circuit_changed.emit()
        self.clean_changed.emit(self.is_clean)

    # Selecting

    def select(self, places: tuple[str, ...]) -> None:
        """Select places: parts, lugs and wires."""
        if places != self.selection:
            self.selection = places
            self.selection_changed.emit(places)
