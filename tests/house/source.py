"""The program's own source, read as text and syntax and never imported."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "tracker"


@dataclass(frozen=True, slots=True)
class Import:
    """One import, wherever in the file it stands.

    Parameters
    ----------
    file: the importing file, from the checkout's root.
    line: from 1.
    name: the dotted name imported, in full.
    """

    file: str
    line: int
    name: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line} imports {self.name}"


@cache
def source_files() -> tuple[Path, ...]:
    """Every Python file of the package."""
    return tuple(sorted(PACKAGE.rglob("*.py")))


def room_of_file(file: Path) -> str:
    """The room a file lies in: the first name under the package."""
    return file.relative_to(PACKAGE).parts[0].removesuffix(".py")


def room_of_import(name: str) -> str | None:
    """The room a dotted name lies in; None when it is not of this package."""
    parts = name.split(".")
    if parts[0] != PACKAGE.name:
        return None
    return parts[1] if len(parts) > 1 else "__init__"


@cache
def tree_of(file: Path) -> ast.Module:
    """The syntax of a file."""
    return ast.parse(file.read_text(encoding="utf-8"), str(file))


def imports_of(file: Path) -> list[Import]:
    """Every import of a file, those inside functions and by ``import_module`` included."""
    place = str(file.relative_to(ROOT))
    package = [PACKAGE.name, *file.relative_to(PACKAGE).parts[:-1]]
    return [Import(place, line, name) for line, name in imports_in(tree_of(file), package)]


def imports_in(tree: ast.Module, package: list[str]) -> Iterator[tuple[int, str]]:
    """Line and full dotted name of each import in a syntax tree.

    Parameters
    ----------
    tree: the syntax.
    package: the dotted name, in parts, that relative imports start from.
    """
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            module = [*base, *(node.module.split(".") if node.module else [])]
            if module == [PACKAGE.name]:
                yield from ((node.lineno, f"{PACKAGE.name}.{alias.name}") for alias in node.names)
            else:
                yield node.lineno, ".".join(module)
        elif isinstance(node, ast.Call) and called(node) in ("import_module", "__import__"):
            yield node.lineno, _module_named(node)


def called(call: ast.Call) -> str:
    """The last name of what is called: ``now`` for ``datetime.now()``."""
    function = call.func
    if isinstance(function, ast.Attribute):
        return function.attr
    return function.id if isinstance(function, ast.Name) else ""


def _module_named(call: ast.Call) -> str:
    """The module a dynamic import names, as far as its text is fixed, else ``<computed>``."""
    first = call.args[0] if call.args else None
    if isinstance(first, ast.Constant):
        return str(first.value)
    if isinstance(first, ast.JoinedStr) and isinstance(first.values[0], ast.Constant):
        return str(first.values[0].value).rstrip(".")
    return "<computed>"
