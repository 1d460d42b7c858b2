"""Light and dark: what the person chose, or what the system has."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication

from wirer.drawing.palette import DARK, LIGHT, Theme, mixed
from wirer.window.preferences import ThemeChoice

SCHEMES: dict[ThemeChoice, Qt.ColorScheme] = {
    "system": Qt.ColorScheme.Unknown,
    "light": Qt.ColorScheme.Light,
    "dark": Qt.ColorScheme.Dark,
}


FACE_SHARES = {"light": 0.07, "dark": 0.12}
"""How much ink is in the faces of panels: enough to set them apart from paper."""


def choose_theme(application: QApplication, choice: ThemeChoice) -> Theme:
    """Give the application the colours of a choice; return the theme that pictures have then.

    Native styles bring their own colours. Qt's own style gets those of the pictures, so that
    panels and paper are of one piece.
    """
    hints = application.styleHints()
    if hasattr(hints, "setColorScheme"):  # since Qt 6.8
        hints.setColorScheme(SCHEMES[choice])
    theme = _theme_of(application, choice)
    if application.style().name().lower() == "fusion":
        application.setPalette(palette_of(theme))
    return theme


def _theme_of(application: QApplication, choice: ThemeChoice) -> Theme:
    if choice != "system":
        return DARK if choice == "dark" else LIGHT
    return DARK if application.styleHints().colorScheme() == Qt.ColorScheme.Dark else LIGHT


def palette_of(theme: Theme) -> QPalette:
    """Return the widgets' colours that go with a theme."""
    role, group = QPalette.ColorRole, QPalette.ColorGroup
    share = FACE_SHARES[theme.name]
    face = mixed(theme.ink, theme.paper, share)
    button = mixed(theme.ink, theme.paper, share + 0.05)
    colours = {
        role.Window: face,
        role.WindowText: theme.ink,
        role.Base: theme.paper,
        role.AlternateBase: mixed(theme.ink, theme.paper, 0.04),
        role.Text: theme.ink,
        role.PlaceholderText: theme.quiet,
        role.Button: button,
        role.ButtonText: theme.ink,
        role.BrightText: theme.error,
        role.ToolTipBase: theme.paper,
        role.ToolTipText: theme.ink,
        role.Link: theme.accent,
        role.LinkVisited: theme.accent,
        role.Highlight: theme.accent,
        role.HighlightedText: theme.paper,
        role.Light: mixed(theme.paper, face, 0.8),
        role.Midlight: mixed(theme.ink, theme.paper, 0.09),
        role.Mid: mixed(theme.ink, theme.paper, 0.3),
        role.Dark: mixed(theme.ink, theme.paper, 0.4),
        role.Shadow: mixed(theme.ink, theme.paper, 0.6),
    }
    palette = QPalette()
    for name, colour in colours.items():
        palette.setColor(name, QColor(colour))
    off = QColor(mixed(theme.ink, theme.paper, 0.45))
    for name in (role.WindowText, role.Text, role.ButtonText):
        palette.setColor(group.Disabled, name, off)
    return palette
