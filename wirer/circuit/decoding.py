"""From bytes to a record: JSON read strictly."""

from __future__ import annotations

import json
import re
from collections import Counter
from typing import Any, NoReturn, TypeVar

import msgspec

from wirer.circuit.complaint import explained
from wirer.circuit.errors import DocumentError, Problem, shown

T = TypeVar("T")


_STRING_OR_NO_NUMBER = re.compile(r'"(?:[^"\\]|\\.)*"|(?P<word>NaN|-?Infinity)')


class _DoubleKeyError(Exception):
    """An object with two values for one key: which of them is meant nobody can tell."""


class _NoNumberError(Exception):
    """A word that stands for a number in other languages and is none in JSON."""


def decoded(data: bytes) -> Any:
    """Parse UTF-8 JSON (a byte order mark may precede it).

    Raises
    ------
    DocumentError
        It is no such text, nested too deeply, or has an object with one key twice.
    """
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise _refusal(f"line {line}", "is not UTF-8 text") from error
    if not text.strip():
        raise _refusal("", "is empty")
    try:
        raw = json.loads(text, object_pairs_hook=_object, parse_constant=_no_number)
        if "\\u" in text:
            json.dumps(raw, ensure_ascii=False).encode()
    except json.JSONDecodeError as error:
        what = (error.msg[:1].lower() + error.msg[1:]).removesuffix(" starting at")
        place = f"line {error.lineno}, column {error.colno}"
        cut = (
            ""
            if text.rstrip().endswith("}")
            else "; the file ends early, so look for an older copy"
        )
        raise _refusal(place, f"is not JSON: {what}{cut}") from error
    except UnicodeEncodeError as error:
        raise _refusal("", "has half of a surrogate pair, which is no character") from error
    except RecursionError as error:
        raise _refusal("", "is nested too deeply") from error
    except _NoNumberError as error:
        raise _refusal(_place_of_no_number(text), f"is not JSON: {error} is no number") from error
    except _DoubleKeyError as error:
        raise _refusal("", str(error)) from error
    except ValueError as error:  # of int(): a number of thousands of figures
        raise _refusal("", "has a number with more figures than any quantity") from error
    return raw


def _refusal(place: str, text: str) -> DocumentError:
    return DocumentError([Problem(place, text)])


def _object(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    made = dict(pairs)
    if len(made) < len(pairs):
        double = Counter(key for key, _ in pairs).most_common(1)[0][0]
        name = made.get("id")
        whose = f'the object with the id "{shown(name)}"' if name else "one object"
        raise _DoubleKeyError(f'"{shown(double)}" stands twice in {whose}; leave one of them out')
    return made


def _no_number(word: str) -> NoReturn:
    raise _NoNumberError(word)


def _place_of_no_number(text: str) -> str:
    found = next(m for m in _STRING_OR_NO_NUMBER.finditer(text) if m["word"])
    before = text[: found.start()]
    return f"line {before.count(chr(10)) + 1}, column {len(before) - before.rfind(chr(10))}"


def converted(raw: Any, form: type[T]) -> T:
    """Return parsed JSON as a record.

    Raises
    ------
    DocumentError
        It is not of that form; the first place where it is not.
    """
    try:
        return msgspec.convert(raw, form, strict=True)
    except msgspec.ValidationError as error:
        raise DocumentError([explained(str(error), raw, form)]) from error
