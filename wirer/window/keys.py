"""The wiring view by keyboard: a part has the focus, arrows throw and turn it."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent

from wirer.circuit.kind import Point, Shaft
from wirer.circuit.model import Part, split_lug
from wirer.circuit.stance import positions_in_use
from wirer.window.hand import Hand, Pointed
from wirer.window.operate import towards
from wirer.window.scene import WiringScene
from wirer.window.session import Session

STEPS = {
    Qt.Key.Key_Left: -1, Qt.Key.Key_Down: -1, Qt.Key.Key_PageDown: -4,
    Qt.Key.Key_Right: 1, Qt.Key.Key_Up: 1, Qt.Key.Key_PageUp: 4,
}  # fmt: skip
"""By how many steps keys turn a shaft."""

WAYS: dict[Qt.Key, Point] = {
    Qt.Key.Key_Left: (-1.0, 0.0), Qt.Key.Key_Right: (1.0, 0.0),
    Qt.Key.Key_Up: (0.0, -1.0), Qt.Key.Key_Down: (0.0, 1.0),
}  # fmt: skip
"""Which way in the view keys throw a switch."""


class Keys(QObject):
    """Which part the keys mean, and what they do to it.

    Parts that can be operated come first, then the others, each in the document's order.
    """

    focus_changed = Signal()
    """Another part has the focus."""
    lug_chosen = Signal(str)
    """A lug of the focused part was stepped to."""

    def __init__(self, session: Session, hand: Hand, scene: WiringScene) -> None:
        super().__init__()
        self._session = session
        self._hand = hand
        self._scene = scene
        self._lug = -1
        self.focus: str | None = None
        session.opened.connect(self._forget)

    @property
    def _order(self) -> list[str]:
        circuit = self._session.circuit

        def is_fixed(part: Part) -> bool:
            kind = circuit.kind_of(part)
            return not (kind.actuator or kind.shafts)

        return [part.id for part in sorted(circuit.parts, key=is_fixed)]

    def _forget(self) -> None:
        self._set_focus(None)

    def follow(self, pointed: Pointed | None) -> None:
        """Focus the part that is pointed at."""
        if pointed and pointed.what != "wire":
            self._set_focus(split_lug(pointed.id)[0])
            self.show_focus(False)
        else:
            self._set_focus(None)

    def focus_first(self, way: int) -> None:
        """Focus the first part, or the last one where the way is back."""
        order = self._order
        if order:
            self._set_focus(order[0 if way > 0 else -1])

    def focus_next(self, way: int) -> bool:
        """Focus the next part; return whether there was one."""
        order = self._order
        if self.focus not in order:
            self.focus_first(way)
            return bool(order)
        place = order.index(self.focus) + way
        if not 0 <= place < len(order):
            return False
        self._set_focus(order[place])
        return True

    def show_focus(self, visible: bool) -> None:
        """Show which part has the focus, or hide it."""
        focus = self.focus if visible else None
        self._scene.show_glow(replace(self._scene.glow, focus=focus))

    def throw_on(self) -> None:
        """Throw the focused switch on by one, around at its end."""
        if self.focus in self._session.stance.positions:
            self._session.throw_on(self.focus or "", 1, around=True)

    def press(self, event: QKeyEvent) -> bool:
        """Do what a key says; return whether it says anything here."""
        part = self._session.circuit.part_by_id.get(self.focus or "")
        if part is None:
            return False
        key, modifiers = Qt.Key(event.key()), event.modifiers()
        shift = bool(modifiers & Qt.KeyboardModifier.ShiftModifier)
        if modifiers & ~(Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier):
            return False
        if key in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.throw_on()
        elif key == Qt.Key.Key_L:
            self._step_lug(part, -1 if shift else 1)
        elif key == Qt.Key.Key_Escape:
            self._set_focus(None)
            self.show_focus(False)
        else:
            return self._operate(part, key, second=shift)
        return True

    def _operate(self, part: Part, key: Qt.Key, *, second: bool) -> bool:
        shaft = self._shaft(part, second=second)
        is_switch = part.id in self._session.stance.positions
        is_level = key in {Qt.Key.Key_Left, Qt.Key.Key_Right}
        if key in STEPS and shaft and (is_level or not is_switch):
            self._hand.turn_on(part, shaft, STEPS[key])
        elif key in WAYS and is_switch:
            self._throw_towards(part, WAYS[key])
        else:
            return self._to_the_end(part, key, second=second)
        return True

    def _throw_towards(self, part: Part, way: Point) -> None:
        kind = self._session.circuit.kind_of(part)
        if kind.actuator:
            placement = self._scene.scenery.layout.placements[part.id]
            origin, end = (placement.transform.back(at) for at in ((0.0, 0.0), way))
            own = end[0] - origin[0], end[1] - origin[1]
            present = self._session.stance.positions[part.id]
            positions = positions_in_use(kind, part)
            self._session.throw(part.id, towards(kind.actuator, positions, present, own))

    def _to_the_end(self, part: Part, key: Qt.Key, *, second: bool) -> bool:
        ends = {Qt.Key.Key_Home: 0.0, Qt.Key.Key_End: 1.0}
        shaft = self._shaft(part, second=second)
        if key not in ends or shaft is None:
            return False
        self._session.turn(f"{part.id}.{shaft.name}", ends[key])
        return True

    def _shaft(self, part: Part, *, second: bool) -> Shaft | None:
        shafts = self._session.circuit.kind_of(part).shafts
        return shafts[-1 if second else 0] if shafts else None

    def _step_lug(self, part: Part, way: int) -> None:
        lugs = self._session.circuit.kind_of(part).lugs
        self._lug = (self._lug + way) % len(lugs) if self._lug >= 0 or way > 0 else len(lugs) - 1
        self.lug_chosen.emit(f"{part.id}.{lugs[self._lug].name}")

    def _set_focus(self, part_id: str | None) -> None:
        if part_id != self.focus:
            self.focus = part_id
            self._lug = -1
            self.focus_changed.emit()
