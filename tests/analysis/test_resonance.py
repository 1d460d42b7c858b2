"""The resonance: the highest local maximum between 20 Hz and 20 kHz, against a look everywhere."""

import math
import random

import numpy as np
import pytest
from hypothesis import given

from tests.support.surveys import Case, combination_of, guitars_in_a_stance
from tests.support.tangles import tangles
from tests.support.wiring import Wiring, row_of
from wirer.analysis.resonance import GRID, find_resonances
from wirer.circuit.model import OutputLoad

EVERYWHERE = np.geomspace(20, 20_000, 30_000)


def tops(heights: np.ndarray) -> np.ndarray:
    inner = heights[1:-1]
    return np.flatnonzero((inner > heights[:-2]) & (inner > heights[2:])) + 1


@given(guitars_in_a_stance() | tangles())
def test_against_thirty_thousand_frequencies(drawn: Case) -> None:
    found = combination_of(*drawn)
    if found.silent or found.voice is None:
        return
    heights = found.voice.response(EVERYWHERE)
    # What rises by less than a millionth over its neighbourhood is not looked for.
    places = [
        top
        for top in tops(heights)
        if heights[top]
        > 1.000001 * max(heights[max(0, top - 200)], heights[min(top + 200, 29_999)])
    ]
    if not places:
        return
    top = max(places, key=lambda place: heights[place])
    assert found.resonance is not None
    reference = found.voice.response([100.0])[0]
    peak = 20 * math.log10(heights[top] / reference)
    assert found.resonance.peak_db >= peak - 1e-6
    # A higher one is a rise too slight to be looked for here; that it is one is tried below.
    if found.resonance.peak_db < peak + 0.02:
        assert found.resonance.hertz == pytest.approx(EVERYWHERE[top], rel=1e-3)


@given(guitars_in_a_stance() | tangles())
def test_a_resonance_is_a_maximum(drawn: Case) -> None:
    found = combination_of(*drawn)
    if found.resonance is None or found.voice is None:
        return
    hertz = found.resonance.hertz
    below, top, above = found.voice.response([hertz * 0.999, hertz, hertz * 1.001])
    assert top >= below
    assert top >= above


@pytest.mark.parametrize("seed", range(30))
def test_a_damped_coil_peaks_where_the_formula_says(seed: int) -> None:
    """|H| of 1/(1 − x² + jx/Q) is highest at x = √(1 − 1/2Q²), by Q/√(1 − 1/4Q²)."""
    draw = random.Random(seed)
    henry, farad = draw.uniform(0.5, 10), draw.uniform(2e-10, 2e-9)
    natural = 1 / math.sqrt(henry * farad)
    quality = 10 ** draw.uniform(-0.3, 3)
    ohm = natural * henry / quality
    bench = Wiring(OutputLoad(cable=f"{farad}", input="1000000G")).part("J", "jack-ts")
    values = {"resistance": f"{ohm}", "inductance": f"{henry}", "capacitance": "0"}
    bench.part("N", "coil-2wire", values).join("N.start J.sleeve").join("N.finish J.tip")
    found = row_of(bench.circuit()).combination.resonance
    squared = 1 - 1 / (2 * quality**2)
    hertz = natural * math.sqrt(max(squared, 0)) / (2 * math.pi)
    if squared <= 0 or not 20 < hertz < 20_000:
        assert found is None
        return
    assert found is not None
    assert found.hertz == pytest.approx(hertz, rel=1e-6)
    x = 2 * math.pi * 100 / natural
    at_100 = 1 / abs(1 - x**2 + 1j * x / quality)
    peak = quality / math.sqrt(1 - 1 / (4 * quality**2))
    assert found.peak_db == pytest.approx(20 * math.log10(peak / at_100), abs=1e-4)


def heights_of(*peaks: tuple[float, float, float]) -> np.ndarray:
    """A made-up response: bumps (place in Hz, height, width in octaves) on a floor of 1."""

    def response(hertz: np.ndarray) -> np.ndarray:
        bumps = (
            height * np.exp(-((np.log2(hertz / place) / width) ** 2))
            for place, height, width in peaks
        )
        return np.ones_like(hertz) + sum(bumps)

    return response


@pytest.mark.parametrize(
    ("peaks", "expected"),
    [
        ((), None),
        (((500.0, 1.0, 0.5),), 500.0),
        (((500.0, 1.0, 0.3), (4000.0, 2.0, 0.3)), 4000.0),
        (((500.0, 2.0, 0.3), (4000.0, 1.0, 0.3)), 500.0),
        (((19_990.0, 1.0, 0.5),), 19_990.0),
        (((20.01, 1.0, 0.5),), 20.01),
        (((20_300.0, 1.0, 0.5),), None),
        (((20_300.0, 9.0, 0.05), (700.0, 1.0, 0.5)), 700.0),
        (((19.8, 1.0, 0.5),), None),
    ],
)
def test_the_highest_top_inside_the_band(
    peaks: tuple[tuple[float, float, float], ...], expected: float | None
) -> None:
    response = heights_of(*peaks)
    reference = response(np.array([100.0]))
    (found,) = find_resonances(
        GRID, response(GRID)[np.newaxis, :], reference, lambda _, hertz: response(hertz)
    )
    assert (found and found.hertz) == (
        None if expected is None else pytest.approx(expected, rel=1e-5)
    )
