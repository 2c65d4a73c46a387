"""The README says what the tool does: its tables and outputs are made by the tool, its commands run as they stand.

`pytest tests/test_readme.py --accept` writes the made parts anew.
"""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from lint.commands import COMMANDS
from lint.commands._job import Wanted, do
from lint.rules import RULES

ROOT = Path(__file__).parent.parent
README = ROOT / "README.md"
TOOL = [sys.executable, "-m", "lint"]


def rules_table() -> str:
    rows = [
        f"| [`{r.id}`](lint/rules/{r.id.replace('-', '_')}.py) | {_cell(r.section('Passes when'))} |" for r in RULES
    ]
    return "\n".join(("<!-- rules -->", "| rule | passes when |", "| --- | --- |", *rows, "<!-- end of rules -->"))


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def run(*words: str, cwd: Path = ROOT) -> subprocess.CompletedProcess[str]:
    env = {**os.environ, "PYTHONPATH": str(ROOT), "NO_COLOR": "1"}
    return subprocess.run([*TOOL, *words], cwd=cwd, capture_output=True, text=True, env=env, timeout=120, check=False)


def made(text: str) -> str:
    """The README with its made parts as the tool makes them now."""
    text = re.sub(r"(?s)<!-- rules -->(?:.*?<!-- end of rules -->)?", lambda _: rules_table(), text, count=1)

    def output(match: re.Match[str]) -> str:
        words = match["command"].split()[1:]
        return f"<!-- output: {match['command']} -->\n```text\n{run(*words).stdout}```"

    return re.sub(r"(?s)<!-- output: (?P<command>[^\n]*?) -->\n```text\n.*?```", output, text)


def test_the_made_parts_are_as_the_tool_makes_them(accept: bool) -> None:
    text = README.read_text()
    if accept:
        README.write_text(made(text))
    assert README.read_text() == made(README.read_text())


def test_every_command_is_in_the_readme_and_has_help() -> None:
    text = README.read_text()
    for command in COMMANDS:
        assert f"`{command}" in text
        shown = run(command, "--help")
        assert shown.returncode == 0
        assert len(shown.stdout) > 100


def commands(text: str) -> list[str]:
    """Every grille-lint line of the README's shell blocks, in order."""
    blocks = re.findall(r"(?s)```sh\n(.*?)```", text)
    return [line for block in blocks for line in block.splitlines() if line.startswith("grille-lint ")]


def test_the_commands_run_as_they_stand(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    shutil.rmtree(tmp_path / "examples" / "design-repository", ignore_errors=True)
    lines = commands(README.read_text())
    assert len(lines) >= 9
    for line in lines:
        words = re.findall(r'"[^"]*"|\S+', line)[1:]
        if "--measured" in words:
            filled = (tmp_path / "to-measure.csv").read_text().splitlines()
            head, *rows = [row.split(",") for row in filled]
            drawn = head.index("drawn")
            (tmp_path / "measured.csv").write_text(
                "\n".join([",".join(head), *(",".join((*row[:-1], row[drawn])) for row in rows)])
            )
        done = run(*(word.strip('"') for word in words), cwd=tmp_path)
        assert "Traceback" not in done.stderr, done.stderr
        fails = {"check examples/first-attempt.svg --terse", "check examples --page", "check my-panel.svg"}
        expected = 1 if any(part in line for part in fails) else 0
        assert done.returncode == expected, f"{line}: {done.stdout[-1500:]}{done.stderr}"
    for name in ("my-panel.svg", "patterns.html", "review.html", "marked-up/two-c-panel.marked.svg", "to-measure.csv"):
        assert (tmp_path / name).stat().st_size > 200


@pytest.mark.parametrize("path", sorted((ROOT / "examples").glob("*.svg")), ids=lambda p: p.stem)
def test_the_marked_up_examples_are_as_the_tool_marks_them(
    path: Path, accept: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(ROOT)
    kept = ROOT / "examples" / "marked-up" / f"{path.stem}.marked.svg"
    marked = do(f"examples/{path.name}", Wanted(markup=True)).marked
    assert marked is not None
    if accept:
        kept.parent.mkdir(exist_ok=True)
        kept.write_bytes(marked)
    assert kept.read_bytes() == marked


def test_the_pictures_and_links_of_the_readme_are_there() -> None:
    for target in re.findall(r"\]\(([^)#:]+)\)", README.read_text()):
        assert (ROOT / target).exists(), target


@pytest.mark.parametrize("word", ["TODO", "lorem"])
def test_the_readme_is_finished(word: str) -> None:
    assert word not in README.read_text()
