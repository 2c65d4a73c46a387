"""Who may import whom. The table in DEVELOPERS.md, held by machine."""

from __future__ import annotations

import ast
import sys
from pathlib import Path

import pytest

LINT = Path(__file__).parent.parent / "lint"
_BASE = {"lengths", "errors", "result", "shown"}
OURS: dict[str, set[str]] = {
    "values": set(),
    "lengths": set(),
    "errors": set(),
    "result": set(),
    "shown": set(),
    "geometry": set(),
    "drawing": {"geometry", "errors"},
    "sheet": {"lengths", "errors", "result"},
    "panel": {"drawing", "sheet", "geometry", "lengths", "errors"},
    "rules": {"panel", "sheet", "geometry", "lengths", "result"},
    "verdict": {"panel", "sheet", "result"},
    "check": {"drawing", "sheet", "panel", "rules", "result", "errors", "verdict"},
    "record": {"panel", "sheet", "geometry", "verdict", "drawing", *_BASE},
    "shop": {"panel", "sheet", "geometry", *_BASE},
    "report": {"rules", "panel", "sheet", "verdict", "drawing", *_BASE},
    "commands": {"check", "sheet", "rules", "record", "shop", "report", "verdict", "commands", *_BASE},
    "__init__": set(),
    "__main__": {"commands"},
}
OUTSIDE: dict[str, set[str]] = {
    "shapely": {"geometry"},
    "scipy": {"shop"},
    "lxml": {"drawing", "report"},
    "svgpathtools": {"drawing"},
    "tinycss2": {"drawing"},
    "click": {"commands"},
    "tomli_w": {"record"},
    "jinja2": {"report", "record"},
    "numpy": {"geometry", "drawing", "panel", "rules", "record", "shop", "report"},
}


def _imports(path: Path) -> list[str]:
    """Every module named by an import, `from lint import x` joined to lint.x; relative imports are refused."""
    found = []
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            found += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno}: a relative import"
            if node.module == "lint":
                found += [f"lint.{alias.name}" for alias in node.names]
            elif node.module:
                found.append(node.module)
    return found


def _home(path: Path) -> str:
    return path.relative_to(LINT).parts[0].removesuffix(".py")


def faults(path: Path) -> list[str]:
    """What a module imports and should not."""
    home, wrong = _home(path), []
    for name in _imports(path):
        first, *rest = name.split(".")
        if first == "lint":
            wanted = rest[0] if rest else "__init__"
            if wanted not in OURS[home] | {home, "__version__", "values"}:
                wrong.append(f"{path.relative_to(LINT)} imports {name}")
        elif first not in sys.stdlib_module_names and home not in OUTSIDE.get(first, set()):
            wrong.append(f"{path.relative_to(LINT)} imports {name}")
    return wrong


@pytest.mark.parametrize("path", sorted(LINT.rglob("*.py")), ids=lambda p: str(p.relative_to(LINT)))
def test_a_module_imports_only_what_its_place_allows(path: Path) -> None:
    assert faults(path) == []


def test_a_forbidden_import_is_found(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys.modules[__name__], "LINT", tmp_path)
    for text in ("from lint import report", "import lint.panel.panel", "import shapely", "import requests"):
        bad = tmp_path / "lengths.py"
        bad.write_text(text)
        assert len(faults(bad)) == 1
