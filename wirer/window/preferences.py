"""What the window remembers from one day to the next."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Literal

from platformdirs import user_config_path
from PySide6.QtCore import QByteArray, QSettings

ThemeChoice = Literal["system", "light", "dark"]
THEME_CHOICES: tuple[ThemeChoice, ...] = ("system", "light", "dark")

MOST_RECENT = 10


def usual_file() -> Path:
    """Return the file in which preferences are kept."""
    return user_config_path("wirer", appauthor=False) / "window.ini"


class Preferences:
    """Theme, recent files, and where windows, panels and columns were."""

    def __init__(self, file: Path | None = None) -> None:
        self._settings = QSettings(str(file or usual_file()), QSettings.Format.IniFormat)

    @property
    def theme(self) -> ThemeChoice:
        """The theme that was chosen."""
        value = self._settings.value("theme", "system")
        return next((choice for choice in THEME_CHOICES if choice == value), "system")

    @theme.setter
    def theme(self, choice: ThemeChoice) -> None:
        self._settings.setValue("theme", choice)

    @property
    def recent(self) -> tuple[Path, ...]:
        """The files opened last, the last one first."""
        value = self._settings.value("recent", [])
        names = [value] if isinstance(value, str) else value
        return tuple(Path(name) for name in names if name) if isinstance(names, list) else ()

    def note_recent(self, path: Path) -> None:
        """Put a file at the top of the recent ones."""
        others = [each for each in self.recent if each != path]
        self._keep_recent([path, *others][:MOST_RECENT])

    def forget_recent(self, path: Path) -> None:
        """Take a file out of the recent ones."""
        self._keep_recent([each for each in self.recent if each != path])

    def clear_recent(self) -> None:
        """Forget every recent file."""
        self._keep_recent([])

    def _keep_recent(self, paths: list[Path]) -> None:
        self._settings.setValue("recent", [str(path) for path in paths])

    def bytes(self, key: str) -> QByteArray | None:
        """Return a kept geometry or state, None if there is none."""
        value = self._settings.value(key)
        return value if isinstance(value, QByteArray) and not value.isEmpty() else None

    def texts(self, key: str) -> tuple[str, ...] | None:
        """Return a kept list of texts, None if there is none."""
        value = self._settings.value(key)
        if value is None:
            return None
        return (value,) if isinstance(value, str) else tuple(map(str, value))

    def flag(self, key: str, otherwise: bool) -> bool:
        """Return a kept yes or no."""
        value = self._settings.value(key, otherwise)
        return value if isinstance(value, bool) else str(value).lower() == "true"

    def keep(self, key: str, value: Any) -> None:
        """Keep a value; None forgets it."""
        if value is None:
            self._settings.remove(key)
        else:
            self._settings.setValue(key, value)

    def write(self) -> None:
        """Write everything to the file now."""
        self._settings.sync()
