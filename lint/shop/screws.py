"""Hidden screws: what to drill, what to tap.

Metric tap drills: Mechanical Engineer's Data Handbook, s. 8.2.4; ISO 2306. Metric clearance holes: ISO 273.
Inch drills and minor diameters: a university drill chart. Lengths in mm inside, whatever the thread.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from lint.lengths import INCH
from lint.values import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """A screw thread: outside diameter, pitch, tap drill and clearance hole in mm; the drills' names as on the
    box ("#7", "5.0 mm")."""

    name: str
    across: float
    pitch: float
    tap_drill: float
    clearance: float
    drill_name: str
    clearance_name: str

    @property
    def minor(self) -> float:
        """Minor diameter of the nut thread in mm: d - 1.0825 P (60 degree thread form, ISO 68-1)."""
        return self.across - 1.0825 * self.pitch

    @property
    def root(self) -> float:
        """Root diameter of the screw itself in mm: d - 1.22687 P (H = 0.866025 P; 17/24 H each side, ISO 68-1)."""
        return self.across - 1.22687 * self.pitch

    @property
    def full_thread(self) -> float:
        """Depth of thread that the tap drill leaves, in per cent: 100 (d - drill) / (1.299 P)."""
        return 100 * (self.across - self.tap_drill) / (1.299 * self.pitch)

    @property
    def engagement(self) -> float:
        """Least thread in the tapped bar in mm, one diameter (common practice, no source)."""
        return self.across

    @property
    def blind_depth(self) -> float:
        """Drilled depth of a blind hole in mm: the engagement and three pitches (common practice, no source)."""
        return self.engagement + 3 * self.pitch


def _metric(name: str, across: float, pitch: float, drill: float, clearance: float) -> Thread:
    return Thread(
        name=name,
        across=across,
        pitch=pitch,
        tap_drill=drill,
        clearance=clearance,
        drill_name=f"{drill} mm",
        clearance_name=f"{clearance} mm",
    )


def _inch(name: str, across: float, per_inch: int, drill: tuple[float, str], clearance: float) -> Thread:
    return Thread(
        name=name,
        across=across * INCH,
        pitch=INCH / per_inch,
        tap_drill=drill[0] * INCH,
        clearance=clearance * INCH,
        drill_name=drill[1],
        clearance_name=f"{clearance:.3f} in",
    )


THREADS: Mapping[str, Thread] = MappingProxyType(
    {
        thread.name: thread
        for thread in (
            # ISO 273, medium series
            _metric("M4", 4, 0.7, 3.3, 4.5),
            _metric("M5", 5, 0.8, 4.2, 5.5),
            _metric("M6", 6, 1.0, 5.0, 6.6),
            _metric("M8", 8, 1.25, 6.8, 9.0),
            _metric("M10", 10, 1.5, 8.5, 11.0),
            # drill chart, free fit
            _inch("#10-24", 0.190, 24, (0.1495, "#25 (0.1495 in)"), 0.201),
            _inch("1/4-20", 0.250, 20, (0.201, "#7 (0.201 in)"), 0.266),
            _inch("5/16-18", 0.3125, 18, (0.257, "F (0.257 in)"), 0.332),
            _inch("3/8-16", 0.375, 16, (0.3125, "5/16 in"), 0.397),
        )
    }
)


def thread_for(drawn: float, asked: str) -> tuple[Thread, str]:
    """The thread of a screw drawn `drawn` mm across, and who says so.

    The sheet's thread `asked` holds, unless the mark on the drawing is within 0.3 mm of another thread of the
    same kind and the sheet's own is not. KeyError where the table does not have `asked`.
    """
    sheet_says = THREADS[asked]
    inch_kind = not asked.startswith("M")
    alike = [t for t in THREADS.values() if t.name.startswith("M") != inch_kind]
    nearest = min(alike, key=lambda thread: abs(thread.across - drawn))
    if abs(sheet_says.across - drawn) > 0.3 >= abs(nearest.across - drawn):
        return nearest, "size of the mark on the drawing"
    return sheet_says, "sheet"
