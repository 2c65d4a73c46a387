"""Bytes -> text: byte order marks, the XML declaration, and what to say where neither holds."""

from __future__ import annotations

import codecs
import re

from lint.errors import UnreadableDrawing

_MARKS = (  # XML 1.0, appendix F.1; the longer marks first
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (b"\x00<\x00?", "utf-16-be"),
    (b"<\x00?\x00", "utf-16-le"),
)
_DECLARED = re.compile(rb"""^\s*<\?xml\s[^>]{0,200}?encoding\s*=\s*["']([A-Za-z][A-Za-z0-9._:\-]{0,40})["']""")
_DECLARATION = re.compile(r"^\s*<\?xml\s[^>]{0,300}\?>")
# Character sets only: some of Python's codecs (punycode, idna) take quadratic time, others are no text at all.
_CHARACTER_SETS = re.compile(
    r"^(utf-8|utf-16|utf-32|ascii|iso8859|cp\d|koi8|mac|shift_jis|euc_|gb|big5|johab|hz|iso2022|tis-620|ptcp154)"
)


def decode(data: bytes) -> tuple[str, tuple[str, ...]]:
    """The file's text without its byte order mark, the XML declaration blanked (line numbers stay); and notes."""
    name, start, notes = _encoding(data)
    try:
        text = data[start:].decode(name)
    except UnicodeDecodeError as trouble:
        line = data.count(b"\n", 0, start + trouble.start) + 1
        raise UnreadableDrawing(
            f"Line {line}: the file is not {name.upper()} text, as it should be. Save it again as SVG in UTF-8.",
            line=line,
        ) from trouble
    return _DECLARATION.sub(lambda found: "\n" * found.group().count("\n"), text, count=1), notes


def _encoding(data: bytes) -> tuple[str, int, tuple[str, ...]]:
    for mark, name in _MARKS:
        if data.startswith(mark):
            return name, 0 if mark[0:1] in (b"<", b"\x00") and b"?" in mark else len(mark), ()
    declared = _DECLARED.match(data)
    if not declared:
        return "utf-8", 0, ()
    said = declared.group(1).decode("ascii")
    try:
        name = codecs.lookup(said).name
    except LookupError:
        name = ""
    if not _CHARACTER_SETS.match(name):
        raise UnreadableDrawing(
            f"Line 1: the file says it is written in {said!r}, which is not known here. Save it again as SVG in UTF-8.",
            line=1,
        )
    if name.startswith(("utf-16", "utf-32")):  # the declaration itself was readable byte by byte
        return "utf-8", 0, (f"The file says it is {said}, but it is not; it was read as UTF-8.",)
    return name, 0, ()
