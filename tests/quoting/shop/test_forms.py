"""The shop's book in two forms: workbook and text say the same, and problems name sheet and cell."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl import load_workbook

from quoting.core import InputError
from quoting.shop import (
    ANSWERED,
    WORKED_OUT,
    convert_book,
    data_of_answers,
    load_shop,
    metric_data,
    roll_of_answer,
    starter_data,
    write_starter,
)
from quoting.shop.book import UNIT_WORDS, BookTables, read_tables, starter_text, tables_of_text
from quoting.shop.book.read_book import read_book
from quoting.shop.findings import BookError, Findings
from quoting.shop.forms import read_workbook, text_of_tables, write_workbook
from quoting.shop.forms.layout import PAGES
from quoting.shop.forms.schema import setting_of
from quoting.shop.forms.schema import settings as known_settings
from quoting.shop.loader import book_tables
from tests.data import make_demo

DEMO = make_demo.HERE / "shop" / "shop.toml"


def cell_of(page: Any, name: str, heading: str = "Value") -> Any:
    """Return the cell under a heading, in the row of a setting's name in the text form."""
    rows = list(page.iter_rows())
    row = next(row for row in rows if any(cell.value == name for cell in row))
    heads = [r for r in rows[: row[0].row] if any(cell.value == "Setting" for cell in r)][-1]
    column = next(cell.column for cell in heads if cell.value == heading)
    return page.cell(row[0].row, column)


def edited(folder: Path, change: Callable[[Any], None]) -> Path:
    """Write a new shop and change its workbook as a person would."""
    write_starter(folder)
    book = load_workbook(folder / "shop.xlsx")
    change(book)
    book.save(folder / "shop.xlsx")
    return folder


def setter(page: str, name: str, value: object, heading: str = "Value") -> Callable[[Any], None]:
    def change(book: Any) -> None:
        cell_of(book[page], name, heading).value = value

    return change


@pytest.mark.parametrize("gone", [("Low",), ("High",), ("Low", "High")])
def test_a_heading_of_a_spread_that_is_gone_is_told(tmp_path: Path, gone: tuple[str, ...]) -> None:
    def changed(book: Any) -> None:
        for row in book["Minutes"].iter_rows():
            for cell in row:
                if cell.value in gone:
                    cell.value = "mine"

    with pytest.raises(InputError, match="headings Low and High are missing"):
        load_shop(edited(tmp_path, changed))


def test_every_table_of_the_book_stands_on_a_sheet() -> None:
    shown = {table for page in PAGES for table in page.tables} | {"roll.slide"}
    assert {table for table, _ in known_settings()} - shown == set()
    units = {
        unit for one in known_settings().values() if one.rule.quantity for unit in one.rule.quantity.units
    }
    assert units - set(UNIT_WORDS) == set()


def test_every_setting_has_a_sentence_and_a_rule() -> None:
    known = known_settings()
    assert len(known) > 150
    assert [one for one in known if not known[one].sentence] == []


@pytest.mark.parametrize("text", [starter_text(), DEMO.read_text("utf-8")], ids=["starter", "demo"])
def test_workbook_and_text_say_what_the_book_says(tmp_path: Path, text: str) -> None:
    first = tables_of_text(text, "shop.toml")
    write_workbook(tmp_path / "shop.xlsx", first.data)
    second, _ = read_workbook(tmp_path / "shop.xlsx")
    assert second.findings.problems == []
    assert second.data == first.data
    assert read_tables(second) == read_book(text_of_tables(second.data), "shop.toml") == read_tables(first)


NUMBERS = st.decimals(0, 9999, allow_nan=False, places=4) | st.integers(0, 9999)
SPREAD = st.lists(NUMBERS, min_size=3, max_size=3).map(sorted)
WORDS = st.text(
    st.characters(whitelist_categories=("L", "N", "P", "S", "Zs"), max_codepoint=0x2FFF), max_size=60
).map(str.strip)
CHANGED = [one for one in known_settings().values() if one.value is not None and "." not in one.table]
BY_KIND: dict[str, st.SearchStrategy[Any]] = {
    "text": WORDS,
    "texts": st.lists(WORDS.filter(bool), min_size=1, max_size=3),
    "flag": st.booleans(),
    "whole": st.integers(0, 10**6),
    "band": SPREAD | NUMBERS,
    "counts": st.lists(st.integers(1, 500), min_size=1, max_size=5, unique=True).map(sorted),
}


@st.composite
def books(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a book: some settings exchanged, in any unit that the setting may have, two rolls that differ."""
    data = metric_data(starter_data()) if draw(st.booleans()) else starter_data()
    data["roll"] = [dict(data["roll"][0]), {**data["roll"][0], "name": "Second"}]
    for setting in draw(st.lists(st.sampled_from(CHANGED), max_size=25, unique_by=lambda one: one.key)):
        if setting.rule.kind in ("choice", "day", "clock") or (setting.table, setting.key) == (
            "roll",
            "name",
        ):
            continue
        tables = data[setting.table] if isinstance(data[setting.table], list) else [data[setting.table]]
        table = draw(st.sampled_from(tables))
        for key in [key for key in table if setting_of(setting.table, key) == setting]:
            del table[key]
        unit = draw(st.sampled_from(list(setting.rule.quantity.units))) if setting.rule.quantity else ""
        key = f"{setting.stem}_{unit}" if unit else setting.key
        table[key] = draw(BY_KIND.get(setting.rule.kind, NUMBERS))
    return data


@pytest.mark.slow
@settings(max_examples=30, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(books())
def test_both_ways_without_loss(tmp_path: Path, data: dict[str, Any]) -> None:
    text = text_of_tables(data)
    assert tables_of_text(text, "shop.toml").data == data
    write_workbook(tmp_path / "shop.xlsx", data)
    back, _ = read_workbook(tmp_path / "shop.xlsx")
    assert back.findings.problems == []
    assert without_empty(back.data) == without_empty(data)


def without_empty(value: Any) -> Any:
    """Leave out empty texts, which say as much as no setting at all."""
    if isinstance(value, dict):
        return {key: without_empty(one) for key, one in value.items() if one != ""}
    return [without_empty(one) for one in value] if isinstance(value, list) else value


def test_convert_keeps_the_book_before_and_whose_figures_they_are(tmp_path: Path) -> None:
    edited(tmp_path, setter("Start here", "rates.operator_per_hour", "yours", "Whose figure"))
    shop = load_shop(tmp_path)
    made, kept = convert_book(tmp_path)
    assert (made.name, kept.name) == ("shop.toml", "shop-before.xlsx")
    line = next(one for one in made.read_text("utf-8").splitlines() if one.startswith("operator_per_hour"))
    assert "example" not in line
    assert load_shop(tmp_path) == shop
    made, kept = convert_book(tmp_path)
    assert (made.name, kept.name) == ("shop.xlsx", "shop-before.toml")
    assert load_shop(tmp_path) == shop
    assert "rates.operator_per_hour" in read_workbook(made)[1]


def test_what_an_interview_worked_out_stays_marked_until_it_is_changed(tmp_path: Path) -> None:
    big = roll_of_answer("Big; 11; 10-1/2; 9-1/2; 10'-1; 1/2; 36", "inch")
    said = {
        "name": "Ridge",
        "units": "inch",
        "currency": "USD",
        "operator": "42",
        "helper": "30",
        "crew": "3",
    }
    data = data_of_answers(said | {"crew": "3", "hours": "07:00-15:30", "margin": "28"}, [big])
    write_starter(tmp_path, data, ours=ANSWERED, worked_out=WORKED_OUT)

    def marks() -> tuple[frozenset[str], bool]:
        tables, ours = book_tables(tmp_path)
        return tables.worked_out, "rates.operator_per_hour" in ours

    assert marks() == (WORKED_OUT, True)
    assert "shift" in read_workbook(tmp_path / "shop.xlsx")[1]  # as in the example, and yet its own
    convert_book(tmp_path)
    assert "cones = false" in (tmp_path / "shop.toml").read_text("utf-8")
    assert marks() == (WORKED_OUT, True)
    convert_book(tmp_path)
    assert marks() == (WORKED_OUT, True)


def test_both_forms_at_once_are_refused_with_what_to_remove(tmp_path: Path) -> None:
    write_starter(tmp_path)
    (tmp_path / "shop.toml").write_text(starter_text(), "utf-8")
    with pytest.raises(InputError, match=r"twice, as shop\.xlsx and as shop\.toml; move shop\.toml away"):
        load_shop(tmp_path)


@pytest.mark.parametrize(
    ("name", "typed", "millimetres"),
    [
        ("top_roll_in", "11-1/4", 285.75),
        ("top_roll_in", "0'-11", 279.4),
        ("top_roll_in", "285 mm", 285.0),
        ("working_length_in", "10'-1", 3073.4),
        ("working_length_in", 121, 3073.4),
    ],
)
def test_sizes_are_taken_as_people_type_them(
    tmp_path: Path, name: str, typed: object, millimetres: float
) -> None:
    shop = load_shop(edited(tmp_path, setter("Rolls", name, typed, "Roll 1")))
    assert getattr(shop.rolls[0], name.replace("_in", "_mm")) == pytest.approx(millimetres)


def test_hundredweights_are_of_a_hundred_pounds(tmp_path: Path) -> None:
    shop = load_shop(edited(tmp_path, setter("Rolls", "largest_weight_lb", "80 cwt", "Roll 1")))
    assert shop.rolls[0].largest_weight_kg == pytest.approx(8000 * 0.45359237)


def test_a_price_per_hundredweight(tmp_path: Path) -> None:
    def change(book: Any) -> None:
        row = next(row for row in book["Grades"].iter_rows() if row[0].value == "A36")
        row[1].value, row[2].value = 62, "cwt"

    assert load_shop(edited(tmp_path, change)).material("A36").price_per_kg == Decimal("1.366866")


@pytest.mark.parametrize(
    ("change", "wanted"),
    [
        (setter("Rates and price", "crane_per_hour", "much"), "must be a number"),
        (setter("Rates and price", "crane_per_hour", -4), "rates crane per hour: must be 0 or more"),
        (setter("Rolls", "cones", "perhaps", "Roll 1"), "must be yes or no"),
        (setter("Rolls", "top_roll_in", "eleven", "Roll 1"), "top roll: is no length"),
        (setter("Rolls", "top_roll_in", "lb", "Unit"), 'has the unit "lb", which is none of length'),
        (setter("Cutting", "mill_trim_in", "=1/0"), "shows no value"),
        (setter("Rates and price", "crane_per_hour", "45.50 USD"), "write the number alone, 45.50"),
        (setter("Rates and price", "crane_per_hour", "$45 / h"), "write the number alone, 45"),
        (setter("Rates and price", "crane_per_hour", "12,5"), "write the number alone, 12.5"),
    ],
)
def test_what_cannot_be_used_is_named_by_sheet_and_cell(
    tmp_path: Path, change: Callable[[Any], None], wanted: str
) -> None:
    with pytest.raises(BookError) as caught:
        load_shop(edited(tmp_path, change))
    told = [one for one in caught.value.problems if wanted in one]
    assert told, caught.value.problems
    assert all(one.startswith('shop.xlsx, sheet "') and " cell " in one for one in told)


def test_a_date_that_was_a_fraction_is_explained(tmp_path: Path) -> None:
    from datetime import datetime  # noqa: PLC0415

    with pytest.raises(BookError, match=r"is a date or a time and no number.*write 0 3/8"):
        load_shop(edited(tmp_path, setter("Cutting", "mill_trim_in", datetime(2026, 3, 8))))


def test_sheets_may_be_renamed_moved_and_split_by_rows(tmp_path: Path) -> None:
    def change(book: Any) -> None:
        book["Rolls"].title = "Our rolls"
        book.move_sheet("Our rolls", 4)
        book["Cutting"].insert_rows(1, 3)

    write_starter(tmp_path / "plain")
    assert load_shop(edited(tmp_path / "moved", change)).rolls == load_shop(tmp_path / "plain").rolls


@pytest.mark.parametrize("typed", ["45", " 45 ", "45.0", "1,250"])
def test_a_number_that_is_a_text_counts_as_typed(tmp_path: Path, typed: str) -> None:
    shop = load_shop(edited(tmp_path, setter("Rates and price", "crane_per_hour", typed)))
    assert shop.rates.crane_hour == Decimal(typed.replace(",", "").strip())


def test_a_value_that_merged_cells_hide_is_told_never_taken_for_another(tmp_path: Path) -> None:
    """Merging keeps the first cell only: the hidden setting is its example, and that is said with its row."""

    def down(book: Any) -> None:
        page = book["Rates and price"]
        cell = cell_of(page, "crane_per_hour")
        page.merge_cells(None, cell.row, cell.column, cell.row + 1, cell.column)

    def across(book: Any) -> None:
        page = book["Rolls"]
        cell = cell_of(page, "top_roll_in", "Roll 1")
        page.merge_cells(None, cell.row, cell.column - 1, cell.row, cell.column)

    shop = load_shop(edited(tmp_path / "down", down))
    hidden = [one for one in shop.warnings if "is not given: the example value" in one]
    assert len(hidden) == 1
    assert 'sheet "Rates and price" cell B8, rates bench per hour' in hidden[0]
    with pytest.raises(BookError, match=r'sheet "Rolls" cell C7, .*top roll: is empty; fill it in'):
        load_shop(edited(tmp_path / "across", across))


def test_a_price_of_62_a_pound_is_asked_about(tmp_path: Path) -> None:
    def change(book: Any) -> None:
        row = next(row for row in book["Grades"].iter_rows() if row[0].value == "A36")
        row[1].value = 62

    told = load_shop(edited(tmp_path, change)).warnings
    assert any(
        "price of A36 is 100 times the usual" in one and "per lb, per kg or per cwt?" in one for one in told
    )


def test_no_roll_at_all_is_refused_and_three_hundred_are_read(tmp_path: Path) -> None:
    def none(book: Any) -> None:
        for row in book["Rolls"].iter_rows(min_row=6, max_row=30):
            row[2].value = None

    with pytest.raises(BookError) as caught:
        load_shop(edited(tmp_path, none))
    assert any("has no roll; fill in a column" in one for one in caught.value.problems)
    data = starter_data()
    data["roll"] = [{**data["roll"][0], "name": f"Roll {number}"} for number in range(300)]
    write_workbook(tmp_path / "shop.xlsx", data)
    assert len(load_shop(tmp_path).rolls) == 300


def test_a_workbook_of_something_else_is_one_clear_message(tmp_path: Path) -> None:
    write_starter(tmp_path)
    (tmp_path / "shop.xlsx").write_bytes((tmp_path / "rack.xlsx").read_bytes())
    with pytest.raises(InputError, match="holds no part of a shop's book"):
        load_shop(tmp_path)


def test_what_an_owner_cannot_know_has_a_default_and_says_so(tmp_path: Path) -> None:
    def change(book: Any) -> None:
        for name in (
            "bearing_span_in",
            "friction",
            "power_hp",
            "surface_speed_ft_min",
            "least_diameter_factor",
        ):
            cell_of(book["Rolls"], name, "Roll 1").value = None

    shop = load_shop(edited(tmp_path, change))
    assert shop.rolls[0].bearing_span_mm is None
    assert shop.rolls[0].surface_speed_mm_min == 15 * 304.8
    assert any("surface speed is not given: the example value" in one for one in shop.warnings)


def test_a_metric_shop_starts_in_metric(tmp_path: Path) -> None:
    write_starter(tmp_path, metric_data(starter_data()))
    shop = load_shop(tmp_path)
    assert not shop.inch
    assert shop.paper == "a4"
    assert {plate.thickness_mm for plate in shop.stock} == {5, 6, 8, 10, 12}
    assert [one for one in shop.warnings if "rack" in one] == []
    inch = read_tables(BookTables(starter_data(), {}, Findings("")))
    assert shop.rolls[0].working_length_mm == pytest.approx(inch.rolls[0].working_length_mm, rel=1e-3)
    assert float(shop.material("A36").price_per_kg) == pytest.approx(
        float(inch.material("A36").price_per_kg), rel=0.01
    )
