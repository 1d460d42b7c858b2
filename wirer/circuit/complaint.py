"""What does not fit in a document, said with its place and in a builder's words."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from difflib import get_close_matches
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

import msgspec

from wirer.circuit.errors import Problem, shown


def explained(complaint: str, raw: Any, form: Any) -> Problem:
    """Return the problem that a complaint of msgspec's names in JSON that should be of a form.

    A complaint is for example ``Expected `str`, got `int` - at `$.parts[0].label```; where the
    path leads through a mapping it has ``[...]`` for the key.
    """
    what, _, path = complaint.rpartition(" - at `$")
    try:
        place, value, wanted = _walked(path.rstrip("`") if what else "", raw, form)
    except LookupError:  # an unknown key with a path in its name
        what, place, value, wanted = "", "", raw, form
    return Problem(place, _worded(what or complaint, value, wanted))


_STEP = re.compile(r"\.([^.\[]+)|\[(\d+)\]|(\[\.\.\.\])")


def _walked(path: str, value: Any, form: Any) -> tuple[str, Any, Any]:
    """Follow a path to (the place as a person writes it, what stands there, its type)."""
    place = ""
    for name, index, _entry in _STEP.findall(path):
        union, form = form, _chosen(form, value)
        if name:
            # The word that tells elements apart is no field: it is one of the union's.
            form, value = _field_types(form).get(name, union), value[name]
            place += f".{name}"
        elif index:
            form, value = _item_type(form, int(index)), value[int(index)]
            place += f"[{index}]"
        else:
            form = get_args(form)[1]
            key = _misfit(value, form)
            value = value[key]
            place += f".{shown(key)}"
    return place.removeprefix("."), value, form


def _chosen(form: Any, value: Any) -> Any:
    """Return the alternative of a union that a value which holds others can only mean."""
    if get_origin(form) not in {Union, UnionType}:
        return form
    options = [each for each in get_args(form) if each is not type(None)]
    if isinstance(value, Mapping):
        records = {each.__struct_config__.tag: each for each in options if _is_record(each)}
        return records.get(str(value.get("type"))) or next(iter(records.values()))
    return next((each for each in options if get_origin(each) is tuple), options[0])


def _is_record(form: Any) -> bool:
    return isinstance(form, type) and issubclass(form, msgspec.Struct)


def _field_types(form: Any) -> dict[str, Any]:
    hints = get_type_hints(form)
    names = zip(form.__struct_encode_fields__, form.__struct_fields__, strict=True)
    return {written: hints[attribute] for written, attribute in names}


def _item_type(form: Any, index: int) -> Any:
    items = get_args(form)
    return items[0] if items[-1] is Ellipsis else items[index]


def _misfit(entries: Mapping[str, Any], form: Any) -> str:
    """Return the key of the first entry that is not of its type."""
    for key, value in entries.items():
        try:
            msgspec.convert(value, form, strict=True)
        except msgspec.ValidationError:
            return key
    return next(iter(entries))


_WORDS = {
    "str": "text",
    "int": "a whole number",
    "float": "a number",
    "bool": "true or false",
    "null": "null",
    "array": "a list",
    "list": "a list",
    "object": "an object",
}


def _worded(what: str, value: Any, wanted: Any) -> str:
    """Say in a builder's words what the library complains of."""
    if found := re.fullmatch(r"Object contains unknown field `(.*)`", what, re.DOTALL):
        return _unknown_field(found[1], value, wanted)
    if found := re.fullmatch(r"Object missing required field `(.*)`", what):
        return f'lacks "{found[1]}"'
    if what.startswith("Expected"):
        return _wrong_type(what)
    if choices := ", ".join(_choices(wanted)):
        return f'"{shown(value)}" is not one of {choices}'
    return f"is wrong: {what[:1].lower()}{what[1:]}"


def _wrong_type(what: str) -> str:
    if found := re.fullmatch(r"Expected `array` of length (\d+), got (\d+)", what):
        return f"must be a list of {found[1]} and has {found[2]}"
    wanted, _, got = (
        part.strip("`") for part in what.removeprefix("Expected ").partition(", got ")
    )
    kinds = " or ".join(_WORDS.get(name, name) for name in wanted.split(" | "))
    return f"must be {kinds}, not {_WORDS.get(got, got)}"


def _unknown_field(name: str, value: Any, wanted: Any) -> str:
    form = _chosen(wanted, value)
    names = list(_field_types(form))
    near = get_close_matches(name[:80], names, 1)
    hint = f"is it {near[0]}?" if near else f"it may have {', '.join(names)}"
    return f'has an unknown "{shown(name)}"; {hint}'


def _choices(form: Any) -> Iterator[str]:
    """Yield what may stand where only some words may: a choice's, or the types of an element."""
    if get_origin(form) is Literal:
        yield from map(str, get_args(form))
    for each in get_args(form) if get_origin(form) in {Union, UnionType} else ():
        if _is_record(each):
            yield str(each.__struct_config__.tag)
