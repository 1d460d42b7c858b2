"""What holds for every rule: its texts, its family, and what its module may know."""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

import wirer.rules
from wirer.rules.finding import SEVERITIES
from wirer.rules.registry import Rule, all_rules, rule

PACKAGE = Path(wirer.rules.__file__).parent
RULES = list(all_rules().values())
every_rule = pytest.mark.parametrize("each", RULES, ids=lambda each: each.id)

# The rules that the program promises, with their usual severities.
PROMISED = {
    "error": """no-signal shorted-part battery-shorted self-wired ground-island hot-metal lost-coil
        tip-sleeve-swapped wanted-differs jack-missing battery-reversed""",
    "warning": """unwired-part unwired-lug stray-wire output-shorted shorted-coil ungrounded-metal
        switched-ground screen-open reversed-coil hanging-coil silent-setting idle-actuator
        overlap-short control-idle volume-backwards volume-incomplete tone-backwards jack-doubled
        battery-always-on crowded-lug bodies-collide long-bare-run""",
    "note": """doubled-wire ground-loop screen-carries out-of-phase hum-missed same-sound idle-pole
        gap pop wanted-unreachable volumes-entangled taper-unsuited value-unusual value-assumed
        colour-misleads duplicate-label""",
}


@pytest.mark.parametrize("severity", SEVERITIES)
def test_every_promised_rule_is_there(severity: str) -> None:
    usual = {each.id for each in RULES if each.severity == severity}
    assert set(PROMISED[severity].split()) <= usual


@every_rule
def test_its_texts_are_whole_sentences(each: Rule) -> None:
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", each.id)
    assert each.severity in SEVERITIES
    for text in (each.wrong, each.heard, each.meter, each.mend):
        assert re.fullmatch(r"[A-Z0-9].+\.", text), text
        assert "  " not in text


@every_rule
def test_what_is_wrong_is_said_in_one_breath(each: Rule) -> None:
    assert len(each.wrong) <= 120


def test_no_two_rules_say_the_same() -> None:
    assert len({each.wrong for each in RULES}) == len(RULES)


@every_rule
def test_its_family_is_the_file_that_it_stands_in(each: Rule) -> None:
    source = (PACKAGE / f"{each.family}.py").read_text(encoding="utf-8")
    assert f'"{each.id}"' in source


def test_the_registry_finds_the_families_by_itself() -> None:
    registering = {
        path.stem
        for path in PACKAGE.glob("*.py")
        if re.search(r"^@rule\($", path.read_text(encoding="utf-8"), re.MULTILINE)
    }
    assert {each.family for each in RULES} == registering


def test_no_family_knows_another() -> None:
    families = {each.family for each in RULES}
    known = {
        (family, node.module.rpartition(".")[2])
        for family in families
        for node in ast.walk(ast.parse((PACKAGE / f"{family}.py").read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom)
        and node.module
        and node.module.startswith("wirer.rules")
    }
    assert {pair for pair in known if pair[1] in families} == set()


def test_nobody_takes_what_another_module_keeps_private() -> None:
    taken = [
        f"{path.name}: {name.name}"
        for path in PACKAGE.glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom)
        for name in node.names
        if name.name.startswith("_")
    ]
    assert taken == []


def test_two_rules_of_one_name_are_refused() -> None:
    name = RULES[0].id
    register = rule(name, "note", wrong="W.", heard="H.", meter="M.", mend="M.")
    with pytest.raises(ValueError, match=f"two rules are named {name}"):
        register(RULES[0].speaks)
