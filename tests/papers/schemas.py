"""What the JSON of the commands must be, written by hand from the design's §6."""

from __future__ import annotations

from typing import Any

from jsonschema import Draft202012Validator

NUMBER_OR_NULL = {"type": ["number", "null"]}
SETTING = {"type": "object", "additionalProperties": {"type": "string"}}
REMARKS = ["hum-cancelling", "out-of-phase", "cancelling", "hung-from-signal", "bridge"]


def record(required: dict[str, Any], **more: Any) -> dict[str, Any]:
    """An object with exactly these keys."""
    return {
        "type": "object",
        "properties": required,
        "required": list(required),
        "additionalProperties": False,
        **more,
    }


GROUP = {"type": "array", "items": {"$ref": "#/$defs/network"}, "minItems": 2}
NETWORK = {
    "oneOf": [
        record({"series": GROUP}),
        record({"parallel": GROUP}),
        {
            "type": "object",
            "properties": {"coil": {"type": "string"}, "reversed": {"const": True}},
            "required": ["coil"],
            "additionalProperties": False,
        },
        record(
            {
                "bridge": {
                    "type": "array",
                    "minItems": 2,
                    "items": record(
                        {
                            "coil": {"type": "string"},
                            "between": {
                                "type": "array",
                                "items": {"type": "integer", "minimum": 0},
                                "minItems": 2,
                                "maxItems": 2,
                            },
                        }
                    ),
                }
            }
        ),
    ]
}
SILENT_ROW = {
    "properties": {
        "sound": {"const": "silent"},
        **{key: {"type": "null"} for key in ("network", "hum", "resonance", "peak_db", "level_db")},
        "silent": {"enum": ["shorted", "faint", "open"]},
    }
}
SOUNDING_ROW = {
    "properties": {
        "sound": {"not": {"const": "silent"}},
        "network": {"$ref": "#/$defs/network"},
        "hum": {"type": "number", "minimum": 0, "maximum": 1},
        "silent": {"type": "null"},
    }
}
ROW = record(
    {
        "setting": SETTING,
        "sound": {"type": "string"},
        "words": {"type": "string"},
        "network": {},
        "weights": {"type": "object", "additionalProperties": {"type": "number"}},
        "hum": {},
        "silent": {},
        "resistance": {"anyOf": [{"type": "null"}, {"type": "number", "minimum": 0}]},
        "resonance": NUMBER_OR_NULL,
        "peak_db": NUMBER_OR_NULL,
        "level_db": NUMBER_OR_NULL,
        "same_as": {"type": "integer", "minimum": 0},
        "remarks": {"type": "array", "items": {"enum": REMARKS}, "uniqueItems": True},
    },
    oneOf=[SILENT_ROW, SOUNDING_ROW],
)
COMBINATIONS = {
    **record(
        {
            "title": {"type": "string"},
            "settings": {"type": "integer", "minimum": 1},
            "distinct": {"type": "integer", "minimum": 0},
            "silent": {"type": "integer", "minimum": 0},
            "combinations": {"type": "array", "items": ROW},
        }
    ),
    "$defs": {"network": NETWORK},
}
FINDING = {
    "rule": {"type": "string", "pattern": "^[a-z]+(-[a-z]+)*$"},
    "severity": {"enum": ["error", "warning", "note"]},
    "message": {"type": "string", "minLength": 1},
    "places": {"type": "array", "items": {"type": "string"}},
    "settings": {"anyOf": [{"type": "null"}, {"type": "array", "items": SETTING, "minItems": 1}]},
    "fix": {"type": "string", "minLength": 1},
}
COUNT = {"type": "integer", "minimum": 0}
FINDINGS: dict[str, Any] = record(
    {
        "title": {"type": "string"},
        "errors": COUNT,
        "warnings": COUNT,
        "notes": COUNT,
        "findings": {"type": "array", "items": record(FINDING)},
    }
)
FINDINGS["properties"]["waived"] = {
    "type": "array",
    "minItems": 1,
    "items": record({**FINDING, "reason": {"type": "string", "minLength": 1}}),
}


def assert_valid(document: Any, schema: dict[str, Any]) -> None:
    """Fail with every place at which a document is not of the schema."""
    Draft202012Validator.check_schema(schema)
    errors = Draft202012Validator(schema).iter_errors(document)
    assert [f"{error.json_path}: {error.message}" for error in errors] == []
