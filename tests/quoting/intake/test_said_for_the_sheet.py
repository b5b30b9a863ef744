"""What titles, headings and remarks say of metal, shape and pieces: taken where no doubt is left."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cylinder, Order
from quoting.intake.layout import grade_of_heads
from quoting.intake.layout.for_all import coated_plate
from quoting.intake.words import said_in_text
from quoting.shop import Family, Material, Materials
from tests.quoting.intake.sheets import GOOD, HEAD, read_rows

METAL = Material(
    "galvanized",
    Family.CARBON,
    ("galvanised",),
    7850,
    200_000,
    0.3,
    250,
    300,
    380,
    450,
    gauge_table="galvanized",
)


def asked(order: Order) -> list[str]:
    return [one.id for one in order.questions if one.blocking]


@pytest.mark.parametrize(
    ("title", "taken"),
    [
        ("All ducts of galvanised sheet", True),
        ("Material galvanized", True),
        ("Galv. steel casings for the fan room", True),
        ("Steel to be galvanized after rolling", False),
        ("Sheets hot dip galvanized by others", False),
        ("Galvanized bolts are in stock", False),
    ],
)
def test_plate_that_comes_galvanized_is_a_metal(title: str, taken: bool) -> None:
    galvanized = Materials((METAL,), ())
    assert coated_plate(title, galvanized) == ("galvanized" if taken else "")
    assert coated_plate(title, Materials((), ())) == ""


@pytest.mark.parametrize(
    ("heading", "grade"), [("Plate A36", "A36"), ("Thk (304L)", "304L"), ("Wall, SA-516-70", "SA-516-70")]
)
def test_a_heading_of_the_plate_names_its_metal(tmp_path: Path, heading: str, grade: str) -> None:
    head = ["Item", "Qty", "OD", heading, "Length"]
    order = read_rows(tmp_path, ["1", "2", '48"', '1/4"', '60"'], head=head)
    assert [line.material for line in order.lines] == [grade]


def test_a_heading_of_gauges_says_galvanized() -> None:
    metals = Materials((METAL,), ())
    assert grade_of_heads(["Galv gauge"], metals) == "galvanized"
    assert grade_of_heads(["Gauge"], metals) == ""


def test_a_heading_and_a_title_that_name_two_metals_are_asked_about(tmp_path: Path) -> None:
    head = ["Item", "Qty", "OD", "Plate A36", "Length"]
    order = read_rows(tmp_path, ["1", "2", '48"', '1/4"', '60"'], head=head, title="Material 304L")
    assert order.lines == ()


@pytest.mark.parametrize(
    ("title", "degrees"),
    [
        ("Conveyor troughs, rolled half pipes", 180),
        ("Quarter shells for the sump", 90),
        ("Half pipes and full rings", 0),
        ("Half shell saddles, third shells", 0),
        ("2 half shells per pipe", 0),
    ],
)
def test_a_title_says_how_much_of_the_circle(tmp_path: Path, title: str, degrees: int) -> None:
    head = ["Mark", "Qty", "Inside radius", "Plate", "Length", "Material"]
    order = read_rows(tmp_path, ["A", "2", '10"', '1/4"', '60"', "A36"], head=head, title=title)
    assert [line.shape for line in order.lines] == (
        [Arc(254, Basis.INSIDE, degrees, 60 * 25.4)] if degrees else []
    )


def test_degrees_of_other_rows_go_before_a_title(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "Inside radius", "Deg", "Plate", "Length", "Material"]
    rows = [["A", "2", '10"', "120", '1/4"', '60"', "A36"], ["B", "2", '12"', "", '1/4"', '60"', "A36"]]
    order = read_rows(tmp_path, *rows, head=head, title="Trough half rounds")
    assert len(order.lines) == 1


@pytest.mark.parametrize(
    ("remark", "priced"),
    [
        ("the 36 in side stays straight", True),
        ("short edge to be flat", True),
        ("long side straight", False),
        ("the 20 in side stays straight", False),
        ("4 in straight each end", False),
    ],
)
def test_the_side_that_stays_straight_is_compared(tmp_path: Path, remark: str, priced: bool) -> None:
    head = ["Mark", "Qty", "Inside radius", "Deg", "Plate", "Width", "Material", "Note"]
    order = read_rows(tmp_path, ["A", "2", '60"', "90", '1/4"', '36"', "A36", remark], head=head)
    assert bool(order.lines) is priced


@pytest.mark.parametrize(
    ("name", "cells", "priced"),
    [
        ("Oval ends", ['36"', "180"], True),
        ("Racetrack end panel B", ['36"', "180"], True),
        ("Oval ends", ['36"', ""], False),
        ("Oval shell", ['36"', "180"], False),
        ("Elliptical end", ['36"', "180"], False),
        ("Seal leg", ['36"', "180"], True),
        ("Straight leg", ['36"', "180"], False),
    ],
)
def test_the_name_of_a_part_is_no_other_shape(
    tmp_path: Path, name: str, cells: list[str], priced: bool
) -> None:
    head = ["Style", "Qty", "Outside radius", "Degrees", "Plate", "Height", "Material"]
    order = read_rows(tmp_path, [name, "2", *cells, '1/4"', '30"', "A36"], head=head)
    assert bool(order.lines) is priced


@pytest.mark.parametrize(
    ("remark", "priced"),
    [
        ("exactly the same as our last order, no changes", True),
        ("identical to the March run and nothing has changed", True),
        ("Repeat order, unchanged", True),
        ("nothing changed", True),
        ("same as the spring run", False),
        ("no change to rev C yet", False),
        ("changed since the spring run", False),
    ],
)
def test_a_repeat_that_says_nothing_changed_is_priced(tmp_path: Path, remark: str, priced: bool) -> None:
    order = read_rows(tmp_path, [*GOOD, remark], head=[*HEAD, "Remarks"])
    assert bool(order.lines) is priced


def test_a_repeat_of_a_row_that_lacks_a_size_is_asked_about(tmp_path: Path) -> None:
    row = ["1", "2", "48", "ID", "", "60", "A36", "same as the spring run, nothing changed"]
    order = read_rows(tmp_path, row, head=[*HEAD, "Remarks"])
    assert {"1/reference_ok", "1/thickness"} <= {*asked(order)}


@pytest.mark.parametrize(
    "note", ["All plates are ours", "Plate is ours, cut and prepped", "The steel is ours"]
)
def test_plate_that_is_ours_is_the_customers(tmp_path: Path, note: str) -> None:
    order = read_rows(tmp_path, ["10", "2", "48", "ID", "1/4", "60", "A36"], title=note)
    assert [line.free_issue for line in order.lines] == [True]


@pytest.mark.parametrize(
    ("remark", "name"),
    [
        ("2-part is fine", "one_piece"),
        ("three-piece would be acceptable", "one_piece"),
        ("two-piece", "pieces"),
        ("3-part", "pieces"),
    ],
)
def test_what_may_be_in_pieces_and_what_is(remark: str, name: str) -> None:
    assert [one.name for one in said_in_text(remark)[0]] == [name]


@pytest.mark.parametrize("mark", ["D-2", "D-12"])
def test_the_mark_of_another_part_is_no_diameter(tmp_path: Path, mark: str) -> None:
    head = ["Tag", "Qty", "ID", "Thk", "Length", "Material", "Notes"]
    rows = [
        [mark, "2", '48"', '1/4"', '60"', "A36", ""],
        ["D-3", "2", '40"', '1/4"', '60"', "A36", f"packs inside {mark}"],
    ]
    assert len(read_rows(tmp_path, *rows, head=head).lines) == 2


@pytest.mark.parametrize(
    ("greeting", "line"),
    [
        ("Bonjour,", "4 viroles de 900 de diamètre intérieur par 4 d'épaisseur et 1200 de longueur, A36"),
        ("Buongiorno,", "4 virole di 900 di diametro interno per 4 di spessore e 1200 di lunghezza, A36"),
        ("Hola,", "4 virolas de 900 de diámetro interior, 4 de espesor y 1200 de largo, A36"),
        ("Hello,", "4 shells of 900 of inside diameter, 4 of thickness and 1200 of length, A36"),
    ],
)
def test_sizes_before_their_names(tmp_path: Path, greeting: str, line: str) -> None:
    order = read_rows(tmp_path, [line], head=[greeting])
    shape = order.lines[0].shape
    assert isinstance(shape, Cylinder)
    assert (shape.diameter_mm, order.lines[0].thickness_mm, shape.length_mm) == (900, 4, 1200)


@pytest.mark.parametrize(
    "vague", ["a few rings at 900", "several more shells, sizes follow", "some sleeves as well"]
)
def test_parts_without_their_number_are_asked_about(tmp_path: Path, vague: str) -> None:
    mail = ["2 shells 1200 ID x 10 thk x 2000 long, A36", vague, "Thanks"]
    order = read_rows(tmp_path, *([text] for text in mail), head=["Hello,"])
    assert len(order.lines) == 1
    assert any(one.place.row == 3 and one.blocking for one in order.questions)
