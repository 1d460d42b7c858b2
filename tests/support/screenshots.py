"""Pictures of the window in many states, for people to look at.

`python -m tests.support.screenshots OUTDIR [WORD]` writes them: some examples, the empty page and
a refused file, in light and dark, at 100 % and 200 %, in a small and a large window. With a word
only those whose name has it. They are made offscreen unless QT_QPA_PLATFORM says otherwise.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

SCALES = (1, 2)
SIZES = ((1024, 700), (1600, 1000))
THEMES = ("light", "dark")


def main(out: Path, word: str) -> None:
    """Take the pictures of each scale in a process of its own, since Qt has one scale a process."""
    out.mkdir(parents=True, exist_ok=True)
    for scale in SCALES:
        environment = {
            "QT_QPA_PLATFORM": "offscreen",
            **os.environ,
            "QT_SCALE_FACTOR": str(scale),
            "WIRER_SCREENSHOT_SCALE": str(scale),
        }
        command = [sys.executable, "-m", "tests.support.screenshots", str(out), word, "--one-scale"]
        subprocess.run(command, env=environment, check=True)


def take_all(out: Path, word: str, scale: int) -> None:
    """Take the pictures at the scale that this process has."""
    from wirer.window.house import House
    from wirer.window.preferences import Preferences
    from wirer.window.program import application_object
    from wirer.window.window import Window
    from wirer.window.worker import Worker

    application = application_object()
    with tempfile.TemporaryDirectory() as folder:
        for theme in THEMES:
            preferences = Preferences(Path(folder) / f"{theme}.ini")
            preferences.theme = theme  # type: ignore[assignment]
            house = House(application, preferences, Worker)
            for name, prepare in STATES.items():
                for width, height in SIZES:
                    file = out / f"{name}-{theme}-{scale}00-{width}x{height}.png"
                    if word not in file.name:
                        continue
                    window: Window = house.open_window()
                    window.resize(width, height)
                    prepare(window)
                    wait_for(lambda w=window: not w.studies.is_working)
                    window.panels.share_out()
                    window.view.fit()
                    arrange = AFTERWARDS.get(name)
                    if arrange:
                        arrange(window)
                    for _ in range(5):
                        application.processEvents()
                    window.grab().save(str(file))
                    print(file)
                    window.close()
                    application.processEvents()


def wait_for(holds: Callable[[], bool]) -> None:
    """Let Qt work until something holds."""
    from PySide6.QtCore import QEventLoop, QTimer

    loop = QEventLoop()
    timer = QTimer(interval=10)
    timer.timeout.connect(lambda: holds() and loop.quit())
    timer.start()
    loop.exec()


def open_example(start: str) -> Callable[[object], None]:
    """Return what opens the example whose name begins so."""

    def prepare(window: object) -> None:
        from wirer.window.examples import examples

        example = next(each for each in examples() if each.name.startswith(start))
        window.open_example(example)  # type: ignore[attr-defined]

    return prepare


def refuse_file(window: object) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "newer.wirer"
        path.write_text('{"format": "wirer", "version": 9, "parts": [], "wires": []}')
        window.open_files([path])  # type: ignore[attr-defined]


def show_findings(window: object) -> None:
    window.panels.docks["findings"].raise_()  # type: ignore[attr-defined]
    tree = window.findings_panel.tree  # type: ignore[attr-defined]
    for place in range(tree.topLevelItemCount()):
        group = tree.topLevelItem(place)
        if group.childCount():
            group.child(0).setSelected(True)
            return


def show_controls(window: object) -> None:
    window.panels.docks["controls"].raise_()  # type: ignore[attr-defined]


def throw_some(window: object) -> None:
    session = window.session  # type: ignore[attr-defined]
    session.throw("SN", "down")
    session.throw("PM", "down")
    window.view.setFocus()  # type: ignore[attr-defined]
    window.view.keys.focus_first(1)  # type: ignore[attr-defined]
    window.view.keys.show_focus(True)  # type: ignore[attr-defined]


STATES: dict[str, Callable[[object], None]] = {
    "empty": lambda _window: None,
    "refused": refuse_file,
    "series": open_example("01"),
    "thrown": open_example("01"),
    "humbuckers": open_example("03"),
    "lever": open_example("04"),
    "fourpole": open_example("05"),
    "rotary": open_example("06"),
    "bass": open_example("07"),
    "mistakes": open_example("09"),
    "controls": open_example("01"),
}
AFTERWARDS: dict[str, Callable[[object], None]] = {
    "thrown": throw_some,
    "mistakes": show_findings,
    "controls": show_controls,
}


if __name__ == "__main__":
    arguments = [each for each in sys.argv[1:] if each != "--one-scale"]
    chosen = arguments[1] if len(arguments) > 1 else ""
    if "--one-scale" in sys.argv:
        take_all(Path(arguments[0]), chosen, int(os.environ["WIRER_SCREENSHOT_SCALE"]))
    else:
        main(Path(arguments[0]), chosen)
