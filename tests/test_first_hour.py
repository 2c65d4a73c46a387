"""A newcomer's first hour: a candidate's and an instructor's way through, with the commands that the README gives."""

from __future__ import annotations

import csv
import io
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
LAYERS = ("scrolls", "collars", "rivets", "ends")


def run(*words: str, cwd: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "lint", *words]
    env = {"PYTHONPATH": str(ROOT), "PATH": "/usr/bin:/bin", "HOME": str(cwd)}
    return subprocess.run(command, cwd=cwd, capture_output=True, text=True, env=env, timeout=120, check=False)


def fails(done: subprocess.CompletedProcess[str]) -> list[str]:
    """The rules that fail, from the terse lines."""
    return sorted(set(re.findall(r": fail ([a-z-]+):", done.stdout)))


def drawn_on(blank: str, without: str = "") -> str:
    """The blank with a pair of C scrolls drawn on its layers, as a person would: one layer after another."""
    example = (ROOT / "examples" / "two-c-panel.svg").read_text()
    for layer in LAYERS:
        match = re.search(rf'(?s)inkscape:label="{layer}">(.*?)\n  </g>', example)
        assert match
        if layer != without:
            start = re.search(rf'(?s)<g id="{layer}"[^>]*>.*?(?=</g>)', blank)
            assert start
            body = f'<g transform="translate(-30,-24)">{match[1]}</g>'
            blank = f"{blank[: start.end()]}{body}{blank[start.end() :]}"
    size = '<line x1="12" y1="131" x2="140" y2="131" stroke="#1f5fa8"/><text x="70" y="129" font-size="6">128</text>'
    return re.sub(r'(?s)(<g id="dimensions"[^>]*>.*?)</g>', rf"\1{size}</g>", blank, count=1)


def test_a_candidate_draws_checks_mends_and_goes_to_the_forge(tmp_path: Path) -> None:
    assert run("start", "my-panel.svg", "--size", "280x236mm", cwd=tmp_path).returncode == 0
    panel = tmp_path / "my-panel.svg"
    empty = run("check", "my-panel.svg", "--terse", cwd=tmp_path)
    assert empty.returncode == 1
    assert "scroll-count" in fails(empty)
    blank = panel.read_text()
    panel.write_text(drawn_on(blank, without="collars"))
    first = run("check", "my-panel.svg", "--terse", "--markup", "marked-up", cwd=tmp_path)
    assert fails(first) == ["collars"], first.stdout
    assert (tmp_path / "marked-up" / "my-panel.marked.svg").exists()
    panel.write_text(drawn_on(blank))
    if shutil.which("inkscape"):
        steps = f"export-filename:{panel};export-do"
        subprocess.run(["inkscape", str(panel), f"--actions={steps}"], check=True, capture_output=True, timeout=120)
    done = run("check", "my-panel.svg", cwd=tmp_path)
    assert done.returncode == 0, done.stdout
    assert "my-panel.svg: PASS" in done.stdout
    assert "scroll-1" in run("stock", "my-panel.svg", cwd=tmp_path).stdout
    assert run("patterns", "my-panel.svg", "--paper", "a4", "--out", "patterns.html", cwd=tmp_path).returncode == 0


def test_an_instructor_takes_twelve_drawings_in_six_dialects_to_one_page(tmp_path: Path) -> None:
    dialects = sorted((ROOT / "fixtures" / "editors").glob("*.svg"))[::2][:10]
    faulty = [ROOT / "fixtures" / "collars" / "no-collar.svg", ROOT / "examples" / "first-attempt.svg"]
    (tmp_path / "class").mkdir()
    for path in (*dialects, *faulty):
        shutil.copy(path, tmp_path / "class" / path.name)
    readme = (ROOT / "README.md").read_text()
    sheet = re.search(r'(?s)```toml\n(name = "evening-class.*?)```', readme)
    assert sheet
    (tmp_path / "class" / "requirements.toml").write_text(sheet[1])
    done = run("check", "class", "--page", "review.html", "--markup", "marked-up", "--terse", cwd=tmp_path)
    assert done.returncode == 1, done.stderr
    page = (tmp_path / "review.html").read_text()
    assert page.count("<tbody id=") == len(dialects) + len(faulty)
    assert "evening-class-spring" in page
    marked = {path.name for path in (tmp_path / "marked-up").iterdir()}
    assert {"no-collar.marked.svg", "first-attempt.marked.svg"} <= marked
    good = next(path for path in dialects if f"class/{path.name}:" not in done.stdout)
    _approved_forged_and_compared(tmp_path, f"class/{good.name}")


def _approved_forged_and_compared(at: Path, drawing: str) -> None:
    approved = run("approve", drawing, "--by", "R. Mellor", cwd=at)
    assert approved.returncode == 0, approved.stderr
    assert run("compare", drawing, "--measuring-sheet", "sheet.csv", cwd=at).returncode == 0
    head, *rows = list(csv.reader(io.StringIO((at / "sheet.csv").read_text())))
    filled = [head, *([*row[:-1], row[head.index("drawn")]] for row in rows)]
    filled[1][-1] = "12 in"  # the frame came out too wide
    with (at / "measured.csv").open("w", newline="") as file:
        csv.writer(file).writerows(filled)
    compared = run("compare", drawing, "--measured", "measured.csv", cwd=at)
    assert compared.returncode == 1
    assert "outside width: 304.8 mm" in " ".join(compared.stdout.split())


@pytest.mark.parametrize("command", [["check"], ["start"], ["stock"], ["nonsense"], ["check", "no-such-file.svg"]])
def test_a_wrong_call_is_answered_in_words(command: list[str], tmp_path: Path) -> None:
    done = run(*command, cwd=tmp_path)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert len(done.stderr + done.stdout) > 20
