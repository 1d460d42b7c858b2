"""Colours: of materials, wires and roles, in a light and a dark theme and one for print.

Contrast is the ratio of relative luminances of WCAG 2 (success criteria 1.4.3 and 1.4.11): text
has at least 4.5:1 on its ground, edges and wires 3:1 on paper.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from wirer.circuit.colour import colour_codes
from wirer.circuit.kind import Material

Role = Literal["signal", "ground", "open"]


@dataclass(frozen=True, slots=True)
class Finish:
    """How a material looks: its light and its shaded side, and its edge."""

    light: str
    shade: str
    edge: str


@dataclass(frozen=True, eq=False)
class Theme:
    """A set of colours, each written `#rrggbb`.

    `paper` is the ground that circuits lie on, `grid` its faint lines; `ink` writes on it, `quiet`
    what is said by the way. `roles` are a net's: it carries signal, is ground, or `open` where
    nothing is connected. `wire` is a wire of no said colour, `casing` edges the wires that would
    be lost on the paper.
    """

    name: str
    paper: str
    grid: str
    ink: str
    quiet: str
    accent: str
    error: str
    warning: str
    note: str
    wire: str
    casing: str
    roles: Mapping[Role, str]
    materials: Mapping[Material, Finish]


@dataclass(frozen=True, slots=True)
class WireColours:
    """What a wire is drawn with: core, stripe of a two-coloured one, casing where it needs one."""

    core: str
    stripe: str | None
    casing: str | None


WIRES: Mapping[str, str] = {
    "BK": "#1d1d1f", "BN": "#80502a", "RD": "#d42a2a", "OG": "#ef7d14", "YE": "#f2cb05",
    "GN": "#2b8c41", "BU": "#2a66c8", "VT": "#8145ab", "GY": "#8b9096", "WH": "#f8f8f5",
    "PK": "#f28fb4", "TQ": "#1fb3aa", "GD": "#c49a32", "SR": "#bcc2c8",
}  # fmt: skip
"""The colours of IEC 60757, alike in every theme: a red wire is red whatever it lies on."""

_LEAST_FOR_WIRES = 3.0


def _finishes(rows: str) -> dict[Material, Finish]:
    table: dict[str, Finish] = {}
    for row in rows.strip().splitlines():
        name, light, shade, edge = row.split()
        table[name] = Finish(f"#{light}", f"#{shade}", f"#{edge}")
    return table  # type: ignore[return-value] # the names are checked by a test


LIGHT = Theme(
    name="light",
    paper="#fbfaf6",
    grid="#e9e6dd",
    ink="#1c1f23",
    quiet="#5e646c",
    accent="#0b63b5",
    error="#b3261e",
    warning="#8a5a00",
    note="#1d6a72",
    wire="#5b626b",
    casing="#4a4f55",
    roles={"signal": "#a8430a", "ground": "#1a5ca6", "open": "#666c74"},
    materials=_finishes(
        """
        metal        e6e9ec c3c8cd 6b737b
        dark-metal   9aa1a8 7d858d 444b52
        tin          f4f5f6 d3d8dc 737b83
        brass        ecd08a d0a94c 80611b
        plastic      f5efe0 e6dcc4 8a7d5f
        dark-plastic 5c6168 43474d 24272b
        board        d9b282 c59a64 7a5528
        ceramic      f0d9b0 e0c08a 8a6630
        film         d98b5f c4703f 743c18
        winding      b5683c 98502a 5c2d12
        cloth        ece5d3 ddd3ba 857a5e
        foil         f0d2b4 dfb48a 8f6436
        paper        fffdf5 f3eedd 85795d
        hole         d5d2c8 c4c0b4 6f6b60
        ink          1c1f23 1c1f23 1c1f23
        wood         e3c8a0 d1b083 84643a
        """
    ),
)

DARK = Theme(
    name="dark",
    paper="#1d2024",
    grid="#2b2f35",
    ink="#eceef0",
    quiet="#a3abb4",
    accent="#6db3f8",
    error="#ff8a80",
    warning="#f2bd5a",
    note="#74c7cf",
    wire="#a4adb7",
    casing="#c9ced4",
    roles={"signal": "#ff9f5a", "ground": "#78b4ff", "open": "#a1a9b2"},
    materials=_finishes(
        """
        metal        bcc2c9 969da5 454b52
        dark-metal   7a828b 5f6770 2c3136
        tin          e6e9ec bcc3c9 454b52
        brass        d6b25e b08c3c 54400f
        plastic      dcd3bd c3b99e 6b624b
        dark-plastic 4a5057 363b41 969ea7
        board        b08550 926b3b 49330f
        ceramic      d3b47b b69560 5d4520
        film         c06f3f 9d572d 4a2410
        winding      b06238 8a4a27 43200d
        cloth        d3cab3 bab095 6b624b
        foil         c99f70 a98353 5f4224
        paper        e9e2cf cfc7b0 6b624b
        hole         15171a 101214 737b84
        ink          eceef0 eceef0 eceef0
        wood         ad8960 91704b 5a4226
        """
    ),
)

PRINT = Theme(
    name="print",
    paper="#ffffff",
    grid="#e8e8e8",
    ink="#000000",
    quiet="#4d4d4d",
    accent="#0b4f91",
    error="#9c1c16",
    warning="#734a00",
    note="#14565d",
    wire="#4a4f55",
    casing="#404040",
    roles={"signal": "#933a08", "ground": "#164f90", "open": "#5a5a5a"},
    materials=_finishes(
        """
        metal        f6f7f8 f6f7f8 3c4146
        dark-metal   dfe2e5 dfe2e5 3c4146
        tin          ffffff ffffff 3c4146
        brass        f5e6bf f5e6bf 5c4512
        plastic      fcf9f0 fcf9f0 5a5240
        dark-plastic cfd2d6 cfd2d6 24272b
        board        f1e1ca f1e1ca 5a3f1e
        ceramic      f8ecd6 f8ecd6 634a22
        film         f3d6c5 f3d6c5 5a2f14
        winding      e2c1ad e2c1ad 4a2410
        cloth        f7f3e8 f7f3e8 5a5240
        foil         f9ebdd f9ebdd 6a4a28
        paper        ffffff ffffff 5a5240
        hole         ffffff ffffff 3c4146
        ink          000000 000000 000000
        wood         f3e7d3 f3e7d3 5f482a
        """
    ),
)

THEMES: tuple[Theme, ...] = (LIGHT, DARK, PRINT)


@lru_cache(maxsize=4096)
def luminance(colour: str) -> float:
    """Return the relative luminance of WCAG 2 of a colour `#rrggbb`, 0 black to 1 white."""
    shares = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    linear = [s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of WCAG 2 of two colours, 1 to 21."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def ink_on(theme: Theme, ground: str) -> str:
    """Return which of the theme's ink and paper writes better on a colour."""
    return max((theme.ink, theme.paper), key=lambda c: contrast(c, ground))


@lru_cache(maxsize=4096)
def mixed(colour: str, ground: str, share: float) -> str:
    """Return `colour` with `share` of it left on `ground`."""
    pairs = zip(_bytes(colour), _bytes(ground), strict=True)
    return "#" + "".join(f"{round(a * share + b * (1 - share)):02x}" for a, b in pairs)


def _bytes(colour: str) -> tuple[int, ...]:
    return tuple(int(colour[i : i + 2], 16) for i in (1, 3, 5))


def wire_colours(theme: Theme, code: str) -> WireColours:
    """Return what a wire of a colour by IEC 60757 is drawn with; "" is a wire of no said colour.

    A wire that has less than 3:1 on the theme's paper gets a casing that has more.
    """
    codes = colour_codes(code)
    names = [WIRES[c] for c in codes] if codes else [theme.wire]
    pale = contrast(names[0], theme.paper) < _LEAST_FOR_WIRES
    stripe = names[1] if len(names) > 1 else None
    return WireColours(names[0], stripe, theme.casing if pale else None)
