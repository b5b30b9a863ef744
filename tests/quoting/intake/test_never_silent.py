"""What nobody read of a row is asked or said: a date, a set, a revision, a note about one line."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Order
from tests.quoting.intake.sheets import GOOD, HEAD, question, read_rows


def test_a_date_under_an_unknown_heading_is_asked_about(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "17 April 2026"], head=[*HEAD, "Zonk"])
    asked = question(order, "1/due")
    assert "Zonk" in asked.text
    assert not asked.blocking


def test_pieces_counted_in_kits_wait_for_their_number(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "kit"], ["2", *GOOD[1:5], "30", "A36", "ea"], head=[*HEAD, "UOM"])
    assert question(order, "1/quantity").blocking
    assert [line.id for line in order.lines] == ["2"]


def test_the_latest_revision_is_none(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "latest"], head=[*HEAD, "Rev"])
    assert question(order, "1/revision_ok").blocking


def test_a_note_that_names_a_line_is_asked_of_it(tmp_path: Path) -> None:
    file_rows = (GOOD, ["2", *GOOD[1:5], "30", "A36"], ["Item 2: stands in your yard since spring"])
    order = read_rows(tmp_path, *file_rows)
    assert question(order, "2/note_said_ok").blocking
    assert [line.id for line in order.lines] == ["1"]


def test_degrees_before_an_x_are_an_arc_and_no_weld_preparation(tmp_path: Path) -> None:
    order = read_rows(
        tmp_path, ["1", "2", "30 inside radius x 40 deg x 20 wide x 1/4 thk", "A36"],
        head=["Item", "Qty", "Description", "Material"],
    )  # fmt: skip
    values = dict(order.drafts[0].values)
    assert values["angle"] == "40"
    assert "edge_prep" not in values


def test_a_title_that_only_names_the_customer_is_not_quoted(tmp_path: Path) -> None:
    file = [["MADE-UP FABRICATORS (INVENTED) - ROLLING LIST"], HEAD, GOOD]
    order = read_rows(tmp_path, *file[1:], head=file[0])
    assert not any(one.id.endswith("notes_ok") for one in order.questions)


def test_a_title_that_asks_for_work_is_quoted(tmp_path: Path) -> None:
    order = read_rows(tmp_path, HEAD, GOOD, head=["GALVANIZE ALL PARTS"])
    assert any("GALVANIZE" in one.text for one in order.questions if one.id.endswith("notes_ok"))


def _described(folder: Path, *texts: str) -> Order:
    return read_rows(folder, *([text] for text in texts), head=["Please quote, A36, all in inches:"])


def test_a_plate_thickness_with_the_mark_of_feet_is_asked(tmp_path: Path) -> None:
    order = read_rows(tmp_path, ["1", "2", "48", "ID", ".25'", "60", "A36"], ["2", *GOOD[1:]])
    asked = question(order, "1/thickness")
    assert "in feet" in asked.text
    assert [choice.label for choice in asked.choices] == ["0.25 in", "0.25 mm"]
    assert [line.id for line in order.lines] == ["2"]


def test_a_length_in_feet_beside_the_plate_is_no_thickness_in_feet(tmp_path: Path) -> None:
    (line,) = _described(tmp_path, "2 shells 1/4 thk x 48 ID x 5' long").lines
    assert line.thickness_mm == 6.35


@pytest.mark.parametrize("said", ["halfs", "halves", "quarters", "thirds"])
def test_parts_of_a_circle_however_spelled_are_no_full_cylinders(tmp_path: Path, said: str) -> None:
    order = read_rows(tmp_path, ["1", "4", said, *GOOD[2:]], head=["Item", "Qty", "Description", *HEAD[2:]])
    assert not order.lines
    assert any("degrees of arc" in one.text for one in order.questions)


def test_a_remark_that_counts_other_parts_is_asked_of_the_quantity(tmp_path: Path) -> None:
    order = read_rows(
        tmp_path, ["1", "4", *GOOD[2:], "2 rings"], ["2", "2", *GOOD[2:5], "30", "A36", "2 rings"],
        head=[*HEAD, "Comment"],
    )  # fmt: skip
    assert question(order, "1/quantity").blocking
    assert [line.id for line in order.lines] == ["2"]


@pytest.mark.parametrize("said", ["4 or 5", "5 or 4"])
def test_a_choice_of_two_plates_is_left_to_the_customer(tmp_path: Path, said: str) -> None:
    order = read_rows(
        tmp_path, ["1", "2", "850", "ID", said, "500", "A36"],
        head=["Item", "Qty", "Dia (mm)", "ID/OD", "Thk (mm)", "Length (mm)", "Material"],
    )  # fmt: skip
    assert [choice.label for choice in question(order, "1/thickness").choices] == ["4", "5"]
    assert "basis" not in {one.id.partition("/")[2] for one in order.questions}


def test_a_number_before_the_count_is_the_item(tmp_path: Path) -> None:
    order = _described(
        tmp_path, "1 - 4 shells 1/4 thk x 48 ID x 60 long", "2 - 2 rings 1/2 thk x 40 OD x 6 long"
    )
    assert [line.quantity for line in order.lines] == [4, 2]


def test_a_count_of_something_unknown_is_asked(tmp_path: Path) -> None:
    order = _described(
        tmp_path, "1 - 4 shells 1/4 thk x 48 ID x 60 long", "2 - 6 zonk 1/4 thk x 48 ID x 60 long"
    )
    assert [line.quantity for line in order.lines] == [4]
    assert any("How many" in one.text for one in order.questions)


def test_a_count_before_a_dash_still_counts(tmp_path: Path) -> None:
    (line,) = _described(tmp_path, "3 - 10 gauge rings 48 ID x 6 long").lines
    assert line.quantity == 3


def test_a_crossed_item_of_a_numbered_list_does_not_take_the_next_with_it(tmp_path: Path) -> None:
    texts = (
        "1 - 4 shells 1/4 thk x 48 ID x 60 long",
        "2 - cancelled",
        "3 - 1 shell 1/4 thk x 48 ID x 30 long",
    )
    order = _described(tmp_path, *texts)
    assert [line.quantity for line in order.lines] == [4, 1]


def test_a_grade_by_another_name_says_as_which_it_is_read(tmp_path: Path) -> None:
    order = read_rows(tmp_path, ["1", *GOOD[1:6], "1.4307"], ["2", *GOOD[1:6], "ASTM A36"])
    other, own = order.lines
    assert 'the grade "1.4307" is read as our 304L' in other.assumptions
    assert not any("is read as our" in said for said in own.assumptions)


def test_a_shell_shorter_than_its_plate_is_thick_is_asked(tmp_path: Path) -> None:
    order = read_rows(
        tmp_path, ["1", "2", "1500", "ID", "10", "1.250", "A36"],
        head=["Item", "Qty", "Dia (mm)", "ID/OD", "Thk (mm)", "Length (mm)", "Material"],
    )  # fmt: skip
    assert not order.lines


@pytest.mark.parametrize(
    "said", ["2B not needed", "PICKLING NOT IN SCOPE", "welding not required", "lifting lugs deleted"]
)
def test_work_that_is_not_wanted_cancels_no_line(tmp_path: Path, said: str) -> None:
    order = read_rows(tmp_path, [*GOOD, said], head=[*HEAD, "Remarks"])
    assert [line.id for line in order.lines] == ["1"]


@pytest.mark.parametrize("said", ["stiffeners not required", "top flange deleted", "rear half not needed"])
def test_something_named_that_is_not_wanted_is_asked_about(tmp_path: Path, said: str) -> None:
    order = read_rows(tmp_path, [*GOOD, said], head=[*HEAD, "Remarks"])
    assert any(one.line == "1" and one.blocking for one in order.questions)


@pytest.mark.parametrize("said", ["not required", "Item 1 not required", "this line is no longer needed"])
def test_a_line_that_is_not_wanted_is_left_out(tmp_path: Path, said: str) -> None:
    order = read_rows(tmp_path, [*GOOD, said], head=[*HEAD, "Remarks"])
    assert not order.lines
    assert not any(one.line == "1" for one in order.questions)


def test_items_that_count_on_are_no_quantities(tmp_path: Path) -> None:
    rows = [[str(number), "9", "cyl", "48 OD", "1/4", "60", "A36"] for number in range(1, 6)]
    order = read_rows(tmp_path, *rows, head=["#", "Zonk", "Piece", "Dia (in)", "Thk (in)", "Length", "Matl"])
    assert not order.lines
    assert any("How many" in one.text or "hold" in one.text for one in order.questions)


def test_an_eccentric_cone_named_beside_marks_is_asked_about(tmp_path: Path) -> None:
    rows = (["1", "1", "Eccentric reducer", '1/4"', '36" OD x 24" OD', '24"', "A36"],
            ["2", "1", "RED-02", '1/4"', '36" OD x 24" OD', '24"', "A36"])  # fmt: skip
    order = read_rows(
        tmp_path, *rows, head=["No", "Qty", "Part no", "Plate", "Size", "Length", "Matl"], name="cones.csv"
    )
    assert any(one.line == "1" and "eccentric" in one.text for one in order.questions)
    assert "1" not in [line.id for line in order.lines]


def test_a_question_in_brackets_leaves_the_line_its_sizes(tmp_path: Path) -> None:
    order = _described(
        tmp_path, '(2) 3/8" x 36" OD x 60" lg', '(3) 1/4" x 20" OD x 30" lg roll & tack (matl?)'
    )
    assert len(order.drafts) == 2
    assert any("matl?" in one.text for one in order.questions)


def test_rows_without_a_head_that_count_on_hold_item_pieces_and_part(tmp_path: Path) -> None:
    order = read_rows(
        tmp_path,
        ["2", "5", "SHELL, ROLLED, 30 OD x 9 LG x .250 WALL, A36, INCH"],
        head=["1", "12", "SHELL, ROLLED, 30 OD x 6 LG x .250 WALL, A36, INCH"],
    )
    assert [(line.id, line.quantity) for line in order.lines] == [("1", 12), ("2", 5)]


def test_a_material_as_on_an_earlier_order_suggests_no_grade(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD[:6], "as PO 5519"])
    texts = [one.text for one in order.questions if one.blocking]
    assert any("earlier job" in text for text in texts)
    assert not any("is A" in text and "right?" in text for text in texts)
