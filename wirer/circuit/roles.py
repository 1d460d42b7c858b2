"""What a new wire is for, and the colour and style that it gets while nobody chooses others.

The builder's own code rules: a wire takes the colour that its net already has. Only a net without
one gets a new colour: black for ground and red for the output's signal (common practice), else
the first of `SIGNAL_COLOURS` that no other net uses, or the least used of them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Any, Literal

from wirer.circuit.edits import free_id
from wirer.circuit.joints import Net, net_by_lug
from wirer.circuit.kind import Lug
from wirer.circuit.model import Circuit, Style, Wire, split_lug

Role = Literal["ground", "hot", "signal"]

GROUND_COLOUR = "BK"
HOT_COLOUR = "RD"
SIGNAL_COLOURS = ("WH", "YE", "GN", "BU", "OG", "VT", "BN", "GY", "PK", "TQ")


def wire_role(circuit: Circuit, from_lug: str, to_lug: str) -> Role:
    """Return what a wire between two lugs would be: of ground, of the jack's tip, or other signal.

    A wire to exposed or screening metal is one of ground, whether or not it gets there yet.
    """
    return _role(circuit, net_by_lug(circuit), (from_lug, to_lug))


def _role(circuit: Circuit, nets: Mapping[str, Net], ends: tuple[str, str]) -> Role:
    grounds, tips = _output_lugs(circuit)
    reached = nets[ends[0]] | nets[ends[1]]
    if reached & grounds or any(_lug(circuit, end).metal for end in ends):
        return "ground"
    return "hot" if reached & tips else "signal"


def _output_lugs(circuit: Circuit) -> tuple[Net, Net]:
    """Return the sleeve and the tip of the first jack, each as a set that may be empty."""
    for jack in circuit.jacks[:1]:
        if output := circuit.kind_of(jack).output:
            sleeve, tip = f"{jack.id}.{output.sleeve}", f"{jack.id}.{output.tip}"
            return frozenset({sleeve}), frozenset({tip})
    return frozenset(), frozenset()


def _lug(circuit: Circuit, reference: str) -> Lug:
    part, name = split_lug(reference)
    found = circuit.kind_of(circuit.part_by_id[part]).lug(name)
    if found is None:
        raise KeyError(reference)
    return found


def usual_colour(circuit: Circuit, from_lug: str, to_lug: str) -> str:
    """Return the colour that a new wire between two lugs gets."""
    nets = net_by_lug(circuit)
    ends = (from_lug, to_lug)
    reached = nets[from_lug] | nets[to_lug]
    own = Counter(w.colour for w in circuit.wires if w.colour and w.from_lug in reached)
    role = _role(circuit, nets, ends)
    usual = {"ground": GROUND_COLOUR, "hot": HOT_COLOUR}.get(role)
    if usual and (usual in own or not own):
        return usual
    return own.most_common(1)[0][0] if own else _first_free(circuit)


def _first_free(circuit: Circuit) -> str:
    used = Counter(wire.colour for wire in circuit.wires)
    return min(SIGNAL_COLOURS, key=lambda colour: used[colour])


def usual_style(from_lug: str, to_lug: str) -> Style:
    """Return the style that a new wire gets: a jumper on one part is solid, the rest stranded.

    Common practice: solid wire breaks where it is moved, and lies flat between two lugs.
    """
    return "solid" if split_lug(from_lug)[0] == split_lug(to_lug)[0] else "stranded"


def new_wire(circuit: Circuit, from_lug: str, to_lug: str, **chosen: Any) -> Wire:
    """Return a wire to add to a circuit: numbered, its colour and style by role unless chosen.

    Raises
    ------
    KeyError
        The circuit has no such lug.
    """
    look = {
        "id": free_id(circuit, "w"),
        "colour": usual_colour(circuit, from_lug, to_lug),
        "style": usual_style(from_lug, to_lug),
    }
    return Wire(from_lug=from_lug, to_lug=to_lug, **{**look, **chosen})
