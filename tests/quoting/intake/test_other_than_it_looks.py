"""Tables whose row is another part, count or size than its columns alone say: read so, or asked about."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Cone, Cylinder, Order
from quoting.intake.read_orders import read_orders
from tests.quoting.intake.sheets import read_rows, write_rows
from tests.quoting.intake.small_shop import TODAY, small_shop

INCHES = ["Item", "Dia", "Fit", "Plate", "Ht", "Material", "Qty"]


def _read(folder: Path, *rows: list[str]) -> Order:
    return read_orders(write_rows(folder, *rows), small_shop(), today=TODAY)


def test_half_shells_of_a_language_that_nothing_else_tells_are_halves(tmp_path: Path) -> None:
    order = _read(
        tmp_path,
        ["P.č.", "Diel", "vnút. priemer", "hrúbka", "dĺžka", "ks", "materiál"],
        ["1", "rúra", "500", "6", "1200", "2", "A36"],
        ["2", "polškrupina", "620", "6", "1000", "2", "A36"],
    )
    assert [type(line.shape) for line in order.lines] == [Cylinder, Arc]


@pytest.mark.parametrize(
    ("title", "pieces"),
    [
        ("3 courses, all one plate per course", [1, 1, 1]),
        ("Quantities are per course, 3 courses", [3, 3, 3]),
    ],
)
def test_one_plate_per_course_counts_no_pieces(tmp_path: Path, title: str, pieces: list[int]) -> None:
    rows = [[name, "108 in", "96 in", "3/8", "A36", "1"] for name in ("bottom", "mid", "top")]
    head = ["Course", "I.D.", "Ht.", "Plate", "Matl", "Pcs"]
    order = _read(tmp_path, [title], head, *rows)
    assert [line.quantity for line in order.lines] == pieces


def test_two_halves_for_each_column_are_halves(tmp_path: Path) -> None:
    order = _read(
        tmp_path,
        ["Col", "Finished OD", "Height", "Plate", "Pieces per col", "Total pcs", "Matl"],
        ["C1", '24"', "9'-4\"", '1/4"', "2 halves", "8", "A36"],
    )
    (line,) = order.lines
    assert isinstance(line.shape, Arc)
    assert (line.shape.angle_deg, line.quantity) == (180, 8)


@pytest.mark.parametrize(("fit", "asked"), [("ID 30", False), ("ID 30 1/2", True), ('ID 30.5"', True)])
def test_an_inside_size_near_the_diameter_is_not_its_side(tmp_path: Path, fit: str, asked: bool) -> None:
    order = _read(tmp_path, ["Wraps, inches"], INCHES, ["1", "30", fit, "3/8", "48", "A36", "2"])
    assert (len(order.lines) == 0) is asked
    assert any("given twice" in one.text for one in order.questions) is asked


def test_pointed_numbers_under_gauge_among_millimetres_are_millimetres(tmp_path: Path) -> None:
    head = ["Mark", "ID", "Length", "Gauge", "Material", "Qty"]
    rows = [["T1", "2280", "1500", "5.0", "304L", "6"], ["T2", "2280", "1230", "5", "304L", "2"]]
    order = _read(tmp_path, ["all dimensions in mm"], head, *rows)
    assert [line.thickness_mm for line in order.lines] == [5.0]
    assert any("gauge number" in one.text for one in order.questions)


@pytest.mark.parametrize(
    ("title", "priced"),
    [("Hopper cones, all ID mm", [Cone]), ("Stack parts, all ID mm", [Cone, Cylinder])],
)
def test_a_struck_small_end_among_cones_is_asked_about(
    tmp_path: Path, title: str, priced: list[type]
) -> None:
    order = _read(
        tmp_path,
        [title],
        ["Ref", "Large", "Small", "Height", "Thk", "Qty", "Material"],
        ["1", "1100", "400", "820", "6", "1", "A36"],
        ["2", "1100", "-", "820", "6", "1", "A36"],
    )
    assert [type(line.shape) for line in order.lines] == priced


def test_a_key_piece_and_a_size_on_site_are_asked_about(tmp_path: Path) -> None:
    head = ["Mark", "Type", "Qty", "Ext dia", "Thk", "Width", "Material", "Remarks"]
    order = read_rows(
        tmp_path,
        ["R1", "half ring", "10", "3000", "6", "1000", "A36", ""],
        ["R2", "key piece", "4", "5500", "6", "1000", "A36", ""],
        ["R3", "half ring", "4", "5500", "6", "1000", "A36", "length to be taken on site"],
        head=head,
    )
    assert [line.quantity for line in order.lines] == [10]


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("cone 48 ID x 24 ID, 60 deg, 3/16, 30 high", "degrees between its sides"),
        ("cone 48 ID x 24 ID, 44 deg, 3/16, 30 high", ""),
        ('half shell 36" IR x 120 lg x 1/4 (70 ID full)', "are not one size"),
        ("shell OD 63 circumference 200.35 x 1/4 x 60 long", "does not close"),
        ("shell OD 63 circumference 197.9 x 1/4 x 60 long", ""),
        ("shell DN1500 inside, 6 mm thk, 2000 mm lg", "stands for"),
        ("shell DN1500, 6 mm thk, 2000 mm lg", ""),
        ('48" ID x 60" lg x 1/4" thk shell w/ 4" hole on CL', "wanted from us"),
        ('48" ID x 60" lg x 1/4" thk shell with lugs by others', ""),
    ],
)
def test_sizes_that_contradict_and_work_that_comes_with_a_part(tmp_path: Path, text: str, asked: str) -> None:
    order = _read(
        tmp_path, ["all in inches"], ["Item", "Description", "Qty", "Matl"], ["1", text, "1", "A36"]
    )
    texts = [one.text for one in order.questions if one.blocking]
    assert (len(order.lines) == 0) is bool(asked)
    assert any(asked in one for one in texts) if asked else not texts
