"""Where the drawings are, and how a golden drawing is accepted."""

from __future__ import annotations

from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
FIXTURES = ROOT / "fixtures"
EXAMPLES = ROOT / "examples"


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--accept", action="store_true", help="write goldens anew; look at the difference before a commit")


@pytest.fixture
def accept(request: pytest.FixtureRequest) -> bool:
    return bool(request.config.getoption("--accept"))


@pytest.fixture
def panel_svg() -> bytes:
    """The drawing that passes every rule."""
    return (FIXTURES / "panel.svg").read_bytes()
