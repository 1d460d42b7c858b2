"""Set up wirer and start it, or its tests, with nothing but Python.

    python3 resources/start.py             open the window on the first example
    python3 resources/start.py test ...    run the tests; more arguments go to pytest
    python3 resources/start.py ...         other arguments go to wirer: a file, a command, --help

Without a display, the first form prints the example's combination table and findings instead and
writes its drawing to ``out/``.

The first time, this makes ``.venv`` beside pyproject.toml and installs the project into it; later
it only looks whether that still holds. A ``.venv`` that does not work or was not finished is made
anew. System packages that Qt (or the tests) need are installed on a Debian-like Linux when run as
root; otherwise the command that installs them is printed. What this program itself has to say goes
to standard error; the exit status is that of what it started.

Written for Linux, macOS and Windows; tried on Debian 12 only, with its own Python and another.
"""

from __future__ import annotations

import ctypes
import hashlib
import importlib.util
import os
import shlex
import shutil
import signal
import subprocess
import sys
from collections import ChainMap
from pathlib import Path

OLDEST_PYTHON = (3, 11)
ROOT = Path(__file__).resolve().parent.parent
VENV = ROOT / ".venv"
STAMP = VENV / "wirer-set-up.txt"
UNFINISHED = "unfinished"
INTERRUPTED_STATUS = 130
ON_LINUX = sys.platform.startswith("linux")

# Debian's package for each library that Qt's binary package expects of the system.
QT_LIBRARIES = {
    "libEGL.so.1": "libegl1",
    "libGL.so.1": "libgl1",
    "libX11.so.6": "libx11-6",
    "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1",
    "libfreetype.so.6": "libfreetype6",
    "libgthread-2.0.so.0": "libglib2.0-0",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libzstd.so.1": "libzstd1",
}
X11_LIBRARIES = {
    "libX11-xcb.so.1": "libx11-xcb1",
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-image.so.0": "libxcb-image0",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-randr.so.0": "libxcb-randr0",
    "libxcb-render-util.so.0": "libxcb-render-util0",
    "libxcb-render.so.0": "libxcb-render0",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxcb-shm.so.0": "libxcb-shm0",
    "libxcb-sync.so.1": "libxcb-sync1",
    "libxcb-util.so.1": "libxcb-util1",
    "libxcb-xfixes.so.0": "libxcb-xfixes0",
    "libxcb-xkb.so.1": "libxcb-xkb1",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}
WAYLAND_LIBRARIES = {
    "libwayland-client.so.0": "libwayland-client0",
    "libwayland-cursor.so.0": "libwayland-cursor0",
    "libwayland-egl.so.1": "libwayland-egl1",
}
VENV_PACKAGE = f"python3.{sys.version_info[1]}-venv"
FONT_PACKAGE = "fonts-dejavu-core"
FONT_FOLDERS = ("/usr/share/fonts", "/usr/local/share/fonts", "~/.local/share/fonts", "~/.fonts")
FONT_SUFFIXES = (".ttf", ".otf", ".ttc", ".pfb", ".t1")
TEST_TOOLS = {"ngspice": "ngspice", "pdftotext": "poppler-utils"}


class SetUpError(Exception):
    """The set-up cannot go on; the text says why and what would help."""


def main(arguments: list[str]) -> int:
    """Do what the arguments ask and return the exit status."""
    if sys.version_info[:2] < OLDEST_PYTHON:
        oldest = ".".join(map(str, OLDEST_PYTHON))
        found = sys.version.split()[0]
        say(f"wirer needs Python {oldest} or newer; {sys.executable} is {found}")
        return 1
    try:
        return start(arguments)
    except SetUpError as error:
        say(str(error))
    except OSError as error:
        say(f"{error.filename or ROOT}: {error.strerror or error}")
    except KeyboardInterrupt:
        say("interrupted; start it again to go on")
        return INTERRUPTED_STATUS
    return 1


def start(arguments: list[str]) -> int:
    """Set up, then run the tests, wirer with the arguments, or the first example."""
    if arguments[:1] == ["test"]:
        provide_packages(TEST_TOOLS)
        python = set_up("test")
        require_libraries(QT_LIBRARIES)
        return run_tests(python, arguments[1:])
    provide_packages()
    python = set_up()
    if arguments:
        return run_wirer(python, *arguments)
    if not has_display():
        return show_without_display(python)
    require_libraries(QT_LIBRARIES)
    require_libraries(min(display_libraries(), key=lambda each: len(missing_libraries(each))))
    say(f"opening {first_example().relative_to(ROOT)}")
    return run_wirer(python, str(first_example()))


# What is started


def run_tests(python: Path, arguments: list[str]) -> int:
    """Run pytest offscreen from the project's folder, spread over up to four cores."""
    own_spread = ("-n", "--numprocesses", "--pdb", "--trace")
    is_spread = any(each.startswith(own_spread) for each in arguments)
    spread = [] if is_spread else ["-n", str(min(os.cpu_count() or 1, 4))]
    environment = {**os.environ, "QT_QPA_PLATFORM": "offscreen"}
    say("running the tests")
    return pass_on([str(python), "-m", "pytest", *spread, *arguments], cwd=ROOT, env=environment)


def run_wirer(python: Path, *arguments: str) -> int:
    """Run wirer in the caller's folder and return its exit status."""
    return pass_on([str(python), "-P", "-m", "wirer", *arguments])


def show_without_display(python: Path) -> int:
    """Print the first example's table and findings, and write its drawing."""
    example = first_example()
    drawing = ROOT / "out" / f"{example.stem}.svg"
    say(f"no display, so here is {example.relative_to(ROOT)} in print")
    status = run_wirer(python, "combinations", str(example))
    if status:
        return status
    status = run_wirer(python, "check", str(example))
    if status not in {0, 1}:  # 1: it found errors in the circuit, and has said so
        return status
    require_libraries(QT_LIBRARIES)
    drawing.parent.mkdir(exist_ok=True)
    status = run_wirer(python, "draw", str(example), "-o", str(drawing))
    if status == 0:
        say(f"drawing written: {drawing}")
    return status


def first_example() -> Path:
    """Return the first example by name."""
    folder = ROOT / "resources" / "examples"
    examples = sorted(folder.glob("*.wirer"))
    if not examples:
        raise SetUpError(f"{folder} holds no *.wirer file; is this a whole copy of the project?")
    return examples[0]


def has_display() -> bool:
    """Tell whether a window can be opened; only Linux is expected to be without a display."""
    return not ON_LINUX or any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY"))


# The project's own Python environment


def set_up(extra: str = "") -> Path:
    """Bring ``.venv`` to what pyproject.toml asks, with the extra; return its Python.

    An environment that somebody made by hand is used if it works, one with the test extra also
    without it. One that was not finished, or was moved with its folder, is made anew.
    """
    python = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    stamp = read_stamp()
    version = probe(python) if not stamp or stamp.startswith(digest(os.fsencode(ROOT))) else None
    if version and stamp in {fingerprint(version, extra), fingerprint(version, "test")}:
        return python
    if not version:
        version = make_venv(python)
    STAMP.write_text(UNFINISHED, encoding="utf-8")
    install(python, extra)
    STAMP.write_text(fingerprint(version, extra), encoding="utf-8")
    return python


def read_stamp() -> str:
    """Return what the last set-up left written in ``.venv``, or an empty text."""
    try:
        return STAMP.read_text(encoding="utf-8")
    except (FileNotFoundError, NotADirectoryError):
        return ""


def fingerprint(version: str, extra: str) -> str:
    """Return a text that changes when ``.venv`` has to be brought up to date.

    It begins with the project's folder: an environment does not work from another.
    """
    state = [(ROOT / "pyproject.toml").read_bytes(), version.encode(), extra.encode()]
    return f"{digest(os.fsencode(ROOT))} {digest(*state)}"


def digest(*parts: bytes) -> str:
    """Return a short text that stands for the parts."""
    return hashlib.sha256(b"\0".join(parts)).hexdigest()[:32]


def probe(python: Path) -> str | None:
    """Return the version of an environment's Python; None if it is too old or does not work."""
    question = (
        "import importlib.util, sys;"
        f"works = importlib.util.find_spec('pip') and sys.version_info >= {OLDEST_PYTHON};"
        "print(sys.version.split()[0] if works else '')"
    )
    command = [str(python), "-I", "-c", question]
    try:
        answer = subprocess.run(
            command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, check=False
        )
    except OSError:
        return None
    return answer.stdout.strip() or None


def make_venv(python: Path) -> str:
    """Make ``.venv`` from nothing and return its Python's version."""
    if not can_make_venv():
        raise SetUpError(
            f"{sys.executable} lacks venv or ensurepip;"
            f" on Debian: apt-get install {VENV_PACKAGE}; elsewhere use a complete Python"
        )
    if VENV.is_symlink() or VENV.is_file():
        VENV.unlink()
    elif VENV.exists():
        say(f"{VENV} was broken, moved or not finished; making it anew")
        shutil.rmtree(VENV)
    else:
        say(f"making {VENV}")
    VENV.mkdir()
    STAMP.write_text(UNFINISHED, encoding="utf-8")
    # Started from another environment, its base is meant: that environment may be removed.
    base = getattr(sys, "_base_executable", None) or sys.executable
    status = set_up_step([base, "-I", "-m", "venv", str(VENV)])
    version = probe(python)
    if status or not version:
        raise SetUpError(f"{base} could not make {VENV}; what it said stands above")
    return version


def can_make_venv() -> bool:
    """Tell whether this Python can make an environment with pip in it (Debian splits that off)."""
    return all(map(importlib.util.find_spec, ("venv", "ensurepip")))


def install(python: Path, extra: str) -> None:
    """Install the project, editable, with what it needs."""
    say("installing wirer and what it needs; the first time this may take some minutes")
    what = f".[{extra}]" if extra else "."
    if set_up_step([str(python), "-I", "-m", "pip", "install", "--quiet", "--editable", what]):
        raise SetUpError("installing failed; what pip said stands above")


# System packages


def provide_packages(tools: dict[str, str] | None = None) -> None:
    """See that the system has what Qt, this set-up and the tools need, or say how to get it."""
    if not ON_LINUX:
        return
    libraries = missing_libraries(dict(ChainMap(QT_LIBRARIES, *display_libraries())))
    if not shutil.which("apt-get"):
        if libraries:
            say(f"please install the system's packages with: {' '.join(libraries)}")
        return
    packages = sorted({*libraries.values()})
    if not has_font():
        packages.append(FONT_PACKAGE)
    if not can_make_venv() and read_stamp() in {"", UNFINISHED}:
        packages.append(VENV_PACKAGE)
    packages += [package for tool, package in (tools or {}).items() if not shutil.which(tool)]
    if packages:
        install_packages(packages)


def install_packages(packages: list[str]) -> None:
    """Install Debian packages when root; otherwise, or if that fails, print the command."""
    command = ["apt-get", "install", "--yes", "--no-install-recommends", *packages]
    is_root = os.geteuid() == 0
    if is_root:
        say(f"installing system packages: {' '.join(packages)}")
        set_up_step(["apt-get", "update", "-qq"])  # one source may fail and the needed one work
        if set_up_step([*command, "-qq", "-o", "DPkg::Lock::Timeout=300"]) == 0:
            importlib.invalidate_caches()
            return
    say("some system packages are missing; this installs them:")
    say(f"    {shlex.join(command if is_root else ['sudo', *command])}")


def display_libraries() -> list[dict[str, str]]:
    """Return the libraries for each display at hand, of which Qt needs one (perhaps no library)."""
    displays = {"DISPLAY": X11_LIBRARIES, "WAYLAND_DISPLAY": WAYLAND_LIBRARIES}
    at_hand = [libraries for name, libraries in displays.items() if os.environ.get(name)]
    return at_hand if ON_LINUX and at_hand else [{}]


def missing_libraries(needed: dict[str, str]) -> dict[str, str]:
    """Return those of the needed libraries that the system's loader does not find."""
    return {library: package for library, package in needed.items() if not can_load(library)}


def require_libraries(needed: dict[str, str]) -> None:
    """Stop with a clear line where Qt would end with an obscure one."""
    missing = missing_libraries(needed) if ON_LINUX else {}
    if missing:
        raise SetUpError(
            f"Qt cannot start without {', '.join(missing)}; install what is said above"
        )


def can_load(library: str) -> bool:
    """Tell whether the system's loader finds a library."""
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True


def has_font() -> bool:
    """Tell whether there is a font file where fonts are kept: Qt's package brings none."""
    return any(
        name.lower().endswith(FONT_SUFFIXES)
        for folder in FONT_FOLDERS
        for _, _, names in os.walk(Path(folder).expanduser())
        for name in names
    )


# Talking and running


def set_up_step(command: list[str]) -> int:
    """Run one step of the set-up; only if it fails is what it printed of interest."""
    settings = {
        "DEBIAN_FRONTEND": "noninteractive",
        "PIP_DISABLE_PIP_VERSION_CHECK": "1",
        "PIP_NO_INPUT": "1",
        "PIP_USER": "0",
    }
    step = subprocess.run(
        command,
        cwd=ROOT,
        env={**os.environ, **settings},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        check=False,
    )
    if step.returncode:
        print(step.stdout.decode(errors="replace").rstrip(), file=sys.stderr)
        say(f"failed with status {step.returncode}: {shlex.join(command)}")
    return step.returncode


def pass_on(command: list[str], cwd: Path | None = None, env: dict[str, str] | None = None) -> int:
    """Run what was asked for and return its exit status, in a shell's way if a signal ended it.

    An interrupt from the keyboard reaches the started program too and is its to answer; a request
    to end is handed on.
    """
    with subprocess.Popen(command, cwd=cwd, env=env) as child:
        signal.signal(signal.SIGTERM, lambda *_: child.terminate())
        while child.returncode is None:
            try:
                child.wait()
            except KeyboardInterrupt:
                continue
    return 128 - child.returncode if child.returncode < 0 else child.returncode


def say(line: str) -> None:
    """Say one line to the person who started this, apart from the output of what is started."""
    print(f"start: {line}", file=sys.stderr, flush=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
