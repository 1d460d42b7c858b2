"""Writers that are killed: whoever reads finds the old file or the new one, whole."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from wirer.circuit.document import write_document
from wirer.circuit.model import Circuit, Part, Wire
from wirer.circuit.stance import Stance

WRITER = """
import sys
from itertools import cycle
from pathlib import Path
from wirer.circuit.files import write_bytes

target, *new = map(Path, sys.argv[1:])
contents = [path.read_bytes() for path in new]
print("ready", flush=True)
for content in cycle(contents):
    write_bytes(target, content)
    print("written", flush=True)
"""


def big(title: str) -> bytes:
    """A document long enough to be caught half written."""
    parts = tuple(Part(id=f"P{n}", kind="bus", label=title) for n in range(200))
    wires = tuple(
        Wire(id=f"w{n}", from_lug=f"P{n % 200}.1", to_lug=f"P{(n * 7) % 200}.2")
        for n in range(2000)
    )
    return write_document(Circuit(title=title, parts=parts, wires=wires), Stance())


@pytest.fixture
def writer(tmp_path: Path) -> Iterator[Any]:
    """Starts a process that writes two documents in turn to a target until it is killed."""
    new = []
    for title in ("one", "other"):
        new.append(tmp_path / f"{title}.new")
        new[-1].write_bytes(big(title))
    started: list[subprocess.Popen[str]] = []

    def start(target: Path) -> subprocess.Popen[str]:
        command = [sys.executable, "-c", WRITER, str(target), *map(str, new)]
        process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        started.append(process)
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        return process

    yield start
    for process in started:
        process.kill()
        process.communicate()


def test_a_reader_sees_the_old_or_the_new_file_whole(tmp_path: Path, writer: Any) -> None:
    target = tmp_path / "job.wirer"
    target.write_bytes(big("old"))
    whole = {big(title) for title in ("old", "one", "other")}
    process = writer(target)
    seen = set()
    for _ in range(20):
        seen |= {target.read_bytes() for _ in range(10)}
        assert process.stdout.readline() == "written\n"
    assert seen <= whole
    assert {big("one"), big("other")} <= seen | {target.read_bytes()}


@pytest.mark.skipif(os.name != "posix", reason="the signal is POSIX's")
def test_a_writer_killed_at_any_moment_leaves_a_whole_file(tmp_path: Path, writer: Any) -> None:
    target = tmp_path / "job.wirer"
    target.write_bytes(big("old"))
    whole = {big(title) for title in ("old", "one", "other")}
    for writes in range(10):
        process = writer(target)
        for _ in range(writes):
            assert process.stdout.readline() == "written\n"
        process.send_signal(signal.SIGKILL)
        process.wait()
        assert target.read_bytes() in whole
