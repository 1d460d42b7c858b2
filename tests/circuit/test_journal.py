"""What a killed window leaves: the last whole change, the file it belongs to, nothing broken."""

from __future__ import annotations

import os
import pickle
from itertools import islice, pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.circuit.test_underlay import traced
from tests.support import kills
from tests.support.circuits import documents
from wirer.circuit.document import write_document
from wirer.circuit.files import FileError
from wirer.circuit.journal import Journal
from wirer.circuit.leftovers import YOUNG_SECONDS, Leftover, discard, leftovers
from wirer.circuit.model import Circuit, Part
from wirer.circuit.records import HEADER
from wirer.circuit.snapshots import Snapshot, difference, following
from wirer.circuit.stance import Stance, default_stance


def killed(journal: Journal) -> None:
    """What the system does to the journal of a process that ends: it closes the file."""
    os.close(journal._handle)


def noted(folder: Path, *circuits: Circuit) -> Path:
    """The journal of a killed window that has had some circuits."""
    journal = Journal(folder)
    for second, circuit in enumerate(circuits):
        stance = default_stance(circuit)
        journal.record(circuit, stance, Path("job.wirer"), clean=False, now=second)
    killed(journal)
    return journal.file


def some(count: int = 4) -> list[Circuit]:
    return [circuit for _, circuit in islice(kills.circuits(seed=1), count)]


def test_the_last_circuit_comes_back_with_its_stance_its_file_and_its_time(tmp_path: Path) -> None:
    first, last = some(2)
    journal = Journal(tmp_path / "state" / "journals")
    stance = Stance({**default_stance(last).positions, "SN": "down"}, {"V.shaft": 0.25})
    stance = replace(stance, rotations={**default_stance(last).rotations, "V.shaft": 0.25})
    journal.record(first, default_stance(first), None, clean=False, now=100.0)
    journal.record(last, stance, tmp_path / "job.wirer", clean=False, now=200.0)
    assert leftovers(tmp_path / "state" / "journals") == ()  # the window lives
    killed(journal)
    (left,) = leftovers(tmp_path / "state" / "journals")
    assert left == Leftover(journal.file, last, stance, tmp_path / "job.wirer", 200.0)
    assert pickle.loads(pickle.dumps(left)) == left
    discard(left.file)
    assert leftovers(tmp_path / "state" / "journals") == ()


def test_a_journal_torn_at_any_byte_gives_the_last_whole_record(tmp_path: Path) -> None:
    posts = (Part(id=f"P{n}", kind="terminal", at=(n, 0)) for n in range(4))
    circuits = [Circuit(parts=(post,)) for post in posts]
    data = noted(tmp_path, *circuits).read_bytes()
    ends = []
    for count in range(len(circuits) + 1):
        part = tmp_path / str(count)
        part.mkdir()
        ends.append(len(noted(part, *circuits[:count]).read_bytes()))
    torn = tmp_path / "torn" / "torn.journal"
    torn.parent.mkdir()
    for (start, end), before in zip(pairwise(ends), [None, *circuits], strict=False):
        for size in range(start, end):
            torn.write_bytes(data[:size])
            found = [left.circuit for left in leftovers(torn.parent)]
            assert found == ([before] if before else [])
            assert torn.exists()


@given(st.integers(0), st.integers(1, 255), st.binary(max_size=40))
def test_a_damaged_tail_never_gives_anything_but_a_circuit_that_was(
    tmp_path_factory: pytest.TempPathFactory, place: int, flip: int, tail: bytes
) -> None:
    folder = tmp_path_factory.mktemp("damaged")
    circuits = some(3)
    file = noted(folder, *circuits)
    data = bytearray(file.read_bytes() + tail)
    data[place % len(data)] ^= flip
    file.write_bytes(data)
    for left in leftovers(folder):
        assert left.circuit in circuits


def test_a_saved_circuit_is_not_offered_and_its_journal_goes(tmp_path: Path) -> None:
    before, saved = some(2)
    journal = Journal(tmp_path)
    for circuit, clean in ((before, False), (saved, True)):
        journal.record(circuit, default_stance(circuit), None, clean=clean)
    killed(journal)
    assert leftovers(tmp_path) == ()
    assert list(tmp_path.iterdir()) == []


def test_a_window_that_is_closed_leaves_nothing(tmp_path: Path) -> None:
    journal = Journal(tmp_path)
    journal.record(some(1)[0], Stance(), None, clean=False)
    journal.close()
    assert list(tmp_path.iterdir()) == []


def test_several_windows_keep_apart_and_the_latest_comes_first(tmp_path: Path) -> None:
    first, second, third = some(3)
    noted(tmp_path, first)
    noted(tmp_path, first, second)
    open_still = Journal(tmp_path)
    open_still.record(third, default_stance(third), None, clean=False)
    found = leftovers(tmp_path)
    assert [left.circuit for left in found] == [second, first]
    for left in found:
        discard(left.file)
    discard(open_still.file)  # a window is writing it
    assert list(tmp_path.iterdir()) == [open_still.file]
    open_still.record(first, default_stance(first), None, clean=False)
    killed(open_still)
    assert [left.circuit for left in leftovers(tmp_path)] == [first]


def test_a_journal_without_a_record_goes_once_it_is_old(tmp_path: Path) -> None:
    file = noted(tmp_path)
    assert leftovers(tmp_path) == ()
    assert file.exists()
    assert leftovers(tmp_path, now=file.stat().st_mtime + YOUNG_SECONDS + 1) == ()
    assert not file.exists()


def test_what_is_no_journal_of_this_program_is_left_alone(tmp_path: Path) -> None:
    newer = tmp_path / "newer.journal"
    newer.write_bytes(HEADER.replace(b"1", b"2") + b"...")
    assert leftovers(tmp_path, now=newer.stat().st_mtime + 1e6) == ()
    assert newer.exists()
    assert leftovers(tmp_path / "nowhere") == ()


def test_a_change_costs_little_and_no_change_nothing(tmp_path: Path) -> None:
    circuits = some(40)
    sizes = [len(noted(tmp_path, *circuits[:count]).read_bytes()) for count in (1, 40)]
    assert sizes[0] < len(write_document(circuits[0], Stance())) / 2
    assert (sizes[1] - sizes[0]) / 39 < 1000
    again = len(noted(tmp_path, circuits[0], circuits[0]).read_bytes())
    assert again == sizes[0]


def test_a_picture_inside_is_noted_once_and_comes_back(tmp_path: Path) -> None:
    circuits = [traced(dim=share / 10) for share in range(5)]
    file = noted(tmp_path, *circuits)
    picture = circuits[0].underlay
    assert picture is not None
    (left,) = leftovers(tmp_path)
    assert left.circuit == circuits[-1]
    grown = noted(tmp_path, circuits[0]).stat().st_size
    assert file.stat().st_size - grown < 4 * 300


def test_a_journal_that_can_not_be_written_says_so_and_the_next_change_tries_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first, second = some(2)
    journal = Journal(tmp_path)
    journal.record(first, default_stance(first), None, clean=False)

    def full(handle: int, data: bytes) -> int:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        patch.setattr(os, "write", full)
        with pytest.raises(FileError, match="can't be written: No space left on device"):
            journal.record(second, default_stance(second), None, clean=False)
    journal.record(second, default_stance(second), None, clean=False)
    killed(journal)
    assert [left.circuit for left in leftovers(tmp_path)] == [second]
    blocked = tmp_path / "file"
    blocked.write_text("")
    with pytest.raises(FileError, match="the journal can't be written"):
        Journal(blocked)


@pytest.mark.skipif(os.name != "posix", reason="modes are POSIX's")
def test_nobody_else_can_read_a_journal(tmp_path: Path) -> None:
    journal = Journal(tmp_path / "state")
    assert journal.file.stat().st_mode & 0o777 == 0o600
    assert journal.file.parent.stat().st_mode & 0o777 == 0o700
    journal.close()


LINES = st.lists(st.sampled_from("abc"), max_size=6).map(tuple)


@given(LINES, LINES)
def test_a_difference_leads_from_one_text_to_the_other(
    before: tuple[str, ...], after: tuple[str, ...]
) -> None:
    record = difference(Snapshot(before), Snapshot(after))
    assert following(Snapshot(before), record).lines == after


@given(st.lists(documents(), min_size=1, max_size=3))
def test_any_circuit_is_recovered_as_it_was(
    tmp_path_factory: pytest.TempPathFactory, given_documents: list[tuple[Circuit, Stance]]
) -> None:
    folder = tmp_path_factory.mktemp("any")
    journal = Journal(folder)
    for circuit, stance in given_documents:
        journal.record(circuit, stance, None, clean=False)
    killed(journal)
    (left,) = leftovers(folder)
    assert (left.circuit, left.stance) == given_documents[-1]


@pytest.mark.skipif(os.name != "posix", reason="the signal is POSIX's")
def test_a_window_killed_at_any_moment_loses_at_most_one_change() -> None:
    assert max(kills.survey(20)) <= 1
