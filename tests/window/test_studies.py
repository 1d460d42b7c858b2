"""Studies: what is asked of the worker, and that an answer to an old question is dropped."""

from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from tests.window.hands import HandWorker
from wirer.circuit.edits import change_part
from wirer.window import jobs
from wirer.window.messages import Advance, Answer
from wirer.window.session import Session
from wirer.window.studies import GONE, Studies


@pytest.fixture
def worker() -> HandWorker:
    worker = HandWorker()
    worker.is_prompt = False
    return worker


@pytest.fixture
def session() -> Session:
    return Session()


@pytest.fixture
def studies(session: Session, worker: HandWorker, small_file: Path) -> Studies:
    studies = Studies(session, worker)
    session.open(small_file)
    return studies


def finish(worker: HandWorker) -> None:
    while worker.jobs:
        worker.deliver()


def test_the_most_urgent_comes_first_and_one_at_a_time(
    studies: Studies, worker: HandWorker
) -> None:
    order = []
    while worker.jobs:
        assert len(worker.jobs) == 1
        order.append(worker.jobs[0].function)
        worker.deliver()
    assert order == [jobs.laid_out, jobs.tabled, jobs.checked]
    assert studies.table is not None
    assert len(studies.table) == 2
    assert not studies.is_working


def test_nothing_is_current_before_it_is_answered(studies: Studies, worker: HandWorker) -> None:
    assert studies.is_working
    assert studies.table is None
    worker.deliver()
    assert studies.is_current("layout")
    assert not studies.is_current("table")


def test_throwing_a_switch_asks_nothing(
    studies: Studies, worker: HandWorker, session: Session
) -> None:
    finish(worker)
    session.throw("S", "down")
    assert not worker.jobs
    assert studies.is_current("table")


def test_turning_a_shaft_asks_the_table_anew_and_marks_the_old_one(
    studies: Studies, worker: HandWorker, session: Session
) -> None:
    finish(worker)
    old = studies.table
    session.turn("V.shaft", 0.5)
    assert [job.function for job in worker.jobs] == [jobs.tabled]
    assert studies.table is old
    assert not studies.is_current("table")
    assert studies.is_current("findings")
    finish(worker)
    assert studies.table is not old
    assert studies.is_current("table")


def test_an_answer_to_an_old_question_is_dropped(
    studies: Studies, worker: HandWorker, session: Session, qtbot: QtBot
) -> None:
    finish(worker)
    session.turn("V.shaft", 0.5)
    stale = worker.jobs.pop()
    session.turn("V.shaft", 0.2)
    session.turn("V.shaft", 0.1)
    assert worker.cancelled == [stale.token]
    with qtbot.assertNotEmitted(studies.changed):
        worker.answered.emit(Answer(stale.token, "done", "what was asked before"))
    assert studies.table != "what was asked before"
    (latest,) = worker.jobs
    assert latest.arguments[1].rotations == {"V.shaft": 0.1}
    finish(worker)
    assert studies.is_current("table")


def test_an_answer_from_before_another_document_is_dropped(
    studies: Studies, worker: HandWorker, session: Session, small_file: Path
) -> None:
    stale = worker.jobs.pop()
    session.open(small_file)
    worker.answered.emit(Answer(stale.token, "done", "of the other document"))
    assert studies.layout is None
    assert studies.state("layout").status == "working"


def test_another_document_shows_nothing_of_the_one_before(
    studies: Studies, worker: HandWorker, session: Session, small_file: Path
) -> None:
    finish(worker)
    session.open(small_file)
    assert studies.table is None
    assert studies.findings == ()
    assert studies.layout is None


def test_an_edit_keeps_old_values_but_does_not_call_them_current(
    studies: Studies, worker: HandWorker, session: Session
) -> None:
    finish(worker)
    before = studies.layout
    session.apply("Rename", lambda circuit: change_part(circuit, "N", label="Front"))
    assert studies.layout is before
    assert not any(map(studies.is_current, ("layout", "table", "findings")))
    assert worker.jobs[0].arguments[1] is before


def test_cancelling_stops_and_asking_again_goes_on(studies: Studies, worker: HandWorker) -> None:
    worker.deliver()
    running = worker.jobs[0]
    studies.cancel("table")
    assert studies.state("table").status == "cancelled"
    assert worker.cancelled == [running.token]
    worker.jobs.clear()
    worker.answered.emit(Answer(running.token, "cancelled"))
    finish(worker)
    assert studies.is_current("findings")
    assert studies.table is None
    studies.ask("table")
    finish(worker)
    assert studies.is_current("table")


def test_a_job_that_heeds_no_cancelling_costs_its_process(
    studies: Studies, worker: HandWorker, qtbot: QtBot
) -> None:
    worker.deliver()
    studies.cancel("table")
    qtbot.waitUntil(lambda: worker.restarts == 1)
    finish(worker)
    assert studies.is_current("findings")


def test_a_lost_process_is_told_of_and_the_rest_goes_on(
    studies: Studies, worker: HandWorker
) -> None:
    worker.jobs.clear()
    worker.lost.emit()
    assert worker.restarts == 1
    state = studies.state("layout")
    assert (state.status, state.text) == ("failed", GONE)
    finish(worker)
    assert studies.is_current("table")


def test_progress_is_of_the_job_asked_last(studies: Studies, worker: HandWorker) -> None:
    worker.deliver()
    token = worker.jobs[0].token
    worker.advanced.emit(Advance(token, 8192, 65536))
    assert (studies.state("table").done, studies.state("table").total) == (8192, 65536)
    worker.advanced.emit(Advance(token + 100, 1, 2))
    assert studies.state("table").done == 8192


def test_what_is_refused_says_why(studies: Studies, worker: HandWorker) -> None:
    token = worker.jobs.pop().token
    worker.answered.emit(Answer(token, "refused", "too many settings"))
    assert studies.state("layout").status == "refused"
    assert studies.state("layout").text == "too many settings"
