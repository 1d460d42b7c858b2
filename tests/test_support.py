"""The tests' own guards: they must notice what they are there for."""

import threading

import pytest

from tests.support.leftovers import nothing_left_running
from tests.support.tools import required_tool


def test_a_thread_left_running_is_noticed(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tests.support.leftovers.GRACE_S", 0.01)
    may_end = threading.Event()
    left = threading.Thread(target=may_end.wait, name="left behind")
    with pytest.raises(pytest.fail.Exception, match="left behind"), nothing_left_running():
        left.start()
    may_end.set()
    left.join()


def test_a_thread_that_ended_is_no_leftover() -> None:
    with nothing_left_running():
        ended = threading.Thread(target=int)
        ended.start()
        ended.join()


def test_a_missing_tool_skips_here_and_fails_in_ci(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("CI", "")
    with pytest.raises(pytest.skip.Exception, match="apt-get install some-package"):
        required_tool("no-such-tool", "some-package")
    monkeypatch.setenv("CI", "true")
    with pytest.raises(pytest.fail.Exception, match="no-such-tool is not installed"):
        required_tool("no-such-tool", "some-package")
