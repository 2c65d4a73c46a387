"""Where in the file a part was drawn."""

from __future__ import annotations

from lint.drawing.drawn import Aside, Drawn, Words
from lint.panel.parts import Origin
from lint.panel.roles import name_given


def origin_of(item: Drawn | Words | Aside) -> Origin:
    """The line, id, layer and given name of one object."""
    name = name_given(item) if not isinstance(item, Aside) else next(iter(item.own.names), "")
    return Origin(line=item.line, id=item.own.id, layer=item.layer, name=name)


def id_of(item: Drawn | Words | Aside) -> str:
    """The id of one object, or its tag and line where it has none: "path@41"."""
    return item.own.id or f"{item.own.tag}@{item.line}"


def unlike(name: str, line: int, taken: dict[str, int]) -> str:
    """The name, or where it is taken the name with its line, or with its line and a number. `taken` holds every name
    that is given away with how many were sought under it, and takes up the new one: a file may be one long line."""
    chosen, with_line = name, f"{name}@{line}"
    if chosen in taken:
        chosen = with_line
    while chosen in taken:
        taken[with_line] += 1
        chosen = f"{with_line}.{taken[with_line]}"
    taken[chosen] = 1
    return chosen
