"""Whether a panel has a size, without which no metal can be cut."""

from __future__ import annotations

from lint.errors import Refused
from lint.panel.panel import Panel
from lint.shown import shown

_STATE = 'State one on a scale layer ("1:4", "full size"), give the page a size in mm or in, or use --scale.'


def refuse_without_size(panel: Panel, path: str) -> None:
    """Raises Refused, with the mend, where nothing states the drawing's size or the statements contradict one
    another."""
    if panel.scale.known:
        return
    sources = panel.scale.sources
    if len(sources) < 2:
        raise Refused(f"{shown(path)}: the drawing has no scale, so no length can be given. {_STATE}")
    said = ", ".join(f"{source.by} ({shown(source.says, 40)})" for source in sources)
    raise Refused(
        f"{shown(path)}: what states the drawing's size does not agree, so no length can be given: {said}. "
        "Make them agree; the rule scale says by how much they differ."
    )
