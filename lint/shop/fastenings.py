"""Collars, rivets and screws as lines of the stock list."""

from __future__ import annotations

from itertools import groupby

from lint.panel.panel import Panel
from lint.panel.parts import Fastener
from lint.sheet.sheet import Section, Sheet
from lint.shop import collars, rivets, screws
from lint.shop.entries import CollarLine, RivetLine, ScrewLine
from lint.shop.held import Held, across_order, bars_held, lapped
from lint.shop.weights import mass
from lint.shop.wording import cut_to, section, with_unit

RIVET_HOLE = 0.5  # mm over the shank: small work 1/64 to 1/32 in (common practice, no source)


def collar_lines(panel: Panel, sheet: Sheet) -> tuple[CollarLine, ...]:
    """Each collar with the stock it takes by the sheet's rule."""
    return tuple(_collar(panel, f, sheet) for f in panel.fasteners if f.kind == "collar")


def rivet_lines(panel: Panel, sheet: Sheet) -> tuple[RivetLine, ...]:
    """Each rivet with its shank."""
    return tuple(_rivet(panel, f, sheet) for f in panel.fasteners if f.kind == "rivet")


def screw_lines(panel: Panel, sheet: Sheet) -> tuple[ScrewLine, ...]:
    """Each screw with what to drill and tap."""
    return tuple(_screw(panel, f, sheet) for f in panel.fasteners if f.kind == "screw")


def strip_of(sheet: Sheet) -> Section:
    """The collar's stock, its width along the bars first, then its thickness."""
    sides = (sheet.stock.collar.width, sheet.stock.collar.depth or sheet.stock.collar.width)
    return Section(width=max(sides), depth=min(sides))


def _name(fastener: Fastener) -> str:
    return fastener.origin.name or fastener.id


def _collar(panel: Panel, fastener: Fastener, sheet: Sheet) -> CollarLine:
    passes = across_order(bars_held(panel, fastener, sheet), fastener)
    bundle = tuple(collars.InBundle(width=one.section.width, depth=one.section.depth) for one in passes)
    strip = strip_of(sheet)
    rule = collars.rule_for(bundle, sheet.stock.collar_rule)
    around = collars.perimeter(bundle) if bundle else 0.0
    cut = cut_to(collars.stock_length(bundle, strip.depth or 0.0, rule.name), sheet.units) if bundle else 0.0
    return CollarLine(
        id=fastener.id,
        name=_name(fastener),
        holds=_each_once(passes),
        bundle=_bundle_words(passes, sheet.units),
        perimeter=around,
        strip=strip,
        rule=rule.name,
        k=rule.k,
        adds=rule.adds,
        source=rule.source,
        cut=cut,
        mass=mass(strip, cut, sheet.stock.density),
        notes=_collar_notes(passes, fastener, strip, sheet.units),
    )


def _each_once(held: tuple[Held, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one.name for one in held))


def _bundle_words(passes: tuple[Held, ...], units: str) -> str:
    said = [section(one.section, units) for one in passes]
    groups = [(words, len(list(alike))) for words, alike in groupby(said)]
    return " + ".join(f"{n} of {words}" if n > 1 else words for words, n in groups)


def _collar_notes(passes: tuple[Held, ...], fastener: Fastener, strip: Section, units: str) -> tuple[str, ...]:
    if len(passes) < 2:
        return ("it embraces fewer than two bars: see the rule collars",)
    notes = []
    if fastener.short > 0.5:
        notes.append(f"as drawn it is {with_unit(fastener.short, units)} short of embracing its bars")
    row = sum(one.section.width for one in passes)
    drawn = (min(fastener.size, key=lambda size: abs(size - row - 2 * (strip.depth or 0))) - row) / 2
    if abs(drawn - (strip.depth or 0)) > max(0.5, 0.35 * (strip.depth or 0)):
        notes.append(
            f"it is drawn for stock {with_unit(max(drawn, 0.0), units)} thick, the sheet has "
            f"{with_unit(strip.depth or 0, units)}"
        )
    return tuple(notes)


def _rivet(panel: Panel, fastener: Fastener, sheet: Sheet) -> RivetLine:
    held = bars_held(panel, fastener, sheet)
    shank = round(sum(fastener.size) / 2, 2)
    over = lapped(held, fastener)
    grip = sum(_through(one, over) for one in held)
    head = rivets.HEADS[sheet.stock.rivet_head]
    length = rivets.shank_length(grip=grip, shank=shank, hole=shank + RIVET_HOLE, head=head.name)
    cut = cut_to(length, sheet.units)
    fill = 0.0 if head.name.startswith("workshop") else rivets.hole_fill(grip, shank, shank + RIVET_HOLE)
    return RivetLine(
        id=fastener.id,
        name=_name(fastener),
        holds=_each_once(held),
        shank=shank,
        hole=shank + RIVET_HOLE,
        grip=grip,
        lies="front to back, through bars that lie over one another" if over else "in the plane, side by side",
        head=head.name,
        head_allowance=rivets.head_allowance(head.name, shank),
        fill=fill,
        source=head.source,
        cut=cut,
        mass=mass(Section(width=shank, depth=None), cut, sheet.stock.density),
        notes=_rivet_notes(held, shank + RIVET_HOLE, over),
    )


def _through(held: Held, over: bool) -> float:
    """How much of a bar the shank goes through, mm: its depth, or its seen width where bars lie side by side."""
    return (held.section.depth or held.section.width) if over else held.section.width


def _rivet_notes(held: tuple[Held, ...], hole: float, over: bool) -> tuple[str, ...]:
    if len(held) < 2:
        return ("it holds fewer than two bars: see the rule attachment",)
    sides = (one.section.width if over else one.section.depth or one.section.width for one in held)
    thin = any(hole > side / 3 + 0.01 for side in sides)
    return (
        ("its hole takes more than a third of a bar that it goes through (common practice: no more)",) if thin else ()
    )


def _screw(panel: Panel, fastener: Fastener, sheet: Sheet) -> ScrewLine:
    held = bars_held(panel, fastener, sheet)
    thread, said_by = screws.thread_for(sum(fastener.size) / 2, sheet.stock.screw)
    over = lapped(held, fastener)
    clear, tapped = _clear_and_tapped(panel, held, over)
    return ScrewLine(
        id=fastener.id,
        name=_name(fastener),
        holds=_each_once(held),
        thread=thread.name,
        thread_from=said_by,
        tap_drill=thread.drill_name,
        clearance=thread.clearance_name,
        engagement=min(thread.engagement, tapped) if tapped else thread.engagement,
        blind_depth=thread.blind_depth,
        least_length=clear + thread.engagement,
        notes=_screw_notes(held, thread, tapped, sheet.units),
    )


def _clear_and_tapped(panel: Panel, held: tuple[Held, ...], over: bool) -> tuple[float, float]:
    """How far the screw goes through the bars it passes, and how thick the one it is tapped into is, mm.

    It goes in through the frame's member (from its hidden outside) and is tapped into the infill; between two
    infill bars, into the thicker.
    """
    if not held:
        return 0.0, 0.0
    members = panel.frame.members if panel.frame else ()
    order = sorted(held, key=lambda one: (any(one.bar is member for member in members), -_through(one, over)))
    return sum(_through(one, over) for one in order[1:]), _through(order[0], over)


def _screw_notes(held: tuple[Held, ...], thread: screws.Thread, tapped: float, units: str) -> tuple[str, ...]:
    if len(held) < 2:
        return ("it holds fewer than two bars: see the rule attachment",)
    if tapped < thread.blind_depth:
        through = "tap right through" if tapped >= thread.engagement else "too thin for one diameter of thread"
        return (f"the bar to tap is {with_unit(tapped, units)} thick: {through}",)
    return ()
