"""Where in the file a part was drawn."""

from __future__ import annotations

from collections.abc import Collection
from itertools import count

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


def unlike(name: str, line: int, taken: Collection[str]) -> str:
    """The name, or where it is taken the name with its line, or with its line and a number."""
    spellings = (f"{name}@{line}.{n}" if n > 1 else f"{name}@{line}" for n in count(1))
    return name if name not in taken else next(one for one in spellings if one not in taken)
