"""What a command answers when it can't do what was asked: one line, with the file it is about."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from wirer.circuit.errors import DocumentError, WirerError


class RefusalError(WirerError):
    """A request or a file that can't be used; its line says already what it is about."""


@contextmanager
def concerning(path: str) -> Iterator[None]:
    """Put the file's name before whatever is wrong with it or with what is asked of it.

    Raises
    ------
    WirerError
        In place of every error of the input, and of a circuit that is beyond the machine.
    """
    from wirer.circuit.files import FileError

    try:
        yield
    except (RefusalError, FileError, DocumentError):
        raise
    except WirerError as error:
        raise RefusalError(f"{path}: {error}") from error
    except RecursionError as error:
        text = "its parts are nested too deeply to be worked out; join fewer of them in a chain"
        raise RefusalError(f"{path}: {text}") from error
    except MemoryError as error:
        text = "needs more memory than there is; try it with fewer switches"
        raise RefusalError(f"{path}: {text}") from error
