"""Names that may be meant."""

import pytest

from wirer.command.near import either, hint, near_names

NAMES = ["toggle-1p2t", "toggle-2p2t", "slide-2p2t", "pot"]


@pytest.mark.parametrize(
    ("wished", "near"),
    [
        ("toggle", ["toggle-1p2t", "toggle-2p2t"]),
        ("TOGGLE-1P2T", ["toggle-1p2t"]),
        ("2p2t", ["toggle-2p2t", "slide-2p2t"]),
        ("slide2p2t", ["slide-2p2t", "toggle-2p2t"]),
        ("toggel", ["toggle-1p2t", "toggle-2p2t"]),
        ("qqqqqq", []),
        ("", []),
        ("x" * 10_000, []),
    ],
)
def test_near_names_contain_begin_or_resemble_what_was_written(
    wished: str, near: list[str]
) -> None:
    assert near_names(wished, NAMES) == near


def test_a_hint_names_the_near_ones_else_all_or_where_they_are() -> None:
    assert hint("pott", NAMES) == "is it pot?"
    assert hint("qqqqqq", NAMES) == "there are toggle-1p2t, toggle-2p2t, slide-2p2t, pot"
    assert hint("qqqqqq", NAMES, "ask elsewhere") == "ask elsewhere"


def test_a_choice_is_written_as_in_a_sentence() -> None:
    assert [either(names) for names in (["a"], ["a", "b"], ["a", "b", "c"])] == [
        "a",
        "a or b",
        "a, b or c",
    ]
