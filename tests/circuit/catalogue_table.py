"""The catalogue as the design fixes it, written out by hand: lugs, positions, joined lugs.

A position is written `up: A0-A2 B0-B2`; the first of a kind is its default.
"""

LUGS = {
    "coil-2wire": "start finish",
    "coil-screened": "core braid",
    "coil-2wire-cover": "start finish cover",
    "coil-tapped": "start tap finish",
    "humbucker-4wire": "As Af Bs Bf bare",
    "humbucker-3wire": "core joint braid",
    "humbucker-screened": "core braid",
    "dummy-coil": "start finish",
    "slide-1p2t": "A0 A1 A2",
    "slide-2p2t": "A0 A1 A2 B0 B1 B2",
    "slide-2p3t": "A0 A1 A2 A3 B0 B1 B2 B3",
    "toggle-1p2t": "A0 A1 A2",
    "toggle-2p2t": "A0 A1 A2 B0 B1 B2",
    "toggle-3p2t": "A0 A1 A2 B0 B1 B2 C0 C1 C2",
    "toggle-4p2t": "A0 A1 A2 B0 B1 B2 C0 C1 C2 D0 D1 D2",
    "toggle-1p-on-off-on": "A0 A1 A2",
    "toggle-2p-on-off-on": "A0 A1 A2 B0 B1 B2",
    "toggle-1p-on-both-on": "A0 A1 A2",
    "toggle-2p-on-on-on": "A0 A1 A2 B0 B1 B2",
    "toggle-2p-on-on-on-mirrored": "A0 A1 A2 B0 B1 B2",
    "selector-3": "A0 A1 B0 B1 frame",
    "lever-2p3t": "A0 A1 A2 A3 B0 B1 B2 B3",
    "lever-2p4t": "A0 A1 A2 A3 A4 B0 B1 B2 B3 B4",
    "lever-2p5": "A0 A1 A2 A3 B0 B1 B2 B3",
    "lever-4p5t": ("A0 A1 A2 A3 A4 A5 B0 B1 B2 B3 B4 B5 C0 C1 C2 C3 C4 C5 D0 D1 D2 D3 D4 D5"),
    "rotary-1p12t": "A0 A1 A2 A3 A4 A5 A6 A7 A8 A9 A10 A11 A12",
    "rotary-2p6t": "A0 A1 A2 A3 A4 A5 A6 B0 B1 B2 B3 B4 B5 B6",
    "rotary-3p4t": "A0 A1 A2 A3 A4 B0 B1 B2 B3 B4 C0 C1 C2 C3 C4",
    "rotary-4p3t": "A0 A1 A2 A3 B0 B1 B2 B3 C0 C1 C2 C3 D0 D1 D2 D3",
    "momentary": "A0 A1",
    "pot": "1 2 3 can",
    "pot-switch": "1 2 3 can A0 A1 A2 B0 B1 B2",
    "pot-dual": "1a 2a 3a 1b 2b 3b can",
    "pot-concentric": "1a 2a 3a 1b 2b 3b can",
    "pot-blend": "1a 2a 3a 1b 2b 3b can",
    "pot-open-end": "1 2 3 can",
    "resistor": "1 2",
    "capacitor": "1 2",
    "inductor": "1 2",
    "jack-ts": "tip sleeve",
    "jack-trs": "tip ring sleeve",
    "jack-ts-switched": "tip sleeve break",
    "battery": "plus minus",
    "bridge": "1",
    "string-ground": "1",
    "foil": "1",
    "plate": "1",
    "terminal": "1",
    "bus": "1 2 3 4 5 6 7 8",
}

POSITIONS = {
    "slide-1p2t": ["up: A0-A1", "down: A0-A2"],
    "slide-2p2t": ["up: A0-A1 B0-B1", "down: A0-A2 B0-B2"],
    "slide-2p3t": ["1: A0-A1 B0-B1", "2: A0-A2 B0-B2", "3: A0-A3 B0-B3"],
    "toggle-1p2t": ["up: A0-A2", "down: A0-A1"],
    "toggle-2p2t": ["up: A0-A2 B0-B2", "down: A0-A1 B0-B1"],
    "toggle-3p2t": ["up: A0-A2 B0-B2 C0-C2", "down: A0-A1 B0-B1 C0-C1"],
    "toggle-4p2t": ["up: A0-A2 B0-B2 C0-C2 D0-D2", "down: A0-A1 B0-B1 C0-C1 D0-D1"],
    "toggle-1p-on-off-on": ["up: A0-A2", "middle:", "down: A0-A1"],
    "toggle-2p-on-off-on": ["up: A0-A2 B0-B2", "middle:", "down: A0-A1 B0-B1"],
    "toggle-1p-on-both-on": ["up: A0-A2", "middle: A0-A1-A2", "down: A0-A1"],
    "toggle-2p-on-on-on": ["up: A0-A2 B0-B2", "middle: A0-A2 B0-B1", "down: A0-A1 B0-B1"],
    "toggle-2p-on-on-on-mirrored": [
        "up: A0-A2 B0-B2",
        "middle: A0-A1 B0-B2",
        "down: A0-A1 B0-B1",
    ],
    "selector-3": ["up: A0-A1", "middle: A0-A1 B0-B1", "down: B0-B1"],
    "lever-2p3t": ["1: A0-A1 B0-B1", "2: A0-A2 B0-B2", "3: A0-A3 B0-B3"],
    "lever-2p4t": ["1: A0-A1 B0-B1", "2: A0-A2 B0-B2", "3: A0-A3 B0-B3", "4: A0-A4 B0-B4"],
    "lever-2p5": [
        "1: A0-A1 B0-B1",
        "2: A0-A1-A2 B0-B1-B2",
        "3: A0-A2 B0-B2",
        "4: A0-A2-A3 B0-B2-B3",
        "5: A0-A3 B0-B3",
    ],
    "lever-4p5t": [
        "1: A0-A1 B0-B1 C0-C1 D0-D1",
        "2: A0-A2 B0-B2 C0-C2 D0-D2",
        "3: A0-A3 B0-B3 C0-C3 D0-D3",
        "4: A0-A4 B0-B4 C0-C4 D0-D4",
        "5: A0-A5 B0-B5 C0-C5 D0-D5",
    ],
    "rotary-1p12t": [
        "1: A0-A1", "2: A0-A2", "3: A0-A3", "4: A0-A4", "5: A0-A5", "6: A0-A6",
        "7: A0-A7", "8: A0-A8", "9: A0-A9", "10: A0-A10", "11: A0-A11", "12: A0-A12",
    ],
    "rotary-2p6t": [
        "1: A0-A1 B0-B1", "2: A0-A2 B0-B2", "3: A0-A3 B0-B3",
        "4: A0-A4 B0-B4", "5: A0-A5 B0-B5", "6: A0-A6 B0-B6",
    ],
    "rotary-3p4t": [
        "1: A0-A1 B0-B1 C0-C1",
        "2: A0-A2 B0-B2 C0-C2",
        "3: A0-A3 B0-B3 C0-C3",
        "4: A0-A4 B0-B4 C0-C4",
    ],
    "rotary-4p3t": [
        "1: A0-A1 B0-B1 C0-C1 D0-D1",
        "2: A0-A2 B0-B2 C0-C2 D0-D2",
        "3: A0-A3 B0-B3 C0-C3 D0-D3",
    ],
    "momentary": ["rest:", "pressed: A0-A1"],
    "pot-switch": ["down: A0-A1 B0-B1", "up: A0-A2 B0-B2"],
}  # fmt: skip

TIMING = {
    "slide-1p2t": "unknown",
    "slide-2p2t": "unknown",
    "slide-2p3t": "unknown",
    "selector-3": "make",
    "lever-2p3t": "make",
    "lever-2p4t": "make",
    "lever-2p5": "make",
    "lever-4p5t": "unknown",
}
"""Every other switch breaks before it makes."""

METAL = {
    "coil-screened": "braid",
    "coil-2wire-cover": "cover",
    "humbucker-4wire": "bare",
    "humbucker-3wire": "braid",
    "humbucker-screened": "braid",
    "selector-3": "frame",
    "pot": "can",
    "pot-switch": "can",
    "pot-dual": "can",
    "pot-concentric": "can",
    "pot-blend": "can",
    "pot-open-end": "can",
    "jack-ts": "sleeve",
    "jack-trs": "sleeve",
    "jack-ts-switched": "sleeve",
    "bridge": "1",
    "string-ground": "1",
    "foil": "1",
    "plate": "1",
}
"""The lugs that are exposed or screening metal; no other lug is."""

Contacts = dict[str, set[frozenset[str]]]


def contacts_of(rows: list[str]) -> Contacts:
    """Read rows such as `up: A0-A2 B0-B2`: for each position the groups of lugs joined in it."""
    pairs = (row.partition(":") for row in rows)
    return {
        position: {frozenset(group.split("-")) for group in groups.split()}
        for position, _, groups in pairs
    }
