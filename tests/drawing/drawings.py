"""Small drawings for the reader's tests."""

from __future__ import annotations

import numpy as np

from lint.drawing import read
from lint.drawing.drawn import Aside, Drawing, Drawn, Words
from lint.geometry.chain import Chain, Floats

NAMESPACES = (
    'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
    'xmlns:inkscape="http://www.inkscape.org/namespaces/inkscape" '
    'xmlns:sodipodi="http://sodipodi.sourceforge.net/DTD/sodipodi-0.dtd" xmlns:serif="http://www.serif.com/"'
)
PAGE = 'width="100mm" height="100mm" viewBox="0 0 100 100"'


def svg(body: str, root: str = PAGE) -> bytes:
    """A whole file round `body`; `root` holds the root's attributes."""
    return f"<svg {NAMESPACES} {root}>{body}</svg>".encode()


def drawing(body: str, root: str = PAGE) -> Drawing:
    return read(svg(body, root))


def drawn(body: str, root: str = PAGE) -> Drawn:
    """The one shape of the drawing."""
    (one,) = drawing(body, root).drawn
    return one


def aside(body: str, root: str = PAGE) -> Aside:
    (one,) = drawing(body, root).asides
    return one


def words(body: str, root: str = PAGE) -> Words:
    (one,) = drawing(body, root).words
    return one


def path(data: str, **attributes: str) -> str:
    more = "".join(f' {name.replace("_", "-")}="{value}"' for name, value in attributes.items())
    return f'<path d="{data}" stroke="black" fill="none"{more}/>'


def corners(chain: Chain) -> Floats:
    """The ends of the chain's pieces, (n + 1, 2)."""
    ends: Floats = np.vstack((chain.cubics[:1, 0], chain.cubics[:, 3]))
    return ends


def along(chain: Chain, count: int = 33) -> Floats:
    """Points on the chain at `count` equal parameters of each piece (de Casteljau's polynomial), (n * count, 2)."""
    t = np.linspace(0, 1, count)[None, :, None]
    p = chain.cubics[:, None]
    on = (1 - t) ** 3 * p[..., 0, :] + 3 * t * (1 - t) ** 2 * p[..., 1, :]
    on = on + 3 * t**2 * (1 - t) * p[..., 2, :] + t**3 * p[..., 3, :]
    points: Floats = on.reshape(-1, 2)
    return points


LINE = '<line id="bar" x2="10" y2="0" stroke="red"/>'


def ends(body: str, root: str | None = None) -> list[list[float]]:
    """First and last point of the drawing's one shape."""
    one = drawn(body) if root is None else drawn(body, root)
    found = corners(one.chains[0])
    return [found[0].tolist(), found[-1].tolist()]
