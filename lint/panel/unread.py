"""What was not read, and the count of all that is on the page."""

from __future__ import annotations

from collections.abc import Sequence

from lint.drawing.drawn import Aside, Drawing, Drawn, Words
from lint.panel.origins import origin_of
from lint.panel.parts import Point, Role, Unread
from lint.panel.placing import Placing

NO_ROLE = "no role"
NO_LAYER = "(no layer)"
Sorted = Sequence[tuple[Role | None, Drawn | Words]]


def unread_of(sorted_items: Sorted, asides: Sequence[Aside], placing: Placing) -> tuple[Unread, ...]:
    """Objects that no role names, that are hidden or broken, by layer, in drawing order."""
    groups: dict[tuple[str, bool, str], list[Drawn | Words | Aside]] = {}
    for role, item in sorted_items:
        if role is None:
            groups.setdefault((item.layer or NO_LAYER, False, NO_ROLE), []).append(item)
    for aside in asides:
        if aside.why in ("hidden", "broken"):
            groups.setdefault((aside.layer or NO_LAYER, aside.why == "hidden", aside.why), []).append(aside)
    return tuple(
        Unread(
            layer=layer,
            objects=len(items),
            hidden=hidden,
            why=why,
            first=origin_of(items[0]),
            at=_at(items[0], placing),
            reason=_reason(items[0]),
        )
        for (layer, hidden, why), items in groups.items()
    )


def _reason(item: Drawn | Words | Aside) -> str:
    detail = item.detail.rstrip(".") if isinstance(item, Aside) and item.why == "broken" else ""
    return f"{detail[:1].lower()}{detail[1:]}"


def _at(item: Drawn | Words | Aside, placing: Placing) -> Point | None:
    if isinstance(item, Words):
        return placing.point(item.extent[:2])
    chains = item.chains if isinstance(item, Drawn) else ()
    first = next((chain.cubics[0, 0] for chain in chains if len(chain.cubics)), None)
    return None if first is None else placing.point((float(first[0]), float(first[1])))


def counts_of(sorted_items: Sorted, drawing: Drawing) -> dict[str, int]:
    """How many elements were read, read as words, passed over, hidden and unread: together, all of them."""
    counts = {"read": 0, "words": 0, "passed over": 0, "hidden": 0, "unread": 0}
    for role, item in sorted_items:
        if role is None:
            counts["unread"] += 1
        elif role is Role.NOTE:
            counts["passed over"] += 1
        else:
            counts["words" if isinstance(item, Words) else "read"] += 1
    for aside in drawing.asides:
        counts[{"hidden": "hidden", "broken": "unread"}.get(aside.why, "passed over")] += 1
    return counts
