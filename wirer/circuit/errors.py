"""What can be wrong with something a user gave: one exception class a situation."""

from __future__ import annotations

from dataclasses import dataclass

LONGEST_SHOWN = 40


def one_line(text: str) -> str:
    """Return a text with everything that does not print (line breaks, controls) as escapes."""
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


def shown(text: object) -> str:
    """Return what a user wrote as a sentence about it shows it: on one line, no longer than that.

    Only the beginning of a longer text stays.
    """
    whole = one_line(str(text)[: LONGEST_SHOWN + 1])
    return whole if len(whole) <= LONGEST_SHOWN else whole[:LONGEST_SHOWN] + "…"


class WirerError(Exception):
    """Root of every error that is the input's fault; its text is one clear line."""

    def __init__(self, text: str) -> None:
        super().__init__(one_line(text))


class QuantityError(WirerError):
    """A text that is not the quantity it should be."""


class KindError(WirerError):
    """A kind that can't be used: unreadable, unknown or contradicting itself."""


class EditError(WirerError):
    """An edit that would leave something that is not a circuit."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with a document: where (a path such as `parts[3].at`) and what."""

    place: str
    text: str

    def __str__(self) -> str:
        return one_line(f"{self.place}: {self.text}" if self.place else self.text)


class DocumentError(WirerError):
    """A document that is not a circuit, with every problem found in it."""

    def __init__(self, problems: list[Problem], source: str = "") -> None:
        self.problems = tuple(problems)
        self.source = source
        super().__init__(self._line())

    def _line(self) -> str:
        first = str(self.problems[0])
        more = len(self.problems) - 1
        tail = f" (and {more} more problem{'s' if more > 1 else ''})" if more else ""
        return f"{self.source}: {first}{tail}" if self.source else f"{first}{tail}"

    def __reduce__(self) -> tuple[type[DocumentError], tuple[list[Problem], str]]:
        return type(self), (list(self.problems), self.source)
