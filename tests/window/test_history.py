"""Undo is a list of earlier values."""

from msgspec.structs import replace

from wirer.circuit.model import Circuit
from wirer.window.history import History


def test_undo_brings_back_the_very_value() -> None:
    first = Circuit(title="first")
    history = History(first)
    history.do("Rename", replace(first, title="second"))
    assert history.circuit.title == "second"
    assert history.undo_name == "Rename"
    assert history.undo()
    assert history.circuit is first
    assert not history.undo()


def test_redo_goes_on_until_another_edit_forgets_it() -> None:
    history = History(Circuit())
    second, third = Circuit(title="second"), Circuit(title="third")
    history.do("One", second)
    history.undo()
    assert history.redo_name == "One"
    assert history.redo()
    assert history.circuit is second
    assert not history.redo()
    history.undo()
    history.do("Two", third)
    assert history.redo_name == ""
    assert history.circuit is third


def test_it_is_clean_at_the_value_in_the_file_only() -> None:
    history = History(Circuit())
    assert history.is_clean
    history.do("One", Circuit(title="second"))
    assert not history.is_clean
    history.mark_saved()
    assert history.is_clean
    history.undo()
    assert not history.is_clean
