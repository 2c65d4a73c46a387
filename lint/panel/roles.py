"""Which object is what: a role comes from a name (drawing convention, section 1)."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache

from lint.drawing.drawn import Drawn, Naming, Words
from lint.panel.parts import Role
from lint.sheet.sheet import Sheet
from lint.sheet.values import ROLES

MARKS = frozenset({Role.JOINT, Role.END, Role.RADIUS, Role.DIMENSION, Role.SCALE})  # what live text can be
BARS = frozenset({Role.FRAME, Role.SCROLL, Role.BAR, Role.SAMPLE})
FASTENERS = frozenset({Role.COLLAR, Role.RIVET, Role.SCREW, Role.WELD})
_PLAIN = {word: Role(role) for word, role in ROLES.items()}
_SILENT = frozenset({"layer", "layers", "fastener", "fasteners"})  # their children's names speak

_BYTES = re.compile(r"""^b(['"])(.*)\1$""", re.DOTALL)  # a Python bytes literal that one CAD program writes as a title
_HUMP = re.compile(r"(?<=[a-zà-öø-ÿ])(?=[A-ZÀ-ÖØ-Þ])")
_FOLDED = re.compile(r"[\s_\-.:/#()=,;&+]+")
_COUNTER = re.compile(r"\d+$")
_SUFFIX = re.compile(r"(?: (?:\d+|copy|copies|kopie|copie|copia))+$")


@lru_cache(maxsize=4096)
def folded(name: str) -> str:
    """The name as names are compared: NFKC, case folded, `_ - . : / # ( )` as single spaces."""
    bytes_repr = _BYTES.match(name.strip())
    text = unicodedata.normalize("NFKC", bytes_repr.group(2) if bytes_repr else name)
    return _FOLDED.sub(" ", _HUMP.sub(" ", text).casefold()).strip()


def plain(name: str) -> str:
    """The folded name without a trailing counter or copy suffix: "Fishtail copy 3" is "fishtail"."""
    return _COUNTER.sub("", _SUFFIX.sub("", folded(name))).strip()


def role_in(name: str) -> Role | None:
    """The role that a name begins with: "scroll-left", "Frames", "frame2", "layer: rivets"; else None."""
    words = folded(name).split()
    while len(words) > 1 and words[0] in _SILENT:
        words = words[1:]
    return role_word(words[0]) if words else None


def role_word(word: str) -> Role | None:
    """The role of one word, singular or plural, a counter joined to it dropped."""
    bare = _COUNTER.sub("", word)
    for form in (bare, bare.removesuffix("s"), bare.removesuffix("es")):
        if form in _PLAIN:
            return _PLAIN[form]
    return None


class Roles:
    """Names to roles, with what the sheet's `[layers]` and `[colours]` add."""

    def __init__(self, sheet: Sheet) -> None:
        added = ((folded(name), role_word(folded(word))) for name, word in sheet.layers.items())
        self._added = sorted(((n, r) for n, r in added if n and r), key=lambda pair: -len(pair[0]))
        self._colours = {colour.casefold(): role_word(folded(word)) for colour, word in sheet.colours.items()}
        self._seen: dict[str, Role | None] = {}

    def of(self, item: Drawn | Words) -> Role | None:
        """The role of one object: its own name first, then its ancestors' from the inside out, then the name of
        what it is a clone of, then its colour. Live text can only be a mark or a note: on a layer of metal
        it is a label, which is a note."""
        names = _names((item.own, *item.above, *((item.clone_of,) if item.clone_of else ())))
        roles = [role for role in map(self._role, names) if role]
        if isinstance(item, Words):
            speaking = [role for role in roles if role in MARKS or role is Role.NOTE]
            return speaking[0] if speaking else (Role.NOTE if roles else self._by_colour(item.colour))
        return roles[0] if roles else self._by_colour(item.paint.stroke or item.paint.fill)

    def _role(self, name: str) -> Role | None:
        if name not in self._seen:
            self._seen[name] = self._added_role(folded(name)) or role_in(name)
        return self._seen[name]

    def _added_role(self, name: str) -> Role | None:
        """A mapped name fits where it is the whole name or its first words; the longest that fits decides."""
        for key, role in self._added:
            rest = name.removeprefix(key)
            if name.startswith(key) and (not rest or rest[0] == " " or (rest.isdigit() and not key[-1].isdigit())):
                return role
        return None

    def _by_colour(self, colour: str | None) -> Role | None:
        return self._colours.get(colour.casefold()) if colour else None


def _names(namings: Iterable[Naming]) -> list[str]:
    return [name for naming in namings for name in naming.names]


def name_given(item: Drawn | Words) -> str:
    """What a person called this one object: its own first name, else its original's, else ""."""
    own = item.own.names or (item.clone_of.names if item.clone_of else ())
    return own[0] if own else ""
