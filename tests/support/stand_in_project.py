"""A tiny project with start.py in it, to try the set-up for real without asking any registry.

Its own build backend needs nothing installed; its ``wirer`` and ``pytest`` only say how they were
called.
"""

import os
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

START = Path(__file__).parents[2] / "resources" / "start.py"

PYPROJECT = """\
[build-system]
requires = []
build-backend = "backend"
backend-path = ["."]
"""

BACKEND = """\
import zipfile, pathlib

def build_editable(wheel_directory, config_settings=None, metadata_directory=None):
    name = "wirer-1.0-py3-none-any.whl"
    info = "wirer-1.0.dist-info/"
    metadata = "Metadata-Version: 2.1\\nName: wirer\\nVersion: 1.0\\nProvides-Extra: test\\n"
    wheel = "Wheel-Version: 1.0\\nGenerator: test\\nRoot-Is-Purelib: true\\nTag: py3-none-any\\n"
    with zipfile.ZipFile(pathlib.Path(wheel_directory, name), "w") as archive:
        archive.writestr("wirer.pth", str(pathlib.Path.cwd()))
        archive.writestr(info + "METADATA", metadata)
        archive.writestr(info + "WHEEL", wheel)
        archive.writestr(info + "RECORD", "")
    return name
"""

ECHO = """\
import os, sys
print("NAME", *sys.argv[1:], sep="|")
print("folder", os.getcwd(), sep="|")
print("platform", os.environ.get("QT_QPA_PLATFORM", ""), sep="|")
if "waits" in sys.argv:
    print("waiting", flush=True)
    sys.stdin.read()
sys.exit(3 if "fails" in sys.argv else 1 if "check" in sys.argv else 0)
"""


@dataclass(frozen=True)
class StandInProject:
    """The project's folder, and the way to run its start.py as a person would."""

    root: Path

    def start(self, *arguments: str, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
        """Run start.py without a display to its end and return what came of it."""
        with self.started(*arguments, cwd=cwd) as running:
            said, told = running.communicate()
        return subprocess.CompletedProcess(arguments, running.returncode, said, told)

    def started(self, *arguments: str, cwd: Path | None = None) -> subprocess.Popen[str]:
        """Start start.py without a display and return it running."""
        hidden = {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"}
        return subprocess.Popen(
            [sys.executable, str(self.root / "resources" / "start.py"), *arguments],
            cwd=cwd or self.root,
            env={name: value for name, value in os.environ.items() if name not in hidden},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )


def make_stand_in(root: Path) -> StandInProject:
    """Write the project into a folder."""
    files = {
        "pyproject.toml": PYPROJECT,
        "backend.py": BACKEND,
        "pytest.py": ECHO.replace("NAME", "pytest"),
        "wirer/__init__.py": "",
        "wirer/__main__.py": ECHO.replace("NAME", "wirer"),
        "resources/examples/02 later.wirer": "{}",
        "resources/examples/01 first.wirer": "{}",
    }
    for name, text in files.items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    shutil.copy(START, root / "resources")
    return StandInProject(root)
