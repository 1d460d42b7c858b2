"""Documents that the tests start from."""

from __future__ import annotations

import json
from typing import Any

# The example by which the form of a document is laid down, with an invented job.
EXAMPLE = """{
  "format": "wirer", "version": 1,
  "title": "Job 14", "job": "", "notes": "",
  "parts": [
    {"id": "N",  "kind": "coil-2wire", "label": "Neck", "at": [40.0, 20.0], "turn": 0, "flip": false,
     "values": {"resistance": "6k8", "inductance": "2.6", "capacitance": "110p", "winding": "cw", "pole": "north"}},
    {"id": "S1", "kind": "slide-2p2t", "label": "Neck on/off", "at": [40.0, 70.0],
     "position": "up", "position_labels": {"up": "on", "down": "off"}, "lug_labels": {"A0": "2"}},
    {"id": "V",  "kind": "pot", "label": "Volume", "at": [90.0, 70.0],
     "values": {"resistance": "250k", "taper": "audio"}, "rotation": {"shaft": 1.0},
     "measured": {"resistance": "228k"}}
  ],
  "wires": [
    {"id": "w1", "from": "N.finish", "to": "S1.A1", "colour": "WH", "style": "stranded", "gauge": "24 AWG",
     "bends": [[42.0, 60.0]], "done": false}
  ],
  "output_load": {"cable": "500p", "input": "1M"},
  "wanted": [{"setting": {"S1": "up"}, "sound": "N + M"}],
  "waived": [{"rule": "ground-loop", "places": ["V.can"], "reason": "…"}],
  "kinds": []
}
"""  # noqa: E501

# A kind that a builder might carry along: a two-lug lamp socket with a trimmed resistor in it.
OWN_KIND: dict[str, Any] = {
    "id": "trimmed-load",
    "name": "Trimmed load",
    "group": "passive",
    "letter": "R",
    "body": {"form": "rect", "size": [8, 4]},
    "lugs": [{"name": "1", "at": [-4, 0]}, {"name": "2", "at": [4, 0]}],
    "elements": [{"type": "resistor", "between": ["1", "2"]}],
    "parameters": {"resistance": {"quantity": "resistance", "default": "47k"}},
}


def example() -> dict[str, Any]:
    """The example, parsed."""
    parsed: dict[str, Any] = json.loads(EXAMPLE)
    return parsed


def document(**fields: Any) -> dict[str, Any]:
    """A document with nothing in it but the fields given."""
    return {"format": "wirer", "version": 1, "parts": [], "wires": [], **fields}


def part(part_id: str = "V", kind: str = "pot", **fields: Any) -> dict[str, Any]:
    """A part as a document has it."""
    return {"id": part_id, "kind": kind, **fields}


def wire(wire_id: str = "w1", **fields: Any) -> dict[str, Any]:
    """A wire between two lugs of the pot V."""
    return {"id": wire_id, "from": "V.1", "to": "V.can", **fields}


def own_kind(**fields: Any) -> dict[str, Any]:
    """The builder's own kind, with some fields changed."""
    return {**OWN_KIND, **fields}


def encoded(raw: Any) -> bytes:
    """A document as the bytes of a file; infinity as a number too large for a float."""
    return json.dumps(raw, ensure_ascii=False).replace("Infinity", "1e999").encode()
