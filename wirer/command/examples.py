"""The examples that end the help of each command."""

from __future__ import annotations


def examples(*lines: str) -> str:
    """Return what to type, for the end of a command's help, which leaves its lines as they are."""
    return "\n".join(["\b", "For example:", *(f"  {line}" for line in lines)])
