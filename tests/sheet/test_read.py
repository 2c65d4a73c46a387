"""A sheet is read whole, or refused with every fault of it named at once."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lint.errors import BadSheet
from lint.sheet import load
from lint.sheet.read import LARGEST, read_sheet


def sheet_file(folder: Path, text: str, name: str = "requirements.toml") -> str:
    (folder / name).write_text(text, encoding="utf-8")
    return str(folder / name)


def faults(folder: Path, text: str) -> tuple[str, ...]:
    """What is said of a sheet that builds on the default one, without the file's name."""
    path = sheet_file(folder, 'based_on = "two-corner-panel"\n' + text)
    with pytest.raises(BadSheet) as trouble:
        load(path)
    return tuple(problem.removeprefix(path) for problem in trouble.value.problems)


def test_five_bad_keys_give_five_sentences_in_one_go(tmp_path: Path) -> None:
    said = faults(
        tmp_path,
        '[pass_through]\nsphere = "4in x"\nshpere = "4 in"\n[scroll_ends]\nleast = "four"\n'
        "[frame]\nangle = -1\nsides = true\n",
    )
    assert said == (
        ':3: pass_through.sphere: "4in x" is not a length (expected like "101.6 mm" or "4 in").',
        ":4: pass_through.shpere: no such key (did you mean pass_through.sphere?).",
        ':6: scroll_ends.least: "four" is not a whole number (expected like 2).',
        ":8: frame.angle: -1 is out of range (expected 0 or more).",
        ':9: frame.sides: true is not a length (expected like "4 in" or "101.6 mm").',
    )


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("[pass_through]\nsphere = 0", "pass_through.sphere: 0 is nothing (expected more than 0)."),
        ("[pass_through]\nsphere = nan", "pass_through.sphere: nan is out of range (expected 0 or more)."),
        ("[pass_through]\nsphere = inf", "pass_through.sphere: inf is out of range (expected 0 or more)."),
        ('[pass_through]\nsphere = "-4 in"', 'pass_through.sphere: "-4 in" is not a length'),
        ("[pass_through]\nstrict = 1", "pass_through.strict: 1 is neither true nor false"),
        ("[scroll_ends]\nleast = true", "scroll_ends.least: true is not a whole number"),
        ("[scroll_ends]\nleast = 2.5", "scroll_ends.least: 2.5 is not a whole number"),
        ("[scroll_ends]\nleast = 1979-05-27", "scroll_ends.least: 1979-05-27 is not a whole number"),
        ('[attachment]\nallowed = ["glue"]', 'attachment.allowed: "glue" is not known here (expected one of: rivet'),
        ("[attachment]\nallowed = []", "attachment.allowed: the list has 0 values (expected 1 to 1000)."),
        ('[attachment]\nallowed = "rivet"', 'attachment.allowed: "rivet" is not a list'),
        ('[attachment]\nallowed = ["rivet", "rivet"]', "attachment.allowed: the list names one value twice"),
        ('[layers]\n"Ebene 2" = "scrols"', 'layers.Ebene 2: "scrols" is no role (expected one of: bar, collar,'),
        ('[stock]\nscroll = "12"', 'stock.scroll: "12" is not a section (expected like "6 x 12 mm"'),
        ('[stock]\nscroll = "0 x 12"', 'stock.scroll: "0 x 12" is no bar'),
        ('[tolerances]\nstandard = "ISO 2768-q"', 'tolerances.standard: "ISO 2768-q" is not known here'),
        ('units = "furlongs"', 'units: "furlongs" is not known here (expected one of: mm, in).'),
        ('rules_off = ["balence"]', 'rules_off: "balence" is not known here'),
        ("frame = 3", "frame: is not a section (expected [frame] and keys under it)."),
        ("[passthru]\nx = 1", "passthru: no such section (did you mean [pass_through]?)."),
        ("[frame]\ndiagnals = 3", "frame.diagnals: no such key (did you mean frame.diagonals?)."),
        ('[sources.frame]\nangel = "me"', "sources.frame.angel: no such key (did you mean frame.angle?)."),
        ('name = ""', 'name: "" is empty'),
        ('title = "a\\u001bb"', "has control characters in it"),
    ],
)
def test_an_impossible_value_is_refused_with_its_key_and_what_was_expected(
    tmp_path: Path, text: str, sentence: str
) -> None:
    (said,) = faults(tmp_path, text)
    assert sentence in said


def test_values_that_do_not_go_together_are_refused(tmp_path: Path) -> None:
    (band,) = faults(tmp_path, '[pass_through]\nsphere = "3 mm"\nsource = "a test"')
    assert "pass_through.band: is as large as pass_through.sphere itself" in band
    (close,) = faults(tmp_path, '[clearance]\nclear = "0.5 mm"')
    assert "clearance.clear: is no more than tolerances.contact" in close
    (twice,) = faults(tmp_path, '[scroll_ends.vocabulary]\n"curly" = ["Fish-Tail"]')
    assert '"Fish-Tail" already names the end "fishtail"' in twice


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ('[[waive]]\ndrawing = "*.svg"\nrule = "balance"', "waive 1: has no reason"),
        ('[[waive]]\nrule = "balance"\nreason = "x"', "waive 1: has no drawing"),
        ('[[waive]]\ndrawing = "*.svg"\nrule = "balance"\nreason = " "', 'waive 1.reason: " " is empty'),
        ('[[waive]]\ndrawing = "*.svg"\nrule = "balence"\nreason = "x"', 'waive 1.rule: "balence" is not known here'),
        ('[[waive]]\ndrawing = "*.svg"\nrule = "balance"\nreason = "x"\nbecause = "y"', "waive 1.because: no such key"),
        ('waive = "balance"', "waive: is not a list of waivers"),
    ],
)
def test_a_waiver_needs_a_drawing_a_known_rule_and_a_reason(tmp_path: Path, text: str, sentence: str) -> None:
    (said,) = faults(tmp_path, text)
    assert sentence in said


def test_a_sheet_that_builds_on_nothing_must_say_everything(tmp_path: Path) -> None:
    path = sheet_file(tmp_path, 'title = "x"')
    with pytest.raises(BadSheet, match=r'does not say \d+ of \d+ values \(.*\)\. Put based_on = "two-corner-panel"'):
        load(path)


def test_toml_that_is_none_is_refused_with_its_line(tmp_path: Path) -> None:
    (said,) = faults(tmp_path, "[pass_through]\nsphere = 4 in\n")
    assert said.startswith(":3: is no TOML: ")
    assert said.endswith("Put lengths and words in quotes.")


@pytest.mark.parametrize(
    "data",
    [
        b"\xff\xfe",
        b"a = " + b"[\n" * 50_000,
        b"a = {b = \n" * 10_000,
        b"a." * 50_000 + b"b = 1",
        (b"a." * 990 + b"b = 1\n") * 60,
        b"units = " + b"9" * 100_000,
        b"[frame]\nangle = 1e999999999",
        b"[frame]\nangle = " + b"9" * 4000,
        b"[waive]\n",
        b"[[frame]]\n",
        b"[sources]\nframe = 1",
        b"based_on = 3",
        b"\x00",
    ],
)
def test_a_hostile_file_gives_a_sentence(data: bytes) -> None:
    with pytest.raises(BadSheet) as trouble:
        read_sheet(data, "requirements.toml")
    assert all(problem.startswith("requirements.toml") for problem in trouble.value.problems)
    assert len(str(trouble.value)) < 20_000


def test_a_thousand_faults_are_counted_and_not_all_listed() -> None:
    data = "[frame]\n" + "\n".join(f"k{n} = 1" for n in range(1000))
    with pytest.raises(BadSheet) as trouble:
        read_sheet(data.encode(), "requirements.toml")
    assert trouble.value.problems[-1] == "requirements.toml: 900 more faults."


def test_a_file_that_is_too_large_or_no_file_is_refused(tmp_path: Path) -> None:
    large = tmp_path / "requirements.toml"
    large.write_bytes(b"#" * (LARGEST + 1))
    for path, words in (
        (str(large), "bytes"),
        (str(tmp_path), "no ordinary file"),
        (str(tmp_path / "none.toml"), "No such"),
    ):
        with pytest.raises(BadSheet, match=words.replace("no ordinary", "not an ordinary")):
            load(path)


@settings(max_examples=50, deadline=None)
@given(st.text(max_size=200))
def test_no_text_raises_anything_but_a_bad_sheet(text: str) -> None:
    try:
        stated = read_sheet(text.encode("utf-8", "surrogatepass"), "requirements.toml")
    except BadSheet:
        return
    assert stated.path == "requirements.toml"


def test_a_rule_s_own_spelling_names_its_section_too(tmp_path: Path) -> None:
    text = '[pass-through]\nsphere = "100 mm"\nsource = "a test"\n[scroll-ends]\nleast = 2\n'
    sheet = load(sheet_file(tmp_path, 'based_on = "two-corner-panel"\n' + text))
    assert sheet.pass_through.sphere == 100
    assert sheet.scroll_ends.least == 2


def test_a_bare_number_is_in_the_units_of_the_sheet(tmp_path: Path) -> None:
    inches = 'based_on = "two-corner-panel"\nunits = "in"\n[pass_through]\nsphere = 4\nsource = "a test"\n'
    sheet = load(sheet_file(tmp_path, inches))
    assert (sheet.units, sheet.pass_through.sphere) == ("in", 101.6)
    over = load(
        sheet_file(tmp_path, 'based_on = "requirements.toml"\n[pass_through]\nsphere = 5\nsource = "x"', "over.toml")
    )
    assert over.pass_through.sphere == 127.0


def test_layers_are_kept_as_they_are_written_and_colours_apart(tmp_path: Path) -> None:
    text = '[layers]\n" SchnörkelEbene" = "Scrolls"\n"#C00" = "rivets"\n"Radien" = "radii"\n'
    sheet = load(sheet_file(tmp_path, 'based_on = "two-corner-panel"\n' + text))
    assert dict(sheet.layers) == {"SchnörkelEbene": "scroll", "Radien": "radius"}
    assert dict(sheet.colours) == {"#cc0000": "rivet"}


def test_no_control_character_of_a_sheet_reaches_the_terminal(tmp_path: Path) -> None:
    said = faults(
        tmp_path,
        '[frame]\n"a\\u001b[2J" = 1\nangle = "\\u202e1"\n["x\\u0007"]\n'
        '[layers]\n"\\u2028" = "\\u009b"\n[stock]\nbar = "\\u0000"\n',
    )
    assert len(said) == 5
    assert all(sentence.isprintable() for sentence in said)
    (folder := tmp_path / "a\x1b[2J\n").mkdir()
    with pytest.raises(BadSheet) as trouble:
        load(sheet_file(folder, "frame = 1"))
    assert all(problem.isprintable() for problem in trouble.value.problems)
