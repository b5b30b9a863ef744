"""What a shop pins about one customer, units that number formats show, and revisions that changed."""

from __future__ import annotations

from pathlib import Path

import pytest
import xlsxwriter

from quoting.core import Basis, Cylinder, InputError, Order
from quoting.intake.answers import resolve, with_revision_questions
from quoting.intake.answers.revisions import revisions_of
from quoting.intake.layout import CustomerMap, Meaning, columns_read, customer_map
from quoting.intake.read_orders import Sender, read_orders
from tests.quoting.intake.sheets import HEAD, read_rows
from tests.quoting.intake.small_shop import TODAY, small_shop

ORDERS = Path(__file__).parents[2] / "data" / "orders"
SHEETS = sorted(file for file in ORDERS.iterdir() if file.suffix != ".json")
ODD = ["Zba", "Kov", "Trel", "Mip", "Laz", "Grun"]


def test_headers_in_another_language_are_pinned_once(tmp_path: Path) -> None:
    file = tmp_path / "order.csv"
    file.write_text(",".join(ODD) + "\n1,2,600,6,1200,A36\n")
    with pytest.raises(InputError, match="no row of headers"):
        read_orders(file, small_shop(), today=TODAY)
    pinned = customer_map(
        """
        name = "Muster"
        basis = "inside"
        [columns]
        Zba = "number"
        Kov = "quantity"
        Trel = "diameter mm"
        Mip = "thickness mm"
        Laz = "width mm"
        Grun = "material"
        """,
        "muster.toml",
    )
    order = read_orders(file, small_shop(), today=TODAY, sender=Sender(pinned=pinned))
    assert order.lines[0].shape == Cylinder(600, Basis.INSIDE, 1200)
    assert "diameters without a mark are inside, as pinned for this customer" in order.lines[0].assumptions


def test_a_map_is_offered_from_a_sheet_and_reads_back(tmp_path: Path) -> None:
    read_rows(tmp_path, ["1", "2", "48", "ID", "1/4", "60", "A36", "x"], head=[*HEAD, 'Odd "one"'])
    offered = columns_read(tmp_path / "order.csv", name="Ridge")
    assert dict(offered.columns)["dia (in)"] == Meaning("diameter", None, "in")
    assert dict(offered.columns)['odd "one"'] == Meaning("carried")
    assert customer_map(offered.to_text(), "ridge.toml") == offered


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("unit = 3", "m.toml: unit does not fit"),
        ("colour = 1", "m.toml: colour does not fit"),
        ("basis = 'outer'", 'use "inside", "outside", "mean"'),
        ("[columns]\nDia = 'girthh'", "m.toml: Dia does not fit"),
        ("[columns]\nDia = 'diameter yards'", "after the field write inside, outside or mean, and a unit"),
        ("= =", "is not valid TOML"),
    ],
)
def test_a_map_that_does_not_fit_says_where(text: str, message: str) -> None:
    with pytest.raises(InputError, match=r"m\.toml") as caught:
        customer_map(text, "m.toml")
    assert message in str(caught.value)


def test_an_empty_map_changes_nothing() -> None:
    assert customer_map("", "m.toml") == CustomerMap()


def test_a_unit_that_only_the_number_format_shows(tmp_path: Path) -> None:
    file = tmp_path / "order.xlsx"
    book = xlsxwriter.Workbook(str(file))
    sheet = book.add_worksheet()
    sheet.write_row(0, 0, ["Item", "Qty", "OD", "Thk", "Length", "Material"])
    sheet.write_row(1, 0, [1, 1, 24, None, 48, "A36"])
    sheet.write_number(1, 3, 6, book.add_format({"num_format": '0.0" mm"'}))
    sheet.write_number(1, 2, 24, book.add_format({"num_format": '0\\"'}))
    book.close()
    order = read_orders(file, small_shop(), today=TODAY)
    assert [question.id for question in order.questions] == ["all/unit"]
    assert dict(order.drafts[0].values)["thickness"] == "6"
    assert dict(order.drafts[0].values)["diameter"] == "609.6"


@pytest.mark.parametrize("name", [file.name for file in SHEETS])
def test_a_sheet_reads_the_same_with_the_map_that_it_offers(name: str) -> None:
    offered = columns_read(ORDERS / name, name="Somebody")
    pinned = customer_map(offered.to_text(), "map.toml")
    plain = read_orders(ORDERS / name, small_shop(), today=TODAY)
    assert read_orders(ORDERS / name, small_shop(), today=TODAY, sender=Sender(pinned=pinned)) == plain


PARTS = [*HEAD, "Part No", "Rev"]
ROW = ["1", "2", "48", "ID", "1/4", "60", "A36", "T-1"]


def revision_text(before: Order, after: Order) -> str:
    asked = with_revision_questions(after, revisions_of(before)).questions
    return next((one.text for one in asked if one.id.endswith("/revision")), "")


def test_a_revision_that_changed_is_asked_about(tmp_path: Path) -> None:
    before = read_rows(tmp_path, [*ROW, "A"], head=PARTS)
    after = read_rows(tmp_path, [*ROW, "B"], head=PARTS)
    asked = with_revision_questions(after, revisions_of(before)).questions[-1]
    assert (asked.id, asked.blocking) == ("1/revision", False)
    assert asked.assumed == "as the new sheet says, drawing revision B"
    assert asked.text == (
        "Part T-1 was revision A before, now B: what changed? The sheet gives the same sizes."
    )
    assert with_revision_questions(before, revisions_of(before)) == before


def test_sizes_that_changed_are_named_with_and_without_a_new_revision(tmp_path: Path) -> None:
    before = read_rows(tmp_path, [*ROW, "A"], head=PARTS)
    thicker = [*ROW[:4], "3/8", *ROW[5:]]
    assert revision_text(before, read_rows(tmp_path, [*thicker, "A"], head=PARTS)) == (
        'Part T-1 differs from your last sheet at revision A: thickness 1/4" is now 3/8". '
        "Is the new one right?"
    )
    assert 'In the sheet thickness 1/4" is now 3/8"; anything else?' in revision_text(
        before, read_rows(tmp_path, [*thicker, "B"], head=PARTS)
    )


def test_a_part_that_waits_is_compared_too_and_one_that_stands_twice_is_not(tmp_path: Path) -> None:
    before = read_rows(tmp_path, [*ROW, "A"], head=PARTS)
    waits = read_rows(tmp_path, ["1", "2", "48", "", *ROW[4:], "B"], head=PARTS)
    assert not waits.lines
    assert "was revision A before, now B" in revision_text(before, waits)
    twice = read_rows(tmp_path, [*ROW, "B"], ["2", "1", "36", *ROW[3:], "B"], head=PARTS)
    assert revision_text(before, twice) == ""


def test_the_answer_about_a_revision_closes_the_question(tmp_path: Path) -> None:
    before = read_rows(tmp_path, [*ROW, "A"], head=PARTS)
    after = with_revision_questions(read_rows(tmp_path, [*ROW, "B"], head=PARTS), revisions_of(before))
    done = resolve(after, {"1/revision": "as the new sheet says"}, small_shop())
    assert [one.id for one in done.questions] == ["all/ends"]
    assert "Answer: as the new sheet says" in done.lines[0].assumptions[-1]
