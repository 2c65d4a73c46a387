"""A drawing that was marked up before: take the marks off again.

The marks stand in one group with `MARKS` on it; the page that the marks grew is kept on that group and on the root,
so that the drawing underneath is read as it was before, also after an editor has saved it.
"""

from __future__ import annotations

from lxml import etree

MARKS = "data-lint-marks"  # on the group that holds every mark
PAGE = "data-lint-page"  # the root's width, height and viewBox before the marks, one to a "|" ("-" for none)
GROWN = "data-lint-grown"  # the same as the marks set them
OURS = "lint-"  # how the id of every mark and layer of marks begins

_SIZE = ("width", "height", "viewBox")


def strip_marks(root: etree._Element) -> bool:
    """Take an earlier check's marks off `root`, in place, and give the page back its size. True where there were any.

    What somebody drew into the marks' layers is no mark: it is moved out and stays in the drawing. The page keeps
    its size where somebody changed it after the marking.
    """
    groups = [element for element in root.iter("*") if MARKS in element.attrib]
    if not groups:
        return False
    kept = root.get(PAGE) or groups[0].get(PAGE)
    grown = root.get(GROWN) or groups[0].get(GROWN)
    for group in groups:
        _take_out(group)
    if kept is not None and grown is not None and same_page(tuple(root.get(name) for name in _SIZE), grown):
        _give_back(root, kept)
    _drop(root, (PAGE, GROWN))
    return True


def is_ours(element: etree._Element) -> bool:
    """True for a mark, a layer of marks, or what belongs to one (its title)."""
    if not isinstance(element.tag, str):
        return True
    return element.get("id", "").startswith(OURS) or etree.QName(element).localname in {"title", "desc", "metadata"}


def strangers(group: etree._Element) -> list[etree._Element]:
    """What lies in the marks' layers and is no mark: somebody drew it there."""
    layers = [child for child in group if isinstance(child.tag, str) and child.get("id", "").startswith(OURS)]
    own = [child for child in group if not is_ours(child)]
    return own + [child for layer in layers for child in layer if not is_ours(child)]


def same_page(now: tuple[str | None, ...], grown: str) -> bool:
    """True where width, height and viewBox are still what the marks set, an editor's rounding aside."""
    then = grown.split("|")
    return len(then) == len(now) and all(_alike(a or "-", b) for a, b in zip(now, then, strict=True))


def _alike(now: str, then: str) -> bool:
    a, b = _figures(now), _figures(then)
    if a is None or b is None:
        return now.strip() == then.strip()
    return len(a) == len(b) and all(abs(x - y) <= 1e-4 * max(1.0, abs(y)) for x, y in zip(a, b, strict=True))


def _figures(text: str) -> list[float] | None:
    try:
        return [float(word) for word in text.replace(",", " ").rstrip("pxmcintQ% ").split()]
    except ValueError:
        return None


def _take_out(group: etree._Element) -> None:
    parent = group.getparent()
    if parent is None:
        return
    at = parent.index(group)
    for offset, stranger in enumerate(strangers(group)):
        stranger.tail = None
        parent.insert(at + offset, stranger)
    parent.remove(group)


def _give_back(root: etree._Element, kept: str) -> None:
    for name, value in zip(_SIZE, kept.split("|"), strict=False):
        if value == "-":
            _drop(root, (name,))
        else:
            root.set(name, value)


def _drop(element: etree._Element, names: tuple[str, ...]) -> None:
    for name in names:
        if name in element.attrib:
            del element.attrib[name]
