"""Letters that a note explains, and sides that a title or note gives for all diameters of a table."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Basis, Cone, Cylinder, Order
from quoting.intake.layout import facts_in, heading_meaning
from quoting.intake.legends import legend_of
from quoting.tables import Sheet
from tests.quoting.intake.sheets import read_rows

ROW = ["1", "2", "1800", "12", "2000", "A36"]


def _read(tmp_path: Path, heads: list[str], note: str) -> Order:
    return read_rows(tmp_path, ROW, head=["Item", "Qty", *heads, "Grade"], title=note)


@pytest.mark.parametrize("heads", [["A", "B", "C"], ["Dim A", "Dim B", "Dim C"], ["Ls", "Wd", "Hb"]])
def test_a_letter_holds_what_a_note_says_it_does(tmp_path: Path, heads: list[str]) -> None:
    letters = [head.split()[-1] for head in heads]
    told = zip(letters, ("inside diameter", "plate thickness", "length of strake"), strict=True)
    order = _read(tmp_path, heads, "; ".join(f"{letter} = {means}" for letter, means in told) + "; all mm")
    (line,) = order.lines
    assert (line.thickness_mm, line.shape) == (12, Cylinder(1800, Basis.INSIDE, 2000))


@pytest.mark.parametrize(
    "note",
    [
        "N = number of halves, C = length of slant",
        "C = length, C = height",
        "See drawing: C is later",
        "Length: C",
    ],
)
def test_what_is_no_size_of_one_letter_is_no_legend(note: str) -> None:
    sheet = Sheet("a.csv", "csv", [["A", "B", "C", "N"], [note]])
    assert legend_of(sheet, heading_meaning).fields == {}


@pytest.mark.parametrize(
    ("text", "side"),
    [
        ("D1, D2 to centre of plate; L perpendicular height; mm", Basis.MEAN),
        ("dia.1 bottom, dia.2 top, both outside. mm", Basis.OUTSIDE),
        ("Shells OD, AISI 316L", Basis.OUTSIDE),
        ("Cones, S355J2, inside dims in mm", Basis.INSIDE),
        ("Liners inside, S355J2", None),
        ("M12 bolts outside", None),
    ],
)
def test_a_side_for_all_is_heard_beside_grades_and_numbered_ends(text: str, side: Basis | None) -> None:
    assert facts_in(text).basis is side


def test_a_count_to_make_beside_the_one_ordered_is_asked_where_they_differ(tmp_path: Path) -> None:
    heads = ["Item", "Order qty", "Stock", "To make", "ID", "Thk", "Length", "Grade"]
    rows = (
        ["1", "4", "1", "3", "1800", "12", "2000", "A36"],
        ["2", "2", "0", "2", "1800", "12", "2000", "A36"],
    )
    order = read_rows(tmp_path, *rows, head=heads, title="all mm")
    assert [line.quantity for line in order.lines] == [2]


def test_a_cone_is_as_high_as_its_included_angle_makes_it(tmp_path: Path) -> None:
    heads = ["Item", "Qty", "Lge Ø", "Sml Ø", "Incl. angle", "Thk", "Grade"]
    row = ["1", "2", "1000", "200", "90", "6", "A36"]
    (line,) = read_rows(tmp_path, row, head=heads, title="Inside diameters, mm").lines
    assert isinstance(line.shape, Cone)
    assert (line.shape.large_mm, line.shape.small_mm) == (1000, 200)
    assert line.shape.height_mm == pytest.approx(400)
