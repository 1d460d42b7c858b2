"""Quantities as people write them, at random: hypothesis strategies."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import strategies as st

from wirer.circuit.kind import Parameter, Value
from wirer.circuit.parameter import TAPERS, read_number
from wirer.circuit.quantity import parse_quantity

# What is plausible in a guitar or a bass, in SI units, as powers of ten (common practice).
DECADES = {
    "resistance": (0, 7),
    "inductance": (-1, 1),
    "capacitance": (-12, -6),
    "voltage": (-1, 1),
}
UNIT = {"resistance": "Ω", "inductance": "H", "capacitance": "F", "voltage": "V"}
POINT = {"resistance": "R", "inductance": "H", "capacitance": "F", "voltage": "V"}
PREFIXES = {-12: "p", -9: "n", -6: "µ", -3: "m", 0: "", 3: "k", 6: "M", 9: "G"}


def decimals(dimension: str) -> st.SearchStrategy[Decimal]:
    """Plausible values of a dimension with one to three significant figures, in its SI unit."""
    low, high = DECADES[dimension]
    figures, powers = st.integers(1, 999), st.integers(low, high)
    return st.builds(lambda n, power: Decimal(n).scaleb(power - len(str(n)) + 1), figures, powers)


def notations(value: Decimal, dimension: str) -> list[str]:
    """Every way in which a value is customarily written, by SI prefix and by IEC 60062."""
    power = min(9, max(-12, value.adjusted() // 3 * 3))
    prefix = PREFIXES[power]
    number = f"{value.scaleb(-power).normalize():f}"
    whole, _, part = number.partition(".")
    unit = UNIT[dimension]
    coded = f"{whole}{prefix or POINT[dimension]}{part}"
    written = [
        f"{value:f}",
        f"{value:e}",
        f"{number}{prefix}",
        f"{number}{prefix}{unit}",
        f"{number} {prefix}{unit}",
        coded,
        *([coded.removeprefix("0")] if whole == "0" else []),
    ]
    return written + [text.replace("µ", "u") for text in written if "µ" in text]


@st.composite
def written_quantities(draw: st.DrawFn, dimension: str) -> tuple[str, Decimal]:
    """A text and the value that it means."""
    value = draw(decimals(dimension))
    return draw(st.sampled_from(notations(value, dimension))), value


@st.composite
def usual_quantities(draw: st.DrawFn, dimension: str, low: float, high: float) -> str:
    """A text for one of some twenty values from `low` to `high`."""
    step = draw(st.integers(0, 20))
    return draw(
        st.sampled_from(notations(Decimal(f"{low * (high / low) ** (step / 20):.3g}"), dimension))
    )


@st.composite
def taper_tables(draw: st.DrawFn) -> tuple[tuple[float, float], ...]:
    """A table that rises from rotation 0 to 1."""
    shares = st.floats(0, 1, allow_nan=False, allow_subnormal=False)
    inner = st.floats(0.01, 0.99)
    rotations = sorted(draw(st.sets(inner, max_size=4)))
    values = sorted(draw(st.lists(shares, min_size=len(rotations), max_size=len(rotations))))
    return ((0.0, 0.0), *zip(rotations, values, strict=True), (1.0, 1.0))


def written_values(parameter: Parameter) -> st.SearchStrategy[Value]:
    """Values that a document may give a parameter, in various notations."""
    match parameter.quantity:
        case "choice":
            return st.sampled_from(parameter.choices)
        case "taper":
            return st.sampled_from(TAPERS) | taper_tables()
        case "count":
            whole = st.integers(int(parameter.least or 1), int(parameter.most or 12))
            return whole.map(str) | whole.map(float)
        case "share":
            share = st.integers(1, 49).map(lambda n: n / 100 * (parameter.most or 1))
            return share | share.map(lambda x: f"{x:g}")
        case dimension:
            if parameter.usual:
                low, high = (read_number(edge, parameter) for edge in parameter.usual)
                return usual_quantities(dimension, low, high)
            texts = written_quantities(dimension).map(lambda pair: pair[0])
            return texts.filter(lambda text: _admits(parameter, text))


def _admits(parameter: Parameter, text: str) -> bool:
    least, most = parameter.least, parameter.most
    value = parse_quantity(text, parameter.quantity)
    return (least is None or value > least) and (most is None or value < most)


def tolerances() -> st.SearchStrategy[str]:
    """Tolerances as written on parts and in lists."""
    return st.sampled_from(["20%", "±5 %", "10%", "J", "K", "-20/+80%", "1%"])
