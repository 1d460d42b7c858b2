"""A kind of part as data: lugs, body, picture, the elements between lugs, the contact table.

A kind is read from a TOML file of `resources/parts`, or from a document that carries its own.
Lengths are in millimetres from the middle of the body, x to the right and y down, as seen from
the solder side.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from msgspec import Struct, field
from msgspec.structs import force_setattr

from wirer.circuit.frozen import FrozenMap

Point = tuple[float, float]
Table = tuple[Point, ...]
Value = str | float | Table
Timing = Literal["break", "make", "unknown"]
Form = Literal["rect", "circle", "polygon", "line", "text"]
Material = Literal[
    "metal", "dark-metal", "tin", "brass", "plastic", "dark-plastic", "board", "ceramic",
    "film", "winding", "cloth", "foil", "paper", "hole", "ink", "wood",
]  # fmt: skip


class Shape(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """One stroke of a picture; `at` is its middle, and what its `points` are counted from.

    A line is twice its `radius` wide; the second figure of a text's `size` is its height.
    """

    form: Form
    material: Material = "metal"
    at: Point = (0.0, 0.0)
    size: Point = (0.0, 0.0)
    radius: float = 0.0
    points: tuple[Point, ...] = ()
    text: str = ""


class Lug(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """A point to solder to.

    `metal` marks exposed or screening metal that must be on ground; `needed` a lug without which
    the part does nothing; `holds` how many wires it takes; `label` is its function in words.
    """

    name: str
    at: Point
    label: str = ""
    metal: bool = False
    needed: bool = False
    holds: int = 3


class ElementRecord(
    Struct, frozen=True, forbid_unknown_fields=True, tag_field="type", omit_defaults=True
):
    """What lies between lugs; `type` in the TOML says which element it is."""


class CoilElement(ElementRecord, frozen=True, tag="coil"):
    """A coil from start to finish.

    `turns` names the parameter that gives its share of the turns (`tap`), `rest` takes what that
    share leaves. `shunt` false leaves its own capacitance and loss out (another element has them).
    `opposite_pole` turns the part's `pole` about for this coil.
    """

    start: str
    finish: str
    name: str = ""
    turns: str = ""
    rest: bool = False
    shunt: bool = True
    opposite_pole: bool = False


class ResistorElement(ElementRecord, frozen=True, tag="resistor"):
    """A resistance given by a parameter; absent when the parameter has no value."""

    between: tuple[str, str]
    name: str = ""
    value: str = "resistance"


class CapacitorElement(ElementRecord, frozen=True, tag="capacitor"):
    """A capacitance given by a parameter."""

    between: tuple[str, str]
    name: str = ""
    value: str = "capacitance"


class InductorElement(ElementRecord, frozen=True, tag="inductor"):
    """An inductance with a resistance in series."""

    between: tuple[str, str]
    name: str = ""
    value: str = "inductance"
    series: str = "resistance"


class CouplingElement(ElementRecord, frozen=True, tag="coupling"):
    """Full magnetic coupling of two coils of the part, wound in one sense: M = √(L₁L₂)."""

    coils: tuple[str, str]


class TrackElement(ElementRecord, frozen=True, tag="track"):
    """A pot's track: counter-clockwise end, wiper, clockwise end.

    `law` fixes the share of R below the wiper as a table over rotation (else the part's taper
    holds). `cut` ends the track before the clockwise end, where the wiper leaves it.
    """

    ends: tuple[str, str, str]
    name: str = ""
    shaft: str = "shaft"
    law: Table = ()
    cut: bool = False


class BondElement(ElementRecord, frozen=True, tag="bond"):
    """Lugs that are one piece of metal; with `plug`, that the plug in the jack makes so."""

    lugs: tuple[str, ...]
    plug: bool = False


class CellElement(ElementRecord, frozen=True, tag="cell"):
    """A battery: a short for signals, taken out for the meter."""

    plus: str
    minus: str


Element = (
    CoilElement
    | ResistorElement
    | CapacitorElement
    | InductorElement
    | CouplingElement
    | TrackElement
    | BondElement
    | CellElement
)


class Shaft(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """What a hand turns. `default` is its rotation, `detent` one that can be felt, or None."""

    name: str = "shaft"
    at: Point = (0.0, 0.0)
    diameter: float = 6.0
    default: float = 1.0
    detent: float | None = None
    travel_deg: float = 300.0


class Moving(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """What of an actuator moves: shapes, and per position their place.

    A place is (dx, dy, degrees turned clockwise as seen). `behind` moves alike but lies on the
    player's side of the body and is hidden by it; `against` is the far end of what rocks and is
    shifted the other way.
    """

    shapes: tuple[Shape, ...] = ()
    behind: tuple[Shape, ...] = ()
    against: tuple[Shape, ...] = ()
    places: Mapping[str, tuple[float, float, float]] = field(default_factory=FrozenMap)

    def __post_init__(self) -> None:
        force_setattr(self, "places", FrozenMap.of(self.places))


class Actuator(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """What a hand moves on a switch, and which lugs each position joins.

    `contacts` gives for each position the groups of lugs joined in it. `grip` is where a hand
    takes it (x, y, width, height; x and y its middle). `stop` names the parameter that limits the
    positions in use. `swap` names a parameter and the choice that exchanges the first two
    positions' contacts (a push button that is normally closed).
    """

    positions: tuple[str, ...]
    contacts: Mapping[str, tuple[tuple[str, ...], ...]]
    timing: Timing = "break"
    momentary: bool = False
    grip: tuple[float, float, float, float] = (0.0, 0.0, 6.0, 6.0)
    moving: Moving = field(default_factory=Moving)
    stop: str = ""
    swap: tuple[str, str] | None = None

    def __post_init__(self) -> None:
        force_setattr(self, "contacts", FrozenMap.of(self.contacts))


class Parameter(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True):
    """A value that a part of this kind has.

    `default` is the customary value taken where a document leaves it out (None: then the thing
    is not there); `assumed` says that leaving it out deserves a remark. `least` and `most` bound
    it, themselves excluded when `exclusive`. `usual` is the customary range.
    """

    quantity: Literal[
        "resistance", "inductance", "capacitance", "voltage", "share", "count", "choice", "taper"
    ]
    default: Value | None = None
    choices: tuple[str, ...] = ()
    least: float | None = None
    most: float | None = None
    exclusive: bool = False
    usual: tuple[str, str] | None = None
    assumed: bool = False
    about: str = ""


class Output(Struct, frozen=True, forbid_unknown_fields=True):
    """The lugs of an output jack."""

    tip: str
    sleeve: str


class Kind(Struct, frozen=True, forbid_unknown_fields=True, omit_defaults=True, kw_only=True):
    """A kind of part. `letter` is its class letter by IEEE 315.

    `inner` names joints inside the part between which elements may lie and which no wire reaches.
    """

    id: str
    name: str
    group: str
    letter: str
    about: str = ""
    search: tuple[str, ...] = ()
    traits: tuple[str, ...] = ()
    body: Shape
    depth: float = 0.0
    heat_sensitive: bool = False
    lugs: tuple[Lug, ...]
    inner: tuple[str, ...] = ()
    elements: tuple[Element, ...] = ()
    actuator: Actuator | None = None
    shafts: tuple[Shaft, ...] = ()
    parameters: Mapping[str, Parameter] = field(default_factory=FrozenMap)
    output: Output | None = None
    picture: tuple[Shape, ...] = ()
    holes: tuple[Shape, ...] = ()

    def __post_init__(self) -> None:
        force_setattr(self, "parameters", FrozenMap.of(self.parameters))

    def lug(self, name: str) -> Lug | None:
        """Return the lug of that name, or None."""
        return next((lug for lug in self.lugs if lug.name == name), None)

    @property
    def coils(self) -> tuple[CoilElement, ...]:
        """The coils of the kind."""
        return tuple(e for e in self.elements if isinstance(e, CoilElement))
