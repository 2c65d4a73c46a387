"""The sheet in force: the default one, what builds on it, and the nearest above the drawing."""

from __future__ import annotations

import pickle
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import get_type_hints

import pytest

from lint.panel.parts import Role
from lint.report.sheet_words import as_toml
from lint.rules import RULES
from lint.sheet import bundled, load, load_default
from lint.sheet.keys import COUNTED, KEYS, RULE_IDS, TABLES
from lint.sheet.sheet import Sheet
from lint.sheet.values import ROLES
from lint.shop import collars, rivets, screws
from tests.sheet.written import BASED, write


def test_the_default_sheet_says_what_the_class_asks() -> None:
    """Values: the table of the requirement sheet's rules; 1 in = 25.4 mm exactly."""
    sheet = load_default()
    assert sheet.units == "mm"
    assert (sheet.frame.angle, sheet.frame.sides, sheet.frame.diagonals) == (1.0, 25.4 / 16, 25.4 / 16)
    assert (sheet.square_corners.least, sheet.square_corners.outside_radius) == (2, 0.5)
    assert (sheet.inside_radius.least, sheet.inside_radius.smallest, sheet.inside_radius.largest) == (1, 3.175, 1.0)
    assert (sheet.frame_joints.least, sheet.frame_joints.kinds) == (2, ("mortise and tenon",))
    assert (sheet.scroll_count.least, sheet.scroll_count.turn) == (2, 270.0)
    assert (sheet.scroll_match.overlay, sheet.scroll_match.ends_left_out) == (25.4 / 16, 2.0)
    assert (sheet.balance.within, sheet.balance.fails) == (3.175, False)
    assert (sheet.fair_curve.kink, sheet.fair_curve.inner_radius, sheet.fair_curve.fails) == (5.0, 0.5, False)
    assert (sheet.scroll_ends.least, sheet.scroll_ends.reach) == (4, 40.0)
    assert sheet.collars.each_scroll
    assert (sheet.attachment.least, sheet.attachment.allowed) == (2, ("rivet", "collar", "screw"))
    assert (sheet.clearance.overlap, sheet.clearance.clear, sheet.clearance.fails) == (0.5, 3.0, False)
    assert (sheet.dimensions.length, sheet.dimensions.ratio) == (25.4 / 32, 0.005)
    assert not sheet.approval.required


def test_the_default_ball_is_four_inches_and_strict() -> None:
    """International Building Code 1015.4: a 4 in sphere must not pass. 101.6 mm, never the printed 102."""
    asked = load_default().pass_through
    assert (asked.sphere, asked.strict, asked.band, asked.fasteners_are_metal) == (101.6, True, 3.175, False)
    assert "1015.4" in asked.source


def test_every_value_of_the_default_sheet_has_a_note_of_its_source() -> None:
    sheet = load_default()
    told = {"name", "title", "units", "rules_off", "pass_through.source"}
    assert {key for key in sheet.origins if key not in sheet.sources} == told
    assert all(len(note) > 5 for note in sheet.sources.values())


def test_every_key_has_its_class_and_every_class_its_keys() -> None:
    sections = {name: kind for name, kind in get_type_hints(Sheet).items() if is_dataclass(kind)}
    said = {f"{name}.{field.name}" for name, kind in sections.items() for field in fields(kind)}
    assert said == {key for key in (*KEYS, *TABLES) if "." in key}


def test_the_rules_that_a_sheet_names_are_the_rules() -> None:
    assert tuple(sorted(rule.id for rule in RULES)) == RULE_IDS


def test_the_words_that_a_sheet_takes_are_those_that_are_understood() -> None:
    """A role or a trade rule that a sheet may name must mean something to whoever reads the drawing or cuts the bar."""
    assert set(ROLES.values()) == set(Role)
    known = {"collar_rule": collars.RULES, "rivet_head": rivets.HEADS, "screw": screws.THREADS}
    for key, table in known.items():
        for name in table:
            assert KEYS[f"stock.{key}"](name, "mm") == name
        with pytest.raises(ValueError, match=r"expected one of: ") as trouble:
            KEYS[f"stock.{key}"]("", "mm")
        listed = str(trouble.value).partition("expected one of: ")[2].removesuffix(").")
        assert listed.split(", ") == list(table)


def test_every_plain_number_says_what_it_counts() -> None:
    sheet = load_default()
    for key in (key for key in KEYS if "." in key):
        section, name = key.split(".")
        if isinstance(getattr(getattr(sheet, section), name), float):
            reads_lengths = _reads(key, "1 in") == 25.4
            assert reads_lengths != (key in COUNTED), key


def _reads(key: str, text: str) -> object:
    try:
        return KEYS[key](text, "mm")
    except ValueError:
        return None


# Spheres: the codes named in each file; 4 3/8 in = 111.125, 21 in = 533.4, 1 3/4 in = 44.45 mm by 25.4.
SPHERES = {
    "sphere-4-in": (101.6, True),
    "sphere-4-3-8-in": (111.125, True),
    "sphere-6-in": (152.4, True),
    "sphere-21-in": (533.4, True),
    "sphere-100-mm": (100.0, True),
    "sphere-125-mm": (125.0, True),
    "sphere-over-100-mm": (100.0, False),
    "sphere-over-120-mm": (120.0, False),
    "sphere-over-200-mm": (200.0, False),
    "sphere-over-1-3-4-in": (44.45, False),
}


def test_every_bundled_sphere_is_named_here_and_has_a_source() -> None:
    assert set(bundled()) == {"two-corner-panel", *SPHERES}
    for name, (sphere, strict) in SPHERES.items():
        asked = load(name).pass_through
        assert (asked.sphere, asked.strict) == (sphere, strict)
        assert "local code decides" in asked.source
        assert load(name).sources["pass_through.sphere"] == asked.source
        assert not load(name).warnings


def test_a_sphere_by_name_changes_the_limit_and_its_source_only(tmp_path: Path) -> None:
    path = write(tmp_path, 'based_on = ["two-corner-panel", "sphere-100-mm"]\n')
    sheet, default = load(str(path)), load_default()
    assert (sheet.pass_through.sphere, sheet.pass_through.band) == (100.0, default.pass_through.band)
    assert "Approved Document K" in sheet.pass_through.source
    assert sheet.origins["pass_through.sphere"] == "sphere-100-mm"
    assert sheet.frame == default.frame
    assert (sheet.name, sheet.title) == (default.name, default.title)


def test_a_new_limit_does_not_keep_the_source_of_the_old_one(tmp_path: Path) -> None:
    path = write(tmp_path, BASED + '[pass_through]\nsphere = "6 in"\n')
    sheet = load(str(path))
    assert "1015.4" not in sheet.pass_through.source
    assert "no source stated" in sheet.pass_through.source
    assert any("pass_through.sphere has no source" in warning for warning in sheet.warnings)
    assert "pass_through.sphere" not in sheet.sources or "1015.4" not in sheet.sources["pass_through.sphere"]


def test_a_changed_value_says_which_file_changed_it(tmp_path: Path) -> None:
    path = write(tmp_path, BASED + '[scroll_ends]\nleast = 2\n[sources.scroll_ends]\nleast = "first term"\n')
    sheet = load(str(path))
    assert sheet.origins["scroll_ends.least"] == sheet.path
    assert sheet.sources["scroll_ends.least"] == "first term"
    assert sheet.origins["scroll_ends.reach"] == "two-corner-panel"


def test_ends_and_layers_are_added_to_those_that_the_sheet_builds_on(tmp_path: Path) -> None:
    path = write(
        tmp_path, BASED + '[scroll_ends.vocabulary]\n"acorn" = ["oak nut"]\n[allowances.ends]\n"acorn" = 2.5\n'
    )
    sheet = load(str(path))
    assert sheet.scroll_ends.vocabulary["acorn"] == ("oak nut",)
    assert sheet.scroll_ends.vocabulary["ribbon"] == load_default().scroll_ends.vocabulary["ribbon"]
    assert sheet.allowances.ends["acorn"] == 2.5


def test_the_vocabulary_knows_the_spellings_of_the_trade() -> None:
    words = {word: name for name, more in load_default().scroll_ends.vocabulary.items() for word in (name, *more)}
    assert words["half penny snub"] == words["halfpenny"] == "halfpenny snub"
    assert words["beveled"] == "bevelled"
    assert words["blown over"] == words["blow-over"] == "blow-over leaf"


def test_every_end_of_the_vocabulary_has_an_allowance_of_stock() -> None:
    sheet = load_default()
    assert set(sheet.allowances.ends) == set(sheet.scroll_ends.vocabulary)


def test_the_digest_moves_with_what_is_asked_and_not_with_notes(tmp_path: Path) -> None:
    default = load_default().digest
    notes = 'name = "ours"\ntitle = "Ours"\n[sources.frame]\nangle = "me"\n'
    waived = '[[waive]]\ndrawing = "a.svg"\nrule = "balance"\nreason = "x"\n'
    assert load(str(write(tmp_path, BASED + notes + waived))).digest == default
    assert load(str(write(tmp_path, BASED + "[frame]\nangle = 1.5\n", "b.toml"))).digest != default
    assert load(str(write(tmp_path, BASED + '[frame]\nsides = "1.5875 mm"\n', "c.toml"))).digest == default


def test_switching_pass_through_off_is_said(tmp_path: Path) -> None:
    path = write(tmp_path, BASED + 'rules_off = ["pass-through"]\n')
    assert any("no opening is held to a limit" in warning for warning in load(str(path)).warnings)


def test_a_sheet_goes_to_another_process_whole() -> None:
    assert pickle.loads(pickle.dumps(load_default())) == load_default()


@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_sheet_printed_and_read_back_asks_the_same(tmp_path: Path, units: str) -> None:
    text = (
        f'based_on = ["two-corner-panel", "sphere-4-3-8-in"]\nunits = "{units}"\n'
        'title = "Übung \\U0001f528"\n[layers]\n"Ebene 2" = "scrolls"\n"#c00" = "rivets"\n'
        '"\\u001b\\u009b\\u007f\\U000e0041" = "rivets"\n'
        '[stock]\nbar = "12.3 mm dia"\nscroll = "1/4 x 1/2 in"\n[frame]\nsides = "0.1234567 mm"\nangle = 0.1\n'
        '[[waive]]\ndrawing = "p\\"orch/*.svg"\nrule = "balance"\nreason = "on \\\\ purpose\\u202e"\n'
    )
    sheet = load(str(write(tmp_path, text)))
    again = load(str(write(tmp_path, as_toml(sheet), "again.toml")))
    assert again.digest == sheet.digest
    assert (again.layers, again.colours, again.units) == (sheet.layers, sheet.colours, units)
    assert [(w.drawing, w.rule, w.reason) for w in again.waive] == [(w.drawing, w.rule, w.reason) for w in sheet.waive]
    assert again.title == "Übung \U0001f528"
    assert "Übung" in as_toml(sheet)
    assert as_toml(sheet).replace("\n", "").isprintable()
