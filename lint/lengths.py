"""Lengths as a smith writes them, and as a report says them."""

from __future__ import annotations

INCH = 25.4  # mm, exactly


def parse(text: str, units: str = "mm") -> float:
    """The length in mm that `text` states: 610, 610 mm, 61 cm, 24", 16 1/2 in, 2'-0", 1' 6 1/2", Ø6, R 1/4".

    A bare number is in `units` ("mm" or "in"); straight, curly and prime marks alike. Raises ValueError with a
    sentence that says what was expected.
    """
    raise NotImplementedError


def say(mm: float, units: str = "mm") -> str:
    """The length as a report says it: "118.4 mm"; in inches the nearest 1/32 with the decimal beside it,
    "4 21/32 in (4.661)"."""
    raise NotImplementedError
