"""What must not be guessed becomes a question; each test is a story from a customer's sheet."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, Ends, Order
from quoting.intake.answers import resolve
from quoting.intake.read_orders import read_orders
from quoting.intake.shapes import chord_angle, chord_radius
from quoting.intake.texts import count_of, fractions_behind
from tests.quoting.intake.sheets import GOOD, HEAD, question, read_rows
from tests.quoting.intake.small_shop import TODAY, small_shop


def blocking(order: Order) -> list[str]:
    return [one.id for one in order.questions if one.blocking]


def test_a_bare_diameter_names_the_cell_and_the_three_choices(tmp_path: Path) -> None:
    asked = question(read_rows(tmp_path, ["10", "2", "24 dia", "", "1/4", "60", "A36"]), "10/basis")
    assert str(asked.place) == 'order.csv, sheet "order", row 2, column C (Dia (in))'
    assert asked.read == "24 dia"
    assert asked.text == 'Is the diameter of 24" inside, outside or on the centreline?'
    assert [choice.label for choice in asked.choices] == ["inside (ID)", "outside (OD)", "mean (centreline)"]


@pytest.mark.parametrize(
    ("remark", "field"),
    [
        ("dia is ID!", "basis"),
        ("make from 3/8 plate", "thickness"),
        ("qty 4 not 2", "quantity"),
        ("half shell", "shape"),
    ],
)
def test_a_remark_that_contradicts_the_columns(tmp_path: Path, remark: str, field: str) -> None:
    row = ["1", "2", "48", "OD", "1/4", "60", "A36", remark]
    assert blocking(read_rows(tmp_path, row, head=[*HEAD, "Remarks"])) == [f"1/{field}"]


def test_a_remark_that_repeats_the_columns_is_no_doubt(tmp_path: Path) -> None:
    row = ["1", "2", "48", "OD", "1/4", "60", "A36", "48 OD, ID 47-1/2, 1/4 PL, 2 pcs"]
    assert blocking(read_rows(tmp_path, row, head=[*HEAD, "Remarks"])) == []


def test_a_gauge_and_a_thickness_that_differ(tmp_path: Path) -> None:
    head = ["Item", "Qty", "OD (in)", "Thk (in)", "Ga", "Length", "Material"]
    order = read_rows(tmp_path, ["1", "1", "24", "1/4", "10", "48", "A36"], head=head)
    assert [choice.label for choice in question(order, "1/thickness").choices] == [
        '10 gauge, 0.1345"',
        '1/4"',
    ]


ARCS = ["Item", "Qty", "Description", "OD (in)", "Deg", "Thk (in)", "Length", "Material"]


@pytest.mark.parametrize(
    "word", ["caisson", "shroud", "filter body", "guard", "shell", "30 deg bevel on the long seam, shell"]
)
def test_a_blank_beside_degrees_of_arc_is_a_full_circle_and_says_so(tmp_path: Path, word: str) -> None:
    arc = ["1", "1", "segment", "24", "90", "1/4", "48", "A36"]
    order = read_rows(tmp_path, arc, ["2", "1", word, "24", "", "1/4", "48", "A36"], head=ARCS)
    assert blocking(order) == []
    assert [one.id for one in order.questions] == ["all/ends"]
    assert isinstance(order.lines[1].shape, Cylinder)
    if "shell" not in word:
        assert "no degrees of arc given: a full circle" in order.lines[1].assumptions


@pytest.mark.parametrize("word", ["tank half", "cover", "wear panel", "trough", "saddle", "arc"])
def test_a_blank_for_what_may_be_a_segment_is_asked_about(tmp_path: Path, word: str) -> None:
    arc = ["1", "1", "segment", "24", "90", "1/4", "48", "A36"]
    order = read_rows(tmp_path, arc, ["2", "1", word, "24", "", "1/4", "48", "A36"], head=ARCS)
    asked = question(order, "2/angle")
    assert "degrees" in asked.text
    half = resolve(order, {"2/angle": "half"}, small_shop()).lines[1].shape
    assert isinstance(half, Arc)
    assert half.angle_deg == 180


def test_a_trough_or_a_half_is_asked_about_in_any_sheet_and_a_panel_is_not(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Description", "OD (in)", "Thk (in)", "Length", "Material"]
    rows = [
        [str(number), str(number), word, "24", "1/4", "48", "A36"]
        for number, word in enumerate(("trough", "tank, half", "panel", "half coupling"), 1)
    ]
    order = read_rows(tmp_path, *rows, head=head)
    assert blocking(order) == ["1/angle", "2/angle"]
    full = resolve(order, {"2/angle": "full cylinder"}, small_shop())
    assert isinstance(next(line for line in full.lines if line.id == "2").shape, Cylinder)


@pytest.mark.parametrize(
    ("note", "diameter"),
    [
        ("all sizes in mm", 24.0),
        ("All dimensions in inches", 609.6),
        ("dims: in", 609.6),
        ("units: mm", 24.0),
    ],
)
def test_a_note_about_units_is_read_for_the_unit_it_names(tmp_path: Path, note: str, diameter: float) -> None:
    file = tmp_path / "order.csv"
    file.write_text(f"{note}\nItem,Qty,OD,Thk,Length,Material\n1,1,24,2,48,AR400\n")
    order = read_orders(file, small_shop(), today=TODAY)
    assert isinstance(order.lines[0].shape, Cylinder)
    assert order.lines[0].shape.diameter_mm == pytest.approx(diameter)
    assert order.metric is (diameter == 24.0)


def test_a_heading_gives_its_material_to_the_rows_under_it(tmp_path: Path) -> None:
    file = tmp_path / "order.csv"
    file.write_text(
        "Material: A36\nItem,Qty,OD (in),Thk,Length\n1,1,24,1/4,48\nMaterial: 304L\n2,1,24,1/4,48\n"
    )
    order = read_orders(file, small_shop(), today=TODAY)
    assert [line.material for line in order.lines] == ["A36", "304L"]
    assert 'material 304L, as the heading "Material: 304L" says' in order.lines[1].assumptions


def test_a_unit_column_holds_for_its_row(tmp_path: Path) -> None:
    head = ["Item", "Qty", "OD", "Thk", "Length", "Material", "Unit"]
    order = read_rows(
        tmp_path,
        ["1", "1", "600", "6", "1200", "A36", "mm"],
        ["2", "1", "24", "0.25", "48", "A36", "in"],
        head=head,
    )
    assert [line.shape for line in order.lines] == [
        Cylinder(600, Basis.OUTSIDE, 1200),
        Cylinder(609.6, Basis.OUTSIDE, 1219.2),
    ]


def test_a_unit_column_against_its_headers(tmp_path: Path) -> None:
    head = ["Item", "Qty", "OD (in)", "Thk (in)", "Length (in)", "Material", "Unit"]
    order = read_rows(tmp_path, ["1", "1", "24", "0.25", "48", "A36", "mm"], head=head)
    assert blocking(order) == ["1/row_unit"]


def test_the_same_size_in_inches_and_in_rounded_millimetres(tmp_path: Path) -> None:
    head = ["Item", "Qty", "OD (in)", "OD (mm)", "Thk (in)", "Length (in)", "Material"]
    rows = ["1", "1", "24", "610", "1/4", "48", "A36"], ["2", "1", "24", "600", "1/4", "48", "A36"]
    assert blocking(read_rows(tmp_path, *rows, head=head)) == ["2/diameter"]


@pytest.mark.parametrize("text", ["24 (609.6)", '24"/609.6mm', "609.6 mm (24)", "24 [610]", "24 (24.0)"])
def test_a_size_given_in_both_systems_is_one_size(tmp_path: Path, text: str) -> None:
    head = ["Item", "Qty", "OD", "Thk (in)", "Length (in)", "Material"]
    order = read_rows(tmp_path, ["1", "1", text, "1/4", "48", "A36"], head=head)
    assert order.lines[0].shape == Cylinder(609.6, Basis.OUTSIDE, 1219.2)


@pytest.mark.parametrize("text", ["24 (36)", "24/36", "24 (600)"])
def test_two_sizes_in_one_cell_that_differ_are_asked_about(tmp_path: Path, text: str) -> None:
    order = read_rows(tmp_path, ["1", "1", text, "OD", "1/4", "48", "A36"])
    assert blocking(order) == ["1/diameter"]


def test_totals_and_notes_that_stand_in_odd_columns(tmp_path: Path) -> None:
    order = read_rows(
        tmp_path, GOOD, ["", "2", "Total pcs", "", "", "", ""], ["2", "All plates marked", "", "", "", "", ""]
    )
    assert [row.reason for row in order.rows] == ["header", "read", "total", "note"]


def test_a_cone_written_as_one_size(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Size (in)", "Thk", "Material"]
    order = read_rows(tmp_path, ["1", "1", "30 ID x 14 ID x 18 high", "1/4", "A36"], head=head)
    assert order.lines[0].shape == Cone(762.0, 355.6, Basis.INSIDE, 457.2)


def test_ends_for_all_lines_stand_in_a_note(tmp_path: Path) -> None:
    order = read_rows(tmp_path, GOOD, ["All ends pre-bent unless noted."])
    assert order.lines[0].ends is Ends.PRE_BEND
    assert "ends: pre-bend, as the sheet says for all lines" in order.lines[0].assumptions


def test_a_weld_gap_column(tmp_path: Path) -> None:
    head = [*HEAD, "Weld gap (in)"]
    order = read_rows(tmp_path, [*GOOD, "1/8"], ["2", "1", *GOOD[2:], "0"], head=head)
    assert [line.weld_gap_mm for line in order.lines] == [3.175, 0]


def test_sizes_that_cannot_be_one_part(tmp_path: Path) -> None:
    order = read_rows(tmp_path, ["1", "1", "0.75", "OD", "1/2", "48", "A36"])
    assert "cannot be rolled" in question(order, "1/diameter").text


def test_a_unit_mistaken_by_a_factor_of_25(tmp_path: Path) -> None:
    order = read_rows(tmp_path, ["1", "1", "1219", "OD", "1/4", "48", "A36"])
    assert blocking(order) == ["1/size"]


def test_an_id_column_that_counts_is_line_numbers_only_beside_a_diameter(tmp_path: Path) -> None:
    head = ["ID", "Qty", "OD (in)", "Thk (in)", "Length", "Material"]
    order = read_rows(
        tmp_path, ["1", "1", "24", "1/4", "48", "A36"], ["2", "1", "30", "1/4", "48", "A36"], head=head
    )
    assert [line.number for line in order.lines] == ["1", "2"]


def test_sizes_in_a_description_are_read_when_no_column_has_any(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Description"]
    order = read_rows(tmp_path, ["1", "2", "Roll 1/4 PL x 48 OD x 60 LG A36"], head=head)
    assert (order.lines[0].thickness_mm, order.lines[0].material) == (6.35, "A36")
    assert "sizes read from the description" in order.lines[0].assumptions


def test_a_grade_beside_the_thickness(tmp_path: Path) -> None:
    head = ["Item", "Qty", "OD (in)", "Thk", "Length (in)"]
    order = read_rows(tmp_path, ["1", "2", "24", "1/4 A36", "48"], head=head)
    assert (order.lines[0].thickness_mm, order.lines[0].material) == (6.35, "A36")


def test_nothing_said_about_ends_is_one_question_with_the_shops_default(tmp_path: Path) -> None:
    order = read_rows(tmp_path, GOOD, ["2", "1", *GOOD[2:]])
    asked = question(order, "all/ends")
    assert (asked.line, asked.blocking, asked.assumed) == ("", False, "ends: pre-bend")
    assert asked.text.startswith("Lines 1, 2:")


def test_chord_and_rise() -> None:
    assert chord_radius(80, 20) == 50
    assert chord_angle(100, 50) == pytest.approx(180)


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("4", 4),
        ("4 ea", 4),
        ("qty 4", 4),
        ("(4)", 4),
        ("1,200", 1200),
        ("4.0", 4),
        ("two", 2),
        ("a dozen", 12),
        ("1 pair", 2),
        ("3 sets of 3", 9),
    ],
)
def test_plain_quantities(text: str, number: int) -> None:
    assert count_of(text).number == number


@pytest.mark.parametrize(
    "text", ["2-4", "1/5", "1,000", "2 sets", "2 + 1 spare", "-1", "as req'd", "2.5", ""]
)
def test_quantities_that_are_asked(text: str) -> None:
    assert count_of(text).number is None


def test_what_a_quantity_may_mean_is_offered() -> None:
    assert count_of("2-4").options == (2, 4)
    assert count_of("1,000").options == (1, 1000)
    assert count_of("¹").number is None
    assert count_of("see note 3").options == ()


def test_fractions_that_a_spreadsheet_made_dates() -> None:
    from datetime import date  # noqa: PLC0415

    assert dict(fractions_behind(date(2026, 1, 4))) == {"1/4": 0.25}
    assert dict(fractions_behind(date(2026, 4, 1))) == {"1/4": 0.25}
    assert "1-1/2" in dict(fractions_behind(date(2002, 1, 1)))
    assert dict(fractions_behind(date(1932, 3, 1)))["3/32"] == 3 / 32
    assert "5/16" in dict(fractions_behind(date(2026, 5, 16)))
