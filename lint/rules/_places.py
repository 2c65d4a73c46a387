"""Small things the rules of the metal share: where a part was drawn, and why a rule cannot be judged here."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

from lint.panel.panel import Panel
from lint.panel.parts import FRAME, Bar, Origin, Scroll
from lint.result import Result, Source
from lint.rules._rule import not_applicable


def source(origin: Origin) -> Source:
    """Where a part was drawn, as a result says it."""
    return Source(line=origin.line, id=origin.id, layer=origin.layer)


def source_of(panel: Panel, name: str) -> Source:
    """Where the bar of this id was drawn; nowhere for the frame as a whole in several members."""
    return _sources(panel).get(name, Source())


@lru_cache(maxsize=1)
def _sources(panel: Panel) -> dict[str, Source]:
    members = panel.frame.members if panel.frame else ()
    found = {FRAME: source(members[0].origin)} if members else {}
    return found | {bar.id: source(bar.origin) for bar in all_bars(panel)}


def all_bars(panel: Panel) -> tuple[Bar, ...]:
    """Scrolls and infill bars, in that order; the frame's members apart."""
    return (*(scroll.bar for scroll in panel.scrolls), *panel.bars)


def named(names: Iterable[str]) -> str:
    """ "scroll-1, scroll-2 and the frame": at most six, then how many more."""
    words = ["the frame" if name == FRAME else name for name in names]
    if len(words) > 6:
        words = [*words[:5], f"{len(words) - 5} more"]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}" if words else "nothing"


def counted(number: int, one: str, many: str = "") -> str:
    """ "1 scroll", "2 scrolls"."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def middle(scroll: Scroll) -> tuple[float, float]:
    """The point half way along a scroll."""
    line, half = scroll.bar.line, scroll.bar.line.length / 2
    after = int(line.stations.searchsorted(half))
    chord = slice(after - 1, after + 1)
    (start, end), ((x, y), (u, v)) = line.stations[chord].tolist(), line.run[chord].tolist()
    share = (half - start) / (end - start)
    return x + share * (u - x), y + share * (v - y)


def unscaled(rule_id: str, panel: Panel) -> Result | None:
    """Why a rule that needs lengths is not judged, or None."""
    if panel.scale.known:
        return None
    why = "what states the drawing's size does not agree" if panel.scale.sources else "the drawing has no size"
    return not_applicable(rule_id, f"{why}, so no length can be measured", because="scale")


def without_scrolls(rule_id: str, panel: Panel) -> Result | None:
    """Why a rule about scrolls is not judged, or None."""
    if panel.scrolls:
        return None
    return not_applicable(rule_id, "the drawing has no scroll", because="scroll-count")


def without_frame(rule_id: str, panel: Panel, *, closed: bool = False) -> Result | None:
    """Why a rule that needs the frame (closed all round, where `closed`) is not judged, or None."""
    if panel.frame is None or panel.frame.metal is None:
        return not_applicable(rule_id, "the drawing has no frame whose metal is known", because="frame")
    if closed and (not panel.frame.closed or panel.frame.inner is None):
        return not_applicable(rule_id, "the frame is not closed all round", because="frame")
    return None


def unknown_widths(rule_id: str, bars: Sequence[Bar]) -> Result | None:
    """Why a rule about metal is not judged where the width of a bar is not known, or None."""
    bare = [bar.id for bar in bars if bar.metal is None]
    if not bare:
        return None
    are = "is" if len(bare) == 1 else "are"
    return not_applicable(
        rule_id,
        f"the width of {named(bare)} {are} not known: draw the stroke at the bar's width, or name the object with "
        f"its section, like scroll 6x12",
    )
