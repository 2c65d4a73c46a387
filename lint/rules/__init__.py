"""The rules, in the order of the report. An explicit list: a reader sees the set, a typing tool can follow it."""

from __future__ import annotations

from lint.rules._rule import Rule
from lint.rules.approval import approval
from lint.rules.attachment import attachment
from lint.rules.balance import balance
from lint.rules.clearance import clearance
from lint.rules.collars import collars
from lint.rules.dimensions import dimensions
from lint.rules.fair_curve import fair_curve
from lint.rules.frame import frame
from lint.rules.frame_joints import frame_joints
from lint.rules.inside_radius import inside_radius
from lint.rules.layers import layers
from lint.rules.pass_through import pass_through
from lint.rules.scale import scale
from lint.rules.scroll_count import scroll_count
from lint.rules.scroll_ends import scroll_ends
from lint.rules.scroll_match import scroll_match
from lint.rules.square_corners import square_corners

RULES: tuple[Rule, ...] = (
    scale,
    layers,
    frame,
    square_corners,
    inside_radius,
    frame_joints,
    scroll_count,
    scroll_match,
    balance,
    fair_curve,
    scroll_ends,
    collars,
    attachment,
    clearance,
    pass_through,
    dimensions,
    approval,
)
