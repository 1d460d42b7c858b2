"""Names for SPICE: ASCII, and different even when upper and lower case are not told apart."""

from __future__ import annotations

import re

from wirer.analysis.harness import Harness
from wirer.analysis.nets import Labels

RESERVED = ("0", "gnd", "hot")


class Names:
    """Hands out names of which no two are the same to SPICE."""

    def __init__(self) -> None:
        self._taken: set[str] = set()

    def new(self, wished: str) -> str:
        """Return the wished name as SPICE can read it, numbered where it is taken."""
        clean = re.sub(r"[^A-Za-z0-9_]", "_", wished)
        name, number = clean, 1
        while name.lower() in self._taken:
            number += 1
            name = f"{clean}__{number}"
        self._taken.add(name.lower())
        return name


def net_names(harness: Harness, labels: Labels, names: Names) -> dict[int, str]:
    """Return a name for each net of one setting, by its label: its first lug, `hot`, or 0.

    `labels` (nets,) has the label of each fixed net; `names` hands out the names.
    """
    for name in RESERVED:
        names.new(name)
    found: dict[int, str] = {}
    if harness.hot is not None and harness.ground is not None:
        found[int(labels[harness.hot])] = "hot"
        found[int(labels[harness.ground])] = "0"
    for lug in (*harness.circuit.lugs, *sorted(harness.net_of)):
        label = int(labels[harness.net_of[lug]])
        if label not in found:
            found[label] = names.new(lug)
    return found


def commented(text: str) -> str:
    """Return a text for a comment: on one line."""
    return " ".join(text.split())
