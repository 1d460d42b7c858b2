"""How quick the window is: `python tests/benchmarks/window.py [REPEATS]` prints medians.

Aims: start to first painted frame 1.0 s; a switch thrown to the repainted frame 16 ms, on the
example with 64 settings. Frames are painted offscreen unless QT_QPA_PLATFORM says otherwise.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "resources" / "examples" / "01-baritone-three-coils-series.wirer"

START = """
import sys, time
sys.argv = ["wirer", {file!r}]
from PySide6.QtCore import QTimer
import wirer.window.run
from wirer.window import view, program
painted = view.WiringView.paintEvent
def paint(self, event):
    painted(self, event)
    import os
    print(time.time(), flush=True)
    os.kill(os.getpid(), 9)
view.WiringView.paintEvent = paint
wirer.window.run.run([{file!r}])
"""


def start_to_first_frame() -> float:
    """Return the seconds from starting Python to the first painted frame of the wiring view."""
    script = START.format(file=str(EXAMPLE))
    begun = time.time()
    ran = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=False, cwd=ROOT
    )
    return float(ran.stdout.split()[0]) - begun


def milliseconds(deed: Callable[[], object]) -> float:
    begun = time.perf_counter()
    deed()
    return (time.perf_counter() - begun) * 1000


def report(name: str, figures: list[float], unit: str) -> None:
    print(
        f"{name:44} median {statistics.median(figures):8.2f} {unit}"
        f"   worst {max(figures):8.2f} {unit}   of {len(figures)}"
    )


def measure_window(repeats: int, size: tuple[int, int]) -> None:
    """Time frames of a window with the example."""
    from tests.support.screenshots import wait_for
    from wirer.window.house import House
    from wirer.window.preferences import Preferences
    from wirer.window.program import application_object
    from wirer.window.worker import Worker

    application = application_object()
    with tempfile.TemporaryDirectory() as folder:
        house = House(application, Preferences(Path(folder) / "window.ini"), Worker)
        window = house.open_window(EXAMPLE)
        window.resize(*size)
        wait_for(lambda: not window.studies.is_working)
        application.processEvents()
        name = f"{size[0]}x{size[1]}"
        for part in ("SN", "PM", "SB"):
            figures = []
            for _ in range(repeats):
                begun = time.perf_counter()
                window.session.throw_on(part, 1, around=True)
                done = time.perf_counter()
                application.processEvents()
                figures.append((time.perf_counter() - begun) * 1000)
                del done
            report(f"throw {part} to repainted frame, {name}", figures, "ms")
        figures = []
        for step in range(repeats):
            figures.append(
                milliseconds(
                    lambda step=step: (
                        window.session.turn("V.shaft", 1 - step / repeats),
                        application.processEvents(),
                    )
                )
            )
        report(f"turn a knob to repainted frame, {name}", figures, "ms")
        wait_for(lambda: not window.studies.is_working)
        for what, deed in (
            ("zoom", lambda: window.view.zoom_by(1.05)),
            ("pan", lambda: window.view.horizontalScrollBar().setValue(
                window.view.horizontalScrollBar().value() + 7)),
            ("repaint of the whole picture", lambda: window.view.viewport().update()),
        ):  # fmt: skip
            figures = [
                milliseconds(lambda deed=deed: (deed(), application.processEvents()))
                for _ in range(min(repeats, 20))
            ]
            report(f"{what}, {name}", figures, "ms")
        window.close()
        application.processEvents()


def main(repeats: int) -> None:
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    report("start to first painted frame", [start_to_first_frame() for _ in range(7)], "s ")
    for size in ((1280, 820), (1600, 1000)):
        measure_window(repeats, size)


if __name__ == "__main__":
    sys.path.insert(0, str(ROOT))
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 40)
