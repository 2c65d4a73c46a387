"""Commands of path data -> chains of cubic pieces, in the path's own units."""

from __future__ import annotations

import math

import numpy as np

from lint.drawing.arcs import arc
from lint.drawing.pathdata import COUNT, Command
from lint.geometry.chain import Chain

CLOSE = 1e-6  # of a chain's size: ends this near are one point; editors write closed paths without z


class Pen:
    """Follows the commands of one path. Reflected control points, relative moves after z: SVG 1.1, 8.3."""

    def __init__(self) -> None:
        self.chains: list[Chain] = []
        self.flat: list[float] = []  # eight numbers a piece
        self.x = self.y = 0.0
        self.start = (0.0, 0.0)
        self.control: tuple[float, float] | None = None  # of the last curve, for S and T
        self.curve = ""  # which letters the control point serves

    def follow(self, commands: list[Command]) -> list[Chain]:
        """The chains; a subpath without any length is none."""
        for letter, numbers in commands:
            upper = letter.upper()
            if upper == "Z":
                self._close()
                continue
            relative = letter != upper
            if upper == "C":  # all at once, for they are most of what is drawn
                self._cubics(numbers, relative)
                continue
            draw = getattr(self, f"_{upper.lower()}")
            each = COUNT[upper]
            for index in range(0, len(numbers), each):
                draw(numbers[index : index + each], relative)
                if upper == "M":  # more pairs after a move are lines
                    draw = self._l
            if upper not in "CSQT":
                self.control = None
        self._end(closed=False)
        return self.chains

    def _m(self, n: list[float], relative: bool) -> None:
        self._end(closed=False)
        self.x, self.y = (self.x + n[0], self.y + n[1]) if relative else (n[0], n[1])
        self.start = (self.x, self.y)
        self.control = None

    def _l(self, n: list[float], relative: bool) -> None:
        x, y = (self.x + n[0], self.y + n[1]) if relative else (n[0], n[1])
        self._line(x, y)

    def _h(self, n: list[float], relative: bool) -> None:
        self._line(self.x + n[0] if relative else n[0], self.y)

    def _v(self, n: list[float], relative: bool) -> None:
        self._line(self.x, self.y + n[0] if relative else n[0])

    def _cubics(self, numbers: list[float], relative: bool) -> None:
        x, y, flat = self.x, self.y, self.flat
        for n in zip(*[iter(numbers)] * 6, strict=True):
            six = (n[0] + x, n[1] + y, n[2] + x, n[3] + y, n[4] + x, n[5] + y) if relative else n
            if six != (x, y) * 3:
                flat += (x, y, *six)
            _, _, x2, y2, x, y = six
        self.x, self.y = x, y
        self.control, self.curve = (x2, y2), "C"

    def _s(self, n: list[float], relative: bool) -> None:
        dx, dy = (self.x, self.y) if relative else (0.0, 0.0)
        x, y = self._reflected("C")
        self._cubic(x, y, n[0] + dx, n[1] + dy, n[2] + dx, n[3] + dy)

    def _q(self, n: list[float], relative: bool) -> None:
        dx, dy = (self.x, self.y) if relative else (0.0, 0.0)
        self._quadratic(n[0] + dx, n[1] + dy, n[2] + dx, n[3] + dy)

    def _t(self, n: list[float], relative: bool) -> None:
        dx, dy = (self.x, self.y) if relative else (0.0, 0.0)
        x, y = self._reflected("Q")
        self._quadratic(x, y, n[0] + dx, n[1] + dy)

    def _a(self, n: list[float], relative: bool) -> None:
        x, y = (self.x + n[5], self.y + n[6]) if relative else (n[5], n[6])
        here = complex(self.x, self.y)
        for piece in arc(here, n[0], n[1], n[2], n[3] != 0, n[4] != 0, complex(x, y)):
            self.flat.extend(piece)
        self.x, self.y = x, y

    def _reflected(self, curve: str) -> tuple[float, float]:
        if self.control is None or self.curve != curve:
            return self.x, self.y
        return 2 * self.x - self.control[0], 2 * self.y - self.control[1]

    def _line(self, x: float, y: float) -> None:
        a, b = self.x, self.y
        if x != a or y != b:
            self.flat.extend((a, b, (2 * a + x) / 3, (2 * b + y) / 3, (a + 2 * x) / 3, (b + 2 * y) / 3, x, y))
        self.x, self.y = x, y

    def _cubic(self, x1: float, y1: float, x2: float, y2: float, x: float, y: float) -> None:
        a, b = self.x, self.y
        if not (a == x1 == x2 == x and b == y1 == y2 == y):
            self.flat.extend((a, b, x1, y1, x2, y2, x, y))
        self.x, self.y = x, y
        self.control, self.curve = (x2, y2), "C"

    def _quadratic(self, x1: float, y1: float, x: float, y: float) -> None:
        a, b = self.x, self.y
        self._cubic((a + 2 * x1) / 3, (b + 2 * y1) / 3, (2 * x1 + x) / 3, (2 * y1 + y) / 3, x, y)
        self.control, self.curve = (x1, y1), "Q"

    def _close(self) -> None:
        if self.flat:
            self._line(*self.start)
        self._end(closed=True)
        self.x, self.y = self.start
        self.control = None

    def _end(self, *, closed: bool) -> None:
        if self.flat:
            self.chains.append(chain(self.flat, closed))
            self.flat = []


def chain(flat: list[float], closed: bool) -> Chain:
    """A chain of the pieces in `flat`, eight numbers each; closed too where its ends are one point."""
    cubics = np.array(flat, dtype=np.float64).reshape(-1, 4, 2)
    gap = max(abs(flat[0] - flat[-2]), abs(flat[1] - flat[-1]))
    # Twice the root of the sum of squares is over the chain's size: most ends are told apart without a closer look.
    if not closed and len(cubics) > 1 and gap <= 2 * CLOSE * math.sqrt(np.vdot(cubics, cubics)):
        x, y = flat[::2], flat[1::2]
        if gap <= CLOSE * max(max(x) - min(x), max(y) - min(y)):
            cubics[-1, 3] = cubics[0, 0]
            closed = True
    return Chain(cubics, closed)
