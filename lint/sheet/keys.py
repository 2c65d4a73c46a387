"""Every key of a sheet, and what its value must be. A test holds this table to the classes of `sheet.py`."""

from __future__ import annotations

from pathlib import Path

from lint.sheet.values import (
    Reader,
    above_zero,
    at_most,
    count,
    every,
    flag,
    length,
    number,
    one_of,
    role,
    section,
    standard,
    text,
)

# A rule is a file of that folder: its name is read, and nothing of it loaded, so that a sheet may name any rule.
RULE_IDS = tuple(
    sorted(
        file.stem.replace("_", "-")
        for file in (Path(__file__).parent.parent / "rules").glob("*.py")
        if not file.stem.startswith("_")
    )
)

_FASTENERS = one_of("rivet", "collar", "screw", "weld")

KEYS: dict[str, Reader] = {
    "name": text,
    "title": text,
    "units": one_of("mm", "in"),
    "rules_off": every(one_of(*RULE_IDS)),
    "scale.label_ratio": at_most(0.5),
    "scale.label_length": length,
    "frame.angle": at_most(45),
    "frame.sides": length,
    "frame.diagonals": length,
    "frame.gap": length,
    "square_corners.least": count,
    "square_corners.outside_radius": at_most(10),
    "inside_radius.least": count,
    "inside_radius.smallest": length,
    "inside_radius.largest": at_most(100),
    "frame_joints.least": count,
    "frame_joints.kinds": every(text, 1),
    "frame_joints.reach": above_zero(length),
    "scroll_count.least": count,
    "scroll_count.turn": at_most(3600),
    "scroll_match.overlay": length,
    "scroll_match.ends_left_out": at_most(100),
    "scroll_match.width": length,
    "balance.within": length,
    "balance.fails": flag,
    "fair_curve.kink": at_most(180),
    "fair_curve.inner_radius": at_most(100),
    "fair_curve.fails": flag,
    "scroll_ends.least": count,
    "scroll_ends.reach": above_zero(length),
    "collars.each_scroll": flag,
    "attachment.least": count,
    "attachment.allowed": every(_FASTENERS, 1),
    "clearance.overlap": length,
    "clearance.clear": length,
    "clearance.fails": flag,
    "pass_through.sphere": above_zero(length),
    "pass_through.strict": flag,
    "pass_through.band": length,
    "pass_through.fasteners_are_metal": flag,
    "pass_through.source": text,
    "dimensions.length": length,
    "dimensions.ratio": at_most(0.5),
    "dimensions.reach": above_zero(length),
    "dimensions.overall": flag,
    "dimensions.families": flag,
    "approval.required": flag,
    "stock.frame": section,
    "stock.scroll": section,
    "stock.bar": section,
    "stock.collar": section,
    "stock.collar_rule": one_of("butt", "lap", "2.5 t", "3 t", "round", "mitred"),
    "stock.rivet_head": one_of(
        "snap",
        "countersunk",
        "raised countersunk 60",
        "raised countersunk 45",
        "round",
        "workshop snap",
        "workshop flush",
    ),
    "stock.screw": one_of("M4", "M5", "M6", "M8", "M10", "#10-24", "1/4-20", "5/16-18", "3/8-16"),
    "stock.sizes": every(above_zero(length), 1),
    "stock.lengths": every(above_zero(length), 1),
    "stock.kerf": length,
    "stock.density": above_zero(number),
    "allowances.forged_corner": at_most(100),
    "allowances.tenon": at_most(100),
    "allowances.trim": length,
    "allowances.scaling": at_most(1),
    "tolerances.contact": length,
    "tolerances.overall": length,
    "tolerances.scroll": length,
    "tolerances.fastener": length,
    "tolerances.opening": length,
    "tolerances.radius": length,
    "tolerances.angle": at_most(90),
    "tolerances.standard": standard,
}

# What a plain number counts; every other number that is no whole one is a length in mm.
COUNTED = {
    "scale.label_ratio": "as a ratio",
    "frame.angle": "degrees",
    "square_corners.outside_radius": "bar widths",
    "inside_radius.largest": "bar widths",
    "scroll_count.turn": "degrees",
    "scroll_match.ends_left_out": "bar widths",
    "fair_curve.kink": "degrees",
    "fair_curve.inner_radius": "bar widths",
    "dimensions.ratio": "as a ratio",
    "stock.density": "kg/m3",
    "allowances.forged_corner": "bar widths",
    "allowances.tenon": "bar widths",
    "allowances.scaling": "as a ratio",
    "tolerances.angle": "degrees",
}

# Tables whose keys are the instructor's own words; what a sheet says is added to what it is based on.
TABLES: dict[str, Reader] = {
    "scroll_ends.vocabulary": every(text),
    "allowances.ends": at_most(1000),
    "layers": role,
}

APART = ("based_on", "waive", "sources")  # read on their own
SECTIONS = tuple(dict.fromkeys(key.split(".")[0] for key in (*KEYS, *TABLES) if "." in key))
