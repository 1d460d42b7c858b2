"""The document: a circuit, and the stance it was left in, as JSON."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from typing import Any, Literal

import msgspec
from msgspec import Struct, field
from msgspec.structs import asdict, force_setattr

from wirer.circuit.check import circuit_problems
from wirer.circuit.errors import DocumentError, Problem
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Kind
from wirer.circuit.migration import VERSION, migrated
from wirer.circuit.model import Circuit, OutputLoad, Part, Waiver, Wanted, Wire
from wirer.circuit.stance import Stance, default_stance, positions_in_use

LARGEST_BYTES = 64 * 2**20


class PartRecord(Part, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A part as the document has it: with where its switch and shafts stand."""

    position: str | None = None
    rotation: Mapping[str, float] = field(default_factory=FrozenMap)

    def __post_init__(self) -> None:
        super().__post_init__()
        force_setattr(self, "rotation", FrozenMap(self.rotation))


class Document(Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """The JSON object of a `.wirer` file."""

    format: Literal["wirer"]
    version: Literal[1]
    title: str = ""
    job: str = ""
    notes: str = ""
    parts: tuple[PartRecord, ...]
    wires: tuple[Wire, ...]
    output_load: OutputLoad = OutputLoad()
    wanted: tuple[Wanted, ...] = ()
    waived: tuple[Waiver, ...] = ()
    kinds: tuple[Kind, ...] = ()


_CIRCUIT_FIELDS = (
    "title", "job", "notes", "wires", "output_load", "wanted", "waived", "kinds",
)  # fmt: skip
_PART_FIELDS = Part.__struct_fields__


def read_document(data: bytes, source: str = "") -> tuple[Circuit, Stance]:
    """Read a document.

    Raises
    ------
    DocumentError
        It is no JSON, not of the document's form, of a newer version, or not a circuit.
    """
    record = _record(data, source)
    parts = tuple(Part(**{f: getattr(p, f) for f in _PART_FIELDS}) for p in record.parts)
    circuit = Circuit(parts=parts, **{f: getattr(record, f) for f in _CIRCUIT_FIELDS})
    problems = circuit_problems(circuit)
    if not problems:
        problems = _stance_problems(circuit, record)
    if problems:
        raise DocumentError(problems, source)
    return circuit, _stance(circuit, record)


def _record(data: bytes, source: str) -> Document:
    if len(data) > LARGEST_BYTES:
        size = f"is larger than {LARGEST_BYTES // 2**20} MiB, the most that is read"
        raise DocumentError([Problem("", size)], source)
    try:
        raw = msgspec.json.decode(data.removeprefix(b"\xef\xbb\xbf"))
        return msgspec.convert(migrated(raw), Document, strict=True)
    except msgspec.ValidationError as error:
        raise DocumentError([_validation_problem(str(error))], source) from error
    except msgspec.DecodeError as error:
        raise DocumentError([_syntax_problem(data, str(error))], source) from error
    except UnicodeDecodeError as error:
        raise DocumentError([Problem("", "is not UTF-8 text")], source) from error
    except RecursionError as error:
        raise DocumentError([Problem("", "is nested too deeply")], source) from error
    except DocumentError as error:
        raise DocumentError(list(error.problems), source) from error


def _syntax_problem(data: bytes, text: str) -> Problem:
    found = re.search(r"\(byte (\d+)\)", text)
    what = text.removeprefix("JSON is malformed: ").partition(" (byte")[0]
    if not found:
        return Problem("", f"is not JSON: {what}")
    before = data[: int(found[1])]
    line = before.count(b"\n") + 1
    column = len(before) - (before.rfind(b"\n") + 1) + 1
    return Problem("", f"is not JSON: line {line}, column {column}: {what}")


def _validation_problem(text: str) -> Problem:
    message, _, path = text.partition(" - at `")
    place = path.rstrip("`").removeprefix("$").removeprefix(".")
    message = message.replace("Object contains unknown field", "there is no field")
    message = message.replace("Object missing required field", "lacks the field")
    message = re.sub(r"Expected `([^`]*)`, got `([^`]*)`", r"should be \1 and is \2", message)
    return Problem(place, message[:1].lower() + message[1:])


def _stance_problems(circuit: Circuit, record: Document) -> list[Problem]:
    problems = []
    for index, part in enumerate(record.parts):
        place = f"parts[{index}]"
        kind = circuit.kind_of(part)
        choices = positions_in_use(kind, part)
        if part.position is not None and part.position not in choices:
            having = f"it has {', '.join(choices)}" if choices else "it is no switch"
            text = f'{kind.id} has no position "{part.position[:70]}"; {having}'
            problems.append(Problem(f"{place}.position", text))
        for name, rotation in part.rotation.items():
            if name not in {shaft.name for shaft in kind.shafts}:
                problems.append(Problem(f"{place}.rotation", f'{kind.id} has no shaft "{name}"'))
            elif not 0 <= rotation <= 1:
                text = f"{rotation:g} is not between 0 and 1"
                problems.append(Problem(f"{place}.rotation.{name}", text))
    return problems


def _stance(circuit: Circuit, record: Document) -> Stance:
    usual = default_stance(circuit)
    own_positions = {p.id: p.position for p in record.parts if p.position is not None}
    own_rotations = {f"{p.id}.{s}": x for p in record.parts for s, x in p.rotation.items()}
    return Stance(
        positions={**usual.positions, **own_positions},
        rotations={**usual.rotations, **own_rotations},
    )


def to_record(circuit: Circuit, stance: Stance) -> Document:
    """Return the document of a circuit in a stance."""
    usual = default_stance(circuit)
    parts = []
    for part in circuit.parts:
        position = stance.positions.get(part.id)
        rotation = {}
        for shaft in circuit.kind_of(part).shafts:
            name = f"{part.id}.{shaft.name}"
            if stance.rotations.get(name, shaft.default) != usual.rotations[name]:
                rotation[shaft.name] = stance.rotations[name]
        known = usual.positions.get(part.id)
        own = None if position == known else position
        parts.append(PartRecord(**asdict(part), position=own, rotation=FrozenMap(rotation)))
    fields = {name: getattr(circuit, name) for name in _CIRCUIT_FIELDS}
    return Document(format="wirer", version=VERSION, parts=tuple(parts), **fields)


def write_document(circuit: Circuit, stance: Stance) -> bytes:
    """Return the document as UTF-8 JSON, one part or wire a line."""
    record = msgspec.to_builtins(to_record(circuit, stance), enc_hook=dict)
    lines = [f"  {json.dumps(key)}: {_block(value)}" for key, value in record.items()]
    return ("{\n" + ",\n".join(lines) + "\n}\n").encode()


def _block(value: Any) -> str:
    if isinstance(value, (list, tuple)) and value:
        rows = ",\n".join("    " + json.dumps(row, ensure_ascii=False) for row in value)
        return f"[\n{rows}\n  ]"
    return json.dumps(value, ensure_ascii=False)
