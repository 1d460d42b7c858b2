"""What happens when something is pointed at, focused or chosen from the findings."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from PySide6.QtCore import QObject, QPoint
from PySide6.QtGui import QAccessible, QAccessibleEvent, QActionGroup
from PySide6.QtWidgets import QMenu

from wirer.circuit.model import split_lug
from wirer.circuit.stance import positions_in_use
from wirer.layout.box import boxes_union
from wirer.rules.finding import Finding
from wirer.window.hand import Pointed
from wirer.window.session import Session
from wirer.window.shown import Shown
from wirer.window.status_bar import StatusBar
from wirer.window.view import WiringView
from wirer.window.words import lug_words, part_words, wire_words

KNOB_STOPS = ((1.0, "10 (full)"), (0.5, "5 (half)"), (0.0, "0 (off)"))


class Pointing(QObject):
    """Lights and names what is pointed at, and brings findings before the eye."""

    def __init__(
        self,
        session: Session,
        shown: Shown,
        view: WiringView,
        status: StatusBar,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self._session = session
        self._shown = shown
        self._view = view
        self._status = status
        self._pointed: Pointed | None = None
        self._finding: Finding | None = None
        view.pointed.connect(self._point)
        view.menu_wanted.connect(self._show_menu)
        view.keys.focus_changed.connect(self._tell_focus)
        view.keys.lug_chosen.connect(lambda lug: self._point(Pointed("lug", lug)))
        shown.changed.connect(self._renew)
        shown.laid.connect(status.show_working)
        session.opened.connect(self._forget)

    def show_finding(self, finding: Finding | None) -> None:
        """Ring a finding's places and throw the switches into a setting where it holds."""
        self._finding = finding
        scene = self._view.wiring
        places = finding.places if finding else ()
        severity = finding.severity if finding else "note"
        scene.show_glow(replace(scene.glow, places=places, severity=severity))
        self._session.select(places)
        if finding is None:
            return
        boxes = [box for place in places if (box := scene.box_of(place))]
        if boxes:
            self._view.bring_into_view(boxes_union(boxes))
        if finding.settings and not finding.holds_in(self._session.stance.positions):
            self._session.take_setting(finding.settings[0])

    def _forget(self) -> None:
        self.show_finding(None)
        self._point(None)

    def _renew(self) -> None:
        """Say anew what is pointed at, since its net may be another now."""
        self._point(self._pointed)
        if self._pointed is None and self._view.keys.focus:
            self._tell_focus()

    def _point(self, pointed: Pointed | None) -> None:
        self._pointed = pointed
        lines = self._lines(pointed)
        self._status.show_pointed(lines)
        self._view.setToolTip("\n".join(lines))
        operable = pointed is not None and pointed.what in {"choice", "grip", "shaft"}
        scene = self._view.wiring
        scene.show_glow(
            replace(
                scene.glow,
                net=self._net(pointed),
                grip=pointed.id if pointed and operable else None,
            )
        )
        if pointed and pointed.what == "lug":
            self._announce(lines)

    def _net(self, pointed: Pointed | None) -> frozenset[str]:
        present, circuit = self._shown.present, self._session.circuit
        if pointed and pointed.what == "lug" and pointed.id in present.nets:
            return present.net_with(pointed.id)
        wire = circuit.wire_by_id.get(pointed.id) if pointed and pointed.what == "wire" else None
        return present.net_with(wire.from_lug) if wire else frozenset()

    def _lines(self, pointed: Pointed | None) -> tuple[str, ...]:
        circuit = self._session.circuit
        if pointed is None or split_lug(pointed.id)[0] not in {
            *circuit.part_by_id,
            *circuit.wire_by_id,
        }:
            return ()
        if pointed.what == "lug":
            return lug_words(circuit, self._shown.present, pointed.id)
        if pointed.what == "wire":
            return wire_words(self._shown.present, circuit.wire_by_id[pointed.id])
        return part_words(circuit, circuit.part_by_id[pointed.id], self._session.stance)

    def _tell_focus(self) -> None:
        part = self._session.circuit.part_by_id.get(self._view.keys.focus or "")
        lines = part_words(self._session.circuit, part, self._session.stance) if part else ()
        self._status.show_pointed(lines)
        self._announce(lines)

    def _announce(self, lines: tuple[str, ...]) -> None:
        """Tell assistive technology what has the focus."""
        self._view.setAccessibleDescription(", ".join(lines))
        event = QAccessibleEvent(self._view, QAccessible.Event.DescriptionChanged)
        QAccessible.updateAccessibility(event)

    # The menu of a part

    def _show_menu(self, pointed: Pointed | None, place: QPoint) -> None:
        menu = self.menu_of(pointed)
        if not menu.isEmpty():
            menu.popup(place)

    def menu_of(self, pointed: Pointed | None) -> QMenu:
        """Return the menu of a part's positions and of stops of its knobs; it may be empty."""
        menu = QMenu(self._view)
        menu.aboutToHide.connect(menu.deleteLater)
        part = self._session.circuit.part_by_id.get(split_lug(pointed.id)[0]) if pointed else None
        if part is None or pointed is None or pointed.what == "wire":
            return menu
        menu.setTitle(part.name)
        kind = self._session.circuit.kind_of(part)
        group = QActionGroup(menu)
        for position in positions_in_use(kind, part):
            action = group.addAction(part.position_name(position))
            action.setCheckable(True)
            action.setChecked(self._session.stance.positions[part.id] == position)
            action.triggered.connect(partial(self._throw, part.id, position))
            menu.addAction(action)
        menu.addSeparator()
        for shaft in kind.shafts:
            which = f"{shaft.name} " if len(kind.shafts) > 1 else ""
            for rotation, name in KNOB_STOPS:
                action = menu.addAction(f"Turn {which}to {name}")
                action.triggered.connect(partial(self._turn, f"{part.id}.{shaft.name}", rotation))
        return menu

    def _throw(self, part_id: str, position: str, *_checked: bool) -> None:
        self._session.throw(part_id, position)

    def _turn(self, shaft: str, rotation: float, *_checked: bool) -> None:
        self._session.turn(shaft, rotation)
