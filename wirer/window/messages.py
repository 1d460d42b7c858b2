"""What the window and its worker process say to each other. Quick to import."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal

Outcome = Literal["done", "refused", "failed", "cancelled"]


class CancelledError(Exception):
    """The job is no longer wanted; raised out of the progress that the job reports to."""


@dataclass(frozen=True)
class Job:
    """One thing to work out: a function, called with a progress to report to and the arguments.

    `token` tells its answer from answers to other jobs.
    """

    token: int
    function: Callable[..., Any]
    arguments: tuple[Any, ...] = ()


@dataclass(frozen=True)
class Cancel:
    """A job that is no longer wanted."""

    token: int


@dataclass(frozen=True)
class Advance:
    """How far a job is."""

    token: int
    done: int
    total: int


@dataclass(frozen=True)
class Answer:
    """What became of a job: done with a value, refused or failed with a text, or cancelled.

    It is refused for the input's fault and failed for the program's.
    """

    token: int
    outcome: Outcome
    value: Any = None
