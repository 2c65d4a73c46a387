"""The metal of a bar: a centreline with a width."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from lint.geometry.area import Area, quarter_steps
from lint.geometry.combined import joined, widened
from lint.geometry.curve import SAME_POINT, Curve, dot, vertex_turns
from lint.geometry.rings import filled

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

# SVG 1.1, 11.4: a mitre longer than this many line widths is cut off.
MITRE_LIMIT = 4.0

# The cosine of the turn at which a mitre is as long as SVG's limit: 1 / sin(a / 2) = 4 for the angle a left between the
# edges; and a turn, in degrees, from which the edges of a tapered bar are no longer drawn in one go.
MITRED = 2 / MITRE_LIMIT**2 - 1
SHARP = 100.0

# A closed line that encloses a smaller share of its length squared runs back on itself: shapely widens such a ring to
# one side only.
FLAT = 1e-12

CAPS = ("butt", "round", "square")

# A line that turns by more than this many whole turns may cross itself so often that widening it in one go costs the
# square of its length (a scribble of 1,000 chords: 5 s against 0.1 s) or all memory. No scroll turns a tenth as far.
WILD_TURNS = 24.0

AT_ONCE = 64  # bars whose edges are made in one go, and must fit in the memory several times


def band(line: Curve, width: float | Floats, *, cap: str = "butt", square_corners: bool = True) -> Area:
    """The area within half the width of `line`, mm; sagitta under 0.005 mm.

    `width` is one figure or one for each point of the line (a tapered bar). `cap` is "butt", "round" or
    "square" (SVG 1.1, 11.4). `square_corners` mitres true corners of the line, as SVG's default join does;
    without it they are rounded. Turns that touch or overlap are one area.

    Raises ValueError where a width is not finite or not over 0 (a tapered bar may come to 0), where the widths do
    not fit the points, and for another cap.
    """
    if cap not in CAPS:
        raise ValueError(f'a cap is one of {", ".join(CAPS)}, not "{cap}"')
    if not np.isscalar(width):
        return _tapered(line, np.asarray(width, dtype=np.float64), cap)
    return _widened([line], np.array([width], dtype=np.float64), cap, square_corners)[0]


def bands(lines: Sequence[Curve], widths: Sequence[float], caps: Sequence[str]) -> tuple[Area, ...]:
    """`band` for many bars at once (one call into the geometry library for each kind of cap)."""
    made: list[Area | None] = [None] * len(lines)
    unknown = sorted(set(caps) - set(CAPS))
    if unknown:
        raise ValueError(f'a cap is one of {", ".join(CAPS)}, not "{unknown[0]}"')
    for cap in CAPS:
        which = [i for i, one in enumerate(caps) if one == cap]
        if which:
            areas = _widened([lines[i] for i in which], np.array([widths[i] for i in which], dtype=float), cap, True)
            for i, one in zip(which, areas, strict=True):
                made[i] = one
    return tuple(one for one in made if one is not None)


def _widened(lines: Sequence[Curve], widths: Floats, cap: str, square_corners: bool) -> list[Area]:
    if not (np.isfinite(widths).all() and (widths > 0).all()):
        raise ValueError("the width of a bar must be over 0 and finite")
    made = _plain(lines, widths) if cap == "butt" and square_corners else {}
    left = [i for i in range(len(lines)) if i not in made]
    tame = [i for i in left if not _is_wild(lines[i])]
    for i in set(left) - set(tame):
        made[i] = _wild(lines[i], float(widths[i]), cap)
    if tame:
        made |= dict(zip(tame, _buffered([lines[i] for i in tame], widths[tame], cap, square_corners), strict=True))
    return [made[i] for i in range(len(lines))]


def _buffered(lines: Sequence[Curve], widths: Floats, cap: str, square_corners: bool) -> list[Area]:
    strokes: Any = np.array([_stroke(line) for line in lines], dtype=object)
    shapes = widened(
        strokes,
        widths / 2,
        quad_segs=quarter_steps(float(widths.max()) / 2),
        cap_style={"butt": "flat", "round": "round", "square": "square"}[cap],
        join_style="mitre" if square_corners else "round",
        mitre_limit=MITRE_LIMIT,
    )
    return [Area(shape) for shape in shapes]


def _plain(lines: Sequence[Curve], widths: Floats) -> dict[int, Area]:
    """The metal of each open bar that neither turns sharply nor meets itself, by its place in the list: what lies
    between its two edges.

    Exact: its size is width times length (Pappus), where the geometry library's own widening leaves a burr of some
    hundredths of a millimetre at a short chord. And quicker.
    """
    made: dict[int, Area] = {}
    still = [i for i, line in enumerate(lines) if not line.closed]
    for some in (still[k : k + AT_ONCE] for k in range(0, len(still), AT_ONCE)):
        counts = np.array([len(lines[i].points) for i in some])
        edges, plain = _edges([lines[i] for i in some], np.repeat(widths[some], counts))
        if plain.any():
            of = np.repeat(np.arange(np.count_nonzero(plain)), 2 * counts[plain])
            shapes: Any = shapely.polygons(shapely.linearrings(edges[np.repeat(plain, 2 * counts)], indices=of))
            fits = zip(np.array(some)[plain].tolist(), shapes, shapely.is_valid(shapes).tolist(), strict=True)
            made |= {i: Area(shape) for i, shape, valid in fits if valid}
    return made


def _is_wild(line: Curve) -> bool:
    """Whether a line is a scribble, or a ring that runs back on itself."""
    flat = line.closed and line.enclosed <= FLAT * line.length**2
    return flat or float(np.abs(vertex_turns(line)).sum() / 360) > WILD_TURNS


def _stroke(line: Curve) -> Any:
    """The line for shapely; a closed one as a ring, so that its closing corner is joined and not capped."""
    return (shapely.linearrings if line.closed and len(line.points) > 2 else shapely.linestrings)(line.run)


def _wild(line: Curve, width: float, cap: str) -> Area:
    """A scribble, chord by chord, its corners mitred. A stretch drawn over and over counts once."""
    widths = np.full(len(line.points), width)
    ends = [] if line.closed or cap == "butt" else _end_pieces(line, widths, cap)
    return Area(joined([_by_pieces(line, widths), *ends]))


def _tapered(line: Curve, widths: Floats, cap: str) -> Area:
    if widths.shape != (len(line.points),):
        raise ValueError(f"{len(line.points)} points need as many widths, not {widths.shape}")
    if not np.isfinite(widths).all() or (widths < 0).any() or not (widths > 0).any():
        raise ValueError("the widths of a bar must be finite and not under 0")
    ends = [] if line.closed or cap == "butt" else _end_pieces(line, widths, cap)
    edges, plain = _edges([line], widths)
    whole = filled([edges[::-1]], evenodd=False) if plain.all() and not line.closed else _by_pieces(line, widths)
    return Area(joined([whole, *ends]) if ends else whole)


def _edges(lines: Sequence[Curve], widths: Floats) -> tuple[Floats, Flags]:
    """The edges of open bars, each point moved half its width across the line: there on one side and back on the other,
    bar by bar (2 n, 2) for as many widths (n,) as points. And whether each bar is no scribble, turns nowhere sharply
    nor about a centre that lies in its own metal: there an edge runs backwards, and the area between is not the bar's.
    """
    points = np.concatenate([line.points for line in lines]).view(np.complex128)[:, 0]
    counts = np.array([len(line.points) for line in lines])
    stops = np.cumsum(counts)
    starts, here = stops - counts, np.arange(len(points))
    come, leave = here - 1, here.copy()  # the chords that come to each point and that leave it
    come[starts] += 1
    leave[stops - 1] -= 1
    chords = points[1:] - points[:-1]
    lengths = np.maximum(np.abs(chords), SAME_POINT)  # from the end of one bar to the next there may be nothing
    units = chords * (1 / lengths)  # a product, for numpy is slow to divide complex numbers
    before, after = units[come], units[leave]
    turns = np.abs(np.angle(after * before.conj()))
    bad = (turns > np.radians(SHARP)) | (turns * widths > lengths[come] + lengths[leave])
    plain = ~np.logical_or.reduceat(bad, starts) & (np.add.reduceat(turns, starts) <= 2 * np.pi * WILD_TURNS)
    mean = before + after
    across = -1j * mean * (2 / np.maximum(mean.real**2 + mean.imag**2, 1e-12)) * (widths / 2)
    edges = np.empty(2 * len(points), dtype=np.complex128)
    edges[here + np.repeat(starts, counts)] = points - across
    edges[np.repeat(2 * stops + starts - 1, counts) - here] = points + across
    return edges.view(np.float64).reshape(-1, 2), plain


def _units(line: Curve) -> tuple[Floats, Floats]:
    """The directions of the chords that come to each point and that leave it, as unit vectors."""
    run = line.run
    chords = run[1:] - run[:-1]
    units = chords / np.hypot(chords[:, 0], chords[:, 1])[:, None]
    if line.closed:
        return np.roll(units, 1, axis=0), units
    return np.concatenate([units[:1], units]), np.concatenate([units, units[-1:]])


def _mitres(before: Floats, after: Floats) -> Floats:
    """Out of the line on its left hand, by the length of a mitre over half a width: 1 / cos(half the turn)."""
    mean = before + after
    mean /= 0.5 * np.maximum(dot(mean, mean), 1e-12)[:, None]
    return np.column_stack([mean[:, 1], -mean[:, 0]])


def _by_pieces(line: Curve, widths: Floats) -> Any:
    """A bar whose edges cross: its chords and its corners one by one, each the hull of its points, as one area."""
    before, after = _units(line)
    half = (widths / 2)[:, None]
    come, leave = _left(before) * half, _left(after) * half
    at = line.points
    following = np.roll(np.arange(len(at)), -1) if line.closed else np.arange(1, len(at))
    start = np.arange(len(following))
    chords = np.stack([at[start] + leave[start], at[start] - leave[start],
                       at[following] + come[following], at[following] - come[following]], axis=1)  # fmt: skip
    outer = np.where((before[:, 0] * after[:, 1] > before[:, 1] * after[:, 0])[:, None], 1.0, -1.0)
    mitre = np.where(((before * after).sum(axis=1) > MITRED)[:, None], _mitres(before, after) * half, come)
    corners = np.stack([at + outer * come, at + outer * leave, at + outer * mitre, at], axis=1)
    pieces = np.concatenate([chords, corners])
    points = np.sort(np.ascontiguousarray(pieces).view(np.complex128)[..., 0], axis=1)
    distinct = np.unique(points, axis=0).view(np.float64).reshape(-1, 4, 2)
    hulls: Any = shapely.convex_hull(shapely.multipoints(list(distinct)))
    return joined(hulls[shapely.get_type_id(hulls) == 3])


def _left(units: Floats) -> Floats:
    return np.column_stack([units[:, 1], -units[:, 0]])


def _end_pieces(line: Curve, widths: Floats, cap: str) -> list[Any]:
    """What a round or a square cap adds to a tapered bar, at either end."""
    pieces = []
    for at, to, width in (
        (line.points[0], line.points[1], widths[0]),
        (line.points[-1], line.points[-2], widths[-1]),
    ):
        if width > 0:
            out = (at - to) / np.hypot(*(at - to)) * width / 2
            stub = shapely.linestrings([at, at + out])
            round_end = widened(shapely.points(at), width / 2, quad_segs=quarter_steps(width / 2))
            pieces.append(round_end if cap == "round" else widened(stub, width / 2, cap_style="flat"))
    return pieces
