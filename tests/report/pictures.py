"""Marked-up drawings as pictures: Debian's chromium and inkscape, and CairoSVG and resvg as second renderers."""

from __future__ import annotations

import io
import json
import shutil
import subprocess
import tempfile
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image

Picture = NDArray[np.float64]
CHROMIUM = shutil.which("chromium")
INKSCAPE = shutil.which("inkscape")
_QUIET = [
    *("--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync"),
    *("--disable-background-networking", "--disable-component-update", "--hide-scrollbars"),
    "--allow-file-access-from-files",
]


def _chromium(*arguments: str) -> bytes:
    assert CHROMIUM is not None
    with tempfile.TemporaryDirectory() as home:
        command = [CHROMIUM, *_QUIET, f"--user-data-dir={home}", *arguments]
        return subprocess.run(command, capture_output=True, check=True, timeout=90).stdout


def by_chromium(svg: bytes, width: int, height: int) -> Picture:
    """Shades of grey, 0 black to 1 white, shape (height, width)."""
    with tempfile.TemporaryDirectory() as folder:
        page, shot = Path(folder, "page.html"), Path(folder, "shot.png")
        Path(folder, "drawing.svg").write_bytes(svg)
        page.write_text(f'<body style="margin:0"><img src="drawing.svg" style="width:{width}px;height:{height}px">')
        _chromium(f"--screenshot={shot}", f"--window-size={width},{height + 200}", page.as_uri())
        return _grey(shot.read_bytes())[:height, :width]


def by_cairo(svg: bytes, width: int, height: int) -> Picture:
    """As `by_chromium`, by CairoSVG."""
    import cairosvg

    png = cairosvg.svg2png(bytestring=svg, output_width=width, output_height=height, background_color="white")
    return _grey(png)


def by_resvg(svg: bytes, width: int, height: int) -> Picture:
    """As `by_chromium`, by resvg."""
    import resvg_py

    png = resvg_py.svg_to_bytes(svg_string=svg.decode(), width=width, height=height, background="white", dpi=96)
    return _grey(bytes(png))


def by_inkscape(svg: bytes, width: int, height: int) -> Picture:
    """As `by_chromium`, by inkscape."""
    with tempfile.TemporaryDirectory() as folder:
        source, shot = Path(folder, "drawing.svg"), Path(folder, "shot.png")
        source.write_bytes(svg)
        size = [f"--export-width={width}", f"--export-height={height}", "--export-background=white"]
        _inkscape(str(source), "--export-area-page", *size, f"--export-filename={shot}")
        return _grey(shot.read_bytes())


def saved_by_inkscape(svg: bytes) -> bytes:
    """The drawing after inkscape has opened and saved it."""
    with tempfile.TemporaryDirectory() as folder:
        source, saved = Path(folder, "drawing.svg"), Path(folder, "saved.svg")
        source.write_bytes(svg)
        _inkscape(str(source), "--export-type=svg", f"--export-filename={saved}")
        return saved.read_bytes()


def _inkscape(*arguments: str) -> None:
    assert INKSCAPE is not None
    subprocess.run([INKSCAPE, *arguments], capture_output=True, check=True, timeout=90)


def _grey(png: bytes) -> Picture:
    picture = Image.open(io.BytesIO(png)).convert("RGBA")
    ground = Image.new("RGBA", picture.size, "white")
    return np.asarray(Image.alpha_composite(ground, picture).convert("L"), dtype=np.float64) / 255


_MEASURE = """
<body><div>%s</div><pre id="out"></pre><script>
const found = [];
for (const t of document.querySelectorAll('[data-lint-marks] text')) {
  const b = t.getBBox(), layer = t.closest('[data-lint-marks] > g').id;
  found.push({text: t.textContent, layer, x: b.x, y: b.y, width: b.width, height: b.height,
    size: parseFloat(getComputedStyle(t).fontSize), bold: getComputedStyle(t).fontWeight >= 600});
}
document.getElementById('out').textContent = JSON.stringify(found);
</script>
"""


def texts_in_chromium(svg: bytes) -> list[dict[str, Any]]:
    """Each word of the marks with its box as chromium sets it, in page units."""
    body = svg.decode()
    body = body[body.index("<svg") :]
    with tempfile.TemporaryDirectory() as folder:
        page = Path(folder, "page.html")
        page.write_text("<!DOCTYPE html>" + _MEASURE.replace("%s", body), encoding="utf-8")
        dom = _chromium("--dump-dom", page.as_uri()).decode()
    found = dom[dom.index('<pre id="out">') + 14 : dom.index("</pre>")]
    texts: list[dict[str, Any]] = json.loads(found.replace("&amp;", "&").replace("&lt;", "<").replace("&gt;", ">"))
    return texts
