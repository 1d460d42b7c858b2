"""What a test must not leave behind: threads and processes that would keep the program alive."""

import multiprocessing
import threading
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

GRACE_S = 2.0


@contextmanager
def nothing_left_running() -> Iterator[None]:
    """Fail the test that leaves a non-daemon thread or a child process running.

    What is already on its way out is given ``GRACE_S`` seconds to end.
    """
    before = set(_running())
    yield
    left = [each for each in _running() if each not in before]
    for each in left:
        each.join(GRACE_S)
    names = [each.name for each in left if each.is_alive()]
    if names:
        pytest.fail(f"left running after the test: {', '.join(names)}", pytrace=False)


def _running() -> list[threading.Thread | multiprocessing.process.BaseProcess]:
    threads = [each for each in threading.enumerate() if not each.daemon]
    return [*threads, *multiprocessing.active_children()]
