"""The worker process: takes jobs from a pipe, answers them one by one. Free of Qt.

A thread of its own reads the pipe, so that a job can be cancelled while it runs and the process
ends at once when the window does, however it does.
"""

from __future__ import annotations

import importlib
import multiprocessing
import os
import signal
import threading
from multiprocessing.connection import Connection
from queue import SimpleQueue

from wirer.circuit.errors import WirerError
from wirer.window.messages import Advance, Answer, Cancel, CancelledError, Job

JOBS = "wirer.window.jobs"


class Line:
    """A started worker process and the connection to it."""

    connection: Connection

    def __init__(self) -> None:
        context = multiprocessing.get_context("spawn")
        self.connection, other = context.Pipe()
        self.process = context.Process(target=serve, args=(other,), name="worker", daemon=True)
        self.process.start()
        other.close()

    def end(self) -> None:
        """End the process, whatever it is at."""
        self.process.terminate()
        self.process.join()


def serve(connection: Connection) -> None:
    """Answer jobs until the other end of the connection is closed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the window decides what an interrupt ends
    bench = _Bench(connection)
    threading.Thread(target=bench.listen, daemon=True).start()
    importlib.import_module(JOBS)  # while the window is still being built
    while True:
        bench.reply(bench.jobs.get())


class _Bench:
    """The jobs that wait, and the tokens of those that are no longer wanted."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection
        self.jobs: SimpleQueue[Job] = SimpleQueue()
        self.cancelled: set[int] = set()

    def listen(self) -> None:
        """Take in what the window sends, until it is gone."""
        try:
            while True:
                message = self.connection.recv()
                if isinstance(message, Cancel):
                    self.cancelled.add(message.token)
                else:
                    self.jobs.put(message)
        except (EOFError, OSError):
            os._exit(0)

    def reply(self, job: Job) -> None:
        """Carry a job out and send what came of it."""
        answer = self._answer(job)
        try:
            self.connection.send(answer)
        except OSError:
            os._exit(0)
        except Exception as error:  # noqa: BLE001 # what can't be pickled must not end the service
            self.connection.send(_fault(job, error))

    def _answer(self, job: Job) -> Answer:
        def progress(done: int, total: int) -> None:
            if job.token in self.cancelled:
                raise CancelledError
            self.connection.send(Advance(job.token, done, total))

        if job.token in self.cancelled:
            return Answer(job.token, "cancelled")
        try:
            return Answer(job.token, "done", job.function(progress, *job.arguments))
        except CancelledError:
            return Answer(job.token, "cancelled")
        except WirerError as error:
            return Answer(job.token, "refused", str(error))
        except Exception as error:  # noqa: BLE001 # a fault of ours must not end the service
            return _fault(job, error)


def _fault(job: Job, error: Exception) -> Answer:
    return Answer(job.token, "failed", f"{type(error).__name__}: {error}")
