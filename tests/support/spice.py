"""ngspice as an oracle: many decks in one process, every answer checked to be there."""

import re
import subprocess
from collections.abc import Sequence
from itertools import count
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

HERTZ = np.geomspace(20.0, 20_000.0, 52)
"""Where `sweeps` looks: 17 points a decade over three decades."""

METER_OHM = 1e12
"""What stands in the meter's place of the amplifier, since SPICE can't read an open circuit."""

Sweep = NDArray[np.complex128]


def sweeps(ngspice: str, decks: Sequence[str], folder: Path) -> list[Sweep]:
    """V(hot) per volt of EMF of each coil: for each deck (coils, frequencies), coils in order."""
    numbers, wanted, lines = count(), [], []
    for index, deck in enumerate(decks):
        silent, sources = _without_drive(deck)
        (folder / f"deck{index}.cir").write_text(silent, encoding="utf-8")
        lines.append(f"source {folder}/deck{index}.cir")
        files = [folder / f"sweep{next(numbers)}" for _ in sources]
        wanted.append(files)
        for source, file in zip(sources, files, strict=True):
            lines += [f"alter @{source}[acmag] = 1", "ac dec 17 20 20k"]
            lines += [f"wrdata {file} v(hot)", f"alter @{source}[acmag] = 0"]
        lines += ["destroy all", "remcirc"]
    _run(ngspice, lines, folder)
    return [np.array([_read(file) for file in files]).reshape(-1, len(HERTZ)) for files in wanted]


def readings(ngspice: str, decks: Sequence[str], folder: Path) -> list[float | None]:
    """What a meter reads between hot and ground of each deck, its load taken out."""
    lines = ["set numdgt=12"]
    for index, deck in enumerate(decks):
        (folder / f"meter{index}.cir").write_text(_with_meter(deck), encoding="utf-8")
        lines += [f"source {folder}/meter{index}.cir", "op", "print v(hot)", "destroy all"]
        lines.append("remcirc")
    output = _run(ngspice, lines, folder)
    ohms = [float(text) for text in re.findall(r"^v\(hot\) = (\S+)$", output, re.MULTILINE)]
    assert len(ohms) == len(decks), output
    return [None if ohm > METER_OHM / 10 else ohm / (1 - ohm / METER_OHM) for ohm in ohms]


def _run(ngspice: str, lines: Sequence[str], folder: Path) -> str:
    driver = folder / "driver.cir"
    text = "\n".join(["* driver", ".control", *lines, "quit 0", ".endc", ".end", ""])
    driver.write_text(text, encoding="utf-8")
    ran = subprocess.run(
        [ngspice, "-b", str(driver)], capture_output=True, text=True, check=False, timeout=300
    )
    # ngspice ends with 0 even where it could not solve; what it then says goes to stderr.
    said = (line.strip() for line in ran.stderr.splitlines())
    # Where a run takes long it also tells there how far it is.
    complaints = [line for line in said if line and not line.startswith("Reference value")]
    assert not complaints, complaints[:5]
    assert ran.returncode == 0
    return ran.stdout


def _without_drive(deck: str) -> tuple[str, list[str]]:
    """The deck with every source at 0 V, and the names of its coils' sources."""
    sources = re.findall(r"^(V_\w+) \S+ \S+ DC 0 AC .*$", deck, re.MULTILINE)
    silent = re.sub(r"^(V_\w+ \S+ \S+ DC 0 AC) .*$", r"\1 0", deck, flags=re.MULTILINE)
    return _without_analyses(silent), [name.lower() for name in sources]


def _with_meter(deck: str) -> str:
    meter = f"R_input hot 0 {METER_OHM:g}\nI_meter 0 hot DC 1\n"
    return _without_analyses(re.sub(r"^R_input .*\n", meter, deck, flags=re.MULTILINE))


def _without_analyses(deck: str) -> str:
    return re.sub(r"^\.(ac|print) .*\n", "", deck, flags=re.MULTILINE)


def _read(file: Path) -> Sweep:
    columns = np.loadtxt(file)
    assert columns.shape == (len(HERTZ), 3)
    np.testing.assert_allclose(columns[:, 0], HERTZ, rtol=1e-6)
    return np.asarray(columns[:, 1] + 1j * columns[:, 2])
