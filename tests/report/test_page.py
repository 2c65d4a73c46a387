"""The instructor's page, in a real browser (Debian's chromium, driven by selenium)."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from lint.commands._job import Checked, Wanted, do
from lint.report.caution import CAUTION
from lint.report.page import Entry, page
from lint.rules import RULES

ROOT = Path(__file__).parent.parent.parent
HOSTILE = '"><script>window.ran=1</script><img src=x onerror="window.ran=1">\u202egnp.exe\x1b[31m'
NAMES = ("panel.svg", "collars/no-collar.svg", "pass-through", "clearance", "frame", "layers")
browser_only = pytest.mark.skipif(
    not (shutil.which("chromium") and shutil.which("chromedriver")), reason="Debian's chromium-driver is not here"
)


def _drawings() -> list[Path]:
    found: list[Path] = []
    for name in NAMES:
        at = ROOT / "fixtures" / name
        found += [at] if at.is_file() else sorted(at.glob("*.svg"))[:2]
    return [*found, ROOT / "examples" / "first-attempt.svg"]


@pytest.fixture(scope="module")
def checked() -> list[Checked]:
    return [do(str(path), Wanted(json=True, markup=True)) for path in _drawings()]


def _page(entries: list[Entry]) -> str:
    rules = [rule.id for rule in RULES]
    return page(entries, rules=rules, heading="Evening class", sheets=["two-corner-panel"], caution=CAUTION)


def _entries(checked: list[Checked]) -> list[Entry]:
    return [Entry(drawing=one.json or {}, title=one.title, marked=one.marked) for one in checked]


@pytest.fixture(scope="module")
def html(checked: list[Checked]) -> str:
    hostile = [Entry(drawing={**(checked[0].json or {}), "path": f"x/{HOSTILE}.svg"}, title=HOSTILE, marked=None)]
    broken = [Entry(drawing={"path": "b.svg", "verdict": "unreadable", "error": f"no SVG: {HOSTILE}"}, title="")]
    return _page([*_entries(checked), *hostile, *broken])


def test_names_from_files_are_words_and_nothing_else(html: str) -> None:
    assert "<script>window.ran" not in html
    assert "<img src=x" not in html
    assert "\u202e" not in html
    assert "\x1b" not in html


def test_the_page_asks_for_nothing(html: str) -> None:
    without_words = re.sub(r"(?s)<script type=.text/plain.*?</script>", "", html)
    assert not re.search(r"""(?:src|href)=["']?(?:https?:|//|file:)""", without_words)
    assert "default-src 'none'" in html


def test_every_drawing_says_what_it_has_to_change(checked: list[Checked], html: str) -> None:
    for one in checked:
        for result in (one.json or {})["results"]:
            if result["kind"] == "fail":
                assert result["rule"] in html
                assert str(result["remedy"])[:40].replace('"', "&#34;").replace("'", "&#39;") in html


@pytest.fixture(scope="module")
def driver() -> Iterator[Any]:
    from selenium import webdriver

    options = webdriver.ChromeOptions()
    options.binary_location = shutil.which("chromium") or ""
    for flag in (
        "headless=new", "no-sandbox", "disable-gpu", "disable-quic", "no-first-run", "disable-background-networking",
        "disable-component-update", "disable-sync", "window-size=1500,1000", "allow-file-access-from-files",
    ):  # fmt: skip
        options.add_argument(f"--{flag}")
    options.set_capability("goog:loggingPrefs", {"browser": "ALL"})
    started = webdriver.Chrome(options=options, service=webdriver.ChromeService(shutil.which("chromedriver")))
    yield started
    started.quit()


@pytest.fixture
def opened(driver: Any, html: str, tmp_path: Path) -> Any:
    (tmp_path / "review.html").write_text(html)
    driver.get((tmp_path / "review.html").as_uri())
    return driver


def shown(driver: Any) -> int:
    return int(driver.execute_script("return [...document.querySelectorAll('tbody')].filter(r => !r.hidden).length"))


def choose(driver: Any, name: str, value: str) -> None:
    driver.execute_script(
        "const s = document.querySelector(`[name=${arguments[0]}]`); s.value = arguments[1];"
        "s.dispatchEvent(new Event('input', {bubbles: true}))",
        name,
        value,
    )


@browser_only
def test_nothing_runs_nothing_is_fetched_and_the_console_stays_empty(opened: Any) -> None:
    assert opened.execute_script("return window.ran") is None
    fetched = opened.execute_script("return performance.getEntriesByType('resource').map(e => e.name)")
    assert [name for name in fetched if not name.startswith(("blob:", "data:"))] == []
    assert opened.get_log("browser") == []


@browser_only
def test_filters_show_the_drawings_they_name(opened: Any, checked: list[Checked]) -> None:
    whole = shown(opened)
    assert whole == len(checked) + 2
    opened.find_element("css selector", "input[value=fail]").click()
    assert shown(opened) == sum(one.word == "fail" for one in checked)
    opened.find_element("css selector", "input[name=verdict][value='']").click()
    choose(opened, "rule", "collars")
    choose(opened, "kind", "fail")
    assert shown(opened) == sum("collars" in one.failing for one in checked)
    opened.find_element("css selector", "[name=name]").send_keys("nothing is called this")
    assert shown(opened) == 0
    assert opened.find_element("css selector", ".nothing").is_displayed()


@browser_only
def test_the_order_can_be_most_to_change_first(opened: Any) -> None:
    choose(opened, "order", "fails")
    fails = opened.execute_script("return [...document.querySelectorAll('tbody')].map(r => +r.dataset.fails)")
    assert fails == sorted(fails, reverse=True)


@browser_only
def test_the_keyboard_goes_everywhere(opened: Any) -> None:
    from selenium.webdriver.common.keys import Keys

    cell = opened.find_element("css selector", "td.cell[tabindex='0']")
    opened.execute_script("arguments[0].focus()", cell)
    assert (
        opened.execute_script("return getComputedStyle(document.activeElement.querySelector('.tip')).display")
        == "block"
    )
    opened.switch_to.active_element.send_keys(Keys.ARROW_RIGHT)
    assert opened.execute_script("return document.activeElement.dataset.rule") == RULES[1].id
    opened.switch_to.active_element.send_keys(Keys.ARROW_DOWN)
    row = opened.execute_script("return document.activeElement.closest('tbody').dataset.number")
    assert row == "2"
    opened.switch_to.active_element.send_keys(Keys.ENTER)
    wait_for(opened, "document.querySelector('dialog').open")
    wait_for(opened, "document.querySelector('dialog .sheet-of-paper img').naturalWidth > 0")
    opened.switch_to.active_element.send_keys(Keys.ESCAPE)
    wait_for(opened, "!document.querySelector('dialog').open")


@browser_only
def test_thumbnails_open_the_marked_up_drawing(opened: Any) -> None:
    wait_for(opened, "document.querySelector('.thumb img').naturalWidth > 0")
    opened.find_element("css selector", "button.thumb").click()
    wait_for(opened, "document.querySelector('dialog').open")
    opened.find_element("css selector", "dialog .later").click()
    opened.find_element("css selector", "dialog .close").click()
    wait_for(opened, "!document.querySelector('dialog').open")


@browser_only
def test_a_print_holds_every_name_and_every_thumbnail(opened: Any) -> None:
    """On paper no list can be scrolled; and what was never scrolled to on the screen is painted all the same."""
    wait_for(opened, "[...document.querySelectorAll('.thumb img')].every(image => image.naturalWidth > 0)")
    opened.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": "print"})
    cut = "[...document.querySelectorAll('.group ul')].map(list => getComputedStyle(list).maxHeight)"
    assert set(opened.execute_script(f"return {cut}")) == {"none"}
    opened.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": ""})
    assert "none" not in opened.execute_script(f"return {cut}")


CONTRAST = """
const part = v => (v /= 255) <= .03928 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4;
const lum = c => { const [r, g, b] = c.match(/[\\d.]+/g).slice(0, 3).map(part); return .2126*r + .7152*g + .0722*b; };
const clear = c => /, 0\\)|transparent/.test(c);
const back = e => { while (e && clear(getComputedStyle(e).backgroundColor)) e = e.parentElement;
  return e ? getComputedStyle(e).backgroundColor : 'rgb(255,255,255)'; };
let worst = 99, where = '';
for (const e of document.querySelectorAll('body *')) {
  if (!e.offsetParent || ![...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim())) continue;
  const a = lum(getComputedStyle(e).color), b = lum(back(e));
  const ratio = (Math.max(a, b) + .05) / (Math.min(a, b) + .05);
  if (ratio < worst) { worst = ratio; where = e.className + ' ' + e.textContent.slice(0, 30); }
}
return [worst, where];
"""


@browser_only
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_word_has_the_contrast_that_wcag_asks(opened: Any, scheme: str) -> None:
    """WCAG 2.1, success criterion 1.4.3: 4.5 to 1 for text."""
    opened.execute_cdp_cmd(
        "Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": scheme}]}
    )
    ratio, where = opened.execute_script(CONTRAST)
    opened.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": []})
    assert ratio >= 4.5, where


def wait_for(driver: Any, condition: str) -> None:
    from selenium.webdriver.support.ui import WebDriverWait

    WebDriverWait(driver, 10).until(lambda d: d.execute_script(f"return {condition}"))
