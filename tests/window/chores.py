"""Jobs for a worker process to be tried with. Free of Qt."""

import os
from pathlib import Path
from typing import Any

from wirer.analysis.combinations import Progress
from wirer.circuit.errors import WirerError


def environment(root: Path) -> dict[str, str]:
    """What a process started by a test needs to find the project and no display."""
    paths = [str(root), os.environ.get("PYTHONPATH", "")]
    return {
        **os.environ,
        "PYTHONPATH": os.pathsep.join(filter(None, paths)),
        "QT_QPA_PLATFORM": "offscreen",
    }


def give_back(_progress: Progress, value: Any) -> Any:
    return value


def refuse(_progress: Progress) -> None:
    raise WirerError("there are too many")


def fail(_progress: Progress) -> None:
    raise ZeroDivisionError


def return_a_function(_progress: Progress) -> Any:
    return lambda: None


def go_on_for_ever(progress: Progress) -> None:
    while True:
        progress(1, 2)


def be_deaf(_progress: Progress) -> None:
    while True:
        pass


def end_at_once(_progress: Progress) -> None:
    os._exit(1)
