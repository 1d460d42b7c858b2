"""Figures for data and for people."""

import math

import pytest

from wirer.papers.figures import (
    data_figure,
    decibel_text,
    hertz_text,
    hum_figure,
    percent_text,
    reading_text,
    short_figure,
)


@pytest.mark.parametrize(
    ("value", "figure"),
    [
        (0.999999999, 1.0),
        (12950.0000000001, 12950.0),
        (-0.0, 0.0),
        (-3e-17, 0.0),
        (2.2e-8, 2.2e-8),
        (1 / 3, 0.33333333),
        (math.inf, None),
        (-math.inf, None),
        (math.nan, None),
        (None, None),
    ],
)
def test_data_has_plain_rounded_numbers_or_null(value: float | None, figure: float | None) -> None:
    assert data_figure(value) == figure


def test_zero_has_no_sign() -> None:
    assert math.copysign(1, data_figure(-0.0) or 0.0) == 1
    assert decibel_text(-0.04) == "+0.0"


def test_hum_that_only_arithmetic_leaves_over_is_none() -> None:
    assert [hum_figure(x) for x in (3e-6, 0.0033, 1.0, None)] == [0.0, 0.0033, 1.0, None]


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (0, "0"),
        (0.47, "470m"),
        (470, "470"),
        (999.6, "1.00k"),
        (3896, "3.90k"),
        (21167.3, "21.2k"),
        (250e3, "250k"),
        (1e15, "1.00P"),
        (3e18, "3000P"),
    ],
)
def test_short_figures_have_three_figures_that_stand_below_each_other(
    value: float, text: str
) -> None:
    assert short_figure(value) == text


def test_units_stand_with_their_prefixes() -> None:
    assert hertz_text(2140.03) == "2.14 kHz"
    assert reading_text(21167.3) == "21.2 kΩ"
    assert reading_text(None) == "open"
    assert reading_text(0.0) == "0 Ω"
    assert percent_text(1 / 3) == "33"
    assert decibel_text(9.56) == "+9.6"
    assert decibel_text(-math.inf) == "–"
