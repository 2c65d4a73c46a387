"""One pass over the whole tree: attributes, ids, style sheets, and what is active in the file."""

from __future__ import annotations

from dataclasses import dataclass, field

from lxml import etree

from lint.drawing.names import clean
from lint.drawing.style_sheets import Sheets
from lint.drawing.values import Attributes, attributes, line_of

XLINK = "{http://www.w3.org/1999/xlink}href"
_ADDRESSES = frozenset(("href", XLINK, "src"))
MOST_ACTIVE = 100


@dataclass(slots=True)
class Survey:
    """`attributes` are those of each element by name; `ids` maps an id to the first element that bears it, `twice`
    are ids borne by several."""

    attributes: dict[etree._Element, Attributes] = field(default_factory=dict)
    ids: dict[str, etree._Element] = field(default_factory=dict)
    twice: set[str] = field(default_factory=set)
    sheets: Sheets = field(default_factory=Sheets)
    active: list[str] = field(default_factory=list)


def survey(root: etree._Element) -> Survey:
    """What must be known before the elements are walked. Raises UnreadableDrawing for a monstrous style sheet."""
    found = Survey()
    for element in root.iter(etree.Element):
        own = found.attributes[element] = attributes(element)
        id_ = own.get("id")
        if id_ is not None and found.ids.setdefault(id_, element) is not element:
            found.twice.add(id_)
        # Most elements are passed at a glance at all their names and texts: a name holds no blank.
        if " on" in " ".join(("", *own)) or "url(" in " ".join(own.values()) or not _ADDRESSES.isdisjoint(own):
            active = [_named(element, name, text) for name, text in own.items() if _is_active(name, text)]
            found.active += active[: max(0, MOST_ACTIVE - len(found.active))]
        tag = str(element.tag).rpartition("}")[2]
        if tag in ("script", "handler", "listener") and len(found.active) < MOST_ACTIVE:
            found.active.append(f"script (line {line_of(element)})")
        elif tag == "style":
            _take_sheet(element, found)
    return found


def link(element: etree._Element) -> str:
    """What a `use`, gradient or text path points to: href stands before xlink:href (SVG 2, 16.1.5)."""
    return str(element.get("href") or element.get(XLINK) or "").strip()


def _is_active(name: str, text: str) -> bool:
    if name.startswith("on"):
        return True
    if name == "id":
        return False
    if name in _ADDRESSES:
        start = text.lstrip()[:20].lower()
        return not start.startswith(("#", "data:image/")) and bool(start)
    return any(part.lstrip(" '\"")[:1] != "#" for part in text.split("url(")[1:])


def _named(element: etree._Element, name: str, text: str) -> str:
    attribute = name.rpartition("}")[2]
    if attribute.startswith("on"):
        return f"{attribute} handler (line {line_of(element)})"
    return f"reference to {clean(text)[:60]} (line {line_of(element)})"


def _take_sheet(element: etree._Element, found: Survey) -> None:
    kind = (element.get("type") or "text/css").strip().lower()
    text = "".join(map(str, element.itertext()))
    if kind != "text/css" or not text.strip():
        return
    found.sheets.add(text, line_of(element))
    lower = text.lower()
    if "@import" in lower or any(
        p.lstrip(" '\"")[:1] != "#" and not p.lstrip(" '\"").startswith("data:") for p in lower.split("url(")[1:]
    ):
        found.active.append(f"reference in a style sheet (line {line_of(element)})")
