"""Files: the old one stands until the new one is whole, and every failure is one line."""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path
from typing import Any, NoReturn

import pytest

from tests.circuit.papers import EXAMPLE
from wirer.circuit import files
from wirer.circuit.document import LARGEST_BYTES, read_document, write_document
from wirer.circuit.errors import DocumentError
from wirer.circuit.files import FileError, read_file, write_bytes, write_file
from wirer.circuit.model import Circuit
from wirer.circuit.stance import Stance

POSIX = pytest.mark.skipif(os.name != "posix", reason="modes, links and pipes are POSIX's")


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A document that is there already."""
    path = tmp_path / "job.wirer"
    path.write_text(EXAMPLE, encoding="utf-8")
    return path


def test_what_is_written_to_a_file_is_read_from_it(tmp_path: Path) -> None:
    circuit, stance = read_document(EXAMPLE.encode())
    path = tmp_path / "Größe – 4.7 kΩ.wirer"
    write_file(path, circuit, stance)
    assert read_file(path) == (circuit, stance)
    assert read_file(str(path)) == (circuit, stance)
    assert path.read_bytes() == write_document(circuit, stance)


def test_an_old_file_is_replaced_and_nothing_is_left_beside_it(old: Path) -> None:
    write_file(old, Circuit(title="new"), Stance())
    assert read_file(old)[0].title == "new"
    assert list(old.parent.iterdir()) == [old]


def failing(number: int) -> Any:
    def fail(*_arguments: object, **_fields: object) -> NoReturn:
        raise OSError(number, os.strerror(number))

    return fail


@pytest.fixture(params=["open", "write", "fsync", "chmod", "replace"])
def failing_disk(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """A disk that is full just when it is asked to do one thing."""
    full = failing(errno.ENOSPC)
    match request.param:
        case "open":
            monkeypatch.setattr(files.os, "open", full)
        case "write":
            monkeypatch.setattr(files.os, "fdopen", _full_after_ten_bytes)
        case "fsync":
            monkeypatch.setattr(files.os, "fsync", full)
        case "chmod":
            monkeypatch.setattr(files.Path, "chmod", full)
        case "replace":
            monkeypatch.setattr(files.Path, "replace", full)
    return str(request.param)


def _full_after_ten_bytes(handle: int, mode: str) -> Any:
    file = open(handle, mode)  # noqa: SIM115 - it is closed by the one who asked for it

    class Full:
        def __enter__(self) -> Full:
            return self

        def __exit__(self, *_error: object) -> None:
            file.close()

        def write(self, data: bytes) -> NoReturn:
            file.write(data[:10])
            file.flush()
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    return Full()


@pytest.mark.usefixtures("failing_disk")
def test_a_full_disk_leaves_the_old_file_and_nothing_else(old: Path) -> None:
    before = old.read_bytes()
    with pytest.raises(FileError) as refused:
        write_file(old, Circuit(title="new"), Stance())
    assert str(refused.value) == f"{old}: can't be written: No space left on device"
    assert old.read_bytes() == before
    assert list(old.parent.iterdir()) == [old]


def test_an_interruption_leaves_the_old_file_and_nothing_else(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupt(_handle: int) -> NoReturn:
        raise KeyboardInterrupt

    monkeypatch.setattr(files.os, "fsync", interrupt)
    before = old.read_bytes()
    with pytest.raises(KeyboardInterrupt):
        write_file(old, Circuit(title="new"), Stance())
    assert old.read_bytes() == before
    assert list(old.parent.iterdir()) == [old]


def test_a_folder_that_can_not_be_synced_is_no_failure(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Some file systems refuse it; the file itself is on the disk by then."""
    real_open = os.open

    def only_files(path: Any, flags: int, *more: Any) -> int:
        if Path(path).is_dir():
            raise OSError(errno.EINVAL, os.strerror(errno.EINVAL))
        return real_open(path, flags, *more)

    monkeypatch.setattr(files.os, "open", only_files)
    write_file(old, Circuit(title="new"), Stance())
    assert read_file(old)[0].title == "new"


def test_the_new_file_is_on_the_disk_before_it_takes_the_name(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Otherwise a power cut can leave an empty file under the name (POSIX fsync, rename)."""
    done: list[str] = []
    real_fsync, real_replace = os.fsync, Path.replace

    def fsync(handle: int) -> None:
        done.append("folder" if stat.S_ISDIR(os.fstat(handle).st_mode) else "file")
        real_fsync(handle)

    def replace(self: Path, target: Path) -> Path:
        done.append("name")
        return real_replace(self, target)

    monkeypatch.setattr(files.os, "fsync", fsync)
    monkeypatch.setattr(files.Path, "replace", replace)
    write_file(old, Circuit(), Stance())
    assert done == ["file", "name", *(["folder"] if os.name == "posix" else [])]


# Links, modes and names ---------------------------------------------------------------------------


@POSIX
@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664, 0o755])
def test_a_file_keeps_its_mode(old: Path, mode: int) -> None:
    old.chmod(mode)
    write_file(old, Circuit(title="new"), Stance())
    assert stat.S_IMODE(old.stat().st_mode) == mode
    assert read_file(old)[0].title == "new"


@POSIX
@pytest.mark.parametrize("mask", [0o022, 0o077, 0o002])
def test_a_new_file_has_the_mode_of_any_other(tmp_path: Path, mask: int) -> None:
    before = os.umask(mask)
    try:
        write_file(tmp_path / "new.wirer", Circuit(), Stance())
        (tmp_path / "plain").touch()
    finally:
        os.umask(before)
    modes = {stat.S_IMODE(path.stat().st_mode) for path in tmp_path.iterdir()}
    assert modes == {0o666 & ~mask}


@POSIX
def test_nobody_else_can_open_what_replaces_a_private_file(
    old: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old.chmod(0o600)
    seen: list[int] = []
    real_fdopen = os.fdopen

    def fdopen(handle: int, mode: str) -> Any:
        seen.append(stat.S_IMODE(os.fstat(handle).st_mode))
        return real_fdopen(handle, mode)

    monkeypatch.setattr(files.os, "fdopen", fdopen)
    write_file(old, Circuit(), Stance())
    assert seen == [0o600]


@POSIX
def test_a_link_stays_a_link_to_the_new_file(old: Path, tmp_path: Path) -> None:
    folder = tmp_path / "desk"
    folder.mkdir()
    link = folder / "today.wirer"
    link.symlink_to(Path("..") / old.name)
    write_file(link, Circuit(title="new"), Stance())
    assert link.is_symlink()
    assert read_file(old)[0].title == "new"
    assert list(folder.iterdir()) == [link]


@POSIX
def test_a_link_to_a_file_that_is_not_there_yet_makes_it(tmp_path: Path) -> None:
    link = tmp_path / "today.wirer"
    link.symlink_to("later.wirer")
    write_file(link, Circuit(title="new"), Stance())
    assert link.is_symlink()
    assert (tmp_path / "later.wirer").is_file()


def test_the_longest_name_that_a_folder_takes_is_written(tmp_path: Path) -> None:
    path = tmp_path / ("n" * 249 + ".wirer")
    write_file(path, Circuit(), Stance())
    write_file(path, Circuit(title="again"), Stance())
    assert read_file(path)[0].title == "again"


def test_a_name_without_a_folder_is_written_where_one_is(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    write_file("job.wirer", Circuit(title="here"), Stance())
    assert read_file("job.wirer")[0].title == "here"
    assert [p.name for p in tmp_path.iterdir()] == ["job.wirer"]


# What can't be read or written --------------------------------------------------------------------


def unreadable(path: Any) -> str:
    with pytest.raises(FileError) as refused:
        read_file(path)
    return str(refused.value)


def unwritable(path: Any) -> str:
    with pytest.raises(FileError) as refused:
        write_file(path, Circuit(), Stance())
    return str(refused.value)


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    path = tmp_path / "none.wirer"
    assert unreadable(path) == f"{path}: can't be read: No such file or directory"


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    assert unreadable(tmp_path) == f"{tmp_path}: can't be read: it is a folder"
    assert unwritable(tmp_path) == f"{tmp_path}: can't be written: it is a folder"
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    path = tmp_path / "none" / "job.wirer"
    assert unwritable(path) == f"{path}: can't be written: No such file or directory"


def test_a_file_where_a_folder_should_be(old: Path) -> None:
    path = old / "job.wirer"
    assert unreadable(path) == f"{path}: can't be read: Not a directory"
    assert unwritable(path) == f"{path}: can't be written: Not a directory"


@POSIX
def test_a_pipe_neither_hangs_nor_is_replaced(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert unreadable(pipe) == f"{pipe}: can't be read: it is a device or a pipe"
    assert unwritable(pipe) == f"{pipe}: can't be written: it is a device or a pipe"
    assert pipe.is_fifo()


@POSIX
def test_a_device_is_not_replaced() -> None:
    """As root a rename onto it would take the device away from everybody."""
    assert unwritable("/dev/null") == "/dev/null: can't be written: it is a device or a pipe"
    assert Path("/dev/null").is_char_device()


@POSIX
def test_links_in_a_circle(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    one.symlink_to(other)
    other.symlink_to(one)
    reason = os.strerror(errno.ELOOP)
    assert unreadable(one) == f"{one}: can't be read: {reason}"
    assert unwritable(one) == f"{one}: can't be written: {reason}"
    assert one.is_symlink()


def test_names_that_no_file_can_have(tmp_path: Path) -> None:
    for name in ("a\0b", "n" * 300, "two\nlines"):
        line = unreadable(tmp_path / name)
        assert "can't be read: " in line
        assert line.isprintable()
    for name in ("a\0b", "n" * 300):
        assert "can't be written: " in unwritable(tmp_path / name)
    assert list(tmp_path.iterdir()) == []


def test_a_write_protected_file_is_left_alone(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A rename would not ask; whoever protects a file means it. Root may write to any."""
    monkeypatch.setattr(files.os, "access", lambda path, mode: (path, mode) != (old, os.W_OK))
    assert unwritable(old) == f"{old}: can't be written: it is write-protected"
    assert old.read_text(encoding="utf-8") == EXAMPLE


@pytest.mark.skipif(
    os.name != "posix" or os.geteuid() == 0, reason="root may read and write anything"
)
def test_what_one_may_not_read_or_write(old: Path) -> None:
    old.parent.chmod(0o500)
    try:
        assert unwritable(old) == f"{old}: can't be written: Permission denied"
        old.chmod(0)
        assert unreadable(old) == f"{old}: can't be read: Permission denied"
    finally:
        old.parent.chmod(0o700)


def test_a_reason_of_the_system_is_passed_on(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(files.Path, "read_bytes", failing(errno.EACCES))
    assert unreadable(old) == f"{old}: can't be read: Permission denied"
    monkeypatch.setattr(files.os, "open", failing(errno.EROFS))
    assert unwritable(old) == f"{old}: can't be written: Read-only file system"


def test_a_file_too_large_is_refused_without_being_read(tmp_path: Path) -> None:
    path = tmp_path / "large.wirer"
    with path.open("wb") as file:
        file.truncate(LARGEST_BYTES + 1)
    with pytest.raises(DocumentError) as refused:
        read_file(path)
    assert str(refused.value) == f"{path}: is larger than 64 MiB, the most that is read"


def test_an_error_in_a_document_names_the_file(tmp_path: Path) -> None:
    path = tmp_path / "bad.wirer"
    path.write_text("{", encoding="utf-8")
    with pytest.raises(DocumentError, match=rf"^{path}: line 1, column 2: is not JSON: "):
        read_file(path)


def test_any_bytes_are_written_alike(tmp_path: Path) -> None:
    """Drawings and papers go the same way."""
    write_bytes(tmp_path / "a.png", b"\x89PNG\r\n\x1a\n")
    assert (tmp_path / "a.png").read_bytes() == b"\x89PNG\r\n\x1a\n"
