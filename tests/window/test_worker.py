"""The worker process: it answers, can be stopped, and never outlives the window."""

import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.window import chores
from wirer.circuit.files import read_file
from wirer.window import jobs
from wirer.window.messages import Job
from wirer.window.worker import Worker

PATIENCE_MS = 30_000
EXAMPLE = (
    Path(__file__).parents[2] / "resources" / "examples" / "01-baritone-three-coils-series.wirer"
)


@pytest.fixture
def worker() -> Iterator[Worker]:
    worker = Worker()
    yield worker
    worker.close()


@pytest.fixture
def ask(worker: Worker, qtbot: QtBot) -> Callable[[Job], tuple[str, object]]:
    """Sends a job and returns its outcome and value."""

    def send(job: Job) -> tuple[str, object]:
        with qtbot.waitSignal(worker.answered, timeout=PATIENCE_MS) as told:
            worker.submit(job)
        answer = told.args[0]
        assert answer.token == job.token
        return answer.outcome, answer.value

    return send


def test_it_works_out_layout_table_and_findings(ask: Callable[..., tuple[str, object]]) -> None:
    circuit, stance = read_file(EXAMPLE)
    outcome, laid = ask(Job(1, jobs.laid_out, (circuit, None)))
    assert outcome == "done"
    assert laid.layout.routes.keys() == circuit.wire_by_id.keys()
    outcome, table = ask(Job(2, jobs.tabled, (circuit, stance)))
    assert (outcome, len(table), table.distinct) == ("done", 64, 13)
    outcome, findings = ask(Job(3, jobs.checked, (circuit,)))
    assert outcome == "done"
    assert not [finding for finding in findings if finding.severity == "error"]


def test_what_the_input_is_at_fault_for_is_refused_in_one_line(
    ask: Callable[..., tuple[str, object]],
) -> None:
    assert ask(Job(1, chores.refuse)) == ("refused", "there are too many")


def test_a_fault_of_the_program_is_told_and_the_next_job_is_done(
    ask: Callable[..., tuple[str, object]],
) -> None:
    outcome, text = ask(Job(1, chores.fail))
    assert outcome == "failed"
    assert "ZeroDivisionError" in str(text)
    assert ask(Job(2, chores.give_back, (7,))) == ("done", 7)


def test_what_cannot_be_sent_back_is_told_too(ask: Callable[..., tuple[str, object]]) -> None:
    assert ask(Job(1, chores.return_a_function))[0] == "failed"


def test_a_running_job_is_cancelled_at_its_next_progress(worker: Worker, qtbot: QtBot) -> None:
    with qtbot.waitSignal(worker.advanced, timeout=PATIENCE_MS):
        worker.submit(Job(1, chores.go_on_for_ever))
    with qtbot.waitSignal(worker.answered, timeout=PATIENCE_MS) as told:
        worker.cancel(1)
    assert told.args[0].outcome == "cancelled"


def test_a_waiting_job_is_cancelled_before_it_starts(worker: Worker, qtbot: QtBot) -> None:
    worker.cancel(1)
    with qtbot.waitSignal(worker.answered, timeout=PATIENCE_MS) as told:
        worker.submit(Job(1, chores.give_back, (7,)))
    assert told.args[0].outcome == "cancelled"


def test_a_job_that_heeds_nothing_ends_with_its_process(worker: Worker, qtbot: QtBot) -> None:
    first = worker.pid
    worker.submit(Job(1, chores.be_deaf))
    with qtbot.assertNotEmitted(worker.lost):
        worker.restart()
    assert worker.pid != first
    with qtbot.waitSignal(worker.answered, timeout=PATIENCE_MS) as told:
        worker.submit(Job(2, chores.give_back, (7,)))
    assert told.args[0].token == 2


def test_a_process_that_ends_by_itself_is_told_of(worker: Worker, qtbot: QtBot) -> None:
    with qtbot.waitSignal(worker.lost, timeout=PATIENCE_MS):
        worker.submit(Job(1, chores.end_at_once))


def test_closing_leaves_neither_process_nor_thread() -> None:
    threads = threading.active_count()
    worker = Worker()
    process = worker._line.process
    worker.close()
    assert not process.is_alive()
    assert threading.active_count() == threads


LIVES = """
import sys
from PySide6.QtCore import QCoreApplication
from tests.window import chores
from wirer.window.messages import Job
from wirer.window.worker import Worker

if __name__ == "__main__":
    application = QCoreApplication([])
    worker = Worker()
    worker.advanced.connect(lambda _advance: print("busy", flush=True))
    worker.submit(Job(1, chores.go_on_for_ever))
    application.exec()
"""


def test_the_process_ends_when_the_window_is_killed_at_work(tmp_path: Path) -> None:
    script = tmp_path / "lives.py"
    script.write_text(LIVES, encoding="utf-8")
    command = [sys.executable, str(script)]
    root = Path(__file__).parents[2]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, text=True, cwd=root, env=chores.environment(root)
    ) as window:
        assert window.stdout is not None
        assert window.stdout.readline() == "busy\n"
        window.kill()
        # The pipe is shared with the worker: it is at its end only when both are gone.
        window.communicate(timeout=PATIENCE_MS / 1000)
