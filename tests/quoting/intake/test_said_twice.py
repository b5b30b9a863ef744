"""What a line says twice must agree, and a figure that no field holds is never passed over in silence."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Order, State
from tests.quoting.intake.sheets import read_rows

HEAD = ["Item", "Qty", "ID in", "Length in", "Thk in", "Material"]
ROW: list[object] = [1, 2, 24, 36, 0.25, "A36"]


def read(folder: Path, head: list[str], row: list[object]) -> Order:
    return read_rows(folder, row, head=head)


@pytest.mark.parametrize(
    ("head", "row", "words"),
    [
        ([*HEAD, "Inside radius in"], [*ROW, 14], "are not one size"),
        ([*HEAD, "Angle deg", "Arc length in"], [*ROW, 90, 40], "along the arc"),
        ([*HEAD, "Angle deg", "Chord in"], [*ROW, 90, 10], "have a chord of"),
        ([*HEAD, "Angle deg", "Description"], [*ROW, 120, "full ring"], "and 120 degrees: which?"),
        ([*HEAD, "Sets"], [*ROW, 3], "2 pieces and 3 units"),
        ([*HEAD, "Manhole ID in"], [*ROW, 12], "given twice"),
        ([*HEAD, "Overlap in"], [*ROW, 1.5], "what does it change?"),
        ([*HEAD, "C.A."], [*ROW, "1/8"], "what does it change?"),
        ([*HEAD, "Spares"], [*ROW, 1], "what does it change?"),
        ([*HEAD, "Offset"], [*ROW, 6], "what does it change?"),
        ([*HEAD, "Remarks"], [*ROW, "all sizes in cm"], "in which unit"),
        ([*HEAD, "Rev"], [*ROW, "on hold"], "on hold"),
        ([*HEAD[:3], "Length in", *HEAD[4:]], [1, 2, 24, "36 + 2", 0.25, "A36"], "is 2 added to it"),
        ([*HEAD, "Description"], [*ROW, "shell, 5 required"], "5"),
    ],
)
def test_what_does_not_agree_is_asked(tmp_path: Path, head: list[str], row: list[object], words: str) -> None:
    order = read(tmp_path, head, row)
    assert [one.state for one in order.rows[1:]] == [State.QUESTION]
    assert any(words in one.text for one in order.questions), [one.text for one in order.questions]


@pytest.mark.parametrize(
    ("head", "row"),
    [
        ([*HEAD, "Inside radius in"], [*ROW, 12]),
        ([*HEAD, "Angle deg", "Arc length in"], [*ROW, 90, 18.85]),
        ([*HEAD, "Angle deg", "Chord in"], [*ROW, 90, 16.97]),
        ([*HEAD, "Sets"], [*ROW, 1]),
        (["Item", "Total qty", *HEAD[2:], "Sets"], [*ROW, 2]),
        ([*HEAD, "Rev"], [*ROW, "C"]),
        ([*HEAD, "Bin"], [*ROW, "R2"]),
        ([*HEAD, "Offset"], [*ROW, 0]),
    ],
)
def test_what_agrees_is_not_asked(tmp_path: Path, head: list[str], row: list[object]) -> None:
    assert [one.state for one in read(tmp_path, head, row).rows[1:]] == [State.PRICED]


CONE = ["Item", "Qty", "Large end ID in", "Small end ID in", "Height in", "Thk in", "Material"]


@pytest.mark.parametrize(
    ("more", "value", "words"),
    [
        ("Slant in", 60, "has a slope of"),
        ("ID in", 30, "beside the two ends"),
        ("Offset in", 6, "what does it change?"),
    ],
)
def test_a_cone_that_contradicts_itself_is_asked(tmp_path: Path, more: str, value: float, words: str) -> None:
    order = read(tmp_path, [*CONE, more], [1, 1, 48, 24, 36, 0.25, "A36", value])
    assert any(words in one.text for one in order.questions), [one.text for one in order.questions]


def test_the_true_slope_beside_the_height_is_not_asked(tmp_path: Path) -> None:
    order = read(tmp_path, [*CONE, "Slant in"], [1, 1, 48, 24, 36, 0.25, "A36", 37.95])
    assert [one.state for one in order.rows[1:]] == [State.PRICED]


def test_figures_of_work_beside_rolling_are_said_on_the_line(tmp_path: Path) -> None:
    (line,) = read(tmp_path, [*HEAD, "Holes"], [*ROW, 4]).lines
    assert any("not in the price" in one for one in line.assumptions)


@pytest.mark.parametrize("words", ["2-piece collar", "two piece shell", "collar in 2 pcs", "sleeve, 3 part"])
def test_a_part_of_several_pieces_is_asked_about(tmp_path: Path, words: str) -> None:
    (row,) = read(tmp_path, [*HEAD, "Description"], [*ROW, words]).rows[1:]
    assert row.state is State.QUESTION


def test_a_collar_of_one_piece_is_no_count(tmp_path: Path) -> None:
    (line,) = read(tmp_path, [*HEAD, "Description"], [*ROW, "one piece collar"]).lines
    assert line.quantity == 2


def test_a_title_that_speaks_of_half_shells_is_asked_about_where_the_rows_say_nothing(tmp_path: Path) -> None:
    order = read_rows(tmp_path, ROW, head=HEAD, title="Half shells for duct guards")
    assert any("no degrees of arc" in one.text for one in order.questions)
    order = read_rows(tmp_path, [*ROW, 180], head=[*HEAD, "Angle deg"], title="Half shells for duct guards")
    assert [row.state for row in order.rows[2:]] == [State.PRICED]
