"""Heads that the cells under them, or the columns beside them, tell: releases, marks, types, heights."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Basis, Cone, Cylinder, Order, State
from quoting.intake.layout import heading_meaning
from quoting.intake.read_orders import read_orders
from quoting.intake.words import translated
from quoting.tables import Sheet
from tests.quoting.intake.sheets import read_rows
from tests.quoting.intake.small_shop import TODAY, small_shop


def lines_of(order: Order) -> list[tuple[int, float]]:
    """Return quantity and length of the cylinders that are read."""
    assert all(isinstance(line.shape, Cylinder) for line in order.lines)
    return [(line.quantity, line.shape.length_mm) for line in order.lines if isinstance(line.shape, Cylinder)]


def test_of_a_total_and_what_is_called_off_now_the_latter_is_wanted(tmp_path: Path) -> None:
    head = ["Mark", "Total of contract", "Qty called off now", "ID mm", "Thk mm", "Length mm", "Material"]
    rows = [["a", 30, 10, 900, 8, 1200, "A36"], ["b", 12, 4, 900, 8, 600, "A36"]]
    assert lines_of(read_rows(tmp_path, *rows, head=head)) == [(10, 1200), (4, 600)]


def test_pieces_for_the_whole_job_are_the_quantity(tmp_path: Path) -> None:
    head = ["Mark", "Pcs / job", "ID mm", "Thk mm", "Length mm", "Material"]
    assert lines_of(read_rows(tmp_path, ["a", 3, 900, 8, 1200, "A36"], head=head)) == [(3, 1200)]


def test_a_height_beside_a_length_is_asked_about_unless_one_is_the_girth(tmp_path: Path) -> None:
    head = ["Item", "Qty", "ID mm", "Length mm", "Height mm", "Thk mm", "Material"]
    rows = [
        [1, 1, 992, 3142, 1500, 8, "A36"],
        [2, 1, 992, 1200, 1500, 8, "A36"],
        [3, 1, 992, 1500, 1500, 8, "A36"],
    ]
    order = read_rows(tmp_path, *rows, head=head)
    assert lines_of(order) == [(1, 1500), (1, 1500)]
    (asked,) = (one for one in order.questions if one.line == "2")
    assert "1500 mm or 1200 mm" in asked.text


def test_three_lengths_are_asked_about(tmp_path: Path) -> None:
    head = ["Item", "Qty", "ID mm", "Length mm", "Width mm", "Height mm", "Thk mm", "Material"]
    order = read_rows(tmp_path, [1, 1, 992, 1200, 900, 1500, 8, "A36"], head=head)
    assert [one.text for one in order.questions if one.line == "1"] == [
        "Three lengths are given: which one lies along the axis?"
    ]
    assert len(next(one for one in order.questions if one.line == "1").choices) == 3


def test_marks_under_id_are_no_diameters_where_another_column_gives_them(tmp_path: Path) -> None:
    head = ["ID mark", "Qty", "Shell O.D. mm", "Thk mm", "Length mm", "Material"]
    order = read_rows(
        tmp_path, ["Q-301", 1, 900, 8, 1200, "A36"], ["Q-302", 2, 800, 8, 1000, "A36"], head=head
    )
    assert lines_of(order) == [(1, 1200), (2, 1000)]


def test_grades_under_type_are_the_material(tmp_path: Path) -> None:
    head = ["Item", "Qty", "ID mm", "Thk mm", "Length mm", "Type"]
    order = read_rows(tmp_path, [1, 1, 900, 6, 1200, "A36"], [2, 1, 900, 6, 1000, "A36"], head=head)
    assert [row.state for row in order.rows[1:]] == [State.PRICED, State.PRICED]


def test_ends_of_cones_by_top_and_bottom_in_any_order_of_words(tmp_path: Path) -> None:
    head = [
        "Item",
        "Qty",
        "Bottom Ø (outside) mm",
        "Ø at top (outside) mm",
        "Height mm",
        "Thk mm",
        "Material",
    ]
    (line,) = read_rows(tmp_path, [1, 1, 900, 300, 800, 6, "A36"], head=head).lines
    assert isinstance(line.shape, Cone)
    assert (line.shape.large_mm, line.shape.small_mm) == (900, 300)


@pytest.mark.parametrize(
    ("sentence", "head", "field"),
    [
        ("zapytanie ofertowe walcowanie stal ilość", "Ścianka", "thickness"),
        ("poptávka válce z oceli prosíme o nabídku", "Tloušťka stěny", "thickness"),
        ("pedido de cotação virolas quantidade", "Parede", "thickness"),
        ("förfrågan valsning plåt antal", "Stål", "material"),
        ("solicitud de cotización cantidad", "Tipo de acero", "material"),
        ("forespørsel valsing antall", "Høyde", "height"),
        ("cerere de ofertă cantitate", "Bucăți", "quantity"),
        ("tarjouspyyntö määrä", "Seinämä", "thickness"),
        ("richiesta di offerta quantità", "Posizione", "number"),
        ("询价 数量", "圆心角", "angle"),
        ("inquiry", "Number of", "quantity"),
        ("inquiry", "Made of", "material"),
    ],
)
def test_heads_of_more_languages(sentence: str, head: str, field: str) -> None:
    (sheet,) = translated([Sheet("a.xlsx", "Sheet1", [[sentence], [head]])]).sheets
    meaning = heading_meaning(str(sheet.rows[1][0]))
    assert (meaning.field, meaning.sure) == (field, True)


@pytest.mark.parametrize(
    ("text", "quantity"),
    [
        ('Please roll 3 rings, 40" OD, 6" wide, 3/8" thk, A36', 3),
        ("3 x Ø900 ID x 1200 long x 6 mm A36", 3),
        ('2@ 36" ID x 48" x 1/4" A36', 2),
    ],
)
def test_a_line_of_a_mail_begins_with_its_count(tmp_path: Path, text: str, quantity: int) -> None:
    file = tmp_path / "mail.txt"
    file.write_text(f"Hello, we would like a price for:\n\n{text}\n\nThanks\n", encoding="utf-8")
    order = read_orders(file, small_shop(), today=TODAY)
    assert [line.quantity for line in order.lines] == [quantity]


@pytest.mark.parametrize(
    ("heads", "cells", "size"),
    [
        (["Pipe OD", "Sleeve ID"], ["16", "16.125"], (16.125, Basis.INSIDE)),
        (["Pile dia", "Wrap fit"], ["24 pipe pile", "ID 24 1/2"], (24.5, Basis.INSIDE)),
        (["OD as rolled", "OD finish mach."], ["25", "24"], (25, Basis.OUTSIDE)),
        (["OD finish mach.", "OD as rolled"], ["24", "25"], (25, Basis.OUTSIDE)),
        (["Pipe OD", "Sleeve ID"], ["16", "15.25"], None),
        (["Shell OD", "Jacket ID"], ["80", "84"], None),
    ],
)
def test_a_diameter_beside_that_of_the_part(
    tmp_path: Path, heads: list[str], cells: list[str], size: tuple[float, Basis] | None
) -> None:
    head = ["Mark", *heads, "Length", "Thk", "Qty", "Grade"]
    order = read_rows(tmp_path, ["a1", *cells, "60", "1/4", "2", "A36"], head=head, title="inches")
    shapes = [line.shape for line in order.lines if isinstance(line.shape, Cylinder)]
    assert [(round(shape.diameter_mm / 25.4, 3), shape.basis) for shape in shapes] == ([size] if size else [])


def test_a_first_column_of_short_names_names_its_rows(tmp_path: Path) -> None:
    head = ["Ladle", "Top ID", "Bottom ID", "Height", "Shell t", "No Req", "Steel"]
    rows = [["2t", "870", "800", "980", "16", "2", "A36"], ["5t", "1180", "1085", "1310", "20", "1", "A36"]]
    order = read_rows(tmp_path, *rows, head=head, title="mm")
    assert [line.part_no for line in order.lines] == ["2t", "5t"]
    order = read_rows(tmp_path, ["50 mm", *rows[0][1:]], ["30 mm", *rows[1][1:]], head=["Extra", *head[1:]])
    assert not order.lines


def test_ends_of_cones_whose_cells_name_their_side(tmp_path: Path) -> None:
    head = ["Mark", "Part", "Size 1", "Size 2", "Thk", "Ht", "Qty", "Grade"]
    rows = [
        ["a1", "shell", "60 ID", "", "1/4", "80", "1", "A36"],
        ["b1", "cone", "60 ID", "24 ID", "1/4", "30", "1", "A36"],
    ]
    order = read_rows(tmp_path, *rows, head=head, title="inches")
    assert [type(line.shape) for line in order.lines] == [Cylinder, Cone]


def test_a_fraction_under_steel_is_how_thick_it_is_and_no_grade(tmp_path: Path) -> None:
    head = ["what", "how big", "steel", "how long", "how many", "grade"]
    order = read_rows(tmp_path, ["tank wall", "5 ft inside", "3/16", "6 ft", "2", "A36"], head=head)
    assert [(line.thickness_mm, line.material) for line in order.lines] == [(4.7625, "A36")]


def test_a_grade_under_the_standard_in_its_head_and_rows_named_by_cars(tmp_path: Path) -> None:
    head = ["Car", "Shell ring", "Inside diameter", "Plate thickness", "Ring width", "A516 grade", "Rings"]
    rows = [
        ["GX 2204", "3", '110 1/4"', '1/2"', '96"', "70", "1"],
        ["GX 2210", "2", '102"', '1/2"', '96"', "70", "2"],
    ]
    order = read_rows(tmp_path, *rows, head=head)
    assert [(line.part_no, line.material, line.quantity) for line in order.lines] == [
        ("GX 2204", "SA-516-70", 1),
        ("GX 2210", "SA-516-70", 2),
    ]


@pytest.mark.parametrize(
    ("cell", "read"), [("50 OD / 49.5 ID", True), ("50 OD / 48 ID", False), ("50/49.5", False)]
)
def test_both_sides_of_one_part_in_a_cell(tmp_path: Path, cell: str, read: bool) -> None:
    head = ["Mark", "OD", "Thk", "Length", "Qty", "Grade"]
    order = read_rows(tmp_path, ["a1", cell, "1/4", "60", "1", "A36"], head=head, title="inches")
    assert bool(order.lines) is read


def test_the_size_of_a_corroded_part_is_not_that_of_the_new_one(tmp_path: Path) -> None:
    head = ["Mark", "ID", "Corroded ID", "Thk", "Length", "Qty", "Grade"]
    order = read_rows(tmp_path, ["a1", "50", "50.25", "1/4", "60", "1", "A36"], head=head, title="inches")
    assert [line.shape for line in order.lines] == [Cylinder(50 * 25.4, Basis.INSIDE, 60 * 25.4)]
