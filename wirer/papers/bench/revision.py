"""The revision of a circuit: two prints that say the same are prints of the same circuit."""

from __future__ import annotations

import hashlib

from msgspec.structs import replace

from wirer.circuit.document import write_document
from wirer.circuit.model import Circuit
from wirer.circuit.stance import default_stance

LETTERS = 8


def revision_of(circuit: Circuit) -> str:
    """Return eight hexadecimal letters that change with anything of the circuit.

    They are the beginning of the SHA-256 of its document, however the switches stand and whatever
    has been soldered meanwhile.
    """
    wires = tuple(replace(wire, done=False) for wire in circuit.wires)
    plain = replace(circuit, wires=wires)
    data = write_document(plain, default_stance(plain))
    return hashlib.sha256(data).hexdigest()[:LETTERS].upper()
