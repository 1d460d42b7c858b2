"""The built package: a wheel, installed elsewhere, brings its resources and finds them."""

import os
import subprocess
import sys
from pathlib import Path
from zipfile import ZipFile

import pytest

PROJECT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel built from this checkout, with the build backend that is installed."""
    folder = tmp_path_factory.mktemp("wheel")
    pip("wheel", "--no-build-isolation", "--wheel-dir", str(folder), str(PROJECT))
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that holds nothing but the installed wheel."""
    folder = tmp_path_factory.mktemp("elsewhere")
    pip("install", "--target", str(folder), str(wheel))
    return folder


def pip(command: str, *arguments: str) -> None:
    """Run pip without asking any registry."""
    quiet = ["--quiet", "--disable-pip-version-check", "--no-deps", "--no-index"]
    subprocess.run([sys.executable, "-m", "pip", command, *quiet, *arguments], check=True)


def run_in(installed: Path, *arguments: str) -> str:
    """Run a Python that finds the installed wheel first, away from the checkout."""
    ran = subprocess.run(
        [sys.executable, *arguments],
        cwd=installed.parent,
        env={**os.environ, "PYTHONPATH": str(installed)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert ran.returncode == 0, ran.stderr
    return ran.stdout


def names_in(folder: str) -> set[str]:
    return {path.name for path in (PROJECT / "resources" / folder).iterdir() if path.is_file()}


@pytest.mark.parametrize("folder", ["parts", "examples", "schema", "icons"])
def test_the_wheel_holds_the_resources(wheel: Path, folder: str) -> None:
    prefix = f"wirer/resources/{folder}/"
    with ZipFile(wheel) as archive:
        packed = {name.removeprefix(prefix) for name in archive.namelist() if prefix in name}
    assert packed == names_in(folder)
    assert packed


def test_the_wheel_holds_nothing_but_the_package(wheel: Path) -> None:
    with ZipFile(wheel) as archive:
        tops = {name.partition("/")[0] for name in archive.namelist()}
    assert {top for top in tops if not top.endswith(".dist-info")} == {"wirer"}


def test_an_installed_package_reads_its_own_catalogue(installed: Path) -> None:
    script = (
        "import wirer\n"
        "from wirer.circuit.catalogue import catalogue\n"
        "from wirer.circuit.resources import resource_root\n"
        "print(wirer.__file__, resource_root(), *(kind.id for kind in catalogue()), sep='\\n')\n"
    )
    code, resources, *kinds = run_in(installed, "-c", script).splitlines()
    assert Path(code).is_relative_to(installed)
    assert Path(resources).is_relative_to(installed)
    assert {f"{kind}.toml" for kind in kinds} == names_in("parts")


def test_an_installed_package_answers_its_command(installed: Path) -> None:
    assert "pot-blend" in run_in(installed, "-m", "wirer", "kinds")


def test_the_version_is_told(installed: Path) -> None:
    version = run_in(installed, "-c", "import wirer; print(wirer.__version__)").strip()
    assert version in run_in(installed, "-m", "wirer", "--version")
