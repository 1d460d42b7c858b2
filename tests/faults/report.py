"""The table of the fault study: by slip and by rule."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from tests.faults.study import Heard, Verdict

CHANGES = ("sounds", "permutes", "other", "harmless")


def share(part: int, whole: int) -> str:
    """Return a share in per cent, or a dash of nothing."""
    return f"{100 * part / whole:.1f} %" if whole else "–"


def caught_wanted(verdicts: Iterable[Verdict]) -> tuple[int, int]:
    """Return (caught, all) of the slips that change any setting's sound, the table wanted."""
    heard = [v.wanted.caught for v in verdicts if v.changes in ("sounds", "permutes")]
    return sum(heard), len(heard)


def caught_unwanted(verdicts: Iterable[Verdict]) -> tuple[int, int]:
    """Return (caught, all) of the slips that change the set of sounds, nothing wanted."""
    heard = [v.unwanted.caught for v in verdicts if v.changes == "sounds"]
    return sum(heard), len(heard)


def pointed_at(verdicts: Iterable[Verdict]) -> tuple[int, int]:
    """Return (pointed at, caught) of the slips that are caught with the table wanted."""
    heard: list[Heard] = [v.wanted for v in verdicts if v.changes != "harmless" and v.wanted.caught]
    return sum(h.at_part for h in heard), len(heard)


def lines(verdicts: Sequence[Verdict]) -> Iterator[str]:
    """Yield the lines of the report."""
    yield f"{len(verdicts)} slips"
    yield (
        f"{'':12}{'all':>7}" + "".join(f"{c:>10}" for c in CHANGES) + "  wanted  unwanted  pointed"
    )
    for sort in dict.fromkeys(v.sort for v in verdicts):
        own = [v for v in verdicts if v.sort == sort]
        counts = Counter(v.changes for v in own)
        yield f"{sort:12}{len(own):7}" + "".join(f"{counts[c]:10}" for c in CHANGES) + _shares(own)
    counts = Counter(v.changes for v in verdicts)
    every = "".join(f"{counts[c]:10}" for c in CHANGES)
    yield f"{'all':12}{len(verdicts):7}{every}{_shares(verdicts)}"
    yield ""
    yield f"{'rule':22}{'wanted':>8}{'unwanted':>10}   slips in which it speaks as error or warning"
    with_wanted = Counter(rule for v in verdicts for rule in v.wanted.rules)
    without = Counter(rule for v in verdicts for rule in v.unwanted.rules)
    for rule in sorted({*with_wanted, *without}):
        yield f"{rule:22}{with_wanted[rule]:8}{without[rule]:10}"


def _shares(verdicts: Sequence[Verdict]) -> str:
    return (
        f"{share(*caught_wanted(verdicts)):>9}"
        f"{share(*caught_unwanted(verdicts)):>9}"
        f"{share(*pointed_at(verdicts)):>9}"
    )
