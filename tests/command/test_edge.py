"""The edge of the command line: whatever goes wrong is one clear line and the right status."""

import errno
import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import click
import pytest

from tests.circuit.papers import document, encoded, part, wire
from tests.command.support import (
    BARITONE,
    FAULTY,
    chain,
    environment,
    line_of,
    printed,
    refused,
    run,
    start,
    written,
)
from wirer.circuit.errors import WirerError
from wirer.circuit.model import Circuit
from wirer.command.main import cli
from wirer.command.refusal import concerning

COMMANDS = sorted(cli.commands)
READING = [
    ["combinations"],
    ["combinations", "--json"],
    ["check"],
    ["response", "--csv"],
    ["draw", "-o", "out.svg"],
    ["sheets", "-o", "out.pdf"],
    ["netlist"],
]
DEEP = b'{"format": "wirer", "version": 1, "parts": ' + b"[" * 100_000
HOSTILE: dict[str, bytes] = {
    "empty": b"",
    "not text": b"\xff\xfe\x00\x01" * 50,
    "cut off": encoded(document(parts=[part()]))[:-9],
    "nested deeply": DEEP,
    "a list": b"[]",
    "a number": b"1e999",
    "another program's": b'{"format": "other", "version": 1, "parts": [], "wires": []}',
    "newer": b'{"format": "wirer", "version": 999, "parts": [], "wires": []}',
    "not a number": b'{"format": "wirer", "version": NaN}',
    "a thousand figures": b'{"format": "wirer", "version": 1' + b"0" * 10_000 + b"}",
    "wrong types": encoded(document(parts={"id": 3}, wires="w1")),
    "equal ids": encoded(document(parts=[part("V"), part("V")])),
    "unknown kind": encoded(document(parts=[part("V", "pto")])),
    "unknown lug": encoded(document(parts=[part()], wires=[wire(to="V.9")])),
    "unreadable value": encoded(document(parts=[part(values={"resistance": "4kk7"})])),
    "too many parts": encoded(document(parts=[part(f"V{n}") for n in range(100_000)])),
    "a control character": encoded(document(parts=[part("V\x1b[31m")])),
}


@pytest.mark.parametrize("command", READING, ids=" ".join)
@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_document_is_declined_by_every_command(
    command: list[str], name: str, tmp_path: Path
) -> None:
    path = tmp_path / "job.wirer"
    path.write_bytes(HOSTILE[name])
    before = path.stat()
    out = [str(tmp_path / word) if word.startswith("out.") else word for word in command]
    said = refused(out[0], str(path), *out[1:])
    assert said.startswith(f"wirer: {path}: ")
    assert len(said) < 700
    assert (path.read_bytes(), path.stat().st_mtime_ns) == (HOSTILE[name], before.st_mtime_ns)
    assert [each.name for each in tmp_path.iterdir()] == ["job.wirer"]


@pytest.mark.parametrize("command", READING, ids=" ".join)
def test_a_file_that_can_not_be_read_is_declined(command: list[str], tmp_path: Path) -> None:
    for path, reason in ((tmp_path / "no.wirer", "No such file"), (tmp_path, "it is a folder")):
        said = refused(command[0], str(path), *command[1:])
        assert said.startswith(f"wirer: {path}: can't be read: ")
        assert reason in said


def test_the_place_in_the_file_and_what_would_be_right_are_said(tmp_path: Path) -> None:
    path = tmp_path / "job.wirer"
    path.write_bytes(HOSTILE["unreadable value"])
    assert refused("check", str(path)) == (
        f'wirer: {path}: parts[0].values.resistance: "4kk7" is not a resistance; '
        "write for example 4k7"
    )


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["chekc", BARITONE], 'wirer: there is no command "chekc"; is it check?'),
        (["zzz"], "there are combinations, check, want, response, draw, sheets, netlist, kinds"),
        (["--jsno"], "wirer: no such option '--jsno'"),
        (["check", BARITONE, "--jsn"], "wirer: check: no such option '--jsn'"),
        (["combinations"], "wirer: combinations: missing argument 'FILE'"),
        (["kinds", "pot", "pot"], "wirer: kinds: got unexpected extra argument (pot)"),
        (["response", BARITONE, "--setting"], "option '--setting' requires an argument"),
    ],
)
def test_a_request_that_can_not_be_understood_is_one_line_with_where_help_is(
    arguments: list[str], said: str
) -> None:
    line = refused(*arguments)
    assert said in line
    assert re.search(r"[Ss]ee wirer.* --help$", line)


@pytest.mark.parametrize("command", COMMANDS)
def test_each_command_helps_with_an_example(command: str) -> None:
    for option in ("--help", "-h"):
        text = printed(command, option)
        assert text.startswith(f"Usage: wirer {command} ")
        assert "For example:" in text
        assert re.search(r"^    wirer \w+", text, re.MULTILINE)
        assert max(map(len, text.splitlines())) <= 88
    options = [each for each in cli.commands[command].params if isinstance(each, click.Option)]
    assert all(option.help for option in options)


def test_the_group_lists_every_command_and_says_its_version() -> None:
    text = printed("--help")
    for name, command in cli.commands.items():
        assert re.search(rf"^  {name} +{re.escape(str(command.short_help))}$", text, re.MULTILINE)
    assert printed() == text
    assert re.fullmatch(r"wirer \d+\.\d+\.\d+\n", printed("--version"))


@pytest.mark.parametrize("error", [RecursionError, MemoryError])
def test_what_is_beyond_the_machine_is_said_of_the_file(error: type[Exception]) -> None:
    with pytest.raises(WirerError, match=r"^job\.wirer: .*; ") as refusal, concerning("job.wirer"):
        raise error
    assert refusal.value.__cause__ is not None


def raising(error: BaseException) -> Callable[..., None]:
    def callback(**_options: object) -> None:
        raise error

    return callback


@pytest.mark.parametrize(
    ("error", "status", "said"),
    [
        (KeyboardInterrupt(), 130, "stopped"),
        (RecursionError(), 2, "more than this machine can work out"),
        (MemoryError(), 2, "more than this machine can work out"),
        (WirerError("two\nlines"), 2, r"two\nlines"),
        (click.Abort(), 130, None),
    ],
)
def test_errors_outside_a_file_end_in_a_line_too(
    monkeypatch: pytest.MonkeyPatch, error: BaseException, status: int, said: str | None
) -> None:
    monkeypatch.setattr(cli.commands["kinds"], "callback", raising(error))
    result = run("kinds")
    assert result.exit_code == status
    assert said is None or said in line_of(result.stderr)


def test_an_error_of_the_program_itself_is_not_hidden(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cli.commands["kinds"], "callback", raising(ZeroDivisionError("a slip")))
    assert isinstance(run("kinds").exception, ZeroDivisionError)


@pytest.fixture(scope="module")
def long_table(tmp_path_factory: pytest.TempPathFactory) -> str:
    """A circuit of 1,024 settings, whose table is longer than any pipe holds back."""
    return written(tmp_path_factory.mktemp("long"), chain(5))


@pytest.mark.parametrize("form", [[], ["--json"], ["--csv"], ["--markdown"]])
def test_a_reader_that_goes_away_is_no_error(long_table: str, form: list[str]) -> None:
    ran = start("combinations", long_table, *form)
    assert ran.stdout is not None
    assert ran.stderr is not None
    assert ran.stdout.readline()
    ran.stdout.close()
    assert ran.stderr.read() == b""
    assert ran.wait(60) == 0
    ran.stderr.close()


def test_a_reader_that_goes_away_does_not_hide_an_error() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    ran = start("check", FAULTY, stdout=writing)
    os.close(writing)
    assert ran.communicate(timeout=60) == (None, b"")
    assert ran.returncode == 1


def heeding_interrupts() -> None:
    """Have a process heed Ctrl-C even where the tests were started in the background."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def test_an_interrupt_ends_with_its_own_status(long_table: str) -> None:
    ran = start("combinations", long_table, "--json", preexec_fn=heeding_interrupts)
    assert ran.stdout is not None
    assert ran.stderr is not None
    assert ran.stdout.readline()
    ran.send_signal(signal.SIGINT)  # while it waits for somebody to read on
    assert ran.wait(60) == 130
    assert line_of(ran.stderr.read().decode()) == "wirer: stopped"
    ran.stdout.close()
    ran.stderr.close()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no device that is full")
def test_an_output_that_is_full_is_said() -> None:
    with Path("/dev/full").open("wb") as full:
        ran = start("combinations", BARITONE, stdout=full)
        _, said = ran.communicate(timeout=60)
    assert ran.returncode == 2
    reason = os.strerror(errno.ENOSPC)
    assert line_of(said.decode()) == f"wirer: standard output: can't be written: {reason}"


def test_without_any_output_the_status_is_still_right() -> None:
    script = f"'{sys.executable}' -m wirer check '{FAULTY}' >&- 2>&-"
    assert (
        subprocess.run(script, shell=True, check=False, cwd=Path(FAULTY).parents[2]).returncode == 1
    )


def on_a_terminal(*arguments: str, **changes: str) -> str:
    """What a command writes to a terminal of 100 columns, complaints included."""
    pty = pytest.importorskip("pty", reason="there are no such terminals on this system")
    leader, follower = pty.openpty()
    settings = {"COLUMNS": "100", "TERM": "xterm", **changes}
    ran = start(*arguments, stdout=follower, stderr=follower, env=environment(**settings))
    os.close(follower)
    said = b""
    try:
        while block := os.read(leader, 65536):
            said += block
    except OSError:  # Linux's way to say that the other end is closed
        pass
    finally:
        os.close(leader)
    assert ran.wait(60) == 0
    return said.decode().replace("\r\n", "\n")


def test_a_terminal_has_colour_unless_it_is_not_wanted() -> None:
    assert "\x1b[" in on_a_terminal("combinations", BARITONE)
    plain = on_a_terminal("combinations", BARITONE, NO_COLOR="1")
    assert "\x1b" not in plain
    assert "\x1b" not in on_a_terminal("combinations", BARITONE, TERM="dumb")
    assert plain == printed("combinations", BARITONE, COLUMNS="100")


def test_a_long_work_shows_progress_on_a_terminal_and_leaves_nothing_of_it(tmp_path: Path) -> None:
    file = written(tmp_path, chain(6))
    said = on_a_terminal("combinations", file, "--distinct")
    assert "4,096 settings" in said.partition("6 coils")[0]
    assert "%" not in run("combinations", file, "--json", "--distinct").stderr


def test_a_small_table_shows_no_progress() -> None:
    assert on_a_terminal("combinations", BARITONE).startswith("\x1b[1mBaritone")


def test_a_document_without_a_title_is_called_by_its_file(tmp_path: Path) -> None:
    file = written(tmp_path, Circuit())
    assert run("check", file).stdout.startswith(f"{file}\n")
