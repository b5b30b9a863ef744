"""Rules that a blind corpus asked for, each on rows of no corpus: what is read, and what is asked."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, EdgeKind, NumberStyle, Order
from quoting.intake.answers import resolve
from quoting.intake.layout import facts_in
from quoting.intake.layout.columns import meaning_of
from quoting.intake.read_orders import read_orders
from quoting.intake.texts import edges_in, part_text
from quoting.shop import materials_of
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY
from tests.quoting.intake.sheets import question, read_rows
from tests.quoting.intake.small_shop import small_shop

HEAD = ["Item", "Qty", "Thk (in)", "ID (in)", "Length (in)", "Material", "Remarks"]


def _kinds(order: Order) -> set[str]:
    return {one.id.rpartition("/")[2] for one in order.questions if one.blocking}


@pytest.mark.parametrize(
    ("heading", "field", "unit"),
    [
        ("Heat", "carried", ""),
        ("Heat No.", "carried", ""),
        ("Ht no", "carried", ""),
        ("Melt No", "carried", ""),
        ("Height", "height", ""),
        ("Per ring (kg)", "carried", ""),
        ("Por tanque", "per_unit", ""),
        ("Je Behälter", "per_unit", ""),
        ("OD mm (in)", "diameter", "mm"),
        ("Sheet mm", "thickness", "mm"),
        ("Weight 1 pc", "weight", ""),
    ],
)
def test_headings(heading: str, field: str, unit: str) -> None:
    found = meaning_of(heading)
    assert (found.field, found.unit) == (field, unit)


def test_a_sheet_without_a_number_column_is_not_counted_by_its_heats(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "Thk (in)", "ID (in)", "Length (in)", "Material", "Heat"]
    (line,) = read_rows(tmp_path, ["A", "2", "1/4", "48", "60", "A36", "H7"], head=head).lines
    assert isinstance(line.shape, Cylinder)
    assert not any(reading.name == "height" for reading in line.readings)
    assert "Heat: H7" in line.remarks


def test_centimetres_said_for_all(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Plate", "Inside dia", "Height", "Material"]
    row = ["1", "2", "0.8", "160", "90", "304L"]
    (line,) = read_rows(tmp_path, row, head=head, title="Sizes in cm").lines
    assert facts_in("Sizes in cm").unit == "cm"
    assert isinstance(line.shape, Cylinder)
    sizes = (line.thickness_mm, line.shape.diameter_mm, line.shape.length_mm)
    assert sizes == pytest.approx((8, 1600, 900))


def test_a_thick_plate_among_centimetres_is_asked_about(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Plate", "Inside dia", "Height", "Material"]
    order = read_rows(tmp_path, ["1", "2", "8", "160", "90", "304L"], head=head, title="Sizes in cm")
    assert [choice.label for choice in question(order, "1/thickness").choices] == ["8 cm", "8 mm"]


def test_a_wide_export_is_a_table(tmp_path: Path) -> None:
    head = ["Req no", "Line", "Plant", "Material No", "Short text", "Qty", "UoM", "Delivery date", "Price",
            "Curr", "Tax", "Vendor", "Terms"]  # fmt: skip
    rows = [
        ["R1", str(line), "P", f"7{line}", text, "2", "EA", "2027-02-19", "", "USD", "", "", ""]
        for line, text in ((10, '48" OD x 1/4" x 60" long A36'), (20, '36" ID x 3/8" x 24" long A36'))
    ]
    order = read_rows(tmp_path, *rows, head=head)
    shapes = [line.shape for line in order.lines if isinstance(line.shape, Cylinder)]
    assert [shape.basis for shape in shapes] == [Basis.OUTSIDE, Basis.INSIDE]
    assert [shape.diameter_mm for shape in shapes] == pytest.approx([1219.2, 914.4])


def test_a_small_pipe_is_asked_about(tmp_path: Path) -> None:
    head = ["Item", "Qty", "NPS", "Wall (in)", "Length (in)", "Material"]
    order = read_rows(
        tmp_path, ["1", "2", "6", "0.25", "36", "A36"], ["2", "1", "30", "0.5", "36", "A36"], head=head
    )
    assert _kinds(order) == {"shape"}
    assert [line.number for line in order.lines] == ["2"]


def test_the_outside_diameter_beside_a_nominal_size_holds(tmp_path: Path) -> None:
    head = ["Item", "Qty", "DN", "OD (mm)", "Thk (mm)", "Length (mm)", "Material"]
    order = read_rows(tmp_path, ["1", "2", "1000", "1020", "12.7", "900", "A36"], head=head)
    (line,) = order.lines
    assert isinstance(line.shape, Cylinder)
    assert line.shape.diameter_mm == 1020
    far = read_rows(tmp_path, ["1", "2", "1000", "1120", "12.7", "900", "A36"], head=head, name="b.csv")
    assert _kinds(far) == {"diameter"}


def test_a_remark_on_the_other_side_of_the_plate_is_asked_about(tmp_path: Path) -> None:
    row = ["1", "2", "1/4", "48", "60", "A36"]
    assert _kinds(read_rows(tmp_path, [*row, 'finished 48" OD'], head=HEAD)) == {"basis"}
    same = read_rows(tmp_path, [*row, 'finished 48" ID'], head=HEAD, name="b.csv")
    assert "basis" not in _kinds(same)


def test_what_a_radius_column_is_rolled_to_may_be_a_diameter(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Thk (mm)", "Width (mm)", "Rolled to", "Material", "Description"]
    row = ["1", "2", "12.7", "900", "1000 OD", "A36", "full ring"]
    (line,) = read_rows(tmp_path, row, head=head).lines
    assert line.shape == Cylinder(1000, Basis.OUTSIDE, 900)


@pytest.mark.parametrize(
    ("text", "sizes"),
    [
        ("OD 900 to 300", {("outside", 900.0), ("outside", 300.0)}),
        ("ø 710 to ø 500 inside", {("inside", 710.0), ("inside", 500.0)}),
        ("OD 900 to 905", {("outside", 900.0)}),
    ],
)
def test_two_diameters_of_one_part(text: str, sizes: set[tuple[str, float]]) -> None:
    part = part_text(text, NumberStyle.POINT, materials_of(small_shop()))
    found = {(str(one.measure.basis), one.measure.low) for one in part.sizes}
    assert found >= sizes if len(sizes) > 1 else len(part.sizes) == 1 or part.sizes[0].measure.is_range


def test_half_rounds_and_tapers(tmp_path: Path) -> None:
    order = read_rows(
        tmp_path,
        ["1", "2", '1/2 round, 40" ID x 1/4" x 60" long', "A36"],
        ["2", "2", 'concentric reducer OD 40" to 20", 1/4" thick, 24" high', "A36"],
        ["3", "2", '3/4 round, 40" ID x 1/4" x 60" long', "A36"],
        head=["Item", "Qty", "Description", "Material"],
    )
    shapes = {line.number: line.shape for line in order.lines}
    half, cone = shapes["1"], shapes["2"]
    assert isinstance(half, Arc)
    assert half.angle_deg == 180
    assert isinstance(cone, Cone)
    assert (cone.large_mm, cone.small_mm) == pytest.approx((1016, 508))


@pytest.mark.parametrize(
    ("text", "kind", "angle"),
    [
        ("single V 30", EdgeKind.BEVEL, 30.0),
        ("single V, 60 deg", EdgeKind.BEVEL, 30.0),
        ("double V 60", EdgeKind.DOUBLE_BEVEL, 30.0),
        ("prep V 35 deg long seam", EdgeKind.BEVEL, 35.0),
        ("single J 20 deg", EdgeKind.J, 20.0),
    ],
)
def test_a_groove_by_its_letter_is_an_edge_preparation(text: str, kind: EdgeKind, angle: float) -> None:
    said = edges_in(text, inch=True)
    assert said is not None
    assert (said.prep.kind, said.prep.angle_deg) == (kind, angle)


@pytest.mark.parametrize("text", ["single piece 30 long", "type V 30 x 40", "ends 30 mm", "rev V"])
def test_other_words_are_no_edge_preparation(text: str) -> None:
    assert edges_in(text, inch=True) is None


def test_a_course_of_plates_is_one_ring(tmp_path: Path) -> None:
    head = ["Course", "Plates per course", "Thk (in)", "Plate width (in)", "Inside radius (in)",
            "Plate length (in)", "Material"]  # fmt: skip
    order = read_rows(tmp_path, ["1", "4", "1/4", "72", "180", "282", "A36"], head=head)
    assert "quantity" not in _kinds(order)


def test_a_line_among_counted_ones_that_gives_no_size_is_asked_about(tmp_path: Path) -> None:
    order = read_rows(
        tmp_path,
        ["2 shells 48 ID x 1/4 x 60 long A36"],
        ["1 hatch, rolled, we talk about it"],
        ["3 rings 36 OD x 3/8 x 12 long A36"],
        ["2 weeks delivery please"],
        head=["Hello, please quote in inches:"],
    )
    assert len(order.lines) == 2
    assert len(order.drafts) == 3


@pytest.mark.parametrize(
    ("written", "asked"), [("S355K2+N", True), ("S355JR", False), ("S355J2+N", False), ("S275J0", True)]
)
def test_a_tougher_steel_than_the_listed_one_is_asked_about(
    tmp_path: Path, written: str, asked: bool
) -> None:
    file = tmp_path / "order.csv"
    file.write_text(f"Item,Qty,Dia (mm),ID/OD,Thk (mm),Length (mm),Material\n1,2,900,ID,10,600,{written}\n")
    order = read_orders(file, grading_shop(), today=TODAY)
    assert ("1/material" in {one.id for one in order.questions}) is asked
    taken = resolve(order, {"1/material": "yes"}, grading_shop()) if asked else order
    kept = resolve(order, {"1/material": written}, grading_shop()) if asked else None
    assert kept is None or not kept.lines
    assert [line.material[:4] for line in taken.lines] == [written[:4]]
