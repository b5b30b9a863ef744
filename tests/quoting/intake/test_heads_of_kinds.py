"""Heads that say what they hold in another way than by a known phrase: what the reader makes of each kind."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder
from quoting.intake.layout import heading_meaning
from tests.quoting.intake.sheets import read_rows


@pytest.mark.parametrize(
    ("heading", "field"),
    [
        ("Gauge of material", "gauge"),
        ("Steel gage", "gauge"),
        ("Material gauge (mm)", "thickness"),
        ("Material grade", "material"),
        ("Joint-joint", "length"),
        ("Weld to weld length", "length"),
        ("Tan/tan dim", "length"),
        ("T - T", "length"),
        ("Height (roll width)", "height"),
        ("Length (girth)", "girth"),
        ("Wall height (straight part)", "height"),
        ("Diameter (flange)", ""),
        ("Wall (before lining)", ""),
        ("R convex", "radius"),
        ("Raggi interni", "radius"),
        ("Longueur d'arc", "arc_length"),
        ("Bogenlänge innen", "arc_length"),
        ("Innen/Außen", "basis"),
        ("Alt/Larg", "length"),
        ("Medidas", "size"),
        ("How big", "size"),
        ("Dim.", "size"),
        ("Dim 1", ""),
        ("Ship wt", "weight"),
        ("Top inside dia", "top"),
    ],
)
def test_what_a_head_is_about(heading: str, field: str) -> None:
    assert heading_meaning(heading).field == field


@pytest.mark.parametrize(
    ("heading", "side"),
    [
        ("Radius, concave side", Basis.INSIDE),
        ("Radius of convex face", Basis.OUTSIDE),
        ("Radius konkav", Basis.INSIDE),
        ("Rayons extérieurs", Basis.OUTSIDE),
        ("Radius (I.S.)", Basis.INSIDE),
        ("Rout", Basis.OUTSIDE),
    ],
)
def test_a_hollow_face_is_the_inside_of_a_radius(heading: str, side: Basis) -> None:
    assert (heading_meaning(heading).field, heading_meaning(heading).basis) == ("radius", side)


def test_gauge_numbers_under_such_a_head_are_gauges(tmp_path: Path) -> None:
    head = ["Item", "Qty", "OD", "Gauge of metal", "Length", "Material"]
    order = read_rows(tmp_path, ["1", "2", '48"', "10", '60"', "A36"], head=head)
    assert [round(line.thickness_mm, 2) for line in order.lines] == [3.42]


def test_a_diameter_beside_one_end_of_cones_is_the_other_end(tmp_path: Path) -> None:
    head = ["Mark", "Off", "Inlet ID", "Bottom ID", "Upright", "Thk", "Grade"]
    rows = [
        ["H1", "2", "48 in", "12 in", "40 in", "1/4", "A36"],
        ["H2", "1", "60 in", "14 in", "44 in", "1/4", "A36"],
    ]
    order = read_rows(tmp_path, *rows, head=head)
    shapes = [line.shape for line in order.lines if isinstance(line.shape, Cone)]
    sizes = [(shape.large_mm / 25.4, shape.small_mm / 25.4, shape.height_mm / 25.4) for shape in shapes]
    assert sizes == [pytest.approx((48, 12, 40)), pytest.approx((60, 14, 44))]


@pytest.mark.parametrize(("name", "priced"), [("gas outlet", True), ("feed hopper", False), ("Kegel", False)])
def test_one_of_two_diameters_is_a_cylinder_unless_it_may_be_a_cone(
    tmp_path: Path, name: str, priced: bool
) -> None:
    head = ["Mark", "Qty", "What", "Dia 1", "Dia 2", "Height", "Plate", "Material"]
    rows = [
        ["A", "1", "cone", "50", "16", "72", '1/4"', "A36"],
        ["B", "1", name, "25", "", "31", '1/4"', "A36"],
    ]
    order = read_rows(tmp_path, *rows, head=head, title="all dimensions inches, inside")
    assert order.lines[1:] == order.lines[-1:] * priced
    assert not priced or order.lines[1].shape == Cylinder(635, Basis.INSIDE, 31 * 25.4)


def test_a_blank_under_the_small_end_is_asked_about(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "What", "Large dia", "Small dia", "Height", "Plate", "Material"]
    rows = [
        ["A", "1", "cone", "50", "16", "72", '1/4"', "A36"],
        ["B", "1", "outlet", "25", "", "31", '1/4"', "A36"],
    ]
    order = read_rows(tmp_path, *rows, head=head, title="all dimensions inches, inside")
    assert len(order.lines) == 1


def test_a_radius_to_a_face_is_read_with_its_side(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "Plate", "Grade", "Rad. hollow (concave) face", "Deg", "Width (straight)"]
    order = read_rows(tmp_path, ["P", "4", "12mm", "A36", "1200mm", "65", "900mm"], head=head)
    assert [line.shape for line in order.lines] == [Arc(1200, Basis.INSIDE, 65, 900)]


@pytest.mark.parametrize("mark", ["C2 (eccentric)", "2 ecc.", "4 cone, eccentric", "rect to round"])
def test_what_stands_behind_the_number_of_a_line_is_read(tmp_path: Path, mark: str) -> None:
    head = ["Item", "Top ID", "Bottom ID", "Height", "Thk", "Grade", "Qty"]
    rows = [[one, "48 in", "24 in", "40 in", "1/4", "A36", "1"] for one in ("C1", mark, "3 north")]
    order = read_rows(tmp_path, *rows, head=head)
    assert len(order.lines) == 2


def test_all_pieces_beside_those_of_a_ring_and_the_letters_of_a_side(tmp_path: Path) -> None:
    head = ["Pos", "Durchmesser", "Innen/Außen", "L", "Blech", "Segmente gesamt", "Segmente je Ring", "Güte"]
    rows = [
        ["1", "4400", "I", "2200", "12", "4", "2", "A36"],
        ["2", "4400", "A", "2200", "12", "2", "2", "A36"],
    ]
    order = read_rows(tmp_path, *rows, head=head)
    assert [line.quantity for line in order.lines] == [4, 2]
    assert [
        (line.shape.angle_deg, line.shape.basis) for line in order.lines if isinstance(line.shape, Arc)
    ] == [
        (180, Basis.INSIDE),
        (180, Basis.OUTSIDE),
    ]


def test_a_bare_total_beside_plates_per_course_is_the_quantity(tmp_path: Path) -> None:
    head = ["Course", "ID", "Thk", "Width", "Plates per course", "Total", "Grade"]
    rows = [["1", "4400", "10", "2200", "6", "6", "A36"], ["2", "4400", "10", "2100", "6", "12", "A36"]]
    order = read_rows(tmp_path, *rows, head=head, title="sizes in mm")
    assert [line.quantity for line in order.lines] == [6, 12]


@pytest.mark.parametrize(
    ("text", "large", "small"),
    [("OD 20/16", 20, 16), ("24/12 ID x 18 high", 24, 12), ("Ø48/Ø36 OD", 48, 36), ("16/20 od", 16, 20)],
)
def test_a_pair_of_diameters_of_a_part_called_a_cone(
    tmp_path: Path, text: str, large: float, small: float
) -> None:
    head = ["Mark", "Part", "Dim", "Thk", "Height", "Qty", "Grade"]
    row = ["C1", "cone", text, "1/4", "" if "high" in text else "18", "1", "A36"]
    order = read_rows(tmp_path, row, head=head, title="inches")
    shapes = [line.shape for line in order.lines if isinstance(line.shape, Cone)]
    found = [(round(one.large_mm / 25.4, 6), round(one.small_mm / 25.4, 6)) for one in shapes]
    assert found == [(max(large, small), min(large, small))]


@pytest.mark.parametrize("part", ["shell", ""])
def test_a_pair_of_diameters_of_another_part_is_asked_about(tmp_path: Path, part: str) -> None:
    head = ["Mark", "Part", "Dim", "Thk", "Height", "Qty", "Grade"]
    order = read_rows(tmp_path, ["C1", part, "OD 20/16", "1/4", "18", "1", "A36"], head=head, title="inches")
    assert not order.lines


@pytest.mark.parametrize("mark", ["a", "i", "o"])
def test_a_letter_that_a_part_is_called_by_is_no_side(tmp_path: Path, mark: str) -> None:
    order = read_rows(
        tmp_path, [mark, "48", "60", "1/4", "1", "A36"], head=["Part", "Dia", "Length", "Thk", "Qty", "Grade"]
    )
    assert not order.lines


def test_sizes_between_slashes_as_their_head_lists_them_and_shells_of_a_bin(tmp_path: Path) -> None:
    head = ["Bin", "No. bins", "Shells/bin", "Size (ID/L/t)", "Grade"]
    order = read_rows(tmp_path, ["A", "4", "2", "48/60/.25", "A36"], head=head, title="sizes in inches")
    assert [(round(line.thickness_mm, 2), line.quantity) for line in order.lines] == [(6.35, 8)]
    assert [round(shape.length_mm) for line in order.lines if isinstance(shape := line.shape, Cylinder)] == [
        1524
    ]


@pytest.mark.parametrize(("letters", "priced"), [(("A", "A"), False), (("I", "O"), True)])
def test_a_zone_called_a_is_no_side(tmp_path: Path, letters: tuple[str, str], *, priced: bool) -> None:
    head = ["Mark", "Zone", "Dia", "Length", "Thk", "Qty", "Grade"]
    rows = [[f"P{at}", one, "48", "60", "1/4", f"{at}", "A36"] for at, one in enumerate(letters, 1)]
    order = read_rows(tmp_path, *rows, head=head, title="inches")
    assert bool(order.lines) is priced


@pytest.mark.parametrize(
    ("item", "remark", "arc"),
    [("1 (half shell)", "", True), ("1", "top half", None), ("1 (top half)", "", None), ("1 top", "", False)],
)
def test_a_half_that_a_number_or_a_remark_names(
    tmp_path: Path, item: str, remark: str, arc: bool | None
) -> None:
    head = ["Item", "ID", "Length", "Thk", "Qty", "Grade", "Remarks"]
    order = read_rows(tmp_path, [item, "48", "60", "1/4", "1", "A36", remark], head=head, title="inches")
    assert [isinstance(line.shape, Arc) for line in order.lines] == ([] if arc is None else [arc])


@pytest.mark.parametrize(("more", "pieces"), [([], [4]), (["Lots"], [12])])
def test_the_pieces_of_a_lot(tmp_path: Path, more: list[str], pieces: list[int]) -> None:
    head = ["Item", "ID", "Length", "Thk", "Qty/lot", *more, "Grade"]
    row = ["1", "48", "60", "1/4", "4", *("3" for _ in more), "A36"]
    order = read_rows(tmp_path, row, head=head, title="inches")
    assert [line.quantity for line in order.lines] == pieces


@pytest.mark.parametrize(("remark", "asked"), [("bottom 120 only", False), ("bottom 6 only", True)])
def test_the_degrees_of_a_row_in_its_remark_are_no_count(tmp_path: Path, remark: str, *, asked: bool) -> None:
    head = ["Item", "R inside", "Degrees", "Length", "Thk", "Qty", "Grade", "Remarks"]
    row = ["1", "24", "120", "60", "1/4", "10", "A36", remark]
    order = read_rows(tmp_path, row, head=head, title="inches")
    assert [line.quantity for line in order.lines] == ([] if asked else [10])
