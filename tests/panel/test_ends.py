"""Names to scroll ends. The vocabulary is the sheet's own; spellings are those that smiths and editors vary."""

from __future__ import annotations

from itertools import permutations

import pytest

from lint.panel.ends import Vocabulary
from lint.panel.panel import Panel
from lint.result import Kind
from tests.panel.pages import SCROLL, SHEET, judged, panel_of

# Two plain C shapes; their ends at (100, 100), (100, 200) and (300, 100), (300, 200).
LEFT, RIGHT = "M100,100 C40,100 40,200 100,200", "M300,100 C360,100 360,200 300,200"


def drawn(marks: str, left: str = "scroll-1", right: str = "scroll-2") -> Panel:
    scrolls = (
        f'<path inkscape:label="{left}" d="{LEFT}" {SCROLL}/><path inkscape:label="{right}" d="{RIGHT}" {SCROLL}/>'
    )
    return panel_of(f'<g id="scrolls">{scrolls}</g><g id="ends">{marks}</g>')


def text(x: float, y: float, words: str) -> str:
    return f'<text x="{x}" y="{y}" font-size="5">{words}</text>'


def names(panel: Panel) -> list[str | None]:
    return [end.name for scroll in panel.scrolls for end in scroll.ends]


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("ribbon", "ribbon"),
        ("Ribbon End", "ribbon"),
        ("FISH-TAIL", "fishtail"),
        ("fish_x5F_tail", None),  # escapes are the reader's to undo
        ("half penny", "halfpenny snub"),
        ("Half-Penny Snub", "halfpenny snub"),
        ("ha\u2019penny", "halfpenny snub"),
        ("beveled", "bevelled"),
        ("bevelled ends", "bevelled"),
        ("blown over leaf", "blow-over leaf"),
        ("Blow-over", "blow-over leaf"),
        ("leaves", None),
        ("leafs", "leaf"),
        ("ball 2", "ball"),
        ("ball copy 3", "ball"),
        ("end: ball", "ball"),
        ("finial - rat tail", "rat tail"),
        ("snub", "snub"),
        ("1. ribbon", "ribbon"),
        ("(a) fish tail", "fishtail"),
        ("3 ball", "ball"),
        ("dragon head", None),
    ],
)
def test_one_end_under_many_spellings(written: str, name: str | None) -> None:
    found, known = Vocabulary(SHEET.scroll_ends.vocabulary).name(written)
    assert known == (name is not None)
    if name:
        assert found == name


def test_every_name_of_the_sheet_is_known_in_its_plural_and_hyphened() -> None:
    vocabulary = Vocabulary(SHEET.scroll_ends.vocabulary)
    for name, others in SHEET.scroll_ends.vocabulary.items():
        for word in (name, *others):
            for form in (word, word.upper(), word.replace(" ", "-"), word.replace(" ", ""), f"{word}s", f"{word} 2"):
                assert vocabulary.name(form) == (name, True), form


def test_each_end_takes_the_name_beside_it() -> None:
    panel = drawn(text(105, 100, "ribbon") + text(105, 200, "ball") + text(270, 100, "leaf") + text(270, 205, "snub"))
    assert names(panel) == ["ribbon", "ball", "leaf", "snub"]


@pytest.mark.parametrize("order", list(permutations(range(4)))[::5])
def test_the_order_of_the_marks_makes_no_difference(order: tuple[int, ...]) -> None:
    marks = [text(105, 100, "ribbon"), text(105, 200, "ball"), text(270, 100, "leaf"), text(270, 205, "snub")]
    assert names(drawn("".join(marks[k] for k in order))) == ["ribbon", "ball", "leaf", "snub"]


def test_two_names_beside_one_end_leave_one_over() -> None:
    panel = drawn(text(104, 100, "ribbon") + text(112, 108, "ball"))
    assert names(panel) == ["ribbon", None, None, None]
    assert any("one too many" in stray.sentence for stray in panel.strays)


def test_a_name_beyond_the_reach_is_nobodys() -> None:
    """The sheet's reach is 40 mm."""
    assert names(drawn(text(139, 100, "ribbon")))[0] == "ribbon"
    panel = drawn(text(141, 100, "ribbon"))
    assert names(panel) == [None] * 4
    assert any("41 mm away" in stray.sentence for stray in panel.strays)


def test_a_named_shape_is_a_mark_too() -> None:
    shapes = '<circle id="fishtail" cx="104" cy="96" r="3"/><path inkscape:label="bolt end" d="M104,204 h5 v5 z"/>'
    assert names(drawn(shapes)) == ["fishtail", "bolt end", None, None]


def test_a_shape_with_only_an_editors_id_names_nothing_and_is_told() -> None:
    panel = drawn('<path id="path24" d="M104,96 h5 v5 z"/>')
    assert names(panel) == [None] * 4
    assert any("outlines" in stray.sentence for stray in panel.strays)


@pytest.mark.parametrize(
    "name",
    ["scroll: ribbon / fish tail", "scroll 3: Ribbon/Fishtail", "scroll--ribbon---fishtail", "scroll ribbon fish tail"],
)
def test_a_scrolls_own_name_may_give_both_ends_in_path_order(name: str) -> None:
    assert names(drawn("", left=name)) == ["ribbon", "fishtail", None, None]


def test_a_mark_beside_an_end_goes_before_the_scrolls_own_name_and_the_difference_is_told() -> None:
    panel = drawn(text(104, 100, "ball"), left="scroll: ribbon / leaf")
    assert names(panel)[:2] == ["ball", "leaf"]
    assert any("calls this end" in stray.sentence for stray in panel.strays)


def test_an_unknown_name_counts_and_is_looked_at() -> None:
    panel = drawn(text(105, 100, "dragon") + text(105, 200, "ball") + text(270, 100, "leaf") + text(270, 205, "snub"))
    result = judged(panel, "scroll-ends")
    assert result.kind is Kind.REVIEW
    assert result.measured == 4


def test_ends_on_samples_count() -> None:
    scrolls = f'<g id="scrolls"><path id="s1" d="{LEFT}" {SCROLL}/></g>'
    samples = f'<g id="samples"><path id="s2" d="{RIGHT}" {SCROLL}/></g>'
    ends = text(105, 100, "ribbon") + text(105, 200, "ribbon") + text(270, 100, "leaf") + text(270, 205, "snub")
    assert judged(panel_of(f'{scrolls}{samples}<g id="ends">{ends}</g>'), "scroll-ends").measured == 3


def test_more_ends_than_memory_would_like_are_named_in_time() -> None:
    """Marks are held against places in pieces: 600 scrolls, 1,200 names."""
    scrolls, marks = [], []
    for k in range(600):
        x, y = 200 * (k % 25), 200 * (k // 25)
        scrolls.append(f'<path d="M{x},{y} C{x - 60},{y} {x - 60},{y + 100} {x},{y + 100}" {SCROLL}/>')
        marks += [text(x + 3, y, "ribbon"), text(x + 3, y + 100, "leaf")]
    panel = panel_of(f'<g id="scrolls">{"".join(scrolls)}</g><g id="ends">{"".join(marks)}</g>')
    assert names(panel) == ["ribbon", "leaf"] * 600
