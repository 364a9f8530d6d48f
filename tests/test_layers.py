"""The import contract: rooms point down only; what is heavy is loaded only where it is needed."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parent.parent / "seedbox"

# Which rooms a room may import. The modules at the foot of the house are open to all of them.
MAY_IMPORT: dict[str, set[str]] = {
    "errors": set(),
    "problems": set(),
    "resources": set(),
    "units": set(),
    "whole_file": {"errors"},
    "science": set(),
    "almanac": {"errors", "problems", "units"},
    "tin": {"errors", "problems", "resources", "units"},
    "season": {"errors", "problems", "units", "science", "almanac", "tin"},
    "printing": {"errors", "problems", "resources", "tin", "whole_file"},
    "scanning": {"errors", "problems", "tin"},
    "cli": {
        "errors",
        "problems",
        "resources",
        "units",
        "whole_file",
        "almanac",
        "tin",
        "season",
        "printing",
        "scanning",
        "tui",
    },
    "tui": {
        "errors",
        "problems",
        "resources",
        "units",
        "whole_file",
        "almanac",
        "tin",
        "season",
        "printing",
    },
    "__main__": {"cli", "errors"},
    "__init__": set(),
}

# Packages that cost tens of milliseconds, and the only rooms that may name them at all.
HEAVY: dict[str, set[str]] = {
    "textual": {"tui"},
    "rich": {"tui"},
    "click": {"cli", "__main__"},
    "arabic_reshaper": {"printing"},
    "bidi": {"printing"},
    "reportlab": {"printing"},
    "segno": {"printing"},
    "barcode": {"printing"},
    "zxingcpp": {"printing", "scanning"},
    "PIL": {"scanning"},
    "pillow_heif": {"scanning"},
    "pypdfium2": {"printing"},
    "openpyxl": {"tin"},
    "numpy": {"season"},
    "scipy": {"season"},
    "sqlite_utils": {"tin"},
    "sqlite3": {"tin"},
}


def _modules() -> list[Path]:
    return sorted(PACKAGE.rglob("*.py"))


def _room(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def _imported(path: Path) -> set[str]:
    names: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            if node.level:
                names.add(_absolute(path, node.level, node.module))
            elif node.module == "seedbox":
                names.update(f"seedbox.{alias.name}" for alias in node.names)
            else:
                names.add(node.module)
    return names


def _absolute(path: Path, level: int, module: str) -> str:
    package = path.relative_to(PACKAGE.parent).parts[:-1]
    return ".".join((*package[: len(package) - level + 1], module))


@pytest.mark.parametrize("path", _modules(), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_room_imports_only_what_lies_below_it(path: Path) -> None:
    room = _room(path)
    reached = {name.split(".")[1] for name in _imported(path) if name.startswith("seedbox.")} - {
        room,
        "__version__",
    }
    assert reached <= MAY_IMPORT[room], f"{room} must not import {reached - MAY_IMPORT[room]}"


@pytest.mark.parametrize("path", _modules(), ids=lambda path: str(path.relative_to(PACKAGE)))
def test_heavy_packages_stay_in_their_rooms(path: Path) -> None:
    room = _room(path)
    for name in _imported(path):
        allowed = HEAVY.get(name.split(".")[0])
        assert allowed is None or room in allowed, f"{room} must not import {name}"


def test_science_uses_the_standard_library_alone() -> None:
    import sys

    for path in (PACKAGE / "science").rglob("*.py"):
        for name in _imported(path):
            top = name.split(".")[0]
            assert top == "seedbox" or top in sys.stdlib_module_names, f"{path.name} imports {name}"


def test_every_room_is_in_the_contract() -> None:
    assert {_room(path) for path in _modules()} <= set(MAY_IMPORT)
