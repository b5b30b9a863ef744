"""A cell that says itself what it is, counts of what was ordered before, plates that make a tank's course."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, Order, State
from quoting.intake.read_orders import read_orders
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY
from tests.quoting.intake.sheets import write_rows


def _read(folder: Path, *rows: Sequence[str]) -> Order:
    return read_orders(write_rows(folder, *rows), grading_shop(), today=TODAY)


def _asked(order: Order) -> list[str]:
    return [question.text for question in order.questions if question.blocking]


HEAD = ["Item", "Description", "Qty", "ID mm", "Thk mm", "Length mm", "Material"]


def test_a_side_in_one_cell_goes_before_the_head_of_its_column(tmp_path: Path) -> None:
    order = _read(
        tmp_path,
        HEAD,
        ["1", "shell", "2", "1600", "8", "1500", "A36"],
        ["2", "leg pipe", "2", "OD 762", "8", "1000", "A36"],
    )
    assert order.lines[1].shape == Cylinder(762.0, Basis.OUTSIDE, 1000.0)
    assert any("goes before the head" in text for text in order.lines[1].assumptions)


@pytest.mark.parametrize("title", ["All diameters are inside", ""])
def test_a_side_against_all_others_is_asked_about(tmp_path: Path, title: str) -> None:
    head = ["Dia mm" if title and one == "ID mm" else one for one in HEAD]
    rows = [head, ["1", "shell", "2", "OD 762", "8", "1000", "A36"]]
    assert _asked(_read(tmp_path, *([[title]] if title else []), *rows))


def test_a_diameter_under_radii_and_a_whole_circle_under_what_is_curved(tmp_path: Path) -> None:
    order = _read(
        tmp_path,
        ["Plate", "t mm", "b (across roll) mm", "l (to be curved) mm", "Inside R mm", "Grade", "No."],
        ["B12", "14", "2000", "2356", "1500", "A36", "2"],
        ["RT1", "25", "1650", "full round", "ID 720", "A36", "1"],
    )
    assert not _asked(order)
    arc, round_ = (line.shape for line in order.lines)
    assert isinstance(arc, Arc)
    assert (arc.length_mm, round(arc.angle_deg)) == (2000.0, 90)
    assert round_ == Cylinder(720.0, Basis.INSIDE, 1650.0)


def test_what_was_ordered_before_is_no_quantity(tmp_path: Path) -> None:
    order = _read(
        tmp_path,
        ["Line", "Part", "Qty this call", "Qty prev", "ID mm", "Thk", "Lg", "Matl", "Status"],
        ["1", "T-750/8", "6", "4", "750", "8", "1200", "A36", "released"],
        ["3", "T-750/10", "2", "0", "750", "10", "1200", "A36", "released, label with our part no."],
    )
    assert [line.quantity for line in order.lines] == [6, 2]


def test_plates_that_make_the_course_of_a_tank(tmp_path: Path) -> None:
    head = ["MK", "QTY", "DESCRIPTION", "THK", "PLATE WIDTH", "PLATE LENGTH", "ROLL RADIUS (INSIDE)"]
    row = ["C1", "10", "Shell plate course 1", "5/16", "96", "113", "180"]
    order = _read(tmp_path, head, row, ["All plates A36. Dims in inches"])
    (shape,) = (line.shape for line in order.lines)
    assert isinstance(shape, Arc)
    assert (shape.length_mm, round(shape.angle_deg)) == (2438.4, 36)
    row[5] = "125"
    assert _asked(_read(tmp_path, head, row, ["All plates A36. Dims in inches"]))


@pytest.mark.parametrize("marks", ["T1 to T4", "T1 à T4", "T11-T12"])
def test_marks_of_several_parts_are_no_thickness(tmp_path: Path, marks: str) -> None:
    head = ["Section", "Qty", "OD mm", "Thickness mm", "Height mm", "Grade"]
    order = _read(
        tmp_path, head, [marks, "4", "1500", "8", "2500", "A36"], ["Base", "1", "1500", "8", "900", "A36"]
    )
    assert not _asked(order)


def test_degrees_alone_under_remarks_are_those_of_the_radius(tmp_path: Path) -> None:
    head = ["Type", "Half shells", "Inside radius", "Height", "Metal", "Thickness", "Remarks"]
    order = _read(
        tmp_path,
        head,
        ["CC1", "24", '12"', "10'-0\"", "304 stainless", '1/8"', "180 deg"],
        ["CC2", "8", '15"', "10'-0\"", "304 stainless", '1/8"', "180 deg, at the lobby"],
    )
    assert [line.shape.angle_deg for line in order.lines if isinstance(line.shape, Arc)] == [180, 180]


def test_degrees_that_do_not_fit_the_developed_length_are_asked_about(tmp_path: Path) -> None:
    head = ["N°", "Pièce", "Qté", "Ép. mm", "Largeur mm", "Formage", "Matière"]
    rows = [["1", "Berceau", "16", "10", "300", "R int. 1433, 60°", "S235JR"]]
    rows.append(["2", "Berceau AR", "4", "10", "300", "R int. 1433, 60°, développé 2250", "S235JR"])
    order = _read(tmp_path, head, *rows)
    assert [line.id for line in order.lines] == ["1"]
    assert any("which one holds" in text for text in _asked(order))


@pytest.mark.parametrize("remark", ["halves", "make halves", "supplied as halves"])
def test_a_shell_that_is_said_to_be_halves_is_asked_about(tmp_path: Path, remark: str) -> None:
    order = _read(tmp_path, [*HEAD, "Remarks"], ["1", "shell", "2", "1600", "8", "1500", "A36", remark])
    assert _asked(order)


@pytest.mark.parametrize("text", ["all corten (S355J0WP) please", "all plates weathering steel A588"])
def test_weathering_steel_with_its_grade(tmp_path: Path, text: str) -> None:
    order = _read(tmp_path, [text], HEAD[:-1], ["1", "shell", "2", "1600", "8", "1500"])
    assert len(order.lines) == 1


def test_cones_that_are_called_tapered_or_transition(tmp_path: Path) -> None:
    head = ["Line", "Description", "Thk mm", "Width mm", "Roll detail", "Grade", "Qty"]
    row = ["70", "Transition cone", "16", "900", "ID 1250 to ID 800, conc, 900 high", "A36", "1"]
    (line,) = _read(tmp_path, head, ["10", "Bin", "20", "1500", "ID 1250", "A36", "2"], row).lines[1:]
    assert line.shape == Cone(1250.0, 800.0, Basis.INSIDE, 900.0)


def test_a_line_that_another_one_replaces_is_left_out(tmp_path: Path) -> None:
    row = ["6", "sheet", "2", "1600", "8", "1500", "A36", "superseded by line 1, do not quote"]
    order = _read(tmp_path, [*HEAD, "Note"], ["1", "shell", "2", "1600", "8", "1500", "A36", ""], row)
    assert [one.state for one in order.rows if one.number] == [State.PRICED, State.NO_QUOTE]


@pytest.mark.parametrize(
    ("remark", "asked"),
    [("door frame fitted by roller", True), ("4 holes dia 20 drilled by you", True),
     ("vendor to prime", True), ("4 lifting lugs by you", True), ("stamp by you", False),
     ("lugs by us", False),
     ("holes by others", False)],
)  # fmt: skip
def test_extra_work_that_is_wanted_from_the_roller_is_asked_about(
    tmp_path: Path, remark: str, asked: object
) -> None:
    order = _read(tmp_path, [*HEAD, "Remarks"], ["1", "shell", "2", "1600", "8", "1500", "A36", remark])
    assert bool(_asked(order)) is asked
