"""Where a circuit names its parts: in wires, wanted sounds and waived findings."""

from __future__ import annotations

import re

from msgspec.structs import replace

from wirer.circuit.model import Waiver, Wanted, Wire, split_lug

# What stands between joins, minus signs and brackets is PART, PART.coil or a label.
_NAME = re.compile(r"[^\s()+∥|/−–-](?:[^()+∥|/−–]*[^\s()+∥|/−–])?")
SILENCE = {"silent", "silence"}


def names_part(sound: str, part_id: str) -> bool:
    """Tell whether a sound such as `N + −M.A` speaks of a part by its id, in any case."""
    if sound.strip().lower() in SILENCE:
        return False
    return any(_is_of(match[0], part_id) for match in _NAME.finditer(sound))


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
    if names_part(sound, old):
        sound = _NAME.sub(
            lambda m: _place_renamed(m[0], split_lug(m[0])[0], new) if _is_of(m[0], old) else m[0],
            sound,
        )
    unchanged = sound == wanted.sound and old not in wanted.setting
    return wanted if unchanged else replace(wanted, setting=setting, sound=sound)


def waived_renamed(waiver: Waiver, old: str, new: str) -> Waiver:
    """Return the waived finding with the part or wire `old` called `new` in its places."""
    places = tuple(_place_renamed(place, old, new) for place in waiver.places)
    return waiver if places == waiver.places else replace(waiver, places=places)


def _is_of(name: str, part_id: str) -> bool:
    return split_lug(name)[0].lower() == part_id.lower()


def _place_renamed(place: str, old: str, new: str) -> str:
    part, lug = split_lug(place)
    if part != old:
        return place
    return f"{new}.{lug}" if lug else new
