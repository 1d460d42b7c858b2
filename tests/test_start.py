"""resources/start.py: setting up from nothing, again, and after something went wrong."""

import ast
import importlib.util
import os
import shutil
import signal
import sys
from pathlib import Path
from types import ModuleType

import pytest

from tests.support.stand_in_project import START, StandInProject, make_stand_in

needs_signals = pytest.mark.skipif(os.name == "nt", reason="Windows has no such signals")


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> StandInProject:
    """A project in a folder with a space in its name, set up for real once."""
    made = make_stand_in(tmp_path_factory.mktemp("home") / "my projects")
    first = made.start()
    assert first.returncode == 0, first.stderr
    assert "making" in first.stderr
    assert "installing wirer" in first.stderr
    return made


@pytest.fixture
def start(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """The module of a start.py whose project is not set up, on a complete Linux."""
    root = make_stand_in(tmp_path).root
    spec = importlib.util.spec_from_file_location("start", root / "resources" / "start.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    for name in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(module, "ON_LINUX", True)
    monkeypatch.setattr(module, "can_load", lambda _library: True)
    monkeypatch.setattr(module, "has_font", lambda: True)
    monkeypatch.setattr(module, "can_make_venv", lambda: True)
    monkeypatch.setattr("shutil.which", lambda tool: f"/usr/bin/{tool}")
    monkeypatch.setattr("os.geteuid", lambda: 1000, raising=False)
    return module


@pytest.fixture
def steps(start: ModuleType, monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """The commands of the set-up, which are noted and not run."""
    noted: list[list[str]] = []

    def note(command: list[str]) -> int:
        noted.append(command)
        return 0

    monkeypatch.setattr(start, "set_up_step", note)
    return noted


def test_without_a_display_the_first_example_is_printed_and_drawn(project: StandInProject) -> None:
    ran = project.start()
    example = project.root / "resources" / "examples" / "01 first.wirer"
    drawing = project.root / "out" / "01 first.svg"
    calls = [line for line in ran.stdout.splitlines() if line.startswith("wirer")]
    assert calls == [
        f"wirer|combinations|{example}",
        f"wirer|check|{example}",
        f"wirer|draw|{example}|-o|{drawing}",
    ]
    assert ran.returncode == 0, "an error that check found is not a failure of the start"


def test_the_second_start_sets_up_nothing(project: StandInProject) -> None:
    assert "making" not in (ran := project.start("kinds")).stderr
    assert "installing" not in ran.stderr


def test_other_arguments_go_to_wirer_in_the_callers_folder(
    project: StandInProject, tmp_path: Path
) -> None:
    ran = project.start("combinations", "my file.wirer", "--json", cwd=tmp_path)
    assert ran.stdout.splitlines()[:2] == [
        "wirer|combinations|my file.wirer|--json",
        f"folder|{tmp_path}",
    ]
    assert ran.returncode == 0
    assert project.start("fails").returncode == 3


def test_tests_run_offscreen_from_the_project(project: StandInProject, tmp_path: Path) -> None:
    ran = project.start("test", "-k", "some thing", "fails", cwd=tmp_path)
    called, folder, platform = ran.stdout.splitlines()
    assert called.startswith("pytest|-n|")
    assert called.endswith("|-k|some thing|fails")
    assert folder == f"folder|{project.root}"
    assert platform == "platform|offscreen"
    assert ran.returncode == 3


def test_changed_requirements_are_installed(project: StandInProject) -> None:
    with (project.root / "pyproject.toml").open("a", encoding="utf-8") as file:
        file.write("# one more requirement\n")
    ran = project.start("kinds")
    assert "installing wirer" in ran.stderr
    assert "making" not in ran.stderr


def test_an_environment_whose_python_is_gone_is_made_anew(project: StandInProject) -> None:
    folder = "Scripts" if os.name == "nt" else "bin"
    for python in (project.root / ".venv" / folder).glob("python*"):
        python.unlink()
    ran = project.start("kinds")
    assert "making it anew" in ran.stderr
    assert ran.stdout.startswith("wirer|kinds")


def test_an_environment_moved_with_its_folder_is_made_anew(
    project: StandInProject, tmp_path: Path
) -> None:
    moved = make_stand_in(tmp_path / "elsewhere")
    shutil.copytree(project.root / ".venv", moved.root / ".venv", symlinks=True)
    ran = moved.start("kinds")
    assert "making it anew" in ran.stderr
    assert ran.stdout.startswith("wirer|kinds")


def test_the_test_environment_serves_without_tests_too(
    start: ModuleType, steps: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(start, "probe", lambda _python: "3.11.2")
    start.VENV.mkdir()
    start.set_up("test")
    assert [step[-1] for step in steps] == [".[test]"]
    start.set_up()
    start.set_up("test")
    assert len(steps) == 1


def test_an_interrupted_installation_starts_from_nothing(
    start: ModuleType, steps: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupt(_python: Path, _extra: str) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(start, "probe", lambda _python: "3.11.2")
    start.VENV.mkdir()
    with monkeypatch.context() as patch:
        patch.setattr(start, "install", interrupt)
        assert start.main(["kinds"]) == 130
    half_made = start.VENV / "half-made"
    half_made.touch()
    start.set_up()
    assert not half_made.exists()
    assert [step[2:4] for step in steps[-2:]] == [["-m", "venv"], ["-m", "pip"]]


def test_a_failed_installation_is_not_taken_for_done(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(start, "probe", lambda _python: "3.11.2")
    monkeypatch.setattr(start, "set_up_step", lambda command: int("pip" in command))
    start.VENV.mkdir()
    assert start.main(["kinds"]) == 1
    assert "installing failed" in capsys.readouterr().err
    assert start.read_stamp() == start.UNFINISHED


def test_missing_libraries_are_told_with_the_exact_command(
    start: ModuleType,
    steps: list[list[str]],
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setattr(start, "can_load", lambda library: library != "libEGL.so.1")
    start.provide_packages()
    said = capsys.readouterr().err
    assert "sudo apt-get install --yes --no-install-recommends libegl1\n" in said
    assert steps == []
    with pytest.raises(start.SetUpError, match=r"without libEGL\.so\.1"):
        start.require_libraries(start.QT_LIBRARIES)


def test_root_gets_missing_libraries_installed(
    start: ModuleType, steps: list[list[str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(start, "can_load", lambda library: library != "libGL.so.1")
    monkeypatch.setattr("os.geteuid", lambda: 0)
    start.provide_packages()
    assert [step[:2] for step in steps] == [["apt-get", "update"], ["apt-get", "install"]]
    assert "libgl1" in steps[1]


def test_root_without_network_is_told_the_command(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(start, "has_font", lambda: False)
    monkeypatch.setattr("os.geteuid", lambda: 0)
    monkeypatch.setattr(start, "set_up_step", lambda _command: 100)
    start.provide_packages()
    said = capsys.readouterr().err
    assert "    apt-get install --yes --no-install-recommends fonts-dejavu-core\n" in said


def test_a_linux_without_apt_is_told_the_libraries(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(start, "can_load", lambda library: library != "libGL.so.1")
    monkeypatch.setattr("shutil.which", lambda _tool: None)
    start.provide_packages()
    assert capsys.readouterr().err.rstrip().endswith(": libGL.so.1")


def test_tests_also_want_the_programs_they_compare_with(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("shutil.which", lambda tool: tool if tool == "apt-get" else None)
    start.provide_packages()
    assert capsys.readouterr().err == ""
    start.provide_packages(start.TEST_TOOLS)
    assert capsys.readouterr().err.rstrip().endswith(" ngspice poppler-utils")


def test_libraries_for_a_window_are_wanted_where_there_is_a_display(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def lacks_what_a_display_needs(library: str) -> bool:
        return not library.startswith(("libxcb-", "libwayland-"))

    monkeypatch.setattr(start, "can_load", lacks_what_a_display_needs)
    start.provide_packages()
    assert capsys.readouterr().err == ""
    monkeypatch.setenv("DISPLAY", ":0")
    start.provide_packages()
    said = capsys.readouterr().err
    assert "libxcb-cursor0" in said
    assert "libwayland-client0" not in said
    monkeypatch.setenv("WAYLAND_DISPLAY", "wayland-0")
    start.provide_packages()
    assert "libwayland-client0" in capsys.readouterr().err
    monkeypatch.setattr(start, "set_up", lambda: Path("python"))
    assert start.main([]) == 1
    assert "Qt cannot start without libwayland-client" in capsys.readouterr().err


def test_one_of_two_displays_is_enough_for_a_window(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(start, "can_load", lambda library: not library.startswith("libxcb-"))
    monkeypatch.setattr(start, "set_up", lambda: Path("python"))
    monkeypatch.setattr(start, "run_wirer", lambda *_arguments: 0)
    monkeypatch.setenv("DISPLAY", ":0")
    assert start.main([]) == 1
    monkeypatch.setenv("WAYLAND_DISPLAY", "wayland-0")
    assert start.main([]) == 0


def test_a_python_without_venv_is_told_its_package(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(start, "can_make_venv", lambda: False)
    assert start.main([]) == 1
    package = f"python3.{sys.version_info.minor}-venv"
    said = capsys.readouterr().err
    assert f"sudo apt-get install --yes --no-install-recommends {package}\n" in said
    assert "lacks venv or ensurepip" in said
    assert not start.VENV.exists()


@pytest.mark.parametrize(
    ("failing", "expected"),
    [("combinations", ["combinations"]), ("draw", ["combinations", "check", "draw"])],
)
def test_what_fails_without_a_display_gives_the_exit_status(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, failing: str, expected: list[str]
) -> None:
    called: list[str] = []

    def run(_python: Path, command: str, *_arguments: str) -> int:
        called.append(command)
        return 2 if command == failing else 0

    monkeypatch.setattr(start, "run_wirer", run)
    assert start.show_without_display(Path("python")) == 2
    assert called == expected


def test_with_a_display_the_first_example_is_opened(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[str] = []
    monkeypatch.setenv("DISPLAY", ":0")
    monkeypatch.setattr(start, "set_up", lambda: Path("python"))
    monkeypatch.setattr(start, "run_wirer", lambda _python, *files: opened.extend(files) or 0)
    assert start.main([]) == 0
    assert [Path(file).name for file in opened] == ["01 first.wirer"]


@pytest.mark.parametrize("own", [["-n", "8"], ["-n0"], ["--numprocesses=3"], ["--pdb"]])
def test_tests_are_spread_as_the_user_says(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, own: list[str]
) -> None:
    commands: list[list[str]] = []
    monkeypatch.setattr(start, "pass_on", lambda command, **_: commands.append(command) or 0)
    start.run_tests(Path("python"), own)
    assert commands == [["python", "-m", "pytest", *own]]


@needs_signals
def test_a_request_to_end_reaches_what_was_started(project: StandInProject) -> None:
    with project.started("waits") as running:
        assert running.stdout
        assert "waiting\n" in iter(running.stdout.readline, "")
        running.terminate()
        assert running.stdout.read() == "", "closed, so that nothing holds it any more"
    assert running.returncode == 128 + signal.SIGTERM


@needs_signals
def test_a_signal_is_passed_on_as_a_shell_does(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("signal.signal", lambda *_: None)
    kill_itself = "import os, signal; os.kill(os.getpid(), signal.SIGTERM)"
    assert start.pass_on([sys.executable, "-c", kill_itself]) == 128 + signal.SIGTERM


def test_an_old_python_gets_a_clear_line(
    start: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    ast.parse(START.read_text(encoding="utf-8"), feature_version=(3, 7))
    monkeypatch.setattr("sys.version_info", (3, 10, 12, "final", 0))
    assert start.main([]) == 1
    assert "wirer needs Python 3.11 or newer" in capsys.readouterr().err
