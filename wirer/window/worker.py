"""The worker as the window has it: one process that outlives its jobs."""

from __future__ import annotations

import threading
from itertools import pairwise
from queue import SimpleQueue

from PySide6.QtCore import QObject, Qt, Signal

from wirer.window.messages import Advance, Answer, Cancel, Job
from wirer.window.worker_process import Line


class Worker(QObject):
    """Sends jobs to a process of its own and tells what comes back.

    The process is started by spawning, so it shares nothing with the window but values. What it
    says is heard by a thread and put in a box that the interface's thread empties: Python objects
    never travel through Qt's own queue, where a flood of them ended the program.
    """

    answered = Signal(object)
    """An `Answer`."""
    advanced = Signal(object)
    """An `Advance` of the running job."""
    lost = Signal()
    """The process ended without having been told to; the jobs that it had are lost."""

    _arrived = Signal()

    def __init__(self, line: Line | None = None, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._box: SimpleQueue[Answer | Advance | None] = SimpleQueue()
        self._called = threading.Event()
        self._arrived.connect(self._empty_box, Qt.ConnectionType.QueuedConnection)
        self._take(line or Line())

    @property
    def pid(self) -> int | None:
        """The process's id."""
        return self._line.process.pid

    def submit(self, job: Job) -> None:
        """Send a job; `answered` will tell what became of it."""
        self._send(job)

    def cancel(self, token: int) -> None:
        """Say that a job is no longer wanted; its answer will come all the same."""
        self._send(Cancel(token))

    def restart(self) -> None:
        """End the process with all its jobs and start another."""
        self.close()
        self._take(Line())

    def close(self) -> None:
        """End the process."""
        self._ending.set()
        self._line.end()
        self._thread.join()
        self._line.connection.close()

    def _send(self, message: object) -> None:
        try:
            self._line.connection.send(message)
        except OSError:
            return  # the process is gone, as the thread that hears it will tell

    def _take(self, line: Line) -> None:
        self._line = line
        self._ending = threading.Event()
        arguments = (line, self._ending)
        self._thread = threading.Thread(target=self._hear, args=arguments, daemon=True)
        self._thread.start()

    def _hear(self, line: Line, ending: threading.Event) -> None:
        """Pass on what the process says; runs in a thread of its own."""
        while True:
            try:
                message = line.connection.recv()
            except (EOFError, OSError):
                break
            self._put(message)
        if not ending.is_set():
            self._put(None)

    def _put(self, message: Answer | Advance | None) -> None:
        """Put something in the box (None: the process is lost) and call for it once."""
        self._box.put(message)
        if not self._called.is_set():
            self._called.set()
            self._arrived.emit()

    def _empty_box(self) -> None:
        """Tell what is in the box; of several advances in a row only the last."""
        self._called.clear()
        messages = [self._box.get() for _ in range(self._box.qsize())]
        for message, following in pairwise((*messages, None)):
            if isinstance(message, Answer):
                self.answered.emit(message)
            elif message is None:
                self.lost.emit()
            elif not isinstance(following, Advance):
                self.advanced.emit(message)
