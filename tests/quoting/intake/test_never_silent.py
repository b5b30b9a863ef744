"""What nobody read of a row is asked or said: a date, a set, a revision, a note about one line."""

from __future__ import annotations

from pathlib import Path

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
