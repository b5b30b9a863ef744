"""The run schedule as a person finds it: sheets, cells, cautions, and no text that computes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import pytest
from openpyxl import load_workbook

from scheduler.books import write_run_schedule
from scheduler.week import Cure, Late, Later, WeekPlan
from tests.scheduler.books.sample import FORMULA, LIGHT, line, sample_week

LIGHT_SHEET = "Light 5 ft wk 49"
LIGHT_SHEETS = ("Heavy 10 ft the long-name wk 49", "Heavy 10 ft the long-name wk 50")


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("books") / "run-schedule.xlsx"
    write_run_schedule(sample_week(), made, inch=True)
    return made


@pytest.fixture(scope="module")
def book(path: Path) -> Any:
    return load_workbook(path)


def shown(sheet: Any) -> Iterator[str]:
    return (str(cell.value) for row in sheet.iter_rows() for cell in row if cell.value is not None)


def row_of(sheet: Any, text: str) -> tuple[Any, ...]:
    return next(
        row
        for row in sheet.iter_rows(values_only=True)
        if any(isinstance(value, str) and value.split("\n")[0] == text for value in row)
    )


def written(week: WeekPlan, folder: Path, **options: Any) -> Any:
    path = folder / "book.xlsx"
    write_run_schedule(week, path, **({"inch": True} | options))
    return load_workbook(path)


def test_a_sheet_a_roll_and_week_with_safe_names(book: Any) -> None:
    assert book.sheetnames == ["Week", "Gantt from 7 Dec", LIGHT_SHEET, *LIGHT_SHEETS, "Cutting", "Load"]
    assert all(len(name) <= 31 and not set(name) & set("[]:*?/\\") for name in book.sheetnames)


def test_late_lines_come_first(book: Any) -> None:
    texts = list(shown(book["Week"]))
    assert texts.index("Late lines") < texts.index("L-3") < texts.index("Tightest dates kept")
    late = row_of(book["Week"], "L-3")
    assert late[2:5] == (datetime(2026, 12, 8, 8), datetime(2026, 12, 1), 7)


def test_bound_and_gap_are_said_in_words(book: Any) -> None:
    texts = list(shown(book["Week"]))
    assert "This order costs 116.50 USD = set-up 60.00 + lateness 50.00 + overtime 6.50." in texts
    assert (
        "Not proven best. No order can cost less than 100.00 USD, so at most 16.50 (14% of the cost) "
        "could still be saved."
    ) in texts


def test_a_proven_plan_says_so(tmp_path: Path) -> None:
    week = sample_week()
    book = written(replace(week, plan=replace(week.plan, proven=True)), tmp_path)
    assert "Proven best: no order of these jobs costs less." in shown(book["Week"])


def test_the_order_is_held_against_the_best_by_hand(book: Any) -> None:
    saved = row_of(book["Week"], "Due-day order")
    assert saved[10:12] == (20, -6.5)
    words = "Against due-day order, the best by hand: 20 set-up minutes saved, 6.50 USD more in all."
    assert words in list(shown(book["Week"]))


def test_lines_left_out_and_notes_are_named(book: Any) -> None:
    texts = list(shown(book["Week"]))
    assert any("no roll of the shop's book can do it: Giant 20 ft" in text for text in texts)
    assert "@a note that begins like a formula" in texts


def test_a_job_row_says_what_to_set_and_dial(book: Any) -> None:
    job = row_of(book[LIGHT_SHEET], "L-1")
    assert job[:7] == (
        "Mon\n30 Nov",
        datetime(2026, 11, 30, 7, 42),
        18,
        'gap 3/8" -> 1/4", both ends; first-off',
        datetime(2026, 11, 30, 8),
        90,
        datetime(2026, 11, 30, 9, 30),
    )
    assert job[8].endswith("Due Wed 2 Dec")
    assert job[9] == '1/4" A36\n60" × 76.185"\n2 blanks'
    assert job[10] == "0.250"
    assert job[11] == 'Pre-bend A: 1.000\nPre-bend B: 1.000\nPass 1: 2.000\nPass 2: 2.500\nStop 7/8" to tail'
    assert job[12] == "320 lb\ncrane, 2 people"
    assert job[14:16] == (None, None)


def test_millimetres_for_a_metric_shop(tmp_path: Path) -> None:
    job = row_of(written(sample_week(), tmp_path, inch=False)[LIGHT_SHEET], "L-1")
    assert job[9:12] == (
        "6.35 mm A36\n1524 × 1935.1 mm\n2 blanks",
        "6.3",
        "Pre-bend A: 25.4\nPre-bend B: 25.4\nPass 1: 50.8\nPass 2: 63.5\nStop 20 mm to tail",
    )


def test_a_line_on_a_roll_without_positions_gets_none(book: Any) -> None:
    job = row_of(book[LIGHT_SHEETS[0]], "L-4")
    assert job[11] == "No positions in the record: find them by trial, start bigger"


def test_a_re_round_shows_its_own_position_and_that_the_line_is_late(book: Any) -> None:
    job = row_of(book[LIGHT_SHEETS[1]], "L-3")
    assert job[7] == "L-3\nLATE"
    assert "RE-ROUND after welding" in job[8]
    assert job[11] == "Re-roll B: 2.600"


def test_cautions_are_short_and_only_those_that_apply(book: Any) -> None:
    sheet = book[LIGHT_SHEET]
    shared = "Hands back from the edge; chock the ring"
    assert sheet["A3"].value == f"Every job on this sheet: {shared}."
    assert row_of(sheet, "L-1")[13] is None or row_of(sheet, "L-1")[13] == ""
    assert row_of(sheet, "L-2")[13] == "Clean the rolls stopped and locked out"


def test_plates_to_cut_in_order(book: Any) -> None:
    sheet = book["Cutting"]
    first, bought = row_of(sheet, "P-L-1 #1"), row_of(sheet, "P-L-2 #1")
    assert (first[0], first[1], first[2]) == (1, datetime(2026, 11, 30, 7), 20)
    assert first[6:9] == ("L-1", datetime(2026, 11, 30, 8), "in the house")
    assert bought[8] == datetime(2026, 12, 1)


def test_load_shows_its_value_and_recalculates(path: Path, book: Any) -> None:
    values = load_workbook(path, data_only=True)["Load"]
    row = next(cell.row for cell in values["A"] if cell.value == LIGHT)
    assert book["Load"].cell(row, 8).value == f"=IF(D{row}=0,0,(E{row}+F{row})/D{row})"
    assert values.cell(row, 8).value == pytest.approx((51 + 160) / 2670)
    assert values.cell(row, 7).value == 2670 - 51 - 160


def test_the_load_has_a_native_chart(path: Path) -> None:
    with ZipFile(path) as parts:
        assert any(name.startswith("xl/charts/chart") for name in parts.namelist())
        assert sum(name.startswith("xl/media/image") for name in parts.namelist()) == 2


def test_nothing_from_a_customer_becomes_a_formula(book: Any) -> None:
    for sheet in book:
        for row in sheet.iter_rows():
            for cell in row:
                assert cell.data_type != "f" or sheet.title == "Load"
                assert cell.hyperlink is None
    assert any(FORMULA in text for text in shown(book[LIGHT_SHEET]))


def test_every_sheet_prints_landscape_one_page_wide_with_its_foot(book: Any) -> None:
    for sheet in book:
        assert sheet.page_setup.orientation == "landscape"
        assert sheet.sheet_properties.pageSetUpPr.fitToPage
        assert sheet.page_setup.fitToWidth in (None, 1)
        assert "local codes and the shop's own rules come first" in sheet.oddFooter.left.text
        assert "of &N" in (sheet.oddFooter.right.text or "").replace("&[Pages]", "&N")
    assert book[LIGHT_SHEET].print_title_rows == "$4:$4"


@pytest.mark.parametrize(("options", "code"), [({}, "1"), ({"inch": False}, "9"), ({"paper": "a4"}, "9")])
def test_paper(tmp_path: Path, options: dict[str, Any], code: str) -> None:
    assert str(written(sample_week(), tmp_path, **options)["Week"].page_setup.paperSize) == code


def test_the_same_week_gives_the_same_bytes(path: Path, tmp_path: Path) -> None:
    again = tmp_path / "again.xlsx"
    write_run_schedule(sample_week(), again, inch=True)
    assert again.read_bytes() == path.read_bytes()


def test_many_late_lines_get_a_sheet_of_their_own(tmp_path: Path) -> None:
    late = tuple(
        Late(line(f"X-{n}", LIGHT), datetime(2026, 12, 4 + n, 9), date(2026, 12, 3), Decimal(n))
        for n in range(12)
    )
    book = written(replace(sample_week(), late=late), tmp_path)
    assert "and 4 more on the sheet Late and left out" in shown(book["Week"])
    assert [book["Late and left out"].cell(row, 1).value for row in (5, 16)] == ["X-11", "X-0"]


def test_cures_stand_under_their_late_line_and_on_the_first_page(tmp_path: Path) -> None:
    week = sample_week()
    first = week.late[0]
    later = (Later("L-1", 0, 120),)
    cure = Cure("overtime", "work overtime Tue 1 Dec", 0, 500, Decimal("40.5"), later, (), week.plan)
    late = (
        replace(first, cures=(cure,), tried=("order", "overtime")),
        replace(first, line=line("L-7", LIGHT), cost=Decimal(1), tried=("order",)),
        replace(first, line=line("L-8", LIGHT), cost=Decimal(0)),
    )
    book = written(replace(week, late=late), tmp_path)
    told = list(shown(book["Late and left out"]))
    assert "Work overtime Tue 1 Dec" in told
    assert "On time: costs 40.50 USD; L-1 late by 2 h" in told
    assert "No change tried cures it (tried: putting it ahead)." in told
    assert told.count("Not looked into at this effort.") == 1
    front = list(shown(book["Week"]))
    assert "Cure: work overtime Tue 1 Dec: on time, costs 40.50 USD; L-1 late by 2 h" in front
    assert "Cure: none, no change tried cures it (tried: putting it ahead)" in front


def test_an_empty_plan_still_makes_a_book(tmp_path: Path) -> None:
    week = sample_week()
    plan = replace(week.plan, assignments=(), cost=type(week.plan.cost)(), bound=Decimal(0), proven=True)
    empty = replace(week, slots=(), loads=(), late=(), savings=(), plan=plan)
    book = written(empty, tmp_path)
    assert book.sheetnames == ["Week", "Load"]
    assert any("nothing is planned" in text for text in shown(book["Week"]))
