"""The circuit: an immutable value of parts and wires, with what the builder wants of it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import Literal

from msgspec import Struct, field
from msgspec.structs import force_setattr

from wirer.circuit.catalogue import catalogue_kind
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.kind import Kind, Point, Value
from wirer.circuit.underlay import Underlay

Style = Literal["solid", "stranded", "bare", "screened", "mount"]


class Part(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True, kw_only=True):
    """A component: an instance of a kind, with its values and its place in the wiring view.

    `at` is the middle of its body in mm; it is first mirrored left to right if `flip`, then
    turned clockwise by `turn` degrees. `measured` overrides `values` wherever one computes.
    """

    id: str
    kind: str
    label: str = ""
    at: Point = (0.0, 0.0)
    turn: Literal[0, 90, 180, 270] = 0
    flip: bool = False
    values: Mapping[str, Value] = field(default_factory=FrozenMap)
    measured: Mapping[str, Value] = field(default_factory=FrozenMap)
    position_labels: Mapping[str, str] = field(default_factory=FrozenMap)
    lug_labels: Mapping[str, str] = field(default_factory=FrozenMap)

    def __post_init__(self) -> None:
        for name in ("values", "measured", "position_labels", "lug_labels"):
            force_setattr(self, name, FrozenMap.of(getattr(self, name)))

    @property
    def name(self) -> str:
        """What a person calls it: its label, else its id."""
        return self.label or self.id

    def position_name(self, position: str) -> str:
        """Return the builder's own name of a position, else the kind's."""
        return self.position_labels.get(position, position)


class Wire(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True, kw_only=True):
    """A conductor between two lugs, each named `PART.lug`."""

    id: str
    from_lug: str = field(name="from")
    to_lug: str = field(name="to")
    colour: str = ""
    style: Style = "stranded"
    gauge: str = ""
    bends: tuple[Point, ...] = ()
    done: bool = False
    screen_from: str | None = None
    screen_to: str | None = None

    @property
    def ends(self) -> tuple[str, str]:
        """The two lugs of its core."""
        return self.from_lug, self.to_lug


class OutputLoad(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """What the jack is plugged into: the cable's capacitance, the amplifier's resistance."""

    cable: str = "500p"
    input: str = "1M"


class Wanted(Struct, frozen=True, forbid_unknown_fields=True):
    """The sound wanted of every setting that agrees with `setting`."""

    setting: Mapping[str, str]
    sound: str

    def __post_init__(self) -> None:
        force_setattr(self, "setting", FrozenMap.of(self.setting))


class Waiver(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """A finding that the builder has accepted, with the reason."""

    rule: str
    places: tuple[str, ...] = ()
    reason: str = ""


class Circuit(Struct, frozen=True, dict=True, kw_only=True):
    """Parts with lugs, and wires between lugs."""

    title: str = ""
    job: str = ""
    notes: str = ""
    parts: tuple[Part, ...] = ()
    wires: tuple[Wire, ...] = ()
    output_load: OutputLoad = OutputLoad()
    wanted: tuple[Wanted, ...] = ()
    waived: tuple[Waiver, ...] = ()
    kinds: tuple[Kind, ...] = ()
    underlay: Underlay | None = None

    def forget(self) -> None:
        """Let go of what was worked out of it, as of a circuit that is only kept to undo to.

        Its value is untouched: what is asked of it later is worked out again.
        """
        vars(self).clear()

    @cached_property
    def part_by_id(self) -> Mapping[str, Part]:
        """The parts by their ids."""
        return FrozenMap({part.id: part for part in self.parts})

    @cached_property
    def wire_by_id(self) -> Mapping[str, Wire]:
        """The wires by their ids."""
        return FrozenMap({wire.id: wire for wire in self.wires})

    @cached_property
    def _own_kinds(self) -> Mapping[str, Kind]:
        return {kind.id: kind for kind in self.kinds}

    def kind(self, kind_id: str) -> Kind:
        """Return a kind that the document carries, else the catalogue's.

        Raises
        ------
        KindError
            Neither has it.
        """
        return self._own_kinds.get(kind_id) or catalogue_kind(kind_id)

    def kind_of(self, part: Part) -> Kind:
        """Return the kind of a part."""
        return self.kind(part.kind)

    @cached_property
    def lugs(self) -> tuple[str, ...]:
        """Every lug as `PART.lug`, in part order."""
        return tuple(f"{p.id}.{lug.name}" for p in self.parts for lug in self.kind_of(p).lugs)

    @cached_property
    def switches(self) -> tuple[Part, ...]:
        """The parts with an actuator, in part order."""
        return tuple(p for p in self.parts if self.kind_of(p).actuator)

    @cached_property
    def jacks(self) -> tuple[Part, ...]:
        """The parts that are an output, in part order."""
        return tuple(p for p in self.parts if self.kind_of(p).output)


def split_lug(reference: str) -> tuple[str, str]:
    """Split `PART.lug` into its two names (the second empty where there is no point)."""
    part, _, lug = reference.partition(".")
    return part, lug
