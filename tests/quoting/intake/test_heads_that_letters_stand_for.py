"""Columns, forms and rows that were taken for something else: letters that a note explains, forms stacked
below one another, parts in columns, totals of sets, counts in brackets, marks that look like a radius.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cylinder
from quoting.intake.layout import heading_meaning
from tests.quoting.intake.test_units_grades_and_marks import blocking, read


def test_letters_that_a_note_explains_head_columns(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        ("Plates rolled to be tacked by us. W = along the axis, G = girth (developed).",),
        ("ID tag", "Pcs", "G mm", "W mm", "Thk", "To", "Quality"),
        ("T-1", 2, 3173, 1500, 10, "Ø1000 inside", "S235JR"),
        ("T-2", 2, 2000, 1500, 10, "Ø1000 inside", "S235JR"),
    )
    (line,) = order.lines
    assert (line.shape, line.free_issue) == (Cylinder(1000, Basis.INSIDE, 1500), False)
    assert {one.line for one in order.questions if one.blocking} == {"4"}  # its blank closes no such circle


def test_a_total_that_is_not_pieces_times_sets_is_asked_about(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        ("Mk", "Part", "Qty/skid", "Skids", "Total", "ID in", "Plate in", "Lg in", "Matl"),
        ("A", "shell", 2, 3, 6, 24, 0.25, 40, "304L"),
        ("B", "shell", 1, 3, 3, 16, 0.1875, 30, "304L"),
        ("C", "shell", 2, 3, 5, 20, 0.25, 30, "304L"),
        ("D", "half band", 4, 3, 12, 24.5, 0.25, 12, "304L"),
    )
    assert [line.quantity for line in order.lines] == [6, 3, 12]
    assert isinstance(order.lines[-1].shape, Arc)
    assert [one.read for one in order.questions if one.blocking] == ["5"]


def test_forms_below_one_another_are_one_part_each(tmp_path: Path) -> None:
    def form(name: str, count: int, inside: int) -> tuple[tuple[object, ...], ...]:
        return (
            (), ("Pieza", name), ("Tipo", "virola"), ("Cantidad", count), ("Diámetro interior (mm)", inside),
            ("Espesor (mm)", 10), ("Largo (mm)", 1800), ("Material", "A36"), ("Observaciones", "sin pintar"),
        )  # fmt: skip

    order = read(tmp_path, ("FICHA DE PIEZAS A ROLAR",), *form("F-1", 2, 2400), *form("F-2", 1, 1500))
    assert [(line.quantity, line.shape) for line in order.lines] == [
        (2, Cylinder(2400, Basis.INSIDE, 1800)),
        (1, Cylinder(1500, Basis.INSIDE, 1800)),
    ]


def test_parts_in_columns_whose_names_are_words_of_headings(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        ("Part", "R-11", "R-12", "R-13"),
        ("Description", "shell", "half shell", "curved plate"),
        ("Quantity", 2, 6, 8),
        ("Inside dia (mm)", 1350, "", ""),
        ("Inside radius (mm)", "", 450, 2250),
        ("Angle (deg)", 360, 180, 30),
        ("Plate thk (mm)", 12, 8, 10),
        ("Length along axis (mm)", 2000, 1800, 1500),
        ("Grade", "S355J2", "S275JR", "S275JR"),
    )
    assert [(line.quantity, type(line.shape)) for line in order.lines] == [(2, Cylinder), (6, Arc), (8, Arc)]


def test_a_row_with_sizes_is_no_total(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        ("Qty", "Inside radius mm", "t mm", "Width mm", "Angle", "Grade", "Rem."),
        (12, 2500, 20, 800, "60°", "S355J2", ""),
        (9, 3000, 25, 600, "", "S355J2", "total 9"),
    )
    assert [row.reason for row in order.rows if row.place.row == 3] != ["total"]


def test_a_count_in_brackets_heads_a_part_of_a_list(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        ("all A36, dims are inside, we furnish nothing:",),
        ("(2) housing cylinders, 3/16 x 54 ID x 72 tall",),
        ("(4) inspection collars, 1/4 x 20 ID, length whatever drops out of the plate",),
    )
    assert [line.quantity for line in order.lines] == [2]
    assert not order.lines[0].free_issue
    assert {row.place.row for row in order.rows if row.state.name == "QUESTION"} == {3}


@pytest.mark.parametrize(
    ("remark", "free"),
    [
        ("plates rolled to be tacked by us", False),
        ("plate supplied by us", True),
        ("plates by customer", True),
    ],
)
def test_work_done_by_the_customer_is_no_plate_of_his(tmp_path: Path, remark: str, free: bool) -> None:
    head = ("Item", "Qty", "ID mm", "Thk mm", "Length mm", "Material", "Remarks")
    order = read(tmp_path, head, (1, 2, 1200, 10, 1500, "S235JR", remark))
    assert ("1/free_issue_ok" in blocking(order)) is free


@pytest.mark.parametrize(
    ("text", "shape"),
    [
        ("four half sleeves 30 OD x 1/2 x 40 in. long, A36", Arc),
        ("2 cans 30 OD x 1/2 x 40 in. long, A36", Cylinder),
    ],
)
def test_half_of_any_round_part_is_an_arc(tmp_path: Path, text: str, shape: type) -> None:
    order = read(tmp_path, ("Item", "Description"), (1, text))
    assert [type(line.shape) for line in order.lines] == [shape]


@pytest.mark.parametrize(
    ("header", "field", "basis"),
    [
        ("Gew./Stk. kg", "weight", None),
        ("Ins. Dia. (in)", "diameter", Basis.INSIDE),
        ("OD lower [mm]", "bottom", Basis.OUTSIDE),
        ("segment (°)", "angle", None),
        ("qty of plate", "quantity", None),
        ("Particulars", "description", None),
    ],
)
def test_headings_met_in_sheets_nobody_had_seen(header: str, field: str, basis: Basis | None) -> None:
    found = heading_meaning(header)
    assert (found.field, found.basis) == (field, basis)


def test_the_name_of_a_ring_is_no_radius(tmp_path: Path) -> None:
    head = ("Ring", "Qty", "ID mm", "Thk mm", "Length mm", "Material")
    order = read(tmp_path, head, ("R5", 2, 1200, 10, 1500, "S235JR"), ("R6", 2, 1200, 10, 1500, "S355J2"))
    assert not blocking(order)
    assert all(line.shape == Cylinder(1200, Basis.INSIDE, 1500) for line in order.lines)


def test_letters_in_brackets_are_marks_that_a_note_explains(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        ("Diameters are inside; items marked (o) outside.",),
        ("Item", "Qty", "Type", "Ø mm", "t mm", "L mm", "Grade"),
        (1, 2, "shell", "1000", 8, 1500, "S275JR"),
        (2, 2, "shell", "1000 (o)", 8, 1500, "S275JR"),
    )
    assert [line.shape for line in order.lines] == [
        Cylinder(1000, Basis.INSIDE, 1500), Cylinder(1000, Basis.OUTSIDE, 1500),
    ]  # fmt: skip
