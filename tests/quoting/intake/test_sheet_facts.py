"""What titles, notes and short headings say for all lines, and what is made of pieces counted per set."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, Penetration
from quoting.intake.layout import facts_in, heading_meaning
from tests.quoting.intake.sheets import question, read_rows

HEAD = ["Item", "Qty", "Thk (in)", "Dia (in)", "Length (in)", "Material", "Remarks"]
ROW = ["1", "2", "1/4", "48", "60", "A36", ""]


@pytest.mark.parametrize(
    ("heading", "field", "basis"),
    [
        ("Wid", "width", None), ("Di", "diameter", Basis.INSIDE), ("Da", "diameter", Basis.OUTSIDE),
        ("Ø e", "diameter", Basis.OUTSIDE), ("Dm", "diameter", Basis.MEAN), ("Ri", "radius", Basis.INSIDE),
        ("R int", "radius", Basis.INSIDE), ("Lngth", "length", None), ("Brei", "width", None),
        ("Mtrl", "material", None), ("Наружный диаметр", "diameter", Basis.OUTSIDE),
        ("Толщина", "thickness", None), ("Ø vnější", "diameter", Basis.OUTSIDE),
        ("İç çap", "diameter", Basis.INSIDE),
        ("Qty/tank", "per_unit", None), ("Qty ea. vessel", "per_unit", None),
        ("Stück je Behälter", "per_unit", None),
        ("Q.tà/serb.", "per_unit", None), ("Cant./equipo", "per_unit", None),
        ("Menge/Einheit", "quantity", None),
        ("Out of round", "", None), ("Zeug", "", None), ("Des", "", None),
    ],
)  # fmt: skip
def test_a_short_heading_is_read_by_its_words(heading: str, field: str, basis: Basis | None) -> None:
    found = heading_meaning(heading)
    assert (found.field, found.basis) == (field, basis)


@pytest.mark.parametrize(
    ("text", "basis", "unit"),
    [
        ("Call-off schedule, S355J2, OD, mm", Basis.OUTSIDE, "mm"),
        ("Caisson cans (inches) - OD", Basis.OUTSIDE, "in"),
        ("Diameters are to the middle of the plate (mean) unless marked.", Basis.MEAN, ""),
        ("2. All diameters ID.", Basis.INSIDE, ""),
        ("weld inside", None, ""), ("hole dia inside", None, ""), ("item 3 inside dia", None, ""),
        ("tolerance 2 mm inside", None, ""), ("bevel outside, 30", None, ""),
    ],
)  # fmt: skip
def test_a_title_says_side_and_unit(text: str, basis: Basis | None, unit: str) -> None:
    found = facts_in(text)
    assert (found.basis, found.unit) == (basis, unit)


def test_grade_and_side_of_a_title_hold_for_lines_that_say_none(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Thk", "Dia", "Length"]
    order = read_rows(tmp_path, ["1", "2", "1/4", "48", "60"], head=head, title="Shells, A36, OD, inches")
    assert order.lines[0].shape == Cylinder(1219.2, Basis.OUTSIDE, 1524.0)
    assert order.lines[0].material == "A36"
    assert "material A36, as the sheet says for all lines" in order.lines[0].assumptions


def test_two_grades_in_titles_are_asked_about(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Thk (in)", "OD (in)", "Length (in)"]
    order = read_rows(tmp_path, ["1", "2", "1/4", "48", "60"], ["liners 304L"], head=head, title="A36 shells")
    assert order.lines == ()


def test_a_note_about_items_is_a_remark_of_those_lines(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Thk (in)", "OD (in)", "Length (in)", "Material"]
    rows = [[str(n), "2", "1/4", "48", "60", ""] for n in range(1, 4)]
    notes = ["1. All 304L unless noted."], ["2. Items 2 & 3 are A36."], ["3. Item 3 cancelled."]
    order = read_rows(tmp_path, *rows, *notes, head=head)
    assert [(line.id, line.material) for line in order.lines] == [("1", "304L"), ("2", "A36")]


def test_dates_of_items_and_of_the_balance(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Thk (in)", "OD (in)", "Length (in)", "Material"]
    rows = [[str(n), "2", "1/4", "48", str(60 + n), "A36"] for n in range(1, 4)]
    order = read_rows(tmp_path, *rows, ["Need items 1 & 2 by 1/29/2027, balance by 2/26/2027."], head=head)
    assert [str(line.due) for line in order.lines] == ["2027-01-29", "2027-01-29", "2027-02-26"]


def test_a_total_that_is_not_the_pieces_per_set_times_the_sets_is_asked_about(tmp_path: Path) -> None:
    head = ["Item", "Qty/tank", "Total qty", "Thk (in)", "OD (in)", "Length (in)", "Material"]
    rows = ["1", "2", "6", "1/4", "48", "60", "A36"], ["2", "2", "5", "1/4", "48", "72", "A36"]
    order = read_rows(tmp_path, *rows, head=head, title="For 3 tanks")
    assert [line.quantity for line in order.lines] == [6]
    assert [choice.label for choice in question(order, "2/quantity").choices] == ["5", "6"]


def test_a_line_for_one_tank_only_is_not_multiplied_in_silence(tmp_path: Path) -> None:
    head = ["Item", "Qty per tank", "Thk (in)", "OD (in)", "Length (in)", "Material", "Remarks"]
    order = read_rows(
        tmp_path, ["1", "2", "1/4", "48", "60", "A36", "tank 2 only"], head=head, title="For 3 tanks"
    )
    assert question(order, "1/quantity").blocking


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("IR 1500, 60 deg", Arc(1500, Basis.INSIDE, 60, 1200)),
        ("third of a circle, ID 1800", Arc(900, Basis.INSIDE, 120, 1200)),
        ("quarter of 1800 OD", Arc(900, Basis.OUTSIDE, 90, 1200)),
    ],
)
def test_the_sizes_of_a_shape_cell_are_read(tmp_path: Path, text: str, wanted: Arc) -> None:
    head = ["Panel", "Qty", "t (mm)", "Width (mm)", "Geometry", "Material"]
    order = read_rows(tmp_path, ["CP1", "4", "10", "1200", text, "A36"], head=head, title="mm")
    assert order.lines[0].shape == wanted


def test_two_diameters_in_one_cell_are_the_ends_of_what_is_called_a_cone(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Description", "Thk (mm)", "OD (mm)", "Length (mm)", "Material"]
    order = read_rows(tmp_path, ["1", "1", "conc. cone", "9.5", "1800/900", "600", "A36"], head=head)
    assert order.lines[0].shape == Cone(1800, 900, Basis.OUTSIDE, 600)


def test_roll_and_weld_is_priced_as_a_butt_weld_and_said(tmp_path: Path) -> None:
    order = read_rows(tmp_path, ["1", "2", "1/4", "48 OD", "60", "A36", "roll & weld"], head=HEAD)
    assert order.lines[0].weld is not None
    assert order.lines[0].weld.penetration is Penetration.FULL
    asked = question(order, "1/weld")
    assert not asked.blocking
    assert asked.assumed == "long seam welded by us, full penetration"
