"""The house rules that no linter of ours knows, over the whole package."""

import ast
import statistics
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import wirer

PACKAGE = Path(wirer.__file__).parent
HEAVY = {"PySide6", "networkx", "numpy", "rich", "schemdraw", "scipy"}
Function = ast.FunctionDef | ast.AsyncFunctionDef


@pytest.fixture(scope="module")
def modules() -> dict[str, ast.Module]:
    """Every module of the package, parsed, by its path from the package's parent."""
    return {
        path.relative_to(PACKAGE.parent).as_posix(): ast.parse(path.read_text(encoding="utf-8"))
        for path in sorted(PACKAGE.rglob("*.py"))
    }


def lines_of(node: Function) -> int:
    return (node.end_lineno or node.lineno) - node.lineno + 1


def functions(module: ast.Module) -> Iterator[Function]:
    return (node for node in ast.walk(module) if isinstance(node, Function))


def public_definitions(body: list[ast.stmt]) -> Iterator[Function | ast.ClassDef]:
    """Public classes and functions, and the public methods of public classes but for setters."""
    for node in body:
        if isinstance(node, Function | ast.ClassDef) and not node.name.startswith("_"):
            if not any(ast.unparse(each).endswith(".setter") for each in node.decorator_list):
                yield node
            if isinstance(node, ast.ClassDef):
                yield from public_definitions(node.body)


def imports(nodes: Iterator[ast.AST]) -> Iterator[str]:
    for node in nodes:
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def run_on_import(module: ast.Module) -> Iterator[ast.AST]:
    """What is carried out when the module is imported: not functions, nor types for the checker."""
    waiting: list[ast.AST] = list(module.body)
    while waiting:
        node = waiting.pop()
        if isinstance(node, Function | ast.Lambda):
            continue
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test):
            waiting.extend(node.orelse)
            continue
        yield node
        waiting.extend(ast.iter_child_nodes(node))


def test_files_are_small(modules: dict[str, ast.Module]) -> None:
    lengths = {
        name: len((PACKAGE.parent / name).read_text(encoding="utf-8").splitlines())
        for name in modules
    }
    assert not {name: length for name, length in lengths.items() if length > 400}
    assert statistics.median(lengths.values()) <= 100


def test_functions_are_short(modules: dict[str, ast.Module]) -> None:
    lengths = {
        f"{name}:{node.lineno} {node.name}": lines_of(node)
        for name, module in modules.items()
        for node in functions(module)
    }
    assert not {place: length for place, length in lengths.items() if length > 50}
    assert statistics.quantiles(lengths.values(), n=10)[-1] <= 25


def test_everything_public_says_what_it_is(modules: dict[str, ast.Module]) -> None:
    silent_modules = [name for name, module in modules.items() if not ast.get_docstring(module)]
    silent_definitions = [
        f"{name}:{node.lineno} {node.name}"
        for name, module in modules.items()
        for node in public_definitions(module.body)
        if not ast.get_docstring(node)
    ]
    assert silent_modules + silent_definitions == []


def test_the_command_line_waits_with_heavy_imports(modules: dict[str, ast.Module]) -> None:
    light = ("wirer/__init__.py", "wirer/__main__.py", "wirer/command/")
    heavy = [
        f"{name}: {imported}"
        for name, module in modules.items()
        if name.startswith(light)
        for imported in imports(run_on_import(module))
        if imported.partition(".")[0] in HEAVY
    ]
    assert heavy == []


def test_only_the_window_knows_widgets(modules: dict[str, ast.Module]) -> None:
    knowing = [
        name
        for name, module in modules.items()
        if not name.startswith("wirer/window/")
        and any(each.startswith("PySide6.QtWidgets") for each in imports(ast.walk(module)))
    ]
    assert knowing == []


def test_the_rules_do_not_know_each_other(modules: dict[str, ast.Module]) -> None:
    known = {
        name.removesuffix(".py").replace("/", "."): set(imports(ast.walk(module)))
        for name, module in modules.items()
        if name.startswith("wirer/rules/")
    }
    families = {name for name, names in known.items() if "wirer.rules.registry.rule" in names}
    assert families
    assert not [
        f"{family} knows {imported}"
        for family in families
        for imported in known[family]
        if imported.rpartition(".")[0] in families
    ]


def loaded_after(statement: str) -> set[str]:
    """The modules that a fresh Python has loaded after a statement."""
    script = f"import sys\n{statement}\nprint(*sys.modules, file=sys.stderr)"
    ran = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, timeout=60
    )
    return set(ran.stderr.split())


def test_the_command_line_loads_nothing_heavy() -> None:
    loaded = loaded_after("import wirer.command.main, wirer.__main__")
    assert "wirer.command.main" in loaded
    assert not loaded & {"PySide6", "numpy", "networkx", "schemdraw", "rich", "scipy"}


def test_check_loads_no_widgets() -> None:
    example = min((PACKAGE.parent / "resources" / "examples").glob("*.wirer"))
    loaded = loaded_after(
        "from wirer.command.main import cli\n"
        "try:\n"
        f"    cli(['check', {str(example)!r}])\n"
        "except SystemExit:\n"
        "    pass\n"
    )
    assert "wirer.rules" in loaded
    assert not {name for name in loaded if name.startswith("PySide6")}
