"""The document: a circuit, and the stance it was left in, as JSON."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Literal

import msgspec
from msgspec import Struct, field
from msgspec.structs import asdict, force_setattr

from wirer.circuit.check import MOST, circuit_problems, crowd_problems
from wirer.circuit.decoding import converted, decoded
from wirer.circuit.errors import DocumentError, Problem, shown
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Kind
from wirer.circuit.migration import VERSION, migrated
from wirer.circuit.model import Circuit, OutputLoad, Part, Waiver, Wanted, Wire
from wirer.circuit.stance import Stance, default_stance, fitted_stance, positions_in_use
from wirer.circuit.underlay import Underlay

LARGEST_BYTES = 64 * 2**20
TOO_LARGE = f"is larger than {LARGEST_BYTES // 2**20} MiB, the most that is read"


class PartRecord(Part, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A part as the document has it: with where its switch and shafts stand."""

    position: str | None = None
    rotation: Mapping[str, float] = field(default_factory=FrozenMap)

    def __post_init__(self) -> None:
        super().__post_init__()
        force_setattr(self, "rotation", FrozenMap.of(self.rotation))


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
    underlay: Underlay | None = None


_CIRCUIT_FIELDS = (
    "title", "job", "notes", "wires", "output_load", "wanted", "waived", "kinds", "underlay",
)  # fmt: skip
_PART_FIELDS = Part.__struct_fields__


def read_document(data: bytes, source: str = "") -> tuple[Circuit, Stance]:
    """Read a document.

    Raises
    ------
    DocumentError
        It is no JSON, not of the document's form, of a newer version, or not a circuit.
    """
    try:
        return _read(data)
    except DocumentError as error:
        raise DocumentError(list(error.problems), source) from error


def _read(data: bytes) -> tuple[Circuit, Stance]:
    if len(data) > LARGEST_BYTES:
        raise DocumentError([Problem("", TOO_LARGE)])
    raw = migrated(decoded(data))
    counts = {name: len(raw[name]) for name in MOST if isinstance(raw.get(name), list)}
    _refuse(crowd_problems(counts))
    record = converted(raw, Document)
    parts = tuple(Part(**{f: getattr(p, f) for f in _PART_FIELDS}) for p in record.parts)
    circuit = Circuit(parts=parts, **{f: getattr(record, f) for f in _CIRCUIT_FIELDS})
    _refuse(circuit_problems(circuit))
    _refuse(_stance_problems(circuit, record))
    return circuit, _stance(circuit, record)


def _refuse(problems: Iterable[Problem]) -> None:
    found = list(problems)
    if found:
        raise DocumentError(found)


def _stance_problems(circuit: Circuit, record: Document) -> Iterator[Problem]:
    for index, part in enumerate(record.parts):
        kind = circuit.kind_of(part)
        choices = positions_in_use(kind, part)
        if part.position is not None and part.position not in choices:
            having = f"it has {', '.join(choices)}" if choices else "it is no switch"
            text = f'{kind.id} has no position "{shown(part.position)}"; {having}'
            yield Problem(f"parts[{index}].position", text)
        yield from _rotation_problems(part, kind, f"parts[{index}].rotation")


def _rotation_problems(part: PartRecord, kind: Kind, place: str) -> Iterator[Problem]:
    shafts = [shaft.name for shaft in kind.shafts]
    for name, rotation in part.rotation.items():
        if name not in shafts:
            having = f"it has {', '.join(shafts)}" if shafts else "nothing of it turns"
            yield Problem(place, f'{kind.id} has no shaft "{shown(name)}"; {having}')
        elif not 0 <= rotation <= 1:
            yield Problem(f"{place}.{name}", f"{rotation:g} is not between 0 and 1")


def _stance(circuit: Circuit, record: Document) -> Stance:
    usual = default_stance(circuit)
    own_positions = {p.id: p.position for p in record.parts if p.position is not None}
    own_rotations = {f"{p.id}.{s}": x for p in record.parts for s, x in p.rotation.items()}
    return Stance(
        positions={**usual.positions, **own_positions},
        rotations={**usual.rotations, **own_rotations},
    )


def to_record(circuit: Circuit, stance: Stance) -> Document:
    """Return the document of a circuit in a stance, as far as the stance is one of the circuit."""
    usual = default_stance(circuit)
    actual = fitted_stance(circuit, stance)
    parts = []
    for part in circuit.parts:
        position = actual.positions.get(part.id)
        own = None if position == usual.positions.get(part.id) else position
        names = {s.name: f"{part.id}.{s.name}" for s in circuit.kind_of(part).shafts}
        rotation = {
            shaft: actual.rotations[name]
            for shaft, name in names.items()
            if actual.rotations[name] != usual.rotations[name]
        }
        parts.append(PartRecord(**asdict(part), position=own, rotation=FrozenMap(rotation)))
    fields = {name: getattr(circuit, name) for name in _CIRCUIT_FIELDS}
    return Document(format="wirer", version=VERSION, parts=tuple(parts), **fields)


def write_document(circuit: Circuit, stance: Stance) -> bytes:
    """Return the document as UTF-8 JSON, one part or wire a line."""
    record = msgspec.to_builtins(to_record(circuit, stance), enc_hook=dict)
    record["parts"] = [{k: v for k, v in part.items() if v != {}} for part in record["parts"]]
    lines = [f"  {json.dumps(key)}: {_block(value)}" for key, value in record.items()]
    # Half a surrogate pair, which a paste can bring in, must not keep the work from being saved.
    return ("{\n" + ",\n".join(lines) + "\n}\n").encode(errors="replace")


def _block(value: Any) -> str:
    if isinstance(value, (list, tuple)) and value:
        rows = ",\n".join("    " + json.dumps(row, ensure_ascii=False) for row in value)
        return f"[\n{rows}\n  ]"
    return json.dumps(value, ensure_ascii=False)
