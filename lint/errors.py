"""What can go wrong with somebody's file: each error says where, what was found and what was expected."""

from __future__ import annotations


class Refused(Exception):
    """Something cannot be read or written. Its text is one plain sentence, fit to print as it is."""


class UnreadableDrawing(Refused):
    """The drawing cannot be read: says what was found, where (line, id), and the mend.

    `line` is the 1-based source line, or None where the trouble has no line.
    """

    def __init__(self, sentence: str, *, line: int | None = None) -> None:
        super().__init__(sentence)
        self.line = line


class BadSheet(Refused):
    """The requirement sheet is wrong. `problems` holds one sentence for each fault, all found in one go."""

    def __init__(self, problems: tuple[str, ...]) -> None:
        super().__init__("\n".join(problems))
        self.problems = problems


class BadRecord(Refused):
    """An approval record or a filled-in measuring sheet cannot be read."""
