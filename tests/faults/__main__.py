"""The complete fault study, on every core: `python -m tests.faults [EXAMPLE ...]`.

`--missed` lists the slips that should be caught and are not, `--sample N` takes N slips only.
"""

from __future__ import annotations

import argparse
import os
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from itertools import groupby

from tests.examples.sheets import CORRECT
from tests.faults.report import lines
from tests.faults.study import Verdict, false_alarms, judged, slips_of, spread

CHUNK = 40


def judged_places(example: str, places: list[int]) -> list[Verdict]:
    """Judge some slips of an example by their places in its list."""
    slips = slips_of([example])
    return [judged(example, slips[place][1]) for place in places]


def verdicts_of(examples: list[str], sample: int | None) -> list[Verdict]:
    """Judge the slips of some examples on every core."""
    slips = [(example, i) for example in examples for i, _ in enumerate(slips_of([example]))]
    chosen = spread(slips, sample) if sample else slips
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        jobs = []
        for example, group in groupby(chosen, key=lambda pair: pair[0]):
            places = [place for _, place in group]
            chunks = (places[i : i + CHUNK] for i in range(0, len(places), CHUNK))
            jobs += [pool.submit(judged_places, example, chunk) for chunk in chunks]
        return [verdict for job in jobs for verdict in job.result()]


def main() -> None:
    """Run the study and print its table."""
    parser = argparse.ArgumentParser(prog="python -m tests.faults", description=__doc__)
    parser.add_argument("examples", nargs="*", help="parts of example names; all if none")
    parser.add_argument("--missed", action="store_true")
    parser.add_argument("--sample", type=int)
    asked = parser.parse_args()
    examples = [e for e in CORRECT if not asked.examples or any(x in e for x in asked.examples)]
    start = time.perf_counter()
    verdicts = verdicts_of(examples, asked.sample)
    say = sys.stdout.write
    say("\n".join(lines(verdicts)) + "\n")
    alarms = {example: false_alarms(example) for example in examples}
    say(f"\nfalse alarms: {sum(map(len, alarms.values()))}\n")
    for example, found in alarms.items():
        say("".join(f"  {example}: {line}\n" for line in found))
    say(f"{time.perf_counter() - start:.0f} s\n")
    for verdict in verdicts if asked.missed else ():
        _say_missed(verdict)


def _say_missed(verdict: Verdict) -> None:
    say = sys.stdout.write
    where = f"{verdict.example[:2]} {verdict.sort}: {verdict.text} ({verdict.changes})\n"
    if verdict.changes in ("sounds", "permutes") and not verdict.wanted.caught:
        say(f"MISSED though wanted: {where}")
    if verdict.changes == "sounds" and not verdict.unwanted.caught:
        say(f"missed, nothing wanted: {where}")
    if verdict.changes != "harmless" and verdict.wanted.caught and not verdict.wanted.at_part:
        say(f"not pointed at: {where}    {', '.join(verdict.wanted.rules)}\n")


if __name__ == "__main__":
    main()
