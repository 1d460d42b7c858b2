"""The session: files, switches and edits, without any window."""

from collections.abc import Callable
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from wirer.circuit.edits import change_part
from wirer.circuit.errors import DocumentError, EditError
from wirer.circuit.files import FileError, read_file
from wirer.circuit.model import Circuit
from wirer.window.session import Session


@pytest.fixture
def session(small_file: Path) -> Session:
    session = Session()
    session.open(small_file)
    return session


def relabelled(text: str) -> Callable[[Circuit], Circuit]:
    return lambda circuit: change_part(circuit, "N", label=text)


def test_opening_takes_circuit_stance_and_path(session: Session, small_file: Path) -> None:
    assert session.is_open
    assert session.is_clean
    assert session.name == "Small"
    assert session.path == small_file
    assert session.stance.positions == {"S": "up"}
    assert session.stance.rotations == {"V.shaft": 1.0}


@pytest.mark.parametrize(
    ("text", "error"),
    [("{", DocumentError), ('{"format": "wirer", "version": 9}', DocumentError), (None, FileError)],
)
def test_a_bad_file_leaves_what_is_open_alone(
    session: Session, tmp_path: Path, text: str | None, error: type[Exception]
) -> None:
    before = session.circuit, session.stance, session.path
    bad = tmp_path / "bad.wirer"
    if text is not None:
        bad.write_text(text)
    with pytest.raises(error):
        session.open(bad)
    assert (session.circuit, session.stance, session.path) == before


def test_throwing_is_no_edit(session: Session, qtbot: QtBot) -> None:
    before = session.stance
    with qtbot.waitSignal(session.stance_changed) as told:
        session.throw("S", "down")
    assert told.args == [before]
    assert session.stance.positions["S"] == "down"
    assert session.is_clean
    assert session.undo_name == ""


def test_throwing_to_where_it_stands_says_nothing(session: Session, qtbot: QtBot) -> None:
    with qtbot.assertNotEmitted(session.stance_changed):
        session.throw("S", "up")


def test_throwing_on_stops_at_the_end_or_goes_around(session: Session) -> None:
    session.throw_on("S", 1)
    session.throw_on("S", 1)
    assert session.stance.positions["S"] == "down"
    session.throw_on("S", 1, around=True)
    assert session.stance.positions["S"] == "up"


def test_a_shaft_stops_at_its_ends(session: Session) -> None:
    session.turn("V.shaft", 1.7)
    assert session.stance.rotations["V.shaft"] == 1.0
    session.turn("V.shaft", -0.2)
    assert session.stance.rotations["V.shaft"] == 0.0


def test_several_switches_are_thrown_as_one(session: Session, qtbot: QtBot) -> None:
    with qtbot.waitSignal(session.stance_changed):
        session.take_setting({"S": "down"})
    session.turn("V.shaft", 0.3)
    session.take_usual_stance()
    assert session.stance.positions == {"S": "up"}
    assert session.stance.rotations == {"V.shaft": 1.0}


def test_an_edit_is_undone_to_the_very_value(session: Session, qtbot: QtBot) -> None:
    before = session.circuit
    with qtbot.waitSignals([session.circuit_changed, session.clean_changed]):
        session.apply("Rename", relabelled("Front"))
    assert session.circuit.part_by_id["N"].label == "Front"
    assert not session.is_clean
    session.undo()
    assert session.circuit is before
    assert session.is_clean
    session.redo()
    assert session.circuit.part_by_id["N"].label == "Front"


def test_a_refused_edit_changes_nothing(session: Session, qtbot: QtBot) -> None:
    before = session.circuit
    with qtbot.assertNotEmitted(session.circuit_changed), pytest.raises(EditError):
        session.apply("Rename", lambda circuit: change_part(circuit, "nobody", label="x"))
    assert session.circuit is before


def test_saving_keeps_the_stance_and_makes_clean(session: Session, tmp_path: Path) -> None:
    session.apply("Rename", relabelled("Front"))
    session.throw("S", "down")
    session.turn("V.shaft", 0.25)
    path = tmp_path / "other.wirer"
    session.save(path)
    assert session.is_clean
    assert session.path == path
    circuit, stance = read_file(path)
    assert circuit.part_by_id["N"].label == "Front"
    assert stance == session.stance


def test_selecting_tells_places_once(session: Session, qtbot: QtBot) -> None:
    with qtbot.waitSignal(session.selection_changed) as told:
        session.select(("N", "w1"))
    assert told.args == [("N", "w1")]
    with qtbot.assertNotEmitted(session.selection_changed):
        session.select(("N", "w1"))
