"""Where a circuit names its parts: in wires, wanted sounds and waived findings."""

from __future__ import annotations

import re

from msgspec.structs import replace

from wirer.circuit.model import Waiver, Wanted, Wire, split_lug

# A coil is named PART or PART.coil; whatever else a sound is written with joins and reverses them.
_COIL = re.compile(r"([A-Za-z][A-Za-z0-9_]*)(?:\.\w+)?")
SILENT = "silent"


def sound_names(sound: str) -> frozenset[str]:
    """Return the ids of the parts whose coils a sound such as `N + −M.A` names."""
    if sound.strip() == SILENT:
        return frozenset()
    return frozenset(match[1] for match in _COIL.finditer(sound))


def wire_renamed(wire: Wire, old: str, new: str) -> Wire:
    """Return the wire with the part `old` called `new` at its ends."""
    lugs = {
        "from_lug": _place_renamed(wire.from_lug, old, new),
        "to_lug": _place_renamed(wire.to_lug, old, new),
        "screen_from": wire.screen_from and _place_renamed(wire.screen_from, old, new),
        "screen_to": wire.screen_to and _place_renamed(wire.screen_to, old, new),
    }
    changed = {name: lug for name, lug in lugs.items() if lug != getattr(wire, name)}
    return replace(wire, **changed) if changed else wire


def wanted_renamed(wanted: Wanted, old: str, new: str) -> Wanted:
    """Return the wanted sound with the part `old` called `new`, as a switch and as a coil."""
    setting = {new if name == old else name: x for name, x in wanted.setting.items()}
    sound = wanted.sound
    if old in sound_names(sound):
        sound = _COIL.sub(lambda m: _place_renamed(m[0], old, new), sound)
    unchanged = sound == wanted.sound and old not in wanted.setting
    return wanted if unchanged else replace(wanted, setting=setting, sound=sound)


def waived_renamed(waiver: Waiver, old: str, new: str) -> Waiver:
    """Return the waived finding with the part or wire `old` called `new` in its places."""
    places = tuple(_place_renamed(place, old, new) for place in waiver.places)
    return waiver if places == waiver.places else replace(waiver, places=places)


def _place_renamed(place: str, old: str, new: str) -> str:
    part, lug = split_lug(place)
    if part != old:
        return place
    return f"{new}.{lug}" if lug else new
