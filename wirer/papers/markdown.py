"""Text in Markdown: what a document says must not turn into markup."""

from __future__ import annotations

import re
from collections.abc import Iterable

_MARKUP = re.compile(r"[\\`*_\[\]<>|~$&#]")


def literal(text: str) -> str:
    """Return text so that Markdown shows it as it is, on one line."""
    line = " ".join(text.split())
    printable = "".join(c for c in line if c.isprintable())
    return _MARKUP.sub(r"\\\g<0>", printable)


def table_line(cells: Iterable[str]) -> str:
    """Return a line of a table of cells that are Markdown."""
    return f"| {' | '.join(cells)} |\n"
