"""The wiring view: looks at the scene, zooms and pans, and passes on what hand and keys do."""

from __future__ import annotations

import math

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QHelpEvent,
    QInputDevice,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QPainter,
    QPixmapCache,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import (
    QFrame,
    QGestureEvent,
    QGraphicsView,
    QPinchGesture,
    QToolTip,
    QWidget,
)

from wirer.circuit.kind import Point
from wirer.layout.box import Box
from wirer.window.hand import Hand, Pointed
from wirer.window.keys import Keys
from wirer.window.scene import WiringScene
from wirer.window.session import Session

MM_PER_INCH = 25.4
LEAST_SCALE, MOST_SCALE = 0.4, 80.0
"""Pixels to a millimetre."""
WHEEL_STEP = 1.0015
KEY_ZOOM = 1.25
REACH_PIXELS = 5.0
ZOOM_PAUSE_MS = 250
ABOUT_DPI = 96.0
CACHE_KIB = 96 * 1024
"""Room for the pictures of parts and wires, so that a repaint only puts them together."""


class WiringView(QGraphicsView):
    """What a person sees of the circuit and operates it by."""

    pointed = Signal(object)
    """Something else is pointed at; carries a `Pointed` or None."""
    zoomed = Signal(float)
    """It is shown at another size; carries the share of true size."""
    menu_wanted = Signal(object, QPoint)
    """A menu is wanted for what a `Pointed` tells, at a place on the screen."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.wiring = WiringScene(self)
        self.setScene(self.wiring)
        self.hand = Hand(session)
        self.keys = Keys(session, self.hand, self.wiring)
        self._hovered: Pointed | None = None
        self._panning: QPoint | None = None
        self._space_held = False
        self._space_used = False
        self._fits = True
        self._zoomed_at = -ZOOM_PAUSE_MS
        self.setAccessibleName("Wiring view")
        QPixmapCache.setCacheLimit(max(QPixmapCache.cacheLimit(), CACHE_KIB))
        self.setRenderHints(QPainter.RenderHint.Antialiasing)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.MinimalViewportUpdate)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setOptimizationFlag(QGraphicsView.OptimizationFlag.DontSavePainterState)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setAcceptDrops(False)
        self.viewport().grabGesture(Qt.GestureType.PinchGesture)

    # Size on the screen

    @property
    def pixels_per_mm(self) -> float:
        """How large a millimetre is shown."""
        return self.transform().m11()

    @property
    def true_scale(self) -> float:
        """How many pixels a millimetre has at true size on this screen."""
        dpi = self.screen().physicalDotsPerInch()
        if not 40.0 <= dpi <= 600.0:
            dpi = ABOUT_DPI
        return dpi / MM_PER_INCH

    def zoom_to(self, scale: float, anchor: QPoint | None = None) -> None:
        """Show a millimetre with so many pixels; what lies at the anchor stays there."""
        scale = min(max(scale, LEAST_SCALE), MOST_SCALE)
        place = anchor or self.viewport().rect().center()
        before = self.mapToScene(place)
        self.resetTransform()
        self.scale(scale, scale)
        after = self.mapToScene(place)
        centre = self.mapToScene(self.viewport().rect().center())
        self.centerOn(centre + before - after)
        self._fits = False
        self.zoomed.emit(scale / self.true_scale)

    def zoom_by(self, factor: float, anchor: QPoint | None = None) -> None:
        """Show everything larger or smaller."""
        self.zoom_to(self.pixels_per_mm * factor, anchor)

    def show_true_size(self) -> None:
        """Show a millimetre as a millimetre on the screen."""
        self.zoom_to(self.true_scale)

    def fit(self) -> None:
        """Show the whole circuit."""
        rect = self.sceneRect()
        if rect.isEmpty() or self.viewport().width() < 2:
            return
        self.zoom_to(
            min(
                (self.viewport().width() - 1) / rect.width(),
                (self.viewport().height() - 1) / rect.height(),
            )
        )
        self.centerOn(rect.center())
        self._fits = True

    def follow_size(self) -> None:
        """Show the whole circuit again, if that is what was shown before it changed."""
        if self._fits:
            self.fit()

    def bring_into_view(self, box: Box) -> None:
        """Move, and if need be shrink, the picture so that a place can be seen."""
        rect = QRectF(box.left, box.top, box.width, box.height)
        seen = self.mapToScene(self.viewport().rect()).boundingRect()
        if seen.contains(rect):
            return
        if rect.width() > seen.width() or rect.height() > seen.height():
            self.fit()
        else:
            self.centerOn(rect.center())
            self._fits = False

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Go on showing the whole circuit, if that is what is shown."""
        super().resizeEvent(event)
        self.follow_size()

    # Mouse

    def _point(self, place: QPointF) -> Point:
        point = self.mapToScene(place.toPoint())
        return point.x(), point.y()

    def what_is_at(self, place: QPointF) -> Pointed | None:
        """Return what lies at a place of the viewport."""
        reach = REACH_PIXELS / self.pixels_per_mm
        return self.hand.pointed(self.wiring.targets, self._point(place), min(reach, 2.0))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of a switch or shaft, or of the paper."""
        is_left = event.button() == Qt.MouseButton.LeftButton
        if event.button() == Qt.MouseButton.MiddleButton or (is_left and self._space_held):
            self._panning = event.position().toPoint()
            self._space_used = True
            self.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
        elif is_left:
            pointed = self.what_is_at(event.position())
            self.keys.follow(pointed)
            self.hand.take(self.wiring.targets, self._point(event.position()), pointed)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Pan, or move what is held, or tell what is pointed at."""
        place = event.position().toPoint()
        if self._panning is not None:
            self._pan(place - self._panning)
            self._panning = place
        elif self.hand.is_holding:
            self.hand.move(self.wiring.scenery.layout, self._point(event.position()))
        else:
            self._hover(self.what_is_at(event.position()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        self._panning = None
        self._show_cursor()
        if event.button() == Qt.MouseButton.LeftButton:
            self.hand.let_go()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Take the second of two quick clicks for a click."""
        self.mousePressEvent(event)

    def leaveEvent(self, event: QEvent) -> None:
        """Point at nothing."""
        self._hover(None)
        super().leaveEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Ask for the menu of what is pointed at, or of the focused part."""
        if event.reason() == QContextMenuEvent.Reason.Mouse:
            self.menu_wanted.emit(self.what_is_at(QPointF(event.pos())), event.globalPos())
        elif self.keys.focus:
            box = self.wiring.box_of(self.keys.focus)
            middle = QPointF(*box.centre) if box else QPointF()
            place = self.viewport().mapToGlobal(self.mapFromScene(middle))
            self.menu_wanted.emit(Pointed("part", self.keys.focus), place)

    def _hover(self, pointed: Pointed | None) -> None:
        if pointed == self._hovered:
            return
        self._hovered = pointed
        self._show_cursor()
        self.pointed.emit(pointed)

    def _show_cursor(self) -> None:
        operable = self._hovered and self._hovered.what in {"choice", "grip", "shaft"}
        if self._space_held:
            shape = Qt.CursorShape.OpenHandCursor
        else:
            shape = Qt.CursorShape.PointingHandCursor if operable else Qt.CursorShape.ArrowCursor
        self.viewport().setCursor(shape)

    def _pan(self, by: QPoint) -> None:
        across, down = self.horizontalScrollBar(), self.verticalScrollBar()
        across.setValue(across.value() - by.x())
        down.setValue(down.value() - by.y())
        self._fits = False

    # Wheel and gestures

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Turn the shaft under the pointer, or zoom there; a touchpad pans."""
        control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        angle = event.angleDelta().y() or event.angleDelta().x()
        is_zooming = int(event.timestamp()) - self._zoomed_at < ZOOM_PAUSE_MS
        if event.device().type() == QInputDevice.DeviceType.TouchPad and not control:
            self._pan(event.pixelDelta() or event.angleDelta() / 4)
        elif control or is_zooming or not self._turn(event.position(), angle / 120):
            self._zoomed_at = int(event.timestamp())
            self.zoom_by(WHEEL_STEP**angle, event.position().toPoint())
        event.accept()

    def _turn(self, place: QPointF, clicks: float) -> bool:
        return self.hand.wheel(self.wiring.targets, self._point(place), clicks)

    def viewportEvent(self, event: QEvent) -> bool:
        """Answer pinches and the wish for a tip."""
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            self._hover(self.what_is_at(QPointF(event.pos())))
            QToolTip.showText(event.globalPos(), self.toolTip(), self.viewport())
            return True
        if isinstance(event, QNativeGestureEvent):
            if event.gestureType() == Qt.NativeGestureType.ZoomNativeGesture:
                self.zoom_by(1.0 + event.value(), event.position().toPoint())
                return True
        elif isinstance(event, QGestureEvent):
            pinch = event.gesture(Qt.GestureType.PinchGesture)
            if isinstance(pinch, QPinchGesture):
                place = self.viewport().mapFromGlobal(pinch.hotSpot().toPoint())
                self.zoom_by(pinch.scaleFactor(), place)
                return True
        return super().viewportEvent(event)

    # Keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Operate the focused part; without one the arrows pan."""
        if event.key() == Qt.Key.Key_Space and not event.modifiers():
            if not event.isAutoRepeat():
                self._space_held, self._space_used = True, False
                self._show_cursor()
            event.accept()
        elif not self.keys.press(event):
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Throw the focused switch on by a space that panned nothing."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat() and self._space_held:
            self._space_held = False
            self._show_cursor()
            if not self._space_used:
                self.keys.throw_on()
            event.accept()
        else:
            super().keyReleaseEvent(event)

    def focusNextPrevChild(self, onward: bool) -> bool:
        """Take the focus to the next part; after the last one it leaves the view."""
        if self.hasFocus() and self.keys.focus_next(1 if onward else -1):
            self._show_focus()
            return True
        return super().focusNextPrevChild(onward)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Focus the first or the last part when the focus comes by Tab; a click shows no ring."""
        super().focusInEvent(event)
        if event.reason() == Qt.FocusReason.TabFocusReason:
            self.keys.focus_first(1)
        elif event.reason() == Qt.FocusReason.BacktabFocusReason:
            self.keys.focus_first(-1)
        if event.reason() != Qt.FocusReason.MouseFocusReason:
            self._show_focus()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Let go of what keys hold."""
        super().focusOutEvent(event)
        self._space_held = False
        self.keys.show_focus(False)

    def _show_focus(self) -> None:
        self.keys.show_focus(self.hasFocus())
        box = self.wiring.box_of(self.keys.focus) if self.keys.focus else None
        if box:
            self.bring_into_view(box)

    def scale_text(self) -> str:
        """Return the size as a share of true size, in per cent."""
        return f"{math.floor(100 * self.pixels_per_mm / self.true_scale + 0.5)} %"
