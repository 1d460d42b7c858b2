"""Markdown: what a document says stays what it says."""

import re

import pytest

from wirer.papers.markdown import literal, table_line


@pytest.mark.parametrize(
    ("text", "escaped"),
    [
        ("Neck | Bridge", r"Neck \| Bridge"),
        ("two\nlines\r\nand\ta tab", "two lines and a tab"),
        ("**loud** _1_", r"\*\*loud\*\* \_1\_"),
        ("<script>", r"\<script\>"),
        ("[a](b)", r"\[a\](b)"),
        ("back\\slash|", r"back\\slash\|"),
        ("&amp; $x$ ~y~ `z`", r"\&amp; \$x\$ \~y\~ \`z\`"),
        ("\x1b[31mred", r"\[31mred"),
        ("N + −M ∥ B", "N + −M ∥ B"),
    ],
)
def test_markup_in_a_text_is_shown_and_not_obeyed(text: str, escaped: str) -> None:
    assert literal(text) == escaped


def test_a_pipe_in_a_cell_makes_no_column() -> None:
    line = table_line(map(literal, ["a|b", "c\\|d", "e"]))
    assert len(re.split(r"(?<!\\)\|", line.strip())[1:-1]) == 3
