"""The document type declaration: read past, its entities measured before anything expands them."""

from __future__ import annotations

import re

from lint.errors import UnreadableDrawing

MOST_TEXT = 1_000_000  # characters that all entities together may expand to
MOST_ENTITIES = 10_000
_ENTITY = re.compile(
    r"""<!ENTITY\s+(?P<parameter>%\s+)?(?P<name>[^\s%&;"'<>]+)\s+(?:"(?P<a>[^"]*)"|'(?P<b>[^']*)'|(?P<out>SYSTEM|PUBLIC))"""
)
_USE = re.compile(r"&([^\s#&;\"'<>][^\s&;\"'<>]*);")
_BUILT_IN = {"lt": 1, "gt": 1, "amp": 1, "quot": 1, "apos": 1}


def checked(text: str) -> tuple[str, ...]:
    """Notes on the DOCTYPE. Raises UnreadableDrawing where entities would grow past 1 MB or point outside."""
    if "<!DOCTYPE" not in text:
        return ()
    note = "The file has a DOCTYPE; it was read past, and nothing it points to was fetched."
    if "<!ENTITY" not in text:
        return (note,)
    inside, outside = _declared(text)
    uses: dict[str, int] = {}
    for found in _USE.finditer(text, text.index("<!DOCTYPE")):
        uses[found.group(1)] = uses.get(found.group(1), 0) + 1
    for name in uses:
        if name in outside and name not in inside:
            raise UnreadableDrawing(
                f"The drawing takes text from another file by the entity &{_shown(name)};, and no other file is read. "
                "Save it again as plain SVG."
            )
    sizes: dict[str, int] = {}
    if sum(count * _size(name, inside, sizes) for name, count in uses.items()) > MOST_TEXT:
        raise UnreadableDrawing("The entities of the DOCTYPE grow to more than 1 MB. Save the drawing as plain SVG.")
    return (note,)


def _declared(text: str) -> tuple[dict[str, str], set[str]]:
    inside: dict[str, str] = {}
    outside: set[str] = set()
    for found in _ENTITY.finditer(text):
        if found["parameter"]:
            raise UnreadableDrawing(
                f"The DOCTYPE holds a parameter entity (%{_shown(found['name'])};), which is not read. "
                "Save the drawing as plain SVG."
            )
        if found["out"]:
            outside.add(found["name"])
            continue
        inside.setdefault(found["name"], found["a"] if found["a"] is not None else found["b"])
        if len(inside) > MOST_ENTITIES:
            raise UnreadableDrawing("The DOCTYPE declares more than 10,000 entities. Save the drawing as plain SVG.")
    return inside, outside


def _size(name: str, inside: dict[str, str], sizes: dict[str, int]) -> int:
    """Characters that one use of `name` expands to; walked without recursion, for chains may be long."""
    stack = [name]
    open_: set[str] = set()
    while stack:
        top = stack[-1]
        if top in sizes or top in _BUILT_IN or top not in inside:
            stack.pop()
            continue
        parts = _USE.findall(inside[top])
        if top in open_:
            sizes[top] = len(inside[top]) + sum(sizes.get(p, 0) for p in parts)
            open_.discard(top)
            stack.pop()
            continue
        if any(part in open_ for part in parts) or top in parts:
            raise UnreadableDrawing(
                f"The entity &{_shown(top)}; of the DOCTYPE stands in itself. Save the drawing as plain SVG."
            )
        open_.add(top)
        stack.extend(part for part in parts if part in inside and part not in sizes)
    return sizes.get(name, 1)


def _shown(name: str) -> str:
    return "".join(c for c in name if c.isprintable())[:40]
