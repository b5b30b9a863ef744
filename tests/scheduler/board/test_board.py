"""The board in a real browser: no script error, nothing from outside, hostile names as text, times right."""

from __future__ import annotations

import io
import json
import re
import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from quoting.shop import Shop, load_shop, write_starter
from scheduler.board import write_board
from scheduler.board.board_page import board_page
from scheduler.board.board_values import board_values, minute_of
from scheduler.week import begin_of
from tests.scheduler.books.sample import FORMULA, HEAVY, sample_week
from tests.scheduler.papers.test_travellers import _hostile_week

CHROMIUM, DRIVER = shutil.which("chromium"), shutil.which("chromedriver")
needs_browser = pytest.mark.skipif(
    not (CHROMIUM and DRIVER), reason="chromium and its driver are not here: the board is not opened"
)
WALL, TABLET, PHONE = (1920, 1080), (1024, 768), (420, 900)


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Shop:
    folder = tmp_path_factory.mktemp("shop") / "new"
    write_starter(folder)
    return load_shop(folder)


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    webdriver = pytest.importorskip("selenium.webdriver")
    from selenium.webdriver.chrome.service import Service  # noqa: PLC0415

    options = webdriver.ChromeOptions()
    for argument in ("--headless=new", "--no-sandbox", "--disable-gpu", "--hide-scrollbars"):
        options.add_argument(argument)
    options.binary_location = CHROMIUM
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    driver = webdriver.Chrome(service=Service(DRIVER), options=options)
    yield driver
    driver.quit()


def _open(browser: Any, path: Path, now: str, size: tuple[int, int] = WALL) -> None:
    for log in ("browser", "performance"):
        browser.get_log(log)  # what an earlier page left
    browser.set_window_size(*size)
    browser.get("about:blank")
    browser.get(f"{path.as_uri()}#now={now}")


def _find(browser: Any, selector: str) -> list[Any]:
    return list(browser.find_elements("css selector", selector))


def test_the_page_holds_everything_and_names_no_address(shop: Shop) -> None:
    page = board_page(sample_week(), shop)
    outside = re.findall(r"""(?:src|href|url)\s*[=(]\s*["']?([^"')\s]+)""", page)
    assert outside == []
    addresses = set(re.findall(r"https?://[^\s\"'<>]+", page)) - {"http://www.w3.org/2000/svg"}
    assert all(found.startswith("http://invented.example") for found in addresses)  # a customer's text
    assert "default-src 'none'" in page


def test_without_scripts_it_is_a_table_of_the_plan(shop: Shop) -> None:
    week = sample_week()
    table = board_page(week, shop).partition('<table id="list">')[2].partition("</tbody>")[0]
    assert table.count("<tr data-job") == len(week.slots)
    for slot in week.slots:
        assert f'data-start="{minute_of(week, slot.start)}"' in table


def test_times_are_those_of_the_plan(shop: Shop) -> None:
    week = sample_week()
    values = board_values(week, shop)
    slots = [slot for machine in (*week.rolls, *week.stations) for slot in week.on(machine)]
    for job, slot in zip(values["jobs"], slots, strict=True):
        assert (job["s"], job["r"], job["f"]) == tuple(
            minute_of(week, moment) for moment in (begin_of(slot), slot.start, slot.end)
        )
        assert (job["sheet"] is None) == (slot.line is None)


def test_no_name_ends_the_script_that_it_stands_in(shop: Shop) -> None:
    page = board_page(_hostile_week(), shop)
    assert "<script>alert" not in page
    held = page.partition('id="plan">')[2].partition("</script>")[0]
    assert any("<script>alert" in job["who"] for job in json.loads(held)["jobs"])


@needs_browser
@pytest.mark.parametrize("size", [WALL, TABLET, PHONE])
def test_it_opens_without_an_error_and_asks_for_nothing(
    shop: Shop, tmp_path: Path, browser: Any, size: tuple[int, int]
) -> None:
    path = tmp_path / "board.html"
    write_board(_hostile_week(), shop, path)
    _open(browser, path, "2026-11-30T08:30", size)
    assert browser.get_log("browser") == []
    asked = [
        json.loads(entry["message"])["message"]["params"]["request"]["url"]
        for entry in browser.get_log("performance")
        if json.loads(entry["message"])["message"]["method"] == "Network.requestWillBeSent"
    ]
    assert [url.partition("#")[0] for url in asked if url != "about:blank"] == [path.as_uri()]
    wide = browser.execute_script("return document.documentElement.scrollWidth")
    assert wide <= browser.execute_script("return innerWidth") + 1


@needs_browser
def test_what_runs_what_is_next_and_what_is_late_is_said_in_words(
    shop: Shop, tmp_path: Path, browser: Any
) -> None:
    path = tmp_path / "board.html"
    write_board(sample_week(), shop, path)
    _open(browser, path, "2026-11-30T08:30")
    light, heavy, shear = (card.text for card in _find(browser, ".card"))
    assert "RUNNING" in light
    assert "L-1" in light
    assert "next L-2 at Tue 07:27" in light.replace("\n", " ")
    assert "clean rolls, stainless after carbon" in light
    assert "SET-UP" not in heavy
    assert "next L-3 at 08:42" in heavy.replace("\n", " ")
    assert "P-L-2" in shear
    late = _find(browser, "section.late")[0].text
    assert "L-3" in late
    assert "7 days late" in late
    _open(browser, path, "2026-11-30T08:50")
    assert "SET-UP" in _find(browser, ".card")[1].text


@needs_browser
def test_a_job_opens_its_set_up_sheet_by_keyboard_and_closes_again(
    shop: Shop, tmp_path: Path, browser: Any
) -> None:
    from selenium.webdriver.common.keys import Keys  # noqa: PLC0415

    path = tmp_path / "board.html"
    write_board(sample_week(), shop, path)
    _open(browser, path, "2026-11-30T08:30")
    button = next(found for found in _find(browser, "#list .job button") if found.text == "L-1")
    button.send_keys(Keys.ENTER)
    sheet = _find(browser, "#sheet")[0]
    assert sheet.is_displayed()
    for words in (
        "L-1: 2 off",
        "2.500",
        "Pinch gap, both ends: 0.250 in",
        "Springback",
        "Lift",
        "write down",
    ):
        assert words in sheet.text, words
    assert len(_find(browser, "#sheet svg")) >= 1
    sheet.send_keys(Keys.ESCAPE)
    assert not sheet.is_displayed()


@needs_browser
def test_a_roll_a_day_and_a_customer_can_be_chosen(shop: Shop, tmp_path: Path, browser: Any) -> None:
    from selenium.webdriver.support.select import Select  # noqa: PLC0415

    path = tmp_path / "board.html"
    write_board(sample_week(), shop, path)
    _open(browser, path, "2026-11-30T08:30")

    def shown() -> set[str]:
        return {row.find_element("css selector", ".job").text for row in _find(browser, "#list tbody tr")} - {
            ""
        }

    Select(_find(browser, "#customer")[0]).select_by_visible_text(FORMULA)
    assert shown() == {"L-2"}
    _find(browser, "#today")[0].click()
    Select(_find(browser, "#machine")[0]).select_by_index(2)
    Select(_find(browser, "#day")[0]).select_by_visible_text("Wed 2 Dec")
    assert shown() == {"L-4"}


@needs_browser
def test_a_tablet_keeps_its_roll_and_who_works_by_keyboard_keeps_the_job(
    shop: Shop, tmp_path: Path, browser: Any
) -> None:
    from selenium.webdriver.support.select import Select  # noqa: PLC0415

    path = tmp_path / "board.html"
    write_board(sample_week(), shop, path)
    _open(browser, path, "2026-11-30T08:30", TABLET)
    Select(_find(browser, "#machine")[0]).select_by_visible_text(HEAVY)
    address = browser.current_url
    browser.get("about:blank")
    browser.get(address)
    assert [card.find_element("css selector", "h3").text for card in _find(browser, ".card")] == [HEAVY]
    browser.execute_script("document.querySelector('.card button').focus()")
    browser.execute_script("document.getElementById('day').dispatchEvent(new Event('change'))")
    held = "return document.activeElement.textContent"
    assert browser.execute_script(held) == _find(browser, ".card button")[0].text


@needs_browser
def test_a_job_that_is_set_up_says_what_it_waits_for(shop: Shop, tmp_path: Path, browser: Any) -> None:
    week = sample_week()
    first = next(slot for slot in week.slots if slot.line is not None and slot.setup_minutes)
    moved = replace(first, start=first.start + timedelta(hours=2), waits_for="the crane")
    path = tmp_path / "board.html"
    write_board(replace(week, slots=tuple(moved if s is first else s for s in week.slots)), shop, path)
    _open(browser, path, "2026-11-30T08:30")
    card = _find(browser, ".card")[0].text
    assert "WAITS" in card
    assert "waits for the crane" in card
    assert "then waits for the crane" in _find(browser, "#list")[0].text


@needs_browser
def test_a_screen_reader_finds_a_name_for_all_that_can_be_pressed(
    shop: Shop, tmp_path: Path, browser: Any
) -> None:
    path = tmp_path / "board.html"
    write_board(sample_week(), shop, path)
    _open(browser, path, "2026-11-30T08:30")
    tree = browser.execute_cdp_cmd("Accessibility.getFullAXTree", {})["nodes"]
    named = {"button", "combobox", "image", "table", "columnheader", "rowheader", "heading"}
    found = [node for node in tree if not node["ignored"] and node["role"]["value"] in named]
    assert {"button", "combobox", "columnheader", "rowheader"} <= {node["role"]["value"] for node in found}
    nameless = [node["role"]["value"] for node in found if not node.get("name", {}).get("value")]
    assert set(nameless) <= {"table"}  # a table is named by the heading over it


@needs_browser
def test_hostile_names_are_shown_as_text_everywhere(shop: Shop, tmp_path: Path, browser: Any) -> None:
    path = tmp_path / "board.html"
    write_board(_hostile_week(), shop, path)
    _open(browser, path, "2026-11-30T08:30")
    _find(browser, "#list .job button:not([disabled])")[0].click()
    assert "<script>alert" in _find(browser, "#sheet")[0].text
    assert browser.execute_script("return document.scripts.length") == 2
    assert browser.execute_script("return document.querySelectorAll('font').length") == 0


@needs_browser
def test_letters_reach_three_metres_on_the_wall_and_fingers_find_buttons(
    shop: Shop, tmp_path: Path, browser: Any
) -> None:
    """Capitals of D / 200 at 3 m are 15 mm: on a 55 in screen 1,920 px are 1,218 mm."""
    path = tmp_path / "board.html"
    write_board(sample_week(), shop, path)
    _open(browser, path, "2026-11-30T08:30", WALL)
    size = "return parseFloat(getComputedStyle(arguments[0]).fontSize)"
    job = _find(browser, ".card .id:not(.second)")[0]
    assert browser.execute_script(size, job) * 0.72 * 1218 / 1920 >= 15
    _open(browser, path, "2026-11-30T08:30", TABLET)
    for button in _find(browser, "button, select"):  # 12 mm where a pixel is a sixth of one, as on 10 in
        if button.is_displayed():
            assert min(button.size["height"], button.size["width"]) >= 72, button.text


@needs_browser
def test_black_and_white_still_tells_set_up_work_and_late_apart(
    shop: Shop, tmp_path: Path, browser: Any
) -> None:
    """Compared as grey pictures: each kind of bar of the key differs from each other one."""
    from PIL import Image, ImageChops, ImageStat  # noqa: PLC0415

    path = tmp_path / "board.html"
    write_board(sample_week(), shop, path)
    _open(browser, path, "2026-11-30T08:30")
    greys = []
    for bar in _find(browser, ".key .bar"):
        browser.execute_script("arguments[0].textContent = ' '; arguments[0].style.width = '90px'", bar)
        greys.append(Image.open(io.BytesIO(bar.screenshot_as_png)).convert("L").resize((90, 40)))
    for first in range(len(greys)):
        for second in range(first):
            off = ImageStat.Stat(ImageChops.difference(greys[first], greys[second])).mean[0]
            assert off > 5, (first, second)


@needs_browser
def test_the_same_moment_gives_the_same_picture(shop: Shop, tmp_path: Path, browser: Any) -> None:
    from PIL import Image, ImageChops, ImageStat  # noqa: PLC0415

    path = tmp_path / "board.html"
    write_board(sample_week(), shop, path)
    shots = []
    for _ in range(2):
        _open(browser, path, "2026-11-30T08:30")
        shots.append(Image.open(io.BytesIO(browser.get_screenshot_as_png())).convert("L"))
    assert ImageStat.Stat(ImageChops.difference(*shots)).mean[0] < 0.5
