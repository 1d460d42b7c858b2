"""What lies in the wiring view, until and after the worker has laid it out."""

from __future__ import annotations

from wirer.circuit.frozen import FrozenMap
from wirer.circuit.model import Circuit
from wirer.drawing.wiring import WiringNotes
from wirer.layout.labels import Labels
from wirer.layout.layout import Layout
from wirer.layout.placement import lug_points, place_parts
from wirer.layout.reuse import kept_routes
from wirer.window.jobs import Laid
from wirer.window.standing import Scenery


def laid_scenery(circuit: Circuit, laid: Laid) -> Scenery:
    """Return the scenery of a circuit that has been laid out."""
    return Scenery(circuit, laid.layout, WiringNotes(laid.tags, laid.lug_names, laid.under))


def bare_scenery(circuit: Circuit, previous: Layout | None) -> Scenery:
    """Return the parts where they lie, with those wires and names that are where they were."""
    placements = place_parts(circuit)
    routes = kept_routes(previous, placements, circuit.wires) if previous else {}
    layout = Layout(
        placements=placements,
        lugs=lug_points(placements),
        routes=FrozenMap(routes),
        wires=circuit.wire_by_id,
        labels=_kept_labels(circuit, previous) if previous else Labels(),
    )
    return Scenery(circuit, layout)


def _kept_labels(circuit: Circuit, previous: Layout) -> Labels:
    still = {part.id for part in circuit.parts if previous.placements.get(part.id) is not None}
    return Labels(
        FrozenMap({p: label for p, label in previous.labels.names.items() if p in still}),
        FrozenMap({p: found for p, found in previous.labels.choices.items() if p in still}),
    )
