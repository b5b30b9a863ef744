"""Sheets that are no table of one part a row: parts in columns, data sheets side by side, numbered lists."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path

import pytest

from quoting.core import InputError, Order, State
from quoting.intake import shapes
from tests.quoting.intake.sheets import GOOD, HEAD, question, read_rows

STACK = (
    ["Quantity", "1", "2", "1"],
    ["Material", "A36", "A36", "304L"],
    ["Plate thickness (mm)", "8", "6", "5"],
    ["Outside diameter (mm)", "1420", "1220", "1220"],
    ["Height (mm)", "2000", "1500", "1250"],
)


def _described(folder: Path, *rows: list[str]) -> Order:
    return read_rows(folder, *rows, head=["Please quote, all in inches:"])


def test_a_word_that_heads_columns_elsewhere_is_a_value_where_parts_stand_in_columns(tmp_path: Path) -> None:
    order = read_rows(tmp_path, *STACK, ["Long. seam", "weld", "weld", "tack"], head=["Stack sections"])
    assert [(line.quantity, line.thickness_mm) for line in order.lines] == [(1, 8), (2, 6), (1, 5)]


def test_two_data_sheets_side_by_side_are_two_parts(tmp_path: Path) -> None:
    rows = (
        ["Mark", "E-01", "", "Mark", "E-02"],
        ["Quantity", "1", "", "Quantity", "3"],
        ["Material", "A36", "", "Material", "304L"],
        ["Thickness", "8 mm", "", "Thickness", "6 mm"],
        ["Inside diameter", "750 mm", "", "Outside diameter", "508 mm"],
        ["Width", "900 mm", "", "Width", "600 mm"],
    )
    order = read_rows(tmp_path, *rows, head=["DATA SHEET", "", "", "DATA SHEET"])
    assert [(line.part_no, line.quantity, line.material) for line in order.lines] == [
        ("E-01", 1, "A36"),
        ("E-02", 3, "304L"),
    ]


def test_a_row_of_a_list_without_headings_is_a_part_though_its_diameter_is_bare(tmp_path: Path) -> None:
    rows = (
        ["A", "4", "3/8 A36", "48 ID", "60 long"],
        ["F", "3", "3/8 A36", "36", "48 long"],
        ["G", "2", "1/4 A36", "36 OD", "48 long"],
    )
    order = _described(tmp_path, *rows)
    states = [row.state for row in order.rows if row.place.row in (2, 3, 4)]
    assert states == [State.PRICED, State.QUESTION, State.PRICED]


def test_every_numbered_position_of_a_letter_is_a_line(tmp_path: Path) -> None:
    order = _described(
        tmp_path,
        ["Item 1: 4 pcs shell 48 ID x 60 long, 1/4 thk, A36"],
        ["Item 2: shells for the tank as for your last order"],
        ["Item 3: 2 pcs shell 48 ID x 30 long, 1/4 thk, A36"],
        ["Kind regards"],
    )
    assert [line.quantity for line in order.lines] == [4, 2]
    assert question(order, "2/diameter").blocking
    assert [row.state for row in order.rows if row.place.row == 5] == [State.IGNORED]


def test_two_diameters_without_a_word_of_which_is_which_are_asked_about(tmp_path: Path) -> None:
    """Found by mutated workbooks: the second had no basis to be compared with."""
    rows = [
        ["1", "1", "1", "24", "OD", "0.25", "48", "A36"],
        ["3", "1", "1", "24", "", "2026-03-08", "48", "A36"],
    ]
    head = ["Item", "Qty", "m / mean –", "ID", "ID/OD", "Thk (in)", "Length", "Material"]
    order = read_rows(tmp_path, head, *rows, head=["Please quote"])
    assert len(order.questions) > 2
    assert order.lines == ()


def test_labels_with_hardly_a_value_are_no_table(tmp_path: Path) -> None:
    """Found by mutated sheets: there was no row to point at."""
    head = ["ItÜm", "Qty", "DiN", "6¿13&ID/OD", "Thk (in)", "Length8", 'Mate"', "ditto", "do."]
    with suppress(InputError):
        assert not read_rows(tmp_path, ["¦", "1", "36", "ID", "", "48", "A36"], head=head).lines


def test_a_chord_beyond_any_size_is_asked_about(tmp_path: Path) -> None:
    assert shapes.chord_radius(80, 20) == 50
    with pytest.raises(ValueError, match="far too long"):
        shapes.chord_radius(1e300, 20)


def test_a_form_whose_part_stands_on_its_last_row_is_read_to_the_end(tmp_path: Path) -> None:
    """Found by mutated workbooks: a row of the table put in order was looked for in the sheet as it came."""
    rows = (
        *([""] * 8, [""] * 8),
        ["", "", "RFQ No:", "R-1187", "", "", "", ""],
        ["", "", "Customer:", "Lakeside Tank (invented)", "", "", "", ""],
        [""] * 8,
        ["", "", "1e308", "ø . – SS", "I.D.", "dia 0.25 007 OD", "Lg.", "Mat'l"],
        ["", "", "T-1", "2.0", "60.0", "3/8", "72.0", "A36"],
    )
    with pytest.raises(InputError, match="no column gives the quantity"):
        read_rows(tmp_path, *rows, head=["", "", "REQUEST FOR QUOTATION", "", "", "", "", ""])


def test_a_cell_that_names_another_row_holds_what_that_row_does(tmp_path: Path) -> None:
    rows = (["1", "2", "48", "ID", "1/4", "60", "A36"], ["2", "3", "30", "ID", "3/8", "20", "A36"],
            ["3", "1", "same as 1", "idem", "same as 1", "same as item 2", "idem"])  # fmt: skip
    order = read_rows(tmp_path, *rows)
    line = next(line for line in order.lines if line.id == "3")
    draft = next(draft for draft in order.drafts if draft.id == "3")
    assert shapes.length(dict(draft.values), "length") == pytest.approx(508)
    assert line.thickness_mm == pytest.approx(6.35)


def test_units_named_beside_pieces_of_each_multiply(tmp_path: Path) -> None:
    head = ["Mk", "Qty/saddle", "Saddles", *HEAD[2:]]
    order = read_rows(tmp_path, ["W1", "2", "4", *GOOD[2:]], ["W2", "1", "3", *GOOD[2:]], head=head)
    assert [line.quantity for line in order.lines] == [8, 3]


@pytest.mark.parametrize("head", ["Size (ID)", "ID of liner", "Rim ID"])
def test_headings_that_name_the_side_of_a_diameter(tmp_path: Path, head: str) -> None:
    order = read_rows(
        tmp_path, ["1", "2", '48"', '1/4"', '60"', "A36"], ["2", "1", '30"', '1/4"', '60"', "A36"],
        head=["Item", "Qty", head, "Thk", "Length", "Material"],
    )  # fmt: skip
    assert [str(line.shape.basis) for line in order.lines] == ["inside", "inside"]


def test_the_customers_own_work_changes_no_shape(tmp_path: Path) -> None:
    for said in ("legs welded on later by us", "Double V, prepped by us before rolling", "no change"):
        order = read_rows(tmp_path, [*GOOD, said], head=[*HEAD, "Remarks"])
        assert [line.id for line in order.lines] == ["1"], said
