"""The help page of mouse and keys, and the page about the program with its cautions."""

from __future__ import annotations

from html import escape

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QTextBrowser, QVBoxLayout, QWidget

import wirer
from wirer.window.actions import ACTIONS, MENUS

BY_HAND = (
    ("Click a switch", "throws it: to the side you click on, else on by one"),
    ("Click the name of a position", "throws the switch there"),
    ("Wheel over a knob, or drag round it", "turns it; from behind, clockwise runs the other way"),
    ("Right click a switch or knob", "lists its positions"),
    ("Point at a lug or wire", "lights everything that it is joined to in this setting"),
    ("Wheel elsewhere, or pinch", "zooms at the pointer (with Ctrl over a knob too)"),
    ("Middle button or space and drag, two fingers", "moves the picture"),
    ("Click a row of the table", "throws the switches as the row has them"),
    ("Drop files on the window", "opens them"),
)
BY_KEY = (
    ("Tab, Shift+Tab", "goes from part to part"),
    ("Arrows", "throw the switch or turn the knob that has the focus"),
    ("Shift+arrows", "turn the second knob of a stacked pair"),
    ("Home, End", "turn the knob to 0 or 10"),
    ("Space, Enter", "throw the switch on by one"),
    ("L, Shift+L", "go from lug to lug of the part and light its net"),
    ("Menu key", "lists the positions of the part"),
)
CAUTIONS = (
    "Solder fume and flux irritate and can make you allergic, and some solder holds lead: work in "
    "moving air, wash your hands, keep food away. Guard your eyes; the iron is hot.",
    "Strings are joined to the amplifier's ground. With faulty mains wiring or a faulty amplifier, "
    "touching strings and a microphone can kill: use tested, earthed equipment and a residual "
    "current device.",
    "Never work inside mains equipment or valve amplifiers on the strength of this program; they "
    "hold hundreds of volts even when switched off. Mains wiring is for licensed people under "
    "local codes.",
    "Old oil-filled or unmarked capacitors may contain PCBs: don't open, grind or burn them, and "
    "dispose of them by local rules. Never short a battery, never charge one not made for it.",
)
LIMITS = (
    "Figures come from ideal parts: real coils, covers and capacitors differ, so treat resonances "
    "as relative and measure what matters. What a preamp does to the signal is not computed."
)


class Page(QDialog):
    """A page of text to read beside the work."""

    def __init__(self, title: str, html: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.text = QTextBrowser()
        self.text.setAccessibleName(title)
        self.text.setHtml(html)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.close)
        column = QVBoxLayout(self)
        column.addWidget(self.text)
        column.addWidget(buttons)
        self.resize(620, 560)


def keys_html() -> str:
    """Return the page of mouse and keys."""
    rows = [f"<h3>With the mouse</h3>{_table(BY_HAND)}", f"<h3>In the view</h3>{_table(BY_KEY)}"]
    for menu in MENUS:
        pairs = [
            (_keys(action.shortcut), action.tip or action.title.replace("&", "").rstrip("…"))
            for action in ACTIONS
            if action.menu == menu and action.shortcut
        ]
        rows.append(f"<h3>{menu}</h3>{_table(pairs)}")
    return "".join(rows)


def about_html() -> str:
    """Return the page about the program."""
    cautions = "".join(f"<li>{escape(caution)}</li>" for caution in CAUTIONS)
    return (
        f"<h2>wirer {wirer.__version__}</h2>"
        "<p>Draft, check, predict and solder the wiring of electric guitars and basses.</p>"
        f"<h3>Cautions</h3><ul>{cautions}</ul>"
        f"<h3>What the figures are worth</h3><p>{escape(LIMITS)}</p>"
    )


def _keys(shortcut: str) -> str:
    portable = QKeySequence.SequenceFormat.PortableText
    return QKeySequence(shortcut, portable).toString(QKeySequence.SequenceFormat.NativeText)


def _table(pairs: tuple[tuple[str, str], ...] | list[tuple[str, str]]) -> str:
    rows = "".join(
        f"<tr><td width='42%'><b>{escape(keys)}</b></td><td>{escape(does)}</td></tr>"
        for keys, does in pairs
    )
    return f"<table cellpadding='3' width='100%'>{rows}</table>"
