"""What a shop pins about one customer, units that number formats show, and revisions that changed."""

from __future__ import annotations

from pathlib import Path

import pytest
import xlsxwriter

from quoting.errors import InputError
from quoting.intake import (
    CustomerMap,
    columns_read,
    customer_map,
    read_orders,
    revisions_of,
    with_revision_questions,
)
from quoting.intake.columns import Meaning
from quoting.parts import Basis, Cylinder
from tests.quoting.intake.sheets import HEAD, read_rows
from tests.quoting.intake.small_shop import TODAY, small_shop

ODD = ["Zeile", "Stk", "Durchm", "Staerke", "Breite", "Guete"]


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
        Zeile = "number"
        Stk = "quantity"
        Durchm = "diameter mm"
        Staerke = "thickness mm"
        Breite = "width mm"
        Guete = "material"
        """,
        "muster.toml",
    )
    order = read_orders(file, small_shop(), today=TODAY, customer_map=pinned)
    assert order.lines[0].shape == Cylinder(600, Basis.INSIDE, 1200)
    assert "diameters without a mark are inside, as pinned for this customer" in order.lines[0].assumptions


def test_a_map_is_offered_from_a_sheet_and_reads_back(tmp_path: Path) -> None:
    read_rows(tmp_path, ["1", "2", "48", "ID", "1/4", "60", "A36", "x"], head=[*HEAD, 'Odd "one"'])
    offered = columns_read(tmp_path / "order.csv", name="Ridge")
    assert dict(offered.columns)["dia (in)"] == Meaning("diameter", None, "in")
    assert dict(offered.columns)['odd "one"'] == Meaning("ignored")
    assert customer_map(offered.to_text(), "ridge.toml") == offered


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("unit = 3", "m.toml: unit does not fit"),
        ("colour = 1", "m.toml: colour does not fit"),
        ("basis = 'outer'", 'use "inside", "outside", "mean"'),
        ("[columns]\nDia = 'girthh'", "m.toml: Dia does not fit"),
        ("[columns]\nDia = 'diameter yards'", "after the field write inside, outside or mean, and a unit"),
        ("= =", "is no valid TOML"),
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


def test_a_revision_that_changed_is_asked_about(tmp_path: Path) -> None:
    head = [*HEAD, "Part No", "Rev"]
    row = ["1", "2", "48", "ID", "1/4", "60", "A36", "T-1"]
    before = read_rows(tmp_path, [*row, "A"], head=head)
    after = read_rows(tmp_path, [*row, "B"], head=head)
    assert revisions_of(before) == {"T-1": "A"}
    asked = [
        one for one in with_revision_questions(after, revisions_of(before)).questions if "revision" in one.id
    ]
    assert [(one.id, one.blocking) for one in asked] == [("1/revision", False)]
    assert asked[0].text == "Part T-1 was revision A before, now B: what changed?"
    assert with_revision_questions(before, revisions_of(before)) == before
