"""Sheets written for a test."""

from __future__ import annotations

from pathlib import Path


def write(folder: Path, text: str, name: str = "requirements.toml") -> Path:
    """The sheet as a file in its folder."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_text(text, encoding="utf-8")
    return folder / name


BASED = 'based_on = "two-corner-panel"\n'
