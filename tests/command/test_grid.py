"""Tables as plain text."""

import pytest

from wirer.command.grid import Column, head_lines, row_lines, table_width, text_width, wrapped

COLUMNS = (Column(("#",), 2, right=True), Column(("what", "it is"), 6), Column(("Ω",), 5, True, 1))


def test_columns_stand_below_each_other_with_heads_at_the_bottom() -> None:
    assert head_lines(COLUMNS) == ["    what", " #  it is      Ω"]
    assert row_lines(COLUMNS, ["1", "coil", "6.80k"]) == [" 1  coil   6.80k"]
    assert table_width(COLUMNS) == 16


def test_a_long_text_goes_on_in_the_next_line() -> None:
    assert row_lines(COLUMNS, ["12", "one or two", "0"]) == ["12  one or     0", "    two"]
    assert row_lines(COLUMNS, ["12", "a\nb", "0"]) == ["12  a          0", "    b"]


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("", [""]),
        ("short", ["short"]),
        ("a word", ["a word"]),
        ("two words", ["two", "words"]),
        ("unbreakable", ["unbrea", "kable"]),
        ("an unbreakable", ["an", "unbrea", "kable"]),
        ("検査検査", ["検査検", "査"]),
    ],
)
def test_text_is_broken_at_spaces_else_where_it_must(text: str, lines: list[str]) -> None:
    assert wrapped(text, 6) == lines
    assert all(text_width(line) <= 6 for line in lines)


def test_wide_characters_take_two_places_and_combining_ones_none() -> None:
    # Unicode Standard Annex 11: W and F are wide.
    assert [text_width(text) for text in ("N ∥ −M", "検査", "e\u0301")] == [6, 4, 1]
