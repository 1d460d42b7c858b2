"""Runs the window with the files that it was started with."""

from __future__ import annotations

from pathlib import Path

from wirer.window.worker_process import Line


def run(files: list[str]) -> int:
    """Open a window for each file, or one without a circuit; return the exit status."""
    line = Line()  # starts while Qt is still being loaded
    from wirer.window.program import serve  # noqa: PLC0415

    return serve([Path(name) for name in files], line)
