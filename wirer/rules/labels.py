"""Rules of the builder's own names: what they say must be what happens."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from functools import partial

import numpy as np

from wirer.analysis.facts import Mask
from wirer.analysis.sound import CoilSound, GroupSound, SoundTree
from wirer.analysis.switches import position_groups
from wirer.circuit.edits import change_part
from wirer.circuit.model import Part
from wirer.rules.actuators import like_positions, slices
from wirer.rules.claims import Claim, claims_of
from wirer.rules.finding import Fix, Remark
from wirer.rules.inspection import Inspection
from wirer.rules.names import coil_name, listed, part_name
from wirer.rules.registry import rule
from wirer.rules.silence import rows_with
from wirer.rules.tracing import once


@rule(
    "label-misleads",
    "warning",
    wrong="The name of a switch's position says something else than the position does.",
    heard="Another pickup, polarity or joint than the name promises.",
    meter="The readings of two positions are exchanged, or one is of another pickup.",
    mend="Turn the switch about or exchange its outer throws; or change the names.",
)
def label_misleads(inspection: Inspection) -> Iterator[Remark]:
    """Find positions whose names claim what never happens in them."""
    if inspection.silent.all():
        return
    for part in inspection.circuit.switches:
        rows = dict(slices(inspection, part.id))
        wrong: dict[str, str] = {}
        for claim in _open_claims(inspection, part):
            heard = rows.get(claim.position, np.zeros(0, np.intp))
            told = _contradicted(inspection, claim, heard[~inspection.silent[heard]])
            if told:
                wrong.setdefault(claim.position, told)
        if wrong:
            yield _misled(inspection, part.id, wrong)


def _open_claims(inspection: Inspection, part: Part) -> Iterator[Claim]:
    """Yield what names claim, but for what a lost coil or two like positions explain."""
    coils = inspection.table.coils
    lost = {coils[index] for index in inspection.lost_coils}
    order = list(inspection.table.positions[part.id])
    alike = {
        position
        for first, second in like_positions(inspection, part.id)
        for position in (first, second)
        if order.index(second) - order.index(first) == 1 < len(order) - 1
    }
    for claim in claims_of(inspection.circuit, part, coils):
        if claim.coils.isdisjoint(lost) and claim.position not in alike:
            yield claim


def _misled(inspection: Inspection, part_id: str, wrong: dict[str, str]) -> Remark:
    part = inspection.part(part_id)
    what = listed(f'"{part.position_name(position)}" {told}' for position, told in wrong.items())
    text = f"{part_name(inspection.circuit, part_id)}: {what}."
    groups = position_groups(inspection.circuit, part)
    lugs = sorted({lug for position in wrong for group in groups[position] for lug in group})
    wired = [lug for lug in lugs if inspection.wires_at[lug]]
    rows = rows_with(inspection, {part_id: tuple(wrong)})
    places = once((part_id,), wired, _coils_meant(inspection, part))
    return Remark(text, places, rows, fix=_exchanged(inspection, part_id, wrong))


def _coils_meant(inspection: Inspection, part: Part) -> Iterator[str]:
    """Yield the pickup that an actuator's label names and its leads: they may be the fault."""
    meant = {
        coil
        for claim in claims_of(inspection.circuit, part, inspection.table.coils)
        for coil in (claim.coils if claim.sort in ("normal", "reversed", "on", "off") else ())
    }
    for coil in inspection.harness.coils:
        if coil.name in meant:
            yield from (coil.part, coil.start, coil.finish)


def _exchanged(inspection: Inspection, part_id: str, wrong: dict[str, str]) -> Fix | None:
    """Exchange the names of the two positions that are both wrong."""
    part = inspection.part(part_id)
    if len(wrong) != 2:
        return None
    first, second = wrong
    labels = part.position_labels
    new = {**labels, first: labels[second], second: labels[first]}
    edit = partial(change_part, part_id=part_id, position_labels=new)
    return Fix(f'exchange the names "{labels[first]}" and "{labels[second]}"', edit)


def _contradicted(inspection: Inspection, claim: Claim, rows: np.ndarray) -> str:
    """Return what happens instead of what is claimed in some settings that sound, or nothing."""
    if not len(rows):
        return ""
    match claim.sort:
        case "coils":
            return _other_coils(inspection, claim, rows)
        case "on" | "off":
            return _not_so(inspection, claim, rows)
        case "normal" | "reversed":
            return _other_sign(inspection, claim)
        case "series" | "parallel":
            return _other_join(inspection, claim, rows)
        case "split" | "whole":
            return _other_part(inspection, claim, rows)


def _heard(inspection: Inspection, rows: np.ndarray) -> np.ndarray:
    """Return which coils with a magnet sound: shape (rows, coils)."""
    magnets = [coil.pole != 0 for coil in inspection.harness.coils]
    return np.asarray(inspection.sounding[rows] & magnets, np.bool_)


def _other_coils(inspection: Inspection, claim: Claim, rows: np.ndarray) -> str:
    """Compare coils where coils are named, pickups where pickups are: a split one is still it."""
    coils = inspection.table.coils
    each = {frozenset(np.array(coils)[row].tolist()) for row in _heard(inspection, rows)}
    parts = {coil.partition(".")[0] for coil in claim.coils}
    whole = claim.coils == {coil for coil in coils if coil.partition(".")[0] in parts}
    if claim.coils in each:
        return ""
    if whole and parts in [{c.partition(".")[0] for c in heard} for heard in each]:
        return ""
    only = next(iter(each)) if len(each) == 1 else None
    if only is None:
        return "never gives that"
    return f"gives {listed(coil_name(inspection.circuit, c) for c in sorted(only)) or 'no pickup'}"


def _not_so(inspection: Inspection, claim: Claim, rows: np.ndarray) -> str:
    own = [i for i, name in enumerate(inspection.table.coils) if name in claim.coils]
    if not own:
        return ""
    heard = bool(inspection.sounding[rows][:, own].any())
    name = coil_name(inspection.circuit, min(claim.coils).partition(".")[0])
    if claim.sort == "on":
        return "" if heard else f"leaves {name} silent"
    return f"lets {name} sound" if heard else ""


def _other_sign(inspection: Inspection, claim: Claim) -> str:
    """Judge the settings in which every other switch with such names stands at normal."""
    own = [i for i, name in enumerate(inspection.table.coils) if name in claim.coils]
    normal: dict[str, list[str]] = defaultdict(list)
    mine = ""
    for part in inspection.circuit.switches:
        for other in claims_of(inspection.circuit, part, inspection.table.coils):
            if other.sort == "normal":
                normal[part.id].append(other.position)
            if other == claim:
                mine = part.id
    if not own or not mine:
        return ""
    allowed = {part: tuple(positions) for part, positions in normal.items()}
    rows = rows_with(inspection, {**allowed, mine: (claim.position,)})
    agree = _agreements(inspection, own, rows)
    if not len(agree) or agree.any() == (claim.sort == "normal"):
        return ""
    return "puts it out of phase" if claim.sort == "normal" else "puts it in phase"


def _agreements(inspection: Inspection, own: list[int], rows: Mask) -> Mask:
    """Return for each setting where a pickup sounds with others whether all agree with it."""
    weights = np.array([c.weights for c in inspection.table.combinations])
    signs = np.sign(weights[inspection.table.which[rows]]) * inspection.sounding[rows]
    mine = signs[:, own[0]]
    others = np.delete(signs, own, axis=1)
    together = (mine != 0) & (others != 0).any(axis=1)
    opposed = (others * mine[:, np.newaxis] < 0).any(axis=1)
    return np.asarray(~opposed[together], np.bool_)


def _other_join(inspection: Inspection, claim: Claim, rows: np.ndarray) -> str:
    sounds = [
        inspection.table.combinations[i].sound for i in set(inspection.table.which[rows].tolist())
    ]
    trees = [s.network for s in sounds if s and isinstance(s.network, (CoilSound, GroupSound))]
    joins = {join for tree in trees for join in _joins(tree)}
    if claim.sort in joins or len(trees) < len(sounds):
        return ""
    return f"is in {min(joins)}" if joins else "joins no coils"


def _joins(tree: SoundTree) -> Iterator[str]:
    """Yield how the groups of a sound are joined."""
    if isinstance(tree, GroupSound):
        yield tree.join
        for member in tree.members:
            yield from _joins(member)


def _other_part(inspection: Inspection, claim: Claim, rows: np.ndarray) -> str:
    coils = inspection.table.coils
    parts: dict[str, list[int]] = {}
    for index, name in enumerate(coils):
        parts.setdefault(name.partition(".")[0], []).append(index)
    several = [own for own in parts.values() if len(own) > 1]
    if not several:
        return ""
    heard = [inspection.sounding[rows][:, own] for own in several]
    whole = any(bool(each.all(axis=1).any()) for each in heard)
    split = any(bool((each.sum(axis=1) == 1).any()) for each in heard)
    if claim.sort == "split":
        return "" if split else "splits nothing"
    return "" if whole else "never has all coils of a pickup"
