"""How the shop's papers say lengths, sections and masses; the cautions; and names escaped."""

from __future__ import annotations

import html
import math
from collections.abc import Sequence
from fractions import Fraction

from lint.lengths import INCH, say
from lint.sheet.sheet import Section
from lint.shop.weights import POUND
from lint.shown import LONGEST, shown

FINEST = 32  # parts of an inch that a rule shows

CAUTIONS = (
    "Never forge or weld galvanised stock: zinc fume gives a fever hours later (AWS Safety and Health Fact Sheet 25).",
    "Wear eye protection with side shields against flying scale (29 CFR 1910.133), hearing protection, "
    "natural-fibre clothes and closed shoes; keep water, first aid and a fire watch at hand (common practice).",
    "Cut and forge one trial piece first: heats lose metal to scale, and a drawing cannot tell how you hammer.",
    "This is reckoned from a drawing. It is no check of structure or code: loads, fixings, climbing, pools, stairs, "
    "escape windows and fire routes are for the local code and a licensed person to decide.",
    "Try the forged piece all over with a real ball of the sheet's size, under a push; leave no sharp end within "
    "reach, nor a crotch that narrows downward and can catch a neck or clothing.",
)


def not_approved(failing: Sequence[str]) -> str:
    """One sentence on the rules that the drawing fails, or "" where it fails none."""
    return f"Not approved: the drawing fails {', '.join(failing)}. Mend it before metal is cut." if failing else ""


def escaped(name: str, most: int = LONGEST) -> str:
    """`shown`, with markup made plain text for HTML and SVG."""
    return html.escape(shown(name, most), quote=True)


def fraction(mm: float, finest: int = FINEST) -> str:
    """Inches as a mixed fraction to 1/`finest`, nearest: 24 1/8. Without the unit."""
    parts = Fraction(round(mm / INCH * finest), finest)
    whole, rest = divmod(abs(parts), 1)
    sign = "-" if parts < 0 else ""
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"


def length(mm: float, units: str, decimals: int = 1) -> str:
    """A length for a table whose head names the unit: 612.5, or 24 1/8."""
    return fraction(mm) if units == "in" else f"{mm:.{decimals}f}"


def with_unit(mm: float, units: str, decimals: int = 1) -> str:
    """A length that stands alone: 612.5 mm, or 24 1/8 in, with the decimal beside a fraction that is not exact."""
    return say(mm, "in") if units == "in" else f"{length(mm, units, decimals)} mm"


def trimmed(mm: float, units: str) -> str:
    """A nominal size: 12, 6.5, or 1/2; metric bar on an inch sheet keeps its metric name, 12 mm."""
    metric = f"{mm:.2f}".rstrip("0").rstrip(".")
    if units != "in":
        return metric
    parts = mm / INCH * FINEST
    odd = abs(parts - round(parts)) * INCH / FINEST > 0.05
    return f"{metric} mm" if odd and abs(mm - round(mm)) < 0.05 else fraction(mm)


def section(of: Section, units: str) -> str:
    """Width seen x depth, or a round bar's diameter: 6 x 12, 1/4 x 1/2, Ø12."""
    if of.depth is None:
        return f"Ø{trimmed(of.width, units)}"
    return f"{trimmed(of.width, units)} x {trimmed(of.depth, units)}"


def mass(kg: float, units: str) -> str:
    """A mass with its unit: 0.45 kg, or 0.99 lb on an inch sheet."""
    return f"{kg / POUND:.2f} lb" if units == "in" else f"{kg:.2f} kg"


def cut_to(mm: float, units: str) -> float:
    """The length in mm to set the saw to: up to the next whole millimetre, or 1/16 in (common practice)."""
    step = INCH / 16 if units == "in" else 1.0
    return math.ceil(mm / step - 1e-6) * step
