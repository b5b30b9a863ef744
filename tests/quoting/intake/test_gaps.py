"""Weld gaps: in a column, in a remark, in a note for all lines or for one metal."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.intake.answers import resolve
from quoting.intake.texts import gaps_in
from tests.quoting.intake.sheets import GOOD, HEAD, question, read_rows
from tests.quoting.intake.small_shop import small_shop

REMARKS = [*HEAD, "Remarks"]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("weld gap 2 mm", [("2 mm", None)]),
        ("Leave 1/8 gap on carbon", [("1/8", "carbon")]),
        ('1/16" root opening, bevel by us', [('1/16"', None)]),
        ("gap: 1/8; paint by us", [("1/8", None)]),
        ("1/8 gap on CS, 1/16 gap on SS", [("1/8", "carbon"), ("1/16", "stainless")]),
        ("weld gap = 2,5 mm", [("2,5 mm", None)]),
        ("no gap", [("0", None)]),
        ("leave 1/8 gap on all seams", [("1/8", None)]),
        ("max gap 1/8 to the mating part", []),
        ("leave 1/8 gap on item 5", []),
        ("mind the gap", []),
        ("48 OD with a gap", []),
    ],
)
def test_the_gap_in_a_sentence(text: str, found: list[tuple[str, str | None]]) -> None:
    assert [(gap.text, gap.family) for gap in gaps_in(text)] == found


@pytest.mark.parametrize(
    ("remark", "gap"),
    [("weld gap 2 mm", 2.0), ("leave 1/8 gap", 3.175), ("no gap", 0.0), ("gap 0.125", 3.175), ("rush", None)],
)
def test_a_remark_gives_the_gap_of_its_line(tmp_path: Path, remark: str, gap: float | None) -> None:
    order = read_rows(tmp_path, [*GOOD, remark], head=REMARKS)
    assert order.lines[0].weld_gap_mm == gap
    assert order.lines[0].remarks == (remark,)


def test_a_note_for_one_metal_holds_for_its_lines_and_says_so(tmp_path: Path) -> None:
    rows = [GOOD, ["2", "1", *GOOD[2:6], "304L"], ["3", "3", *GOOD[2:]]]
    rows[2][6] = "A36"
    order = read_rows(tmp_path, *rows, ["Seams open, we weld. Leave 1/8 gap on carbon."])
    assert [line.weld_gap_mm for line in order.lines] == [3.175, None, 3.175]
    assert 'weld gap 1/8" on carbon, as the sheet says for all lines' in order.lines[0].assumptions
    assert not any("gap" in said for said in order.lines[1].assumptions)


def test_the_lines_own_words_go_before_the_note_and_lapped_seams_have_none(tmp_path: Path) -> None:
    order = read_rows(
        tmp_path,
        [*GOOD, "gap 1/16"],
        ["2", "1", *GOOD[2:], "lap seam by us"],
        ["Leave 1/8 gap on all seams"],
        head=REMARKS,
    )
    assert [line.weld_gap_mm for line in order.lines] == [1.5875, None]


@pytest.mark.parametrize(("grade", "gap"), [("A36", 3.175), ("304L", None)])
def test_a_gap_for_one_metal_waits_for_the_grade(tmp_path: Path, grade: str, gap: float | None) -> None:
    order = read_rows(tmp_path, [*GOOD[:6], ""], ["Leave 1/8 gap on carbon"])
    assert resolve(order, {"1/material": grade}, small_shop()).lines[0].weld_gap_mm == gap


def test_a_column_and_a_remark_that_differ_are_asked_about(tmp_path: Path) -> None:
    head = [*HEAD, "Weld gap (in)", "Remarks"]
    order = read_rows(tmp_path, [*GOOD, "1/8", "weld gap 3/16"], head=head)
    assert question(order, "1/weld_gap").text.startswith("The weld gap is given twice")


def test_a_gap_no_welder_leaves_is_asked_about(tmp_path: Path) -> None:
    order = read_rows(tmp_path, [*GOOD, "leave 2 gap"], head=REMARKS)
    asked = question(order, "1/weld_gap")
    assert asked.text == 'A weld gap of 2" is wide; is it meant?'
    assert resolve(order, {asked.id: "no, close it"}, small_shop()).lines[0].weld_gap_mm == 0
    assert resolve(order, {asked.id: "yes"}, small_shop()).lines[0].weld_gap_mm == 50.8
