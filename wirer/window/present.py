"""What holds in the present setting: nets, their roles, and which parts carry signal."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from wirer.analysis.analyst import Analyst, Combination
from wirer.analysis.facts import Facts, facts_of, states_of
from wirer.analysis.unused import CoilState
from wirer.circuit.model import Circuit, split_lug
from wirer.circuit.stance import Stance
from wirer.drawing.palette import Role

QUICK_BRANCHES = 60
"""Up to so many elements a setting is worked out at once; of more the table will tell."""


@dataclass(frozen=True)
class Present:
    """The nets of one setting and what it does.

    `roles` and `nets` are by lug (`PART.lug`), lugs with equal numbers being one net; `dead` are
    the parts that carry neither signal nor ground. `combination` is None where it would take too
    long to work out at once.
    """

    roles: Mapping[str, Role]
    nets: Mapping[str, int]
    dead: frozenset[str]
    coils: tuple[str, ...] = ()
    combination: Combination | None = None

    def net_with(self, lug: str) -> frozenset[str]:
        """Return every lug of a lug's net."""
        number = self.nets[lug]
        return frozenset(name for name, net in self.nets.items() if net == number)


NOTHING = Present({}, {}, frozenset())


class Nets:
    """Works out the present setting of a circuit, keeping what switches do not change."""

    def __init__(self) -> None:
        self._analyst = Analyst(Circuit(), {})

    def present(self, circuit: Circuit, stance: Stance) -> Present:
        """Return what holds where the switches stand."""
        if self._analyst.circuit is not circuit or self._analyst.rotations != stance.rotations:
            self._analyst = Analyst(circuit, stance.rotations)
        harness = self._analyst.signal
        states = states_of(harness, stance.positions)
        facts = facts_of(harness, states)
        labels = facts.labels[0].tolist()
        nets = {lug: labels[net] for lug, net in harness.net_of.items()}
        roles = _roles(facts, nets)
        return Present(
            roles,
            nets,
            _dead_parts(facts, roles),
            tuple(coil.name for coil in harness.coils),
            self._combination(states),
        )

    def _combination(self, states: list[tuple[int, ...]]) -> Combination | None:
        if len(self._analyst.signal.branches) > QUICK_BRANCHES:
            return None
        return self._analyst.combinations[int(self._analyst.survey(states)[0])]


def _roles(facts: Facts, nets: Mapping[str, int]) -> dict[str, Role]:
    harness = facts.harness
    ground = facts.labels[0, harness.ground] if harness.ground is not None else -1
    signal = facts.signal[0]

    def role(net: int) -> Role:
        if net == ground:
            return "ground"
        return "signal" if signal[net] else "open"

    by_net = {net: role(net) for net in set(nets.values())}
    return {lug: by_net[net] for lug, net in nets.items()}


def _dead_parts(facts: Facts, roles: Mapping[str, Role]) -> frozenset[str]:
    """Return parts none of whose elements carry signal, or that have none and join nothing."""
    harness = facts.harness
    reached = {split_lug(lug)[0] for lug, role in roles.items() if role != "open"}
    working: dict[str, bool] = {}
    for branch, live in zip(harness.branches, facts.live[0].tolist(), strict=True):
        working[branch.part] = working.get(branch.part, False) or live
    for coil, state in zip(harness.coils, facts.coils[0].tolist(), strict=True):
        working[coil.part] = working[coil.part] or state == CoilState.LIVE
    parts = (part.id for part in harness.circuit.parts)
    return frozenset(part for part in parts if not working.get(part, part in reached))
