"""Rows that bear a mark, point to a note or to another row, stand in an older mail or under two revisions."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, Order
from quoting.intake.read_orders import read_orders
from quoting.intake.words import MarkedNotes, begins_older, mark_rule
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY

SIZES = ['30"', '1/4"', '60"']
HEAD = ["Item", "Qty", "What", "ID", "Plate", "Length"]


def read(folder: Path, *rows: list[str]) -> Order:
    """Read rows as a text sheet."""
    file = folder / "order.csv"
    with file.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(rows)
    return read_orders(file, grading_shop(), today=TODAY)


def asked(order: Order) -> list[str]:
    return [one.id for one in order.questions if one.blocking]


@pytest.mark.parametrize(
    ("note", "mark", "marked", "others"),
    [
        ("All A36 unless marked †, those are 304", "†", "304", "All A36"),
        ("S235 sauf repères avec * en S355", "*", "S355", "S235"),
        ("Positionen mit * in 1.4301", "*", "1.4301", ""),
        ("lines with an asterisk: 316L", "*", "316L", ""),
        ("5/16 plate for items marked (B)", "B", "5/16 plate", ""),
        ("** supplied with mill test reports", "**", "supplied with mill test reports", ""),
    ],
)
def test_notes_tell_which_mark_they_are_for(note: str, mark: str, marked: str, others: str) -> None:
    rule = mark_rule(note)
    assert rule is not None
    assert (rule.mark, rule.marked) == (mark, marked)
    assert others in ("", rule.others)


@pytest.mark.parametrize(
    "text", ["PO # 4471", "3 * 4 m", "weld with flux", "mark with paint", "call Ann # 12"]
)
def test_other_signs_are_no_marks(text: str) -> None:
    assert mark_rule(text) is None


@pytest.mark.parametrize("sign", ["*", "†", "§"])
def test_a_row_with_a_mark_takes_the_grade_of_its_note(tmp_path: Path, sign: str) -> None:
    order = read(
        tmp_path,
        [f"All A36 unless marked {sign}, which are 304L"],
        HEAD,
        ["1", "2", "sleeve", *SIZES],
        ["2", "2", f"sleeve {sign}", *SIZES],
        ["3", "1", "band", f'28"{sign}', *SIZES[1:]],
    )
    assert [line.material for line in order.lines] == ["A36", "304/304L", "304/304L"]


def test_a_mark_that_says_another_thickness_is_asked_about(tmp_path: Path) -> None:
    rows = [["1", "2", "sleeve *", *SIZES]]
    order = read(tmp_path, ["All A36, those with a star in 3/8"], HEAD, *rows)
    assert order.lines == ()
    assert asked(order)


def test_a_note_that_a_row_points_to_is_read_with_it(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        [*HEAD, "Grade"],
        ["1", "2", "sleeve", *SIZES, "A36 (note b)"],
        ["2", "2", "band", *SIZES, "A36"],
        ["3", "2", "ring", *SIZES, "304 (see note c)"],
        [],
        ["a) gate closes at noon"],
        ["b) A36 becomes A572-50 here"],
        ["c) this one from 316L"],
    )
    assert [line.material for line in order.lines] == ["A572-50", "A36"]
    assert asked(order) == ["3/material"]


def test_a_note_that_is_not_there_is_asked_for(tmp_path: Path) -> None:
    order = read(tmp_path, [*HEAD, "Grade"], ["1", "2", "sleeve", *SIZES, "A36 (see note d)"], ["a) gate 2"])
    assert order.lines == ()
    assert asked(order)


def test_labels_and_marks_bind_notes_to_cells() -> None:
    notes = MarkedNotes(["Notes: 1) sizes in mm; 2) made from 316L", "# trim after rolling"])
    assert notes.about("collar, see note 2") == ["made from 316L"]
    assert notes.about("collar #") == ["trim after rolling"]
    assert notes.plain("collar #") == "collar"
    assert notes.about("collar #4") == []


@pytest.mark.parametrize(
    ("said", "cells", "line"),
    [
        ("same as P1 but 304L", ["", "", ""], (30, 0.25, 60, "304/304L")),
        ("as P1", ["", "", '20"'], (30, 0.25, 20, "A36")),
        ("like item P1 except 1/2 plate", ["", '1/2"', ""], (30, 0.5, 60, "A36")),
        ("identical to P1, only 36 long", ["", "", ""], (30, 0.25, 36, "A36")),
    ],
)
def test_a_row_is_as_another_but_for_what_it_says(
    tmp_path: Path, said: str, cells: list[str], line: tuple[float, float, float, str]
) -> None:
    head = ["Mark", *HEAD[1:], "Material"]
    order = read(
        tmp_path,
        head,
        ["P1", "2", "sleeve", *SIZES, "A36"],
        ["P2", "3", "other", '90"', '1"', '90"', "304"],
        ["P3", "1", said, *cells, ""],
    )
    last = order.lines[-1]
    assert last.quantity == 1
    assert isinstance(last.shape, Cylinder)
    sizes = (last.shape.diameter_mm, last.thickness_mm, last.shape.length_mm)
    assert [one / 25.4 for one in sizes] == pytest.approx(line[:3])
    assert last.material == line[3]


def test_a_half_of_another_row_is_a_half(tmp_path: Path) -> None:
    head = ["Mark", *HEAD[1:], "Material"]
    rows = [["P1", "2", "sleeve", *SIZES, "A36"], ["P2", "1", "as P1 but half", "", "", "", ""]]
    shape = read(tmp_path, head, *rows).lines[-1].shape
    assert isinstance(shape, Arc)
    assert shape.angle_deg == 180


@pytest.mark.parametrize("said", ["as P1 but 36", "same as P9", "as P1 but opposite hand", "as P1, 4 pcs"])
def test_what_differs_from_another_row_unclearly_is_asked(tmp_path: Path, said: str) -> None:
    head = ["Mark", *HEAD[1:], "Material"]
    rows = [["P1", "2", "sleeve", *SIZES, "A36"], ["P2", "1", said, "", "", "", ""]]
    order = read(tmp_path, head, *rows)
    assert len(order.lines) == 1
    assert asked(order)


@pytest.mark.parametrize(
    "line",
    [
        "-----Original Message-----", "On 4 Nov 2026 at 9:12 the yard wrote:",
        "Am 4.11.2026 schrieb der Einkauf:",
        "Ursprüngliche Nachricht", "=== sent last week ===", "Mensaje original", "Previous email below",
        "From: buyer@example.org Sent: Monday", "Le 4 novembre, l'atelier a écrit :",
    ],
)  # fmt: skip
def test_an_older_mail_is_asked_about(tmp_path: Path, line: str) -> None:
    assert begins_older(line)
    newer, older = '2 pcs shell 40" ID, 1/2" A36, 50" long', '2 pcs shell 36" ID, 1/2" A36, 50" long'
    order = read(tmp_path, ["Good morning, please quote"], [newer], [], [line], [older])
    assert [line.shape.diameter_mm for line in order.lines if isinstance(line.shape, Cylinder)] == [1016]
    assert [one.rpartition("/")[2] for one in asked(order)] == ["status_ok"]


@pytest.mark.parametrize("line", ["--- tank 2 ---", "Rings", "Original drawing", "from stock: 3 plates"])
def test_other_lines_begin_no_older_mail(line: str) -> None:
    assert not begins_older(line)


def test_a_mail_passed_on_is_the_order_itself(tmp_path: Path) -> None:
    one = '2 pcs shell 40" ID, 1/2" A36, 50" long'
    order = read(tmp_path, ["please quote"], ["--- forwarded message ---"], [one])
    assert [line.quantity for line in order.lines] == [2]


@pytest.mark.parametrize(
    ("title", "heads", "wanted"),
    [
        ("", ["Qty Rev 1", "Qty Rev 2"], [5]),
        ("Rev. E counts", ["Quantity (Rev D)", "Quantity (Rev E)"], [5]),
        ("Price issue 1 only", ["Qty issue 1", "Qty issue 2"], []),
        ("", ["Qty Rev 9", "Qty Rev A"], []),
    ],
)
def test_the_last_of_two_revisions_holds(
    tmp_path: Path, title: str, heads: list[str], wanted: list[int]
) -> None:
    head = ["Mark", *heads, "ID", "Thk", "Length", "Material"]
    order = read(tmp_path, [title or "Please quote"], head, ["M1", "3", "5", *SIZES, "A36"])
    assert [line.quantity for line in order.lines] == wanted


@pytest.mark.parametrize(
    ("unit", "what", "note", "wanted"),
    [
        ("half", "half ring", "", [4]),
        ("halves", "half shell, 180 deg", "", [4]),
        ("pair", "half shell", "4 pairs makes 8 halves", [8]),
        ("set", "half shell", "4 sets = 12 pieces", [12]),
        ("pair", "half shell", "3 pairs = 6 halves", []),
        ("half", "tank course", "", []),
        ("set", "half shell", "", []),
    ],
)
def test_what_a_set_of_halves_counts(
    tmp_path: Path, unit: str, what: str, note: str, wanted: list[int]
) -> None:
    head = ["Item", "Qty", "Unit", "What", "ID", "Plate", "Length", "Material", "Text"]
    order = read(tmp_path, head, ["1", "4", unit, what, *SIZES, "A36", note])
    assert [line.quantity for line in order.lines] == wanted


def test_what_is_in_each_set_orders_no_set(tmp_path: Path) -> None:
    head = ["Part", "Per kit", "Total", "ID", "Thk", "Length", "Material"]
    title = "Each kit = 1 can and 2 rings; we need 3 kits"
    rows = [["can", "1", "3", *SIZES, "A36"], ["ring", "2", "6", '30"', '1/4"', '4"', "A36"]]
    order = read(tmp_path, [title], head, *rows)
    assert [line.quantity for line in order.lines] == [3, 6]


@pytest.mark.parametrize(
    "title",
    [
        "Dryer drum spares",
        "Spare parts for the kiln",
        "Mixer spares list",
        "Silo - spare hoppers",
        "Dryer drum, 6 m3",
    ],
)
def test_a_title_names_spares(tmp_path: Path, title: str) -> None:
    order = read(tmp_path, [title], [*HEAD, "Grade"], ["1", "2", "can", *SIZES, "A36"])
    assert len(order.lines) == 1


@pytest.mark.parametrize(
    "title",
    [
        "Cans with spares",
        "Cans plus 2 spares",
        "Quantities incl. spares",
        "Silo - 2 spare cans",
        "Cans - spares needed",
    ],
)
def test_spares_beside_something_are_asked_about(tmp_path: Path, title: str) -> None:
    order = read(tmp_path, [title], [*HEAD, "Grade"], ["1", "2", "can", *SIZES, "A36"])
    assert order.lines == ()


@pytest.mark.parametrize(
    ("note", "basis"),
    [
        ("D is the inside diameter", Basis.INSIDE),
        ("1) all sizes in mm; 2) D = OD; 3) gate 2", Basis.OUTSIDE),
        ("column 'D' means outside diameter", Basis.OUTSIDE),
    ],
)
def test_a_note_says_what_a_letter_stands_for(tmp_path: Path, note: str, basis: Basis) -> None:
    head = ["Item", "Qty", "D", "Thk mm", "Length", "Material"]
    order = read(tmp_path, head, ["1", "2", "900", "8", "1200", "S235JR"], [], [note])
    assert [line.shape.basis for line in order.lines if isinstance(line.shape, Cylinder)] == [basis]


@pytest.mark.parametrize(
    ("text", "lines"), [("OD 916, ID 900", 1), ("OD 916, ID 906", 0), ("OD 910, ID 900", 0)]
)
def test_both_sides_in_a_remark_are_the_thickness_apart(tmp_path: Path, text: str, lines: int) -> None:
    head = ["Item", "Qty", "ID mm", "Thk mm", "Length", "Material", "Remark"]
    order = read(tmp_path, head, ["1", "2", "900", "8", "1200", "S235JR", text])
    assert len(order.lines) == lines


@pytest.mark.parametrize(
    ("text", "ends"),
    [
        ("1 pc cone OD 60 and 40, 30 high, 3/8 A36", (60, 40)),
        ("1 pc cone ODs 60 & 40, 30 vertical, 3/8 A36", (60, 40)),
    ],
)
def test_both_ends_of_a_cone_are_joined_by_and(tmp_path: Path, text: str, ends: tuple[float, float]) -> None:
    order = read(tmp_path, ["Dimensions in inches, please price:"], [text])
    shape = order.lines[0].shape
    assert isinstance(shape, Cone)
    assert (shape.large_mm / 25.4, shape.small_mm / 25.4) == pytest.approx(ends)


@pytest.mark.parametrize(
    ("what", "shape"),
    [
        ("mast doubler, full wrap", Cylinder),
        ("doubler, complete circle", Cylinder),
        ("doubler, half of full circle", None),
    ],
)
def test_once_round_is_a_full_cylinder(tmp_path: Path, what: str, shape: type | None) -> None:
    head = ["Item", "Qty", "OD", "Thk", "Length", "Material", "Remark"]
    order = read(tmp_path, head, ["1", "2", *SIZES, "A36", what])
    assert [type(line.shape) for line in order.lines] == ([shape] if shape else [])


@pytest.mark.parametrize("what", ["junction box sleeve", "head skirt", "overflow box ring"])
def test_what_a_round_part_belongs_to_is_not_its_shape(tmp_path: Path, what: str) -> None:
    order = read(
        tmp_path, [*HEAD, "Grade"], ["1", "2", what, *SIZES, "A36"], ["2", "2", "head", *SIZES, "A36"]
    )
    assert [line.id for line in order.lines] == ["1"]


@pytest.mark.parametrize(
    ("head", "said", "lines"),
    [
        ("Long seam", "by you? no, by others", 1),
        ("Seam weld", "by us? yes", 1),
        ("Plate", "by you? no - by us", 0),
        ("Long seam", "by you? yes", 0),
    ],
)
def test_a_question_with_its_answer_is_none(tmp_path: Path, head: str, said: str, lines: int) -> None:
    order = read(
        tmp_path,
        ["Item", "Qty", "ID", "Thk", "Length", "Material", head],
        ["1", "2", *SIZES, "A36", said],
    )
    assert len(order.lines) == lines


@pytest.mark.parametrize(
    ("form", "cylinder", "cone"),
    [("Forma", "cilindro", "tronco di cono"), ("Forme", "cylindre", "cône"), ("Kształt", "walec", "stożek")],
)
def test_a_column_of_shapes_in_other_languages(tmp_path: Path, form: str, cylinder: str, cone: str) -> None:
    head = ["Pos", "Qty", form, "D1 OD mm", "D2 OD mm", "Height mm", "Thk mm", "Material"]
    order = read(
        tmp_path,
        head,
        ["1", "2", cylinder, "500", "", "700", "4", "S235JR"],
        ["2", "2", cone, "500", "200", "700", "4", "S235JR"],
    )
    assert [type(line.shape) for line in order.lines] == [Cylinder, Cone]
