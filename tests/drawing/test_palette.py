"""The colours: nothing missing, and everything legible by the figures of WCAG 2."""

from typing import get_args

import pytest

from wirer.circuit.colour import NAMES
from wirer.circuit.kind import Material
from wirer.drawing.palette import (
    THEMES,
    WIRES,
    Role,
    Theme,
    contrast,
    ink_on,
    luminance,
    mixed,
    wire_colours,
)

every_theme = pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)

TEXT = 4.5  # WCAG 2.1, success criterion 1.4.3 (AA)
GRAPHICS = 3.0  # WCAG 2.1, success criterion 1.4.11 (AA)


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#ffffff", 21.0),  # WCAG 2.1, definition of contrast ratio: 1 to 21
        ("#767676", "#ffffff", 4.54),  # the lightest grey that passes 4.5:1 on white (from memory)
        ("#ff0000", "#ffffff", 4.0),  # red: 0.2126 of white's luminance, (1.05)/(0.2626)
    ],
)
def test_contrast_is_that_of_wcag(one: str, other: str, ratio: float) -> None:
    assert contrast(one, other) == contrast(other, one) == pytest.approx(ratio, abs=0.005)


def test_luminance_weighs_the_primaries_as_srgb_does() -> None:
    """IEC 61966-2-1: 0.2126 red, 0.7152 green, 0.0722 blue."""
    primaries = [luminance(c) for c in ("#ff0000", "#00ff00", "#0000ff")]
    assert primaries == pytest.approx([0.2126, 0.7152, 0.0722])


@every_theme
def test_a_theme_knows_every_material_and_role(theme: Theme) -> None:
    assert set(theme.materials) == set(get_args(Material))
    assert set(theme.roles) == set(get_args(Role))


def test_every_colour_of_iec_60757_has_a_look_of_its_own() -> None:
    assert set(WIRES) == set(NAMES)
    assert len(set(WIRES.values())) == len(WIRES)


@every_theme
def test_what_is_written_on_paper_is_legible(theme: Theme) -> None:
    words = {n: getattr(theme, n) for n in ("ink", "quiet", "accent", "error", "warning", "note")}
    words |= theme.roles
    assert {n: c for n, c in words.items() if contrast(c, theme.paper) < TEXT} == {}


@every_theme
def test_every_material_stands_out_from_paper_by_its_face_or_its_edge(theme: Theme) -> None:
    lost = [
        name
        for name, look in theme.materials.items()
        if max(contrast(c, theme.paper) for c in (look.light, look.edge)) < GRAPHICS
    ]
    assert lost == []


@every_theme
def test_ink_can_be_written_on_every_material(theme: Theme) -> None:
    """A mark on a part takes ink or paper, whichever reads; marks are graphics, not text."""
    dim = [
        name
        for name, look in theme.materials.items()
        for face in (look.light, look.shade)
        if contrast(ink_on(theme, face), face) < GRAPHICS
    ]
    assert dim == []


@every_theme
@pytest.mark.parametrize("code", ["", *NAMES])
def test_a_wire_of_any_colour_is_seen_on_paper(theme: Theme, code: str) -> None:
    wire = wire_colours(theme, code)
    strokes = [wire.core, *([wire.casing] if wire.casing else [])]
    assert max(contrast(c, theme.paper) for c in strokes) >= GRAPHICS


def test_only_wires_that_would_be_lost_get_a_casing() -> None:
    light, dark, _ = THEMES
    assert wire_colours(light, "WH").casing
    assert not wire_colours(light, "BK").casing
    assert wire_colours(dark, "BK").casing
    assert not wire_colours(dark, "WH").casing


def test_a_pair_of_colours_is_a_core_with_a_stripe() -> None:
    wire = wire_colours(THEMES[0], "GNYE")
    assert (wire.core, wire.stripe) == (WIRES["GN"], WIRES["YE"])
    assert wire_colours(THEMES[0], "GN").stripe is None


def test_mixing_runs_from_the_ground_to_the_colour() -> None:
    assert mixed("#ff8000", "#000000", 0.0) == "#000000"
    assert mixed("#ff8000", "#000000", 1.0) == "#ff8000"
    assert mixed("#ff8000", "#ffffff", 0.5) == "#ffc080"
