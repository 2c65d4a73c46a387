"""Changes to one thing of a drawing, as an editor or a tired hand makes them."""

from __future__ import annotations

import random
import re

_NUMBER = re.compile(rb"-?\d+(?:\.\d+)?")
_ATTRIBUTE = re.compile(rb'[\w:-]+="[^"]*"')
_ELEMENT = re.compile(rb"<(?:path|rect|circle|line|polyline|polygon|ellipse|use|text)\b[^>]*?(?:/>|>[^<]*</\w+>)")
_WILD = (b"0", b"-0", b"1e-9", b"1e5", b"999999", b"-1", b"0.5", b"12.7", b"1e-320", b"NaN")
_NEW = (
    *(b'transform="matrix(1 0 0 0 5 5)"', b'transform="rotate(30)"', b'transform="scale(-1 1)"', b'stroke-width="0"'),
    *(b'stroke-width="400"', b'fill="black"', b'fill="none"', b'stroke="none"', b'display="none"', b'id="frame"'),
    *(b'id="scroll 1: ribbon / snub"', b'id="collar"', b'id="rivet"', b'id="joint: halved"', b'id="scale 1:4"'),
    *(b'stroke-linecap="square"', b'stroke-linejoin="round"', b'stroke-dasharray="1 2"', b'viewBox="0 0 1 1"'),
)


def changed(data: bytes, seed: int) -> bytes:
    """The drawing with one to three things of it changed."""
    dice = random.Random(seed)
    for _ in range(dice.randint(1, 3)):
        data = dice.choice((_number, _number, _nudged, _attribute, _cut, _doubled, _moved))(data, dice)
    return data


def _one(pattern: re.Pattern[bytes], data: bytes, dice: random.Random) -> tuple[int, int] | None:
    found = [match.span() for match in pattern.finditer(data)]
    return dice.choice(found) if found else None


def _put(data: bytes, span: tuple[int, int] | None, new: bytes) -> bytes:
    return data if span is None else data[: span[0]] + new + data[span[1] :]


def _number(data: bytes, dice: random.Random) -> bytes:
    """A number becomes a wild one, or another one of the drawing."""
    other = _one(_NUMBER, data, dice)
    new = dice.choice(_WILD) if other is None or dice.random() < 0.5 else data[other[0] : other[1]]
    return _put(data, _one(_NUMBER, data, dice), new)


def _nudged(data: bytes, dice: random.Random) -> bytes:
    span = _one(_NUMBER, data, dice)
    if span is None:
        return data
    value = float(data[span[0] : span[1]][:30]) + dice.choice((1e-6, 0.01, 0.5, 6.35, 25.4)) * dice.choice((-1, 1))
    return _put(data, span, f"{value:.8g}".encode())


def _attribute(data: bytes, dice: random.Random) -> bytes:
    other = _one(_ATTRIBUTE, data, dice)
    new = dice.choice(_NEW) if other is None or dice.random() < 0.7 else data[other[0] : other[1]]
    return _put(data, _one(_ATTRIBUTE, data, dice), new)


def _cut(data: bytes, dice: random.Random) -> bytes:
    return _put(data, _one(_ELEMENT, data, dice), b"")


def _doubled(data: bytes, dice: random.Random) -> bytes:
    span = _one(_ELEMENT, data, dice)
    return data if span is None else _put(data, (span[1], span[1]), data[span[0] : span[1]])


def _moved(data: bytes, dice: random.Random) -> bytes:
    """One element in the place of another, so that it stands under another name."""
    span = _one(_ELEMENT, data, dice)
    return data if span is None else _put(data, _one(_ELEMENT, data, dice), data[span[0] : span[1]])
