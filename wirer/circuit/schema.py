"""The JSON Schema of the document, generated from the code.

`python -m wirer.circuit.schema` prints it.
"""

from __future__ import annotations

import json
import sys
from typing import Any

import msgspec

from wirer.circuit.document import Document


def document_schema() -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of a `.wirer` file."""
    schema = msgspec.json.schema(Document)
    title = "A document of wirer: the wiring of an electric guitar or bass"
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", "title": title, **schema}


def schema_text() -> str:
    """Return the schema as the text kept in `resources/schema`."""
    return json.dumps(document_schema(), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    sys.stdout.write(schema_text())
