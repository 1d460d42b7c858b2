"""The papers of one circuit, each worked out when it is asked for, all from the same value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from wirer.analysis.analyst import Analyst
from wirer.analysis.combinations import CombinationTable, table_of
from wirer.circuit.frozen import FrozenMap
from wirer.circuit.model import Circuit
from wirer.circuit.stance import default_rotations
from wirer.layout.lay_out import lay_out
from wirer.layout.layout import Layout
from wirer.papers.bench.allowance import CUSTOMARY, Allowance
from wirer.papers.bench.bench_test import BenchTest, bench_test
from wirer.papers.bench.meter_model import meter_model
from wirer.papers.bench.open_findings import Remaining, remaining_findings
from wirer.papers.bench.parts_list import PartRow, parts_list
from wirer.papers.bench.player_card import PlayerCard, player_card
from wirer.papers.bench.revision import revision_of
from wirer.papers.bench.settings_to_test import listed_settings, switch_states
from wirer.papers.bench.wanted_rows import WantedSound, wanted_by_row
from wirer.papers.bench.wire_list import WireList, wire_list
from wirer.rules.check import findings_of
from wirer.rules.inspection import Inspection, TooManyToCheckError


@dataclass
class JobPapers:
    """What the papers of a circuit say, every knob fully clockwise and a blend in its middle.

    `date` and `revision` are printed on every page; without a revision it is the circuit's own.
    """

    circuit: Circuit
    date: str = ""
    revision: str = ""
    allowance: Allowance = CUSTOMARY
    known_layout: Layout | None = field(default=None, repr=False)

    def __post_init__(self) -> None:
        self.revision = self.revision or revision_of(self.circuit)

    @property
    def rotations(self) -> Mapping[str, float]:
        """Where every shaft stands."""
        return default_rotations(self.circuit)

    @cached_property
    def layout(self) -> Layout:
        """Where everything lies."""
        return self.known_layout or lay_out(self.circuit)

    @cached_property
    def wires(self) -> WireList:
        """The wire list."""
        return wire_list(self.circuit, self.layout, self.allowance)

    @cached_property
    def analyst(self) -> Analyst:
        """What works the settings out.

        Raises
        ------
        QuantityError
            The output load can't be read.
        """
        return Analyst(self.circuit, self.rotations)

    @cached_property
    def table(self) -> CombinationTable:
        """The combination table.

        Raises
        ------
        TooManySettingsError
            There are more than 2²⁰ settings.
        """
        return table_of(self.analyst)

    @cached_property
    def listed(self) -> tuple[int, ...]:
        """The rows of the table that the papers list."""
        return listed_settings(self.table)

    @cached_property
    def wanted(self) -> Mapping[int, WantedSound]:
        """What is wanted of each setting; nothing where there are too many to look through."""
        try:
            return wanted_by_row(Inspection(self.circuit))
        except TooManyToCheckError:
            return FrozenMap()

    @cached_property
    def test(self) -> BenchTest:
        """The test sheet."""
        return bench_test(self.circuit, self.table, self.rotations)

    @cached_property
    def parts(self) -> tuple[PartRow, ...]:
        """The parts list."""
        states = switch_states(self.table, self.listed)
        return parts_list(self.circuit, meter_model(self.circuit, self.rotations, states))

    @cached_property
    def card(self) -> PlayerCard:
        """The player's card."""
        return player_card(self.circuit, self.table)

    @cached_property
    def findings(self) -> tuple[Remaining, ...] | None:
        """The findings, open ones first; None where there are too many settings to look through."""
        try:
            return remaining_findings(findings_of(self.circuit), self.circuit)
        except TooManyToCheckError:
            return None
