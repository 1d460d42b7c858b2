"""The studies of a session's circuit: layout, table and findings, worked out by the worker.

An answer to an old question is dropped. What is shown is known to be current or not.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import count
from typing import Any, Literal, Protocol

from PySide6.QtCore import QObject, QTimer, Signal, SignalInstance

from wirer.analysis.combinations import CombinationTable
from wirer.circuit.stance import Stance
from wirer.layout.layout import Layout
from wirer.rules.finding import Finding
from wirer.window import jobs
from wirer.window.messages import Advance, Answer, Job
from wirer.window.session import Session

Study = Literal["layout", "table", "findings"]
Status = Literal["none", "working", "current", "refused", "failed", "cancelled"]

STUDIES: tuple[Study, ...] = ("layout", "table", "findings")
"""The most urgent first."""

GRACE_MS = 400
"""How long a job that is no longer wanted may go on before its process is ended."""

GONE = "the process that works things out ended unexpectedly"


class Works(Protocol):
    """What studies need of a worker."""

    answered: SignalInstance
    advanced: SignalInstance
    lost: SignalInstance

    def submit(self, job: Job) -> None:
        """Send a job."""

    def cancel(self, token: int) -> None:
        """Say that a job is no longer wanted."""

    def restart(self) -> None:
        """End the process with all its jobs and start another."""

    def close(self) -> None:
        """End the process."""


@dataclass
class State:
    """Where a study stands.

    `value` is the last that was worked out, of the circuit now shown or of an earlier value of
    it; it is up to date when `status` is `current`. `text` says why there is none.
    """

    status: Status = "none"
    value: Any = None
    text: str = ""
    done: int = 0
    total: int = 0
    token: int = -1


class Studies(QObject):
    """Asks the worker for what the session's present values lack, the most urgent first."""

    changed = Signal(str)
    """A study has another state; carries its name."""
    advanced = Signal(str)
    """A study has come on; carries its name."""

    def __init__(self, session: Session, worker: Works, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._worker = worker
        self._tokens = count()
        self._states: dict[Study, State] = {study: State() for study in STUDIES}
        self._waiting: dict[Study, Job] = {}
        self._running: tuple[Study, Job] | None = None
        self._grace = QTimer(self, singleShot=True, interval=GRACE_MS)
        self._grace.timeout.connect(self._give_up)
        session.opened.connect(self._forget)
        session.circuit_changed.connect(self._ask_all)
        session.stance_changed.connect(self._follow_stance)
        worker.answered.connect(self._take)
        worker.advanced.connect(self._advance)
        worker.lost.connect(self._recover)

    def state(self, study: Study) -> State:
        """Return where a study stands."""
        return self._states[study]

    @property
    def laid(self) -> jobs.Laid | None:
        """The last layout of the present document, with its notes."""
        value: jobs.Laid | None = self._states["layout"].value
        return value

    @property
    def layout(self) -> Layout | None:
        """The last layout of the present document."""
        return self.laid.layout if self.laid else None

    @property
    def table(self) -> CombinationTable | None:
        """The last combination table of the present document."""
        value: CombinationTable | None = self._states["table"].value
        return value

    @property
    def findings(self) -> tuple[Finding, ...]:
        """The last findings of the present document."""
        value: tuple[Finding, ...] | None = self._states["findings"].value
        return value or ()

    def is_current(self, study: Study) -> bool:
        """Tell whether a study's value is of the present circuit and stance."""
        return self._states[study].status == "current"

    @property
    def is_working(self) -> bool:
        """Whether anything is being worked out."""
        return any(state.status == "working" for state in self._states.values())

    def ask(self, study: Study) -> None:
        """Have a study worked out of the present values."""
        asking: dict[Study, Callable[[int], Job]] = {
            "layout": self._layout_job,
            "table": self._table_job,
            "findings": self._findings_job,
        }
        state = self._states[study]
        state.token = next(self._tokens)
        state.status, state.text, state.done, state.total = "working", "", 0, 0
        self._waiting[study] = asking[study](state.token)
        self._stop_running(study)
        self.changed.emit(study)
        self._start_next()

    def cancel(self, study: Study) -> None:
        """Stop working a study out; its last value stays, marked as old."""
        state = self._states[study]
        if state.status != "working":
            return
        state.status, state.token = "cancelled", -1
        self._waiting.pop(study, None)
        self._stop_running(study)
        self.changed.emit(study)

    def _layout_job(self, token: int) -> Job:
        return Job(token, jobs.laid_out, (self._session.circuit, self.layout))

    def _table_job(self, token: int) -> Job:
        return Job(token, jobs.tabled, (self._session.circuit, self._session.stance))

    def _findings_job(self, token: int) -> Job:
        return Job(token, jobs.checked, (self._session.circuit,))

    def _forget(self) -> None:
        self._states = {study: State() for study in STUDIES}

    def _ask_all(self) -> None:
        for study in STUDIES:
            self.ask(study)

    def _follow_stance(self, before: Stance) -> None:
        if before.rotations != self._session.stance.rotations:
            self.ask("table")

    def _start_next(self) -> None:
        if self._running:
            return
        for study in STUDIES:
            if study in self._waiting:
                job = self._waiting.pop(study)
                self._running = study, job
                self._worker.submit(job)
                return

    def _stop_running(self, study: Study) -> None:
        if self._running and self._running[0] == study and not self._grace.isActive():
            self._worker.cancel(self._running[1].token)
            self._grace.start()

    def _give_up(self) -> None:
        """End a job that does not heed its cancelling, with its process."""
        self._running = None
        self._worker.restart()
        self._start_next()

    def _take(self, answer: Answer) -> None:
        if not self._running or self._running[1].token != answer.token:
            return
        study = self._running[0]
        self._running = None
        self._grace.stop()
        state = self._states[study]
        if answer.token == state.token:
            self._settle(study, state, answer)
        self._start_next()

    def _settle(self, study: Study, state: State, answer: Answer) -> None:
        if answer.outcome == "done":
            state.status, state.value = "current", answer.value
        else:
            state.status, state.text = answer.outcome, answer.value or ""
        self.changed.emit(study)

    def _advance(self, advance: Advance) -> None:
        for study, state in self._states.items():
            if state.token == advance.token and state.status == "working":
                state.done, state.total = advance.done, advance.total
                self.advanced.emit(study)

    def _recover(self) -> None:
        """Start the worker again; the job that it was lost with is not tried a second time."""
        lost, self._running = self._running, None
        self._grace.stop()
        self._worker.restart()
        if lost:
            study, job = lost
            state = self._states[study]
            if job.token == state.token:
                self._settle(study, state, Answer(job.token, "failed", GONE))
        self._start_next()
