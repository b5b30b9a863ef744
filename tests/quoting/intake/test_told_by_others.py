"""What a sheet says elsewhere than in the row: beside a column, in a note, in the words of its own trade."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cylinder, Order
from quoting.intake.layout import heading_meaning
from quoting.intake.words import is_errand
from tests.quoting.intake.sheets import read_rows


def asked(order: Order) -> list[str]:
    return [one.id for one in order.questions if one.blocking]


def test_a_plate_column_beside_a_thickness_is_the_material(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Plate", "Thk", "OD", "Length"]
    order = read_rows(tmp_path, ["1", "2", "A36", '1/4"', '48"', '60"'], head=head)
    assert [(line.material, line.thickness_mm) for line in order.lines] == [("A36", 6.35)]


@pytest.mark.parametrize(
    ("counts", "rows", "wanted"),
    [
        (["Qty per", "Ext qty"], [["2", "6"], ["1", "3"]], [6, 3]),
        (["Jan", "Feb", "Total"], [["2", "4", "6"], ["1", "0", "1"]], [6, 1]),
        (["Indent qty", "PO qty", "Bal qty"], [["6", "0", "6"], ["3", "0", "3"]], [6, 3]),
    ],
)
def test_totals_go_with_the_counts_beside_them(
    tmp_path: Path, counts: list[str], rows: list[list[str]], wanted: list[int]
) -> None:
    head = ["Mark", *counts, "OD", "Thk", "Length", "Material"]
    lines = [[f"S{n}", *row, f'{40 + n}"', '1/4"', '60"', "A36"] for n, row in enumerate(rows)]
    assert [line.quantity for line in read_rows(tmp_path, *lines, head=head).lines] == wanted


def test_a_total_that_is_not_the_sum_is_asked_about(tmp_path: Path) -> None:
    head = ["Mark", "Jan", "Feb", "Total", "OD", "Thk", "Length", "Material"]
    order = read_rows(tmp_path, ["S1", "2", "4", "7", '48"', '1/4"', '60"', "A36"], head=head)
    assert order.lines == ()
    assert asked(order)


def test_what_was_is_not_priced(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "OD was", "OD now", "Thk", "Length", "Material"]
    order = read_rows(tmp_path, ["S1", "2", '42"', '44"', '1/4"', '60"', "A36"], head=head)
    assert order.lines[0].shape == Cylinder(44 * 25.4, Basis.OUTSIDE, 60 * 25.4)


def test_a_list_that_grows_upward_has_its_head_at_the_foot(tmp_path: Path) -> None:
    rows = [["2", "1", '36"', '1/4"', '60"', "A36"], ["1", "4", '48"', '1/4"', '60"', "A36"]]
    head = ["Item", "Qty", "OD", "Thk", "Length", "Material"]
    order = read_rows(tmp_path, rows[1], head, head=rows[0])
    assert [(line.number, line.quantity, line.place.row) for line in order.lines] == [
        ("2", 1, 1),
        ("1", 4, 2),
    ]


@pytest.mark.parametrize(
    ("note", "free"),
    [
        ("Plates are free issue", True),
        ("Blanks already cut, we bring, you roll", True),
        ("The skirt plate is free issue", False),
        ("Plate free issue or price with material", False),
        ("We cut our own bevels so square edges fine", False),
    ],
)
def test_plate_of_the_customers_for_all_lines_is_said_and_not_priced(
    tmp_path: Path, note: str, free: bool
) -> None:
    row = ["10", "2", "48", "ID", "1/4", "60", "A36"]
    order = read_rows(tmp_path, row, title=note)
    assert [line.free_issue for line in order.lines] == (
        [True] if free else [False] if "bevels" in note else []
    )


def test_a_grade_for_all_lines_but_one(tmp_path: Path) -> None:
    rows = [[str(n), "2", "48", "ID", "1/4", str(60 + n), ""] for n in (1, 2, 3)]
    order = read_rows(tmp_path, *rows, title="Material A36 except line 3, which is 304L")
    assert [line.material for line in order.lines] == ["A36", "A36", "304L"]


def test_pieces_for_one_unit_are_asked_about_where_no_number_of_units_stands(tmp_path: Path) -> None:
    row = ["1", "2", "48", "ID", "1/4", "60", "A36"]
    assert asked(read_rows(tmp_path, row, title="Quantities are for one tank")) == ["all/quantity_ok"]
    order = read_rows(tmp_path, row, title="Quantities are for one tank, 3 tanks")
    assert [line.quantity for line in order.lines] == [6]


@pytest.mark.parametrize(
    ("unit", "text", "wanted"),
    [
        ("SET", "split collar, 2 half shells per set", 6),
        ("PR", "pipe shield halves", 6),
        ("SET", "collar", 0),
    ],
)
def test_sets_are_multiplied_where_their_pieces_are_told(
    tmp_path: Path, unit: str, text: str, wanted: int
) -> None:
    head = ["Item", "Qty", "U/M", "Description", "ID", "Thk", "Length", "Material"]
    order = read_rows(tmp_path, ["1", "3", unit, text, '20"', '1/4"', '12"', "A36"], head=head)
    assert [line.quantity for line in order.lines] == ([wanted] if wanted else [])


@pytest.mark.parametrize("said", ['10 mm or 3/8"', '3/8" or 10 mm'])
def test_one_size_or_another_is_asked_about(tmp_path: Path, said: str) -> None:
    head = ["Item", "Qty", "OD", "Thk", "Length", "Material"]
    order = read_rows(tmp_path, ["1", "3", '20"', said, '12"', "A36"], head=head)
    assert asked(order) == ["1/thickness"]


def test_a_radius_in_a_column_of_diameters_is_that_of_a_segment(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Description", "Dia (mm)", "Thk (mm)", "Length (mm)", "Material"]
    order = read_rows(tmp_path, ["1", "3", "pad, 60 deg", "R 520 outside", "8", "300", "A36"], head=head)
    assert order.lines[0].shape == Arc(520, Basis.OUTSIDE, 60, 300)


@pytest.mark.parametrize(
    ("heading", "field"),
    [
        ("How thick", "thickness"),
        ("How big across (outside)", "diameter"),
        ("Seg per bin", "per_unit"),
        ("Plates/strake", "per_ring"),
        ("Roll to OD", "diameter"),
        ("Deliv.", "due"),
        ("Axial", "length"),
    ],
)
def test_headings_in_plain_words(heading: str, field: str) -> None:
    assert heading_meaning(heading).field == field


@pytest.mark.parametrize(
    ("remark", "errand"),
    [
        ("Abholung mit LKW, Kran bis 14 Uhr", True),
        ("mark each with job no 4411", True),
        ("truck at gate 3, ask for Rosalind", True),
        ("truck at gate 3, bevel one end", False),
        ("mark each 48 long", False),
        ("call if over 60 wide", False),
        ("TRUCK AT GATE 3 ANNEALED", False),
    ],
)
def test_an_errand_changes_no_part(remark: str, errand: bool) -> None:
    assert is_errand(remark) is errand
