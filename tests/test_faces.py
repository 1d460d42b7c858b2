"""``wirer`` and its arguments: which of the two faces answers."""

import sys

import click
import pytest

from wirer.__main__ import main
from wirer.command import main as command
from wirer.window import run as window


@pytest.fixture
def faces(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, list[str]]]:
    """Notes which face was started with what, in place of starting it."""
    noted: list[tuple[str, list[str]]] = []

    class NotedGroup(click.Group):
        def __call__(self, **_settings: object) -> None:
            noted.append(("command", sys.argv[1:]))
            raise SystemExit(0)

    group = NotedGroup(commands=dict(command.cli.commands))

    def open_window(files: list[str]) -> int:
        noted.append(("window", files))
        return 0

    monkeypatch.setattr(command, "cli", group)
    monkeypatch.setattr(window, "run", open_window)
    return noted


def start(monkeypatch: pytest.MonkeyPatch, *arguments: str) -> int | str | None:
    monkeypatch.setattr("sys.argv", ["wirer", *arguments])
    try:
        return main()
    except SystemExit as ended:
        return ended.code


@pytest.mark.parametrize(
    "arguments",
    [[], ["job.wirer"], ["one.wirer", "two.wirer"], ["jobs/neck"], ["no such file.wirer"]],
)
def test_files_open_in_the_window(
    monkeypatch: pytest.MonkeyPatch, faces: list[tuple[str, list[str]]], arguments: list[str]
) -> None:
    assert start(monkeypatch, *arguments) == 0
    assert faces == [("window", arguments)]


@pytest.mark.parametrize(
    "arguments",
    [["--help"], ["--version"], ["check", "job.wirer"], ["kinds"], ["chekc", "job.wirer"]],
)
def test_commands_options_and_mistyped_commands_go_to_the_command_line(
    monkeypatch: pytest.MonkeyPatch, faces: list[tuple[str, list[str]]], arguments: list[str]
) -> None:
    assert start(monkeypatch, *arguments) == 0
    assert faces == [("command", arguments)]


def test_a_file_with_a_bare_name_opens_unless_it_is_a_commands(
    monkeypatch: pytest.MonkeyPatch,
    faces: list[tuple[str, list[str]]],
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    folder = tmp_path_factory.mktemp("jobs")
    (folder / "job14").touch()
    (folder / "check").touch()
    monkeypatch.chdir(folder)
    start(monkeypatch, "job14")
    start(monkeypatch, "check")
    assert [face for face, _ in faces] == ["window", "command"]


def test_without_a_display_the_window_is_declined_in_one_line(
    monkeypatch: pytest.MonkeyPatch,
    faces: list[tuple[str, list[str]]],
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setattr("sys.platform", "linux")
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    assert start(monkeypatch, "job.wirer") == 2
    assert faces == []
    said = capsys.readouterr().err
    assert said.startswith("wirer: there is no display")
    assert said.count("\n") == 1
