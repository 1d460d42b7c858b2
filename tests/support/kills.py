"""Editors that are killed: `python -m tests.support.kills [KILLS]` kills so many (200 by default).

Each is a process that edits a circuit, notes every change in a journal and saves now and then;
it is killed at a random moment. What it leaves must be whole, and at most one change behind.
"""

from __future__ import annotations

import random
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from wirer.circuit.edits import add_wires, change_circuit, change_part, move_parts, remove_wires
from wirer.circuit.files import read_file, write_file
from wirer.circuit.journal import Journal
from wirer.circuit.leftovers import leftovers
from wirer.circuit.model import Circuit
from wirer.circuit.roles import new_wire
from wirer.circuit.stance import default_stance

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "resources" / "examples" / "01-baritone-three-coils-series.wirer"
SAVED_EVERY = 5


def circuits(seed: int) -> Iterator[tuple[int, Circuit]]:
    """Yield a circuit edited again and again, numbered in its notes; one seed, one sequence."""
    chance = random.Random(seed)
    circuit = change_circuit(read_file(EXAMPLE)[0], notes="0")
    number = 0
    while True:
        yield number, circuit
        number += 1
        circuit = change_circuit(_edited(circuit, chance), notes=str(number))


def _edited(circuit: Circuit, chance: random.Random) -> Circuit:
    part = chance.choice(circuit.parts)
    match chance.randrange(4):
        case 0:
            at = (round(chance.uniform(0, 300), 2), round(chance.uniform(0, 200), 2))
            return move_parts(circuit, {part.id: at})
        case 1:
            return change_part(circuit, part.id, label=f"Label {chance.randrange(10**6)}")
        case 2 if len(circuit.wires) > 10:
            return remove_wires(circuit, [chance.choice(circuit.wires).id])
        case _:
            wire = new_wire(circuit, *chance.sample(circuit.lugs, 2))
            return add_wires(circuit, [wire])


def edit_until_killed(folder: Path, target: Path, seed: int) -> None:
    """Edit, note and save without end; print what is done before it is noted or saved."""
    journal = Journal(folder)
    for number, circuit in circuits(seed):
        stance = default_stance(circuit)
        sys.stdout.write(f"made {number}\n")
        sys.stdout.flush()
        journal.record(circuit, stance, target, clean=False)
        if number % SAVED_EVERY == 0:
            sys.stdout.write(f"saving {number}\n")
            sys.stdout.flush()
            write_file(target, circuit, stance)
            journal.record(circuit, stance, target, clean=True)
            sys.stdout.write(f"saved {number}\n")
            sys.stdout.flush()


def killed_editor(folder: Path, target: Path, seed: int) -> dict[str, int]:
    """Kill an editor at a random moment; return the last number it made, was saving, had saved."""
    chance = random.Random(f"moment {seed}")
    command = [sys.executable, "-m", "tests.support.kills", "edit", str(folder), str(target)]
    pipe = subprocess.PIPE
    with subprocess.Popen([*command, str(seed)], stdout=pipe, text=True, cwd=ROOT) as editor:
        assert editor.stdout is not None
        lines = [editor.stdout.readline() for _ in range(chance.randrange(1, 30))]
        try:
            editor.wait(timeout=chance.uniform(0, 0.02))
        except subprocess.TimeoutExpired:
            editor.kill()
        lines += editor.stdout
    done = {"made": -1, "saving": -1, "saved": -1}
    done.update((word, int(number)) for word, number in (line.split() for line in lines))
    return done


def left_behind(folder: Path, target: Path, seed: int) -> int:
    """Kill an editor and look at what it left; return how many changes are lost."""
    done = killed_editor(folder, target, seed)
    expected = dict(zip(range(done["made"] + 1), (c for _, c in circuits(seed)), strict=False))
    saved = int(read_file(target)[0].notes) if target.exists() else -1
    assert saved in {done["saving"], done["saved"]}
    assert saved < 0 or read_file(target)[0] == expected[saved]
    found = leftovers(folder)
    if found:
        (left,) = found
        number = int(left.circuit.notes)
        assert (left.circuit, left.path) == (expected[number], target)
        assert left.stance == default_stance(left.circuit)
        left.file.unlink()
    else:
        number = saved  # what is saved needs no recovery
    return done["made"] - number


def survey(kills: int) -> Iterator[int]:
    """Kill so many editors; yield how many changes each has lost."""
    for seed in range(kills):
        with tempfile.TemporaryDirectory() as name:
            yield left_behind(Path(name) / "journals", Path(name) / "job.wirer", seed)


def main(kills: str = "200") -> None:
    """Print how many changes were lost, over all kills."""
    lost = list(survey(int(kills)))
    counts = {number: lost.count(number) for number in sorted(set(lost))}
    sys.stdout.write(f"{len(lost)} kills; changes lost: how often {counts}\n")
    assert max(lost) <= 1


if __name__ == "__main__":
    if sys.argv[1:2] == ["edit"]:
        edit_until_killed(Path(sys.argv[2]), Path(sys.argv[3]), int(sys.argv[4]))
    else:
        main(*sys.argv[1:])
