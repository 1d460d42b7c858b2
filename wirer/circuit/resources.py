"""Where the parts, examples, schema and icons lie, in a wheel as in a checkout."""

from __future__ import annotations

from importlib.resources import files
from importlib.resources.abc import Traversable


def resource_root() -> Traversable:
    """Return the folder that holds `parts/`, `examples/`, `schema/` and `icons/`."""
    package = files("wirer")
    inside = package / "resources"
    if (inside / "parts").is_dir():
        return inside
    return package / ".." / "resources"
