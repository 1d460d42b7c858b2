"""Where the names of parts and of switch positions stand: free of bodies, lugs and wires."""

from __future__ import annotations

from collections.abc import Mapping

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.model import Circuit, Part
from wirer.layout.box import Box, boxes_union
from wirer.layout.choices import choice_texts, place_choices
from wirer.layout.label import Choice, Label, Labels, whole_box
from wirer.layout.layout import Layout
from wirer.layout.lettering import in_two_lines, shortened, text_width
from wirer.layout.placement import Placement
from wirer.layout.room import Ground, near_by, round_about
from wirer.layout.route import Route

__all__ = ["Label", "Labels", "part_text", "place_labels"]

NAME_MM = 2.0
LINE_SHARE = 1.7


def place_labels(
    circuit: Circuit,
    placements: Mapping[str, Placement],
    routes: Mapping[str, Route],
    previous: Layout | None = None,
) -> Labels:
    """Find a place for the name of each part and for the positions of each switch.

    Before wires are routed the ways out to their lugs are kept free instead. What stood free at a
    part that has not changed since a `previous` layout stays there.
    """
    unrouted = [wire.ends for wire in circuit.wires if wire.id not in routes]
    ground = Ground(placements, routes, unrouted)
    names, choices = _still_right(circuit, ground, previous) if previous else ({}, {})
    for part in circuit.parts:
        placement = placements[part.id]
        around = boxes_union([placement.extent, *placement.features])
        if circuit.kind_of(part).actuator and part.id not in choices:
            choices[part.id] = place_choices(circuit, part, around, ground)
        if part.id not in names:
            names[part.id] = _place_name(part, around, ground)
    return Labels(FrozenMap(names), FrozenMap(choices))


def _still_right(
    circuit: Circuit, ground: Ground, previous: Layout
) -> tuple[dict[str, Label], dict[str, tuple[Choice, ...]]]:
    """Take again the places of names whose part, words and surroundings are what they were."""
    names, choices = {}, {}
    for part in circuit.parts:
        if previous.placements.get(part.id) != ground.placements[part.id]:
            continue
        name = previous.labels.names.get(part.id)
        if name and name.text in _wordings(part) and ground.take(name.box):
            names[part.id] = name
        strip = previous.labels.choices.get(part.id)
        if (
            strip
            and tuple((c.position, c.label.text) for c in strip)
            == choice_texts(circuit, part, ground.placements[part.id].transform)
            and ground.take(whole_box(strip))
        ):
            choices[part.id] = strip
    return names, choices


def part_text(part: Part) -> str:
    """Return what is written at a part: its id, and its label where it has one."""
    return shortened(f"{part.id} · {part.label}" if part.label else part.id)


def _place_name(part: Part, around: Box, ground: Ground) -> Label:
    """Place a part's name near it: on one line, else on two, else its id alone.

    Where not even that has room near, the whole name stands where it does the least harm.
    """
    wordings = _wordings(part)
    for wording in wordings:
        box = ground.free(around, *_size(wording), near_by)
        if box:
            return Label(wording, box, NAME_MM)
    return Label(wordings[0], ground.best(around, *_size(wordings[0]), round_about), NAME_MM)


def _wordings(part: Part) -> tuple[str, ...]:
    text = part_text(part)
    return tuple(dict.fromkeys((text, in_two_lines(text), part.id)))


def _size(text: str) -> tuple[float, float]:
    lines = text.split("\n")
    width = max(text_width(line, NAME_MM) for line in lines)
    return width, LINE_SHARE * NAME_MM * len(lines)
