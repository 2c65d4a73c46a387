"""The hook, run by the real pre-commit in a design repository of its own."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

from lint.commands.hook import bears_on

ROOT = Path(__file__).parent.parent
GOOD = (ROOT / "fixtures" / "panel.svg").read_bytes()
BAD = (ROOT / "examples" / "first-attempt.svg").read_bytes()
LINE = re.compile(r"[^:\n]+\.(?:svg|SVG):\d+: (?:(?:fail|review|waived) [a-z-]+|unreadable): .+")

pytest.importorskip("pre_commit")
if not shutil.which("git"):  # pragma: no cover
    pytest.skip("git is not installed", allow_module_level=True)


def local_config(*, serial: bool = True) -> str:
    """The hook as .pre-commit-hooks.yaml has it, but run from this working tree and not installed anew."""
    hook = (ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8")
    hook = hook.replace("entry: python ", f"entry: {sys.executable} ").replace("language: python", "language: system")
    hook = hook.replace("require_serial: true", f"require_serial: {str(serial).lower()}")
    indented = "".join(f"      {line}\n" for line in hook.splitlines())
    return f"repos:\n  - repo: local\n    hooks:\n{indented}"


class Repository:
    """A design repository with the hook installed."""

    def __init__(self, folder: Path, home: Path) -> None:
        self.folder = folder
        self.env = {
            "PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}",
            "HOME": str(home),
            "PRE_COMMIT_HOME": str(home / "pre-commit"),
            "GIT_CONFIG_NOSYSTEM": "1",
            "PYTHONPATH": str(ROOT),
            "PRE_COMMIT_COLOR": "never",
        }
        folder.mkdir()
        self.run("git", "init", "-q", "-b", "main")
        for key, value in (("user.name", "Student"), ("user.email", "student@quarry-lane.invalid")):
            self.run("git", "config", key, value)

    def run(self, *command: str, env: dict[str, str] | None = None) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            command,
            cwd=self.folder,
            env=self.env | (env or {}),
            capture_output=True,
            text=True,
            check=False,
            timeout=300,
        )

    def install(self, config: str) -> None:
        self.put(".pre-commit-config.yaml", config)
        done = self.run(sys.executable, "-m", "pre_commit", "install")
        assert done.returncode == 0, done.stderr

    def put(self, name: str, content: bytes | str) -> None:
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content.encode() if isinstance(content, str) else content)

    def commit(self, files: Mapping[str, bytes | str]) -> subprocess.CompletedProcess[str]:
        """Add all that is there and commit it, as a student would."""
        for name, content in files.items():
            self.put(name, content)
        self.run("git", "add", "-A")
        return self.run("git", "commit", "-m", "work")

    def commits(self) -> int:
        return int(self.run("git", "rev-list", "--count", "--all").stdout or 0)


@pytest.fixture
def repository(tmp_path: Path) -> Repository:
    made = Repository(tmp_path / "designs", tmp_path)
    made.install(local_config())
    return made


def findings(done: subprocess.CompletedProcess[str]) -> list[str]:
    """The lines of the form file:line: result rule: message."""
    return [line for line in (done.stdout + done.stderr).splitlines() if LINE.fullmatch(line)]


def test_the_manifest_is_one_that_pre_commit_takes() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "pre_commit", "validate-manifest", str(ROOT / ".pre-commit-hooks.yaml")],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout


def test_a_good_drawing_is_committed(repository: Repository) -> None:
    done = repository.commit({"porch/side gate.svg": GOOD})
    assert done.returncode == 0, done.stdout + done.stderr
    assert repository.commits() == 1


def test_a_bad_drawing_stops_the_commit_with_lines_to_act_on(repository: Repository) -> None:
    done = repository.commit({"porch/gate.svg": BAD, "good.svg": GOOD})
    assert done.returncode != 0
    assert repository.commits() == 0
    found = [line for line in findings(done) if " fail " in line]
    assert found
    assert all(line.startswith("porch/gate.svg:") for line in found)
    assert all(line.endswith(".") for line in found)


def test_a_broken_drawing_stops_the_commit(repository: Repository) -> None:
    done = repository.commit({"gate.svg": "<svg xmlns='http://www.w3.org/2000/svg'><path"})
    assert done.returncode != 0
    assert [line for line in findings(done) if line.startswith("gate.svg:") and " unreadable: " in line]


def test_only_changed_drawings_are_checked_and_nothing_is_written(repository: Repository) -> None:
    repository.run("git", "commit", "-q", "--no-verify", "--allow-empty", "-m", "start")
    repository.put("old.svg", BAD)
    repository.run("git", "add", "-A")
    repository.run("git", "commit", "-q", "--no-verify", "-m", "an old one")
    done = repository.commit({"new.svg": GOOD, "notes.txt": "x"})
    assert done.returncode == 0, done.stdout
    assert "old.svg" not in done.stdout + done.stderr
    assert repository.run("git", "status", "--porcelain").stdout == ""


def test_a_changed_sheet_checks_again_what_it_bears_on(repository: Repository) -> None:
    assert repository.commit({"porch/gate.svg": GOOD, "shed/gate.svg": GOOD, "porch/DOOR.SVG": GOOD}).returncode == 0
    narrow = 'based_on = "two-corner-panel"\n[pass_through]\nsphere = "10 mm"\nband = "1 mm"\nsource = "a trial"\n'
    done = repository.commit({"porch/requirements.toml": narrow})
    assert done.returncode != 0
    assert {line.partition(":")[0] for line in findings(done)} == {"porch/gate.svg", "porch/DOOR.SVG"}
    assert any(" fail pass-through: " in line for line in findings(done))


def test_a_changed_base_of_a_sheet_checks_again_too(repository: Repository) -> None:
    first = repository.commit(
        {
            "class/class.toml": 'based_on = "two-corner-panel"\n',
            "requirements.toml": 'based_on = "class/class.toml"\n',
            "gate.svg": GOOD,
        }
    )
    assert first.returncode == 0, first.stdout
    done = repository.commit({"class/class.toml": 'based_on = "two-corner-panel"\n[scroll_count]\nleast = 99\n'})
    assert done.returncode != 0
    assert any(line.startswith("gate.svg:") and " fail scroll-count: " in line for line in findings(done))


def test_a_broken_sheet_stops_the_commit_with_its_fault(repository: Repository) -> None:
    assert repository.commit({"gate.svg": GOOD}).returncode == 0
    done = repository.commit({"requirements.toml": 'based_on = "two-corner-panel"\n[frame]\nangel = 1\n'})
    assert done.returncode != 0
    assert "requirements.toml:3: frame.angel: no such key (did you mean frame.angle?)." in done.stdout + done.stderr


def test_a_sheet_without_a_drawing_is_committed(repository: Repository) -> None:
    assert repository.commit({"requirements.toml": 'based_on = "two-corner-panel"\n'}).returncode == 0
    assert repository.commit({"pyproject.toml": "[project]\n"}).returncode == 0


def test_marked_copies_and_approval_records_are_not_checked_as_drawings(repository: Repository) -> None:
    done = repository.commit({"gate.marked.svg": BAD, "gone.svg.approval.toml": "version = 1\n", "README.md": "x"})
    assert done.returncode == 0, done.stdout


def test_a_waived_fail_lets_the_commit_through_and_says_so(repository: Repository) -> None:
    sheet = (
        'based_on = "two-corner-panel"\n[scroll_count]\nleast = 99\n'
        '[[waive]]\ndrawing = "gate.svg"\nrule = "scroll-count"\nreason = "first term"\n'
    )
    done = repository.commit({"requirements.toml": sheet, "gate.svg": GOOD})
    assert done.returncode == 0, done.stdout


def test_parallel_batches_do_not_mix_their_lines(tmp_path: Path) -> None:
    repository = Repository(tmp_path / "designs", tmp_path)
    repository.install(local_config(serial=False))
    names = [f"gate-{n:02}.svg" for n in range(12)]
    done = repository.commit(dict.fromkeys(names, BAD))
    assert done.returncode != 0
    said = [line for line in (done.stdout + done.stderr).splitlines() if ".svg" in line]
    assert all(LINE.fullmatch(line) for line in said)
    by_drawing = {name: [line.partition(":")[2] for line in said if line.startswith(f"{name}:")] for name in names}
    assert all(lines == by_drawing[names[0]] and lines for lines in by_drawing.values())


@pytest.mark.skipif("GRILLE_LINT_INSTALL" not in os.environ, reason="installs from the package registry when asked to")
def test_the_hook_installs_itself_as_a_student_would_have_it(tmp_path: Path) -> None:
    source = tmp_path / "source"
    subprocess.run(["git", "clone", "-q", str(ROOT), str(source)], check=True)
    head = subprocess.run(["git", "rev-parse", "HEAD"], cwd=source, capture_output=True, text=True, check=True)
    repository = Repository(tmp_path / "designs", tmp_path)
    del repository.env["PYTHONPATH"]
    repository.env |= {key: value for key, value in os.environ.items() if key.startswith(("PIP_", "SSL_"))}
    rev = head.stdout.strip()
    repository.install(f"repos:\n  - repo: {source}\n    rev: {rev}\n    hooks:\n      - id: grille-lint\n")
    assert repository.commit({"gate.svg": GOOD}).returncode == 0
    assert repository.commit({"bad.svg": BAD}).returncode != 0


@pytest.mark.parametrize(
    ("changed", "drawing", "bears"),
    [
        ("requirements.toml", "a.svg", True),
        ("requirements.toml", "porch/a.svg", False),
        ("porch/requirements.toml", "porch/a.svg", True),
        ("porch/requirements.toml", "a.svg", False),
        ("class.toml", "a.svg", True),
        ("class.toml", "porch/a.svg", False),
        ("a.svg.approval.toml", "a.svg", True),
        ("a.svg.approval.toml", "b.svg", False),
        ("other.toml", "a.svg", False),
    ],
)
def test_a_file_bears_on_the_drawings_that_are_held_to_it(
    changed: str, drawing: str, bears: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "porch").mkdir()
    for name, base in (
        ("class", "two-corner-panel"),
        ("requirements", "class.toml"),
        ("porch/requirements", "sphere-4-in"),
    ):
        text = f'based_on = ["two-corner-panel", "{base}"]\n' if name != "class" else f'based_on = "{base}"\n'
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    assert bears_on([changed], drawing) is bears
