"""Names of layers that a call adds to the sheet: "Ebene 2=scrolls", "#c00000=rivets"."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import replace

from lint.sheet.sheet import Sheet
from lint.sheet.values import role, wrong
from lint.sheet.whole import COLOUR, six


def with_names(sheet: Sheet, pairs: Sequence[str]) -> Sheet:
    """The sheet with more names for roles. Raises BadSheet with a sentence for each pair that is none."""
    if not pairs:
        return sheet
    layers, colours, problems = dict(sheet.layers), dict(sheet.colours), []
    for pair in pairs:
        name, equals, word = pair.rpartition("=")
        try:
            if not equals or not name.strip():
                raise ValueError('expected NAME=ROLE, like --layer "Ebene 2=scrolls".')
            given = role(word, "mm")
        except ValueError as trouble:
            problems.append(f'--layer "{pair}": {trouble}')
            continue
        if COLOUR.fullmatch(name.strip()):
            colours[six(name.strip())] = given
        else:
            layers[name.strip()] = given
    if problems:
        raise wrong(*problems)
    seen = hashlib.sha256("\n".join((sheet.digest, *sorted(pairs))).encode()).hexdigest()
    return replace(sheet, layers=layers, colours=colours, digest=seen)
