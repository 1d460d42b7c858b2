"""A worker in the test's own hands, and a small circuit."""

from __future__ import annotations

import json
from functools import lru_cache
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from wirer.circuit.errors import WirerError
from wirer.window.messages import Answer, Job

SMALL = json.dumps(
    {
        "format": "wirer",
        "version": 1,
        "title": "Small",
        "parts": [
            {"id": "N", "kind": "coil-2wire", "label": "Neck", "at": [50, 15]},
            {
                "id": "S",
                "kind": "slide-2p2t",
                "label": "Kill",
                "at": [50, 70],
                "position_labels": {"up": "on", "down": "off"},
                "lug_labels": {"A0": "5"},
            },
            {"id": "V", "kind": "pot", "label": "Volume", "at": [100, 70]},
            {"id": "J", "kind": "jack-ts", "label": "Output", "at": [140, 70]},
        ],
        "wires": [
            {"id": "w1", "from": "N.finish", "to": "S.A0", "colour": "YE"},
            {"id": "w2", "from": "N.start", "to": "J.sleeve", "colour": "BK"},
            {"id": "w3", "from": "S.A2", "to": "J.sleeve", "colour": "BK"},
            {"id": "w4", "from": "S.A0", "to": "V.3", "colour": "RD"},
            {"id": "w5", "from": "V.2", "to": "J.tip", "colour": "WH"},
            {"id": "w6", "from": "V.1", "to": "J.sleeve", "colour": "BK"},
            {"id": "w7", "from": "V.can", "to": "J.sleeve", "colour": "BK"},
        ],
    }
)


class HandWorker(QObject):
    """Works jobs out in the test's own process: at once, or when the test says so."""

    answered = Signal(object)
    advanced = Signal(object)
    lost = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.is_prompt = True
        self.jobs: list[Job] = []
        self.cancelled: list[int] = []
        self.restarts = 0
        self.is_closed = False

    def submit(self, job: Job) -> None:
        self.jobs.append(job)
        if self.is_prompt:
            QTimer.singleShot(0, self.deliver)

    def deliver(self) -> None:
        """Answer the oldest job."""
        if self.jobs:
            job = self.jobs.pop(0)
            self.answered.emit(answer_of(job))

    def cancel(self, token: int) -> None:
        self.cancelled.append(token)

    def restart(self) -> None:
        self.restarts += 1
        self.jobs.clear()

    def close(self) -> None:
        self.is_closed = True


def answer_of(job: Job) -> Answer:
    try:
        return Answer(job.token, "done", _worked_out(job.function, job.arguments))
    except WirerError as error:
        return Answer(job.token, "refused", str(error))


@lru_cache(maxsize=64)
def _worked_out(function: Any, arguments: tuple[Any, ...]) -> Any:
    """Work out once what many tests ask for."""
    return function(lambda _done, _total: None, *arguments)
