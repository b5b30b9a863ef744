"""Columns that no word explains, and other rules by kind: marks, allowances, the work of others."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, Order, Shape
from quoting.intake.layout import heading_meaning
from tests.quoting.intake.sheets import read_rows

HEAD = ["Mark", "Qty", "Thk", "ID", "Length", "Material", "Remarks"]
IN = 25.4


def shapes(order: Order) -> list[object]:
    """Return the shapes of an order with their sizes rounded to a thousandth."""
    return [_rounded(one.shape) for one in order.lines]


def _rounded(shape: Shape) -> tuple[object, ...]:
    return tuple(round(size, 3) if isinstance(size, float) else size for size in asdict(shape).values())


def line(tmp_path: Path, remark: str) -> Order:
    return read_rows(tmp_path, ["S1", "2", '1/4"', '48"', '60"', "A36", remark], head=HEAD)


@pytest.mark.parametrize(
    ("heading", "cells"),
    [("Tall", ['60"', '48"']), ("Projection", ['8"', '10"']), ("Top to bottom", ["60", "48"])],
)
def test_the_one_column_left_is_the_length_and_is_said(
    tmp_path: Path, heading: str, cells: list[str]
) -> None:
    head = ["Mark", "Qty", "Thk", "ID", heading, "Material"]
    rows = [[f"S{n}", "2", '1/4"', f'{40 + n}"', cell, "A36"] for n, cell in enumerate(cells)]
    order = read_rows(tmp_path, *rows, head=head)
    lengths = [one.shape.length_mm for one in order.lines if isinstance(one.shape, Cylinder)]
    assert lengths == pytest.approx([float(cell.strip('"')) * IN for cell in cells])
    assert all(heading in " ".join(one.assumptions) for one in order.lines)


@pytest.mark.parametrize("heading", ["Baffle spacing", "Clearance", "Weld leg"])
def test_a_size_of_something_else_is_no_length(tmp_path: Path, heading: str) -> None:
    head = ["Mark", "Qty", "Thk", "ID", heading, "Material"]
    order = read_rows(tmp_path, ["S1", "2", '1/4"', '48"', '18"', "A36"], head=head)
    assert order.lines == ()


def test_two_columns_left_are_asked_about(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "Thk", "ID", "Tall", "Deep", "Material"]
    order = read_rows(tmp_path, ["S1", "2", '1/4"', '48"', '18"', '20"', "A36"], head=head)
    assert order.lines == ()


@pytest.mark.parametrize(("heading", "lines"), [("Rims", 2), ("Holes", 0)])
def test_parts_in_the_plural_are_counted_and_holes_are_not(tmp_path: Path, heading: str, lines: int) -> None:
    head = ["Mark", heading, "Thk", "ID", "Length", "Material"]
    rows = [[f"S{n}", str(n), '1/4"', f'{40 + n}"', '60"', "A36"] for n in (4, 6)]
    assert len(read_rows(tmp_path, *rows, head=head).lines) == lines


def test_a_head_of_three_known_words_is_one_by_its_cells(tmp_path: Path) -> None:
    head = ["Shaft", "Rings", "Outside dia", "Plate thk", "Depth of ring", "Material grade", "Lifting"]
    row = ["Shaft one", "4", '48"', '3/8"', '60"', "A36", "lugs fitted by site"]
    order = read_rows(tmp_path, row, head=head)
    assert shapes(order) == [_rounded(Cylinder(48 * IN, Basis.OUTSIDE, 60 * IN))]


@pytest.mark.parametrize(
    ("heading", "field"),
    [
        ("Počet kusov", "quantity"), ("Hrúbka (mm)", "thickness"), ("Vonkajší priemer", "diameter"),
        ("두께", "thickness"), ("Not", ""), ("T x W x Dia", "size"), ("Rolled to (degrees)", "angle"),
        ("Rad I/S", "radius"),
    ],
)  # fmt: skip
def test_headings_of_more_languages_and_lists(heading: str, field: str) -> None:
    assert heading_meaning(heading).field == field


@pytest.mark.parametrize(
    "remark",
    [
        "weld seam at your shop not req'd", "two half shells acceptable", "2 pcs ok", "400 BHN nominal",
        "customer to weld and test at site", "lifting lugs furnished and welded by our crew",
        "cement lined by others", "goes inside S1",
    ],
)  # fmt: skip
def test_what_changes_nothing_is_not_asked(tmp_path: Path, remark: str) -> None:
    order = line(tmp_path, remark)
    assert len(order.lines) == 1


def test_edge_preparation_by_the_customer_is_not_priced(tmp_path: Path) -> None:
    assert line(tmp_path, "Edge prep. done by us").lines[0].edge_prep is None


@pytest.mark.parametrize(
    "remark",
    [
        "ID after lining",
        "flat on one side",
        "already shipped to you",
        "shell not req'd",
        "seam weld 2 sides by you if not req'd by code",
    ],
)
def test_what_may_change_the_part_is_asked(tmp_path: Path, remark: str) -> None:
    assert line(tmp_path, remark).lines == ()


def test_a_sample_among_the_names_of_parts_is_asked(tmp_path: Path) -> None:
    head = ["No", "Qty", "Part", "Thk", "ID", "Length", "Material"]
    rows = [
        ["1", "2", "Sleeve", '1/4"', '48"', '60"', "A36"],
        ["2", "1", "Sample, already shipped", '1/4"', '40"', '60"', "A36"],
    ]
    assert [one.number for one in read_rows(tmp_path, *rows, head=head).lines] == ["1"]


def test_gauge_among_millimetres_is_asked(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "Gauge", "ID mm", "Length mm", "Material"]
    assert read_rows(tmp_path, ["S1", "2", "12", "1800", "1500", "S235JR"], head=head).lines == ()


def test_gauge_sheet_of_a_small_round_is_in_inches(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "Gauge", "ID", "Length", "Material"]
    order = read_rows(tmp_path, ["S1", "2", "11 ga", "18", "60", "A36"], head=head)
    assert shapes(order) == [_rounded(Cylinder(18 * IN, Basis.INSIDE, 60 * IN))]


def test_plates_of_one_ring_are_its_parts(tmp_path: Path) -> None:
    head = ["Shell course", "Plates per course", "Thk", "Width", "ID", "Material"]
    order = read_rows(tmp_path, ["1", "4", '3/8"', '96"', '240"', "A36"], head=head)
    assert [(one.quantity, _rounded(one.shape)) for one in order.lines] == [
        (4, _rounded(Arc(120 * IN, Basis.INSIDE, 90, 96 * IN)))
    ]


def test_segments_a_ring_are_multiplied_by_the_rings(tmp_path: Path) -> None:
    head = ["RING", "SEGS PER RING", "RINGS", "T", "FACE WIDTH", "I.R.", "MAT"]
    rows = [["R1", "4", "2", '3/4"', '8"', '72"', "A36"], ["R2", "6", "1", '3/4"', '8"', '72"', "A36"]]
    order = read_rows(tmp_path, *rows, head=head)
    assert [(one.quantity, _rounded(one.shape)) for one in order.lines] == [
        (8, _rounded(Arc(72 * IN, Basis.INSIDE, 90, 8 * IN))),
        (6, _rounded(Arc(72 * IN, Basis.INSIDE, 60, 8 * IN))),
    ]


def test_ends_of_a_cone_behind_their_sizes(tmp_path: Path) -> None:
    text = '3/16" A36 cone 36" ID big end 12" ID small end 24" tall'
    order = read_rows(tmp_path, ["1", "1", text], head=["Item", "Qty", "Description"])
    assert shapes(order) == [_rounded(Cone(36 * IN, 12 * IN, Basis.INSIDE, 24 * IN))]


def test_a_side_that_is_all_a_remark_says_is_that_of_the_diameter(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "Thk", "Dia", "Length", "Material", "Remarks"]
    order = read_rows(tmp_path, ["S1", "2", '1/2"', '40"', '60"', "A36", "to inside"], head=head)
    assert shapes(order) == [_rounded(Cylinder(40 * IN, Basis.INSIDE, 60 * IN))]


@pytest.mark.parametrize(
    "text",
    [
        'qty 2 - 3/8" x 24" ID x 36" lg', '2 cans 24" ID x 3/8" wall x 36" long',
        '2 lagging OD 24", 3/8" thk, 36" long',
    ],
)  # fmt: skip
def test_counts_before_sizes(tmp_path: Path, text: str) -> None:
    order = read_rows(tmp_path, ["1", text, "A36"], head=["Item", "Description", "Material"])
    assert [one.quantity for one in order.lines] == [2]


def test_columns_pasted_with_bars_are_columns(tmp_path: Path) -> None:
    rows = [["M1 | 2 | 30 | 0.375 | 60 | A36"], ["M2 | 4 | 30 | 0.5 | 24 | A36"]]
    order = read_rows(tmp_path, *rows, head=["Mark | Qty | OD in | Thk in | Lg in | Matl"])
    assert [one.quantity for one in order.lines] == [2, 4]


@pytest.mark.parametrize(("marks", "lines"), [(("R1", "R2"), 2), (("1", "2"), 1)])
def test_parts_with_marks_of_their_own_are_no_doubles(
    tmp_path: Path, marks: tuple[str, str], lines: int
) -> None:
    head = ["Item", "Qty", "Thk", "ID", "Length", "Material"]
    rows = [[mark, "2", '1/4"', '48"', '60"', "A36"] for mark in marks]
    assert len(read_rows(tmp_path, *rows, head=head).lines) == lines


def test_a_girth_that_agrees_is_no_question(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "Thk", "OD", "Length", "Material", "Remarks"]
    row = ["S1", "2", '3/8"', '30"', '36"', "A36", "girth 94.25 outside"]
    assert len(read_rows(tmp_path, row, head=head).lines) == 1
