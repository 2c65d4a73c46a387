"""What was agreed: the approval record beside the drawing, handed over with the sheet."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Approved:
    """The record of an approval (its fields come with the approval issue)."""

    path: str
