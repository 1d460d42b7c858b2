"""Rules of switching: what the actuators do, and what they should do."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from itertools import combinations

import numpy as np

from wirer.analysis.facts import Mask
from wirer.analysis.sound import Sound
from wirer.analysis.sound_text import SoundError
from wirer.analysis.switches import position_groups
from wirer.analysis.unused import CoilState
from wirer.circuit.edits import set_value
from wirer.circuit.elements import Cell, circuit_elements
from wirer.circuit.model import Part
from wirer.rules.actuators import contacts, deciding, like_positions, slices
from wirer.rules.finding import Fix, Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import listed, part_name
from wirer.rules.registry import rule
from wirer.rules.silence import deliberate_silence, rows_with
from wirer.rules.tracing import once
from wirer.rules.troubles import line_trouble
from wirer.rules.wanted import Wish, rows_giving, wishes


@rule(
    "silent-setting",
    "warning",
    wrong="In some setting no coil sounds, and the output is not shorted: the line is open.",
    heard="Silence, often with hiss or hum, since an open line picks it up.",
    meter="The reading is open or shows the pots alone in that setting.",
    mend="Find what the setting should sound like and the contact that should join it; where "
    "silence is meant, short the output instead or state it as wanted.",
)
def silent_setting(inspection: Inspection) -> Iterator[Remark]:
    """Find settings that are silent without a short."""
    silent = inspection.over_rows(lambda c: c.silent in ("open", "faint"))
    if inspection.silent.all() or not inspection.circuit.jacks:
        return
    meant = deliberate_silence(inspection)
    switches = tuple(inspection.table.positions)
    wrong = silent & ~meant & ~_reaching_lost(inspection)
    if wrong.any():
        trouble = line_trouble(inspection, wrong)
        text = trouble.told("No coil sounds, the line to the jack being open")
        places = once(trouble.places, deciding(inspection, wrong))
        yield Remark(text, places, wrong, fix=_stopped(inspection, wrong))
    if (silent & meant).any():
        text = "Silence is meant here; the open line may hiss or hum."
        yield Remark(text, switches, silent & meant, "note")


def _stopped(inspection: Inspection, wrong: Mask) -> Fix | None:
    """Return the stop that keeps a rotary switch out of its last positions, if those are silent."""
    for part, choices in inspection.table.positions.items():
        actuator = inspection.kind(part).actuator
        stop = actuator.stop if actuator else ""
        for count in range(1, len(choices)) if stop else ():
            if np.array_equal(wrong, rows_with(inspection, {part: choices[count:]})):
                text = (
                    f"set the stop of {inspection.part(part).name} at position {choices[count - 1]}"
                )
                edit = partial(set_value, part_id=part, name=stop, value=str(count))
                return Fix(text, edit)
    return None


def _reaching_lost(inspection: Inspection) -> Mask:
    """Return the settings that reach for a coil of which one end is lost: the coil is the fault."""
    states = inspection.coil_states[:, list(inspection.lost_coils)]
    hung = (states == CoilState.HUNG_FROM_SIGNAL) | (states == CoilState.HUNG_FROM_GROUND)
    return np.asarray(hung.any(axis=1), np.bool_)


@rule(
    "same-sound",
    "note",
    wrong="Two positions of one actuator give the same, or an actuator adds no sound of its own.",
    heard="No difference when it is moved.",
    meter="Equal readings in both positions.",
    mend="Look for a solder bridge between the throws or a missing lead; or use the position for "
    "another sound.",
)
def same_sound(inspection: Inspection) -> Iterator[Remark]:
    """Find positions of one actuator that give the same throughout."""
    if inspection.silent.all():
        return
    for part, choices in inspection.table.positions.items():
        named = inspection.part(part)
        for first, second in like_positions(inspection, part) if len(choices) > 2 else ():
            if _told_by_lost_coil(inspection, part, first, second):
                continue
            both = listed(named.position_name(position) for position in (first, second))
            text = f"{named.name} gives the same at {both}."
            neighbours = choices.index(second) - choices.index(first) == 1
            places = (part, *contacts(inspection, part, first, second))
            yield Remark(text, places, None, "warning" if neighbours else None)


def _told_by_lost_coil(inspection: Inspection, part: str, first: str, second: str) -> bool:
    """Return whether two positions would differ if a lost coil were not lost."""
    rows = dict(slices(inspection, part))
    states = inspection.coil_states[:, list(inspection.lost_coils)]
    return not np.array_equal(states[rows[first]], states[rows[second]])


@rule(
    "idle-actuator",
    "warning",
    wrong="An actuator never changes anything.",
    heard="No difference when it is thrown, whatever the others do.",
    meter="Equal readings in all its positions.",
    mend="Look for a lead left off its common, or for a wire that joins its throws.",
)
def idle_actuator(inspection: Inspection) -> Iterator[Remark]:
    """Find actuators that change neither a sound nor a battery."""
    if inspection.silent.all():
        return
    for part in inspection.table.positions:
        rows = [index for _, index in slices(inspection, part)]
        combos = [inspection.table.same_as[index] for index in rows]
        same = all(np.array_equal(combos[0], other) for other in combos[1:])
        excused = _switches_battery(inspection, rows) or _moves_lost_coil(inspection, part)
        if same and not excused:
            name = part_name(inspection.circuit, part)
            yield Remark(f"{name} never changes anything.", (part, *_lugs(inspection, part)))


def _moves_lost_coil(inspection: Inspection, part: str) -> bool:
    """Return whether an actuator changes a lost coil, is wired to one, or reverses its partner."""
    if not inspection.lost_coils:
        return False
    rows = [index for _, index in slices(inspection, part)]
    states = inspection.coil_states[:, list(inspection.lost_coils)]
    weights = np.array([c.weights for c in inspection.table.combinations])
    reached = (states == CoilState.HUNG_FROM_SIGNAL).any(axis=1)
    signs = np.sign(weights[inspection.table.which]) * reached[:, np.newaxis]
    for seen in (states, signs):
        if any(not np.array_equal(seen[rows[0]], seen[other]) for other in rows[1:]):
            return True
    coils = [inspection.harness.coils[index] for index in inspection.lost_coils]
    ends = {inspection.net(end) for coil in coils for end in (coil.start, coil.finish)}
    return any(inspection.net(lug) in ends for lug in _lugs(inspection, part))


def _lugs(inspection: Inspection, part: str) -> tuple[str, ...]:
    return tuple(f"{part}.{lug.name}" for lug in inspection.kind(part).lugs)


def _switches_battery(inspection: Inspection, rows: list[Mask]) -> bool:
    """Return whether positions differ in what the poles of a battery are joined to."""
    facts = inspection.metered
    for cell in circuit_elements(inspection.circuit):
        if isinstance(cell, Cell):
            for pole in (cell.plus, cell.minus):
                joined = facts.labels == facts.labels[:, [facts.harness.net_of[pole]]]
                if any(not np.array_equal(joined[rows[0]], joined[other]) for other in rows[1:]):
                    return True
    return False


@rule(
    "idle-pole",
    "note",
    wrong="Of a pole of a switch only one lug is wired, or several throws and not their common.",
    heard="Nothing: the contacts join nothing.",
    meter="The wired lugs read open to one another in every position.",
    mend="Wire the pole's common, or take the wires away.",
)
def idle_pole(inspection: Inspection) -> Iterator[Remark]:
    """Find poles whose contacts have nothing to join."""
    for part in inspection.circuit.switches:
        name = part_name(inspection.circuit, part.id)
        for pole in inspection.poles(part.id):
            wired = [lug for lug in pole if inspection.wires_at[lug]]
            if len(wired) == 1:
                lug = wired[0].partition(".")[2]
                text = f"Of its pole only lug {lug} of {name} is wired."
                yield Remark(text, (wired[0], part.id))
            common = _common(inspection, part, pole)
            if len(wired) > 1 and common and common not in wired:
                throws = listed(lug.partition(".")[2] for lug in wired)
                text = f"{name} has wires at the throws {throws} and none at their common."
                yield Remark(text, (common, *wired, part.id), None, "warning")


def _common(inspection: Inspection, part: Part, pole: tuple[str, ...]) -> str | None:
    """Return the lug of a pole that is joined to others in the most positions, if it is one."""
    groups = position_groups(inspection.circuit, part)
    joined = [
        sum(any(lug in group for group in groups[position]) for position in groups) for lug in pole
    ]
    most = max(joined)
    return pole[joined.index(most)] if joined.count(most) == 1 else None


@rule(
    "wanted-differs",
    "error",
    wrong="A setting does not give the sound that is wanted of it.",
    heard="Another sound than asked for.",
    meter="Often another reading; see the test sheet.",
    mend="Compare what the setting joins with what was wanted; or change the wanted sound.",
)
def wanted_differs(inspection: Inspection) -> Iterator[Remark]:
    """Find settings that do not give their wanted sound."""
    for wish in wishes(inspection):
        if isinstance(wish, SoundError):
            text = f"A wanted sound can't be read: {wish}."
            yield Remark(text, (), None)
            continue
        wrong = wish.rows & ~rows_giving(inspection, wish.sound)
        if wrong.any():
            which = inspection.table.which[wrong]
            given = {
                c.sound.formula if c.sound else f"silence ({c.silent})"
                for c in (inspection.table.combinations[i] for i in dict.fromkeys(which.tolist()))
            }
            text = f"Wanted {wish.wanted.sound}; it gives {listed(sorted(given)[:4])}."
            sounds = [inspection.table.combinations[i].sound for i in dict.fromkeys(which.tolist())]
            places = (*wish.wanted.setting, *_concerned(wish.sound, sounds))
            yield Remark(text, tuple(dict.fromkeys(places)), wrong)


def _concerned(wanted: Sound | None, given: Iterable[Sound | None]) -> Iterator[str]:
    """Yield the pickups by which sounds differ from the wanted one; all if only the joints do."""
    asked = set(wanted.coils) if wanted else set()
    for sound in given:
        heard = set(sound.coils) if sound else set()
        for coil in sorted((asked ^ heard) or asked):
            yield coil.partition(".")[0]


@rule(
    "wanted-unreachable",
    "note",
    wrong="The actuators can't express the wanted table.",
    heard="One of the wanted sounds is missing wherever the other is had.",
    meter="Nothing to measure.",
    mend="Name more actuators in the wanted settings, or take a switch with more positions.",
)
def wanted_unreachable(inspection: Inspection) -> Iterator[Remark]:
    """Find wanted sounds that contradict each other in some setting."""
    read = [wish for wish in wishes(inspection) if isinstance(wish, Wish)]
    for first, second in combinations(read, 2):
        both = first.rows & second.rows
        if first.sound != second.sound and both.any():
            text = f"{first.wanted.sound} and {second.wanted.sound} are wanted of one setting."
            places = dict.fromkeys((*first.wanted.setting, *second.wanted.setting))
            yield Remark(text, tuple(places), both)
