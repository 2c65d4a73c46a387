"""Names to scroll ends: each mark to one end, each end one mark, nearest pairs first."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from lint.drawing.drawn import Drawn, Words
from lint.panel.marks import BoxMark, box_marks, nearest_pairs
from lint.panel.parts import End, Origin, Point, Role, Scroll, Stray
from lint.panel.placing import Placing
from lint.panel.roles import folded, plain, role_in
from lint.sheet.sheet import Sheet

_GENERATED = re.compile(
    r"^(?:path|circle|rect|ellipse|polygon|polyline|line|text|tspan|use|g|group|svg|shape|layer|object|image|cls|st|fil|str)"
    r"[\s\d]*$"
)
_LISTED = re.compile(r"\s*(?:\(?\w{1,2}[.):]|#?\d{1,2}\b)\s*(?=\w)")
_MOST_WORDS = 30  # of a name that may be two names run together; a longer one is a sentence, or worse
_FAR = (1e9, 1e9)  # where no mark reaches: the ends of an outline that could not be read are not known


class Vocabulary:
    """The names of ends: spaces, hyphens, capitals and a plural s make no difference."""

    def __init__(self, names: Mapping[str, tuple[str, ...]]) -> None:
        self._names = {_key(word): name for name, words in names.items() for word in (name, *words)}

    def name(self, written: str) -> tuple[str, bool]:
        """(the end's name, whether the vocabulary has it); a name that it has not is kept as it is written."""
        for form in (written, *_without_role(written)):
            if known := self._known(form):
                return known, True
        bare = next(iter(_without_role(written)), written)
        return plain(bare) or folded(written), False

    def pair(self, words: str) -> tuple[str, str] | None:
        """Two names run together, as an editor's id leaves "ribbon / fishtail"; None unless both are known, or where
        there are more than 30 words."""
        parts = words.split(maxsplit=_MOST_WORDS)
        if len(parts) > _MOST_WORDS:
            return None
        for cut in range(1, len(parts)):
            first, second = " ".join(parts[:cut]), " ".join(parts[cut:])
            if self._known(first) and self._known(second):
                return first, second
        return None

    def _known(self, written: str) -> str | None:
        for form in (folded(written), plain(written)):
            key = _key(form)
            for spelling in (key, key.removesuffix("s")):
                if spelling in self._names:
                    return self._names[spelling]
        return None


@lru_cache(maxsize=4096)
def _key(written: str) -> str:
    return re.sub(r"[\W_]+", "", folded(written))


def _without_role(written: str) -> Iterator[str]:
    """The words after a leading "end" or "finial", or after a number or letter that lists them: "1. ribbon"."""
    if listed := _LISTED.match(written):
        yield written[listed.end() :]
    first, _, rest = folded(written).partition(" ")
    if role_in(first) is Role.END and rest:
        yield rest


def name_ends(
    scrolls: Sequence[Scroll], drawn: Sequence[Drawn], words: Sequence[Words], placing: Placing, sheet: Sheet
) -> tuple[tuple[Scroll, ...], tuple[Stray, ...]]:
    """The scrolls with their ends named by the marks beside them and by their own names; and what looks off."""
    speaking, silent = _split(box_marks(drawn, words, placing))
    vocabulary = Vocabulary(sheet.scroll_ends.vocabulary)
    places = [_FAR if scroll.bar.unread else end.at for scroll in scrolls for end in scroll.ends]
    pairs = nearest_pairs(speaking, places, sheet.scroll_ends.reach)
    taken = {place: speaking[mark] for mark, place in pairs.items()}
    own = [own_names(scroll, vocabulary) for scroll in scrolls]
    named = tuple(
        _named(scroll, own[k], (taken.get(2 * k), taken.get(2 * k + 1)), vocabulary) for k, scroll in enumerate(scrolls)
    )
    lone = [mark for k, mark in enumerate(speaking) if k not in pairs]
    return named, (*_lone(lone, places, sheet), *_silent(silent), *_two_ways(named, own, vocabulary))


def _split(marks: list[BoxMark]) -> tuple[list[BoxMark], list[BoxMark]]:
    says = [mark.spoken or _is_name(mark.words) for mark in marks]
    return [m for m, said in zip(marks, says, strict=True) if said], [
        m for m, s in zip(marks, says, strict=True) if not s
    ]


def _is_name(words: str) -> bool:
    """Whether a shape's own name can be an end's: neither an editor's own id nor the bare role word."""
    said = plain(words)
    return bool(said) and not _GENERATED.match(folded(words)) and not (role_in(said) is Role.END and " " not in said)


def _named(
    scroll: Scroll, own: tuple[str, str], marks: tuple[BoxMark | None, BoxMark | None], vocabulary: Vocabulary
) -> Scroll:
    ends = [
        _end(end, mark.words if mark else word, mark.origin if mark else scroll.bar.origin, vocabulary)
        for end, mark, word in zip(scroll.ends, marks, own, strict=True)
    ]
    return replace(scroll, ends=(ends[0], ends[1]))


def _end(end: End, written: str, origin: Origin, vocabulary: Vocabulary) -> End:
    if not written:
        return end
    name, known = vocabulary.name(written)
    return replace(end, name=name, written=written, known=known, origin=origin)


def own_names(scroll: Scroll, vocabulary: Vocabulary) -> tuple[str, str]:
    """The two names in a scroll's own name, in path order: "scroll: ribbon / fishtail"; "" where it gives none."""
    name = scroll.bar.origin.name
    after = re.split(r"[:=]", name, maxsplit=1)[-1] if re.search(r"[:=]", name) else ""
    parts = [part.strip() for part in after.split("/")]
    if len(parts) == 2 and all(parts):
        return parts[0], parts[1]
    rest = plain(name).partition(" ")[2]
    return vocabulary.pair(rest) or ("", "")


def _lone(marks: Sequence[BoxMark], places: Sequence[Point], sheet: Sheet) -> Iterator[Stray]:
    spots = np.array(places).reshape(-1, 2)
    for mark in marks:
        away = _away(mark, spots)
        if away > sheet.scroll_ends.reach:
            why = f'the end name "{mark.words[:80]}" stands by no scroll end'
            why += f": the nearest is {away:.0f} mm away" if np.isfinite(away) else ""
        else:
            why = f'the end name "{mark.words[:80]}" is one too many: the ends near it have names that stand nearer'
        yield Stray(rule="scroll-ends", sentence=why, origin=mark.origin, at=mark.at)


def _away(mark: BoxMark, spots: NDArray[np.float64]) -> float:
    """How far the nearest of the spots is outside the mark's box, mm; infinite where there is none."""
    left, top, right, bottom = mark.box
    across = np.maximum(np.maximum(left - spots[:, 0], spots[:, 0] - right), 0)
    down = np.maximum(np.maximum(top - spots[:, 1], spots[:, 1] - bottom), 0)
    return float(np.hypot(across, down).min(initial=np.inf))


def _silent(marks: Sequence[BoxMark]) -> Iterator[Stray]:
    for mark in marks:
        said = "a shape among the end marks has no name of its own; if it is text turned into outlines, keep it as text"
        yield Stray(rule="scroll-ends", sentence=said, origin=mark.origin, at=mark.at)


def _two_ways(named: Sequence[Scroll], own: Sequence[tuple[str, str]], vocabulary: Vocabulary) -> Iterator[Stray]:
    for scroll, words in zip(named, own, strict=True):
        for end, word in zip(scroll.ends, words, strict=True):
            if word and end.name != vocabulary.name(word)[0]:
                said = f'the scroll\'s own name calls this end "{word}", the mark beside it "{end.written}"'
                yield Stray(rule="scroll-ends", sentence=said, origin=scroll.bar.origin, at=end.at)
