"""220 more small tables of orders, written before the reader saw any of them, graded as those before.

Both halves have been looked into.
"""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, Order, Shape
from tests.quoting.intake.sheets import read_rows
from tests.quoting.intake.test_tables_alone import graded

_TABLES = Path(__file__).parents[2] / "data" / "texts_alone" / "tables_more.json"


@pytest.mark.parametrize(("half", "least"), [(0, 275), (1, 266)], ids=["even", "odd"])
def test_more_tables_are_read_or_asked_about_and_never_priced_wrong(
    half: int, least: int, tmp_path: Path
) -> None:
    tables = json.loads(_TABLES.read_text(encoding="utf-8"))[half::2]
    found = sum((graded(table, tmp_path / "order.xlsx") for table in tables), Counter[str]())
    assert found["wrong"] == found["missed"] == 0
    assert found["fine"] >= least


@pytest.mark.parametrize("head", ["Kantenvorb.", "Edge prep", "Remarks", "Prep"])
@pytest.mark.parametrize("joint", ["V 60°", "K45°"])
def test_the_degrees_of_a_joint_are_no_arc(head: str, joint: str, tmp_path: Path) -> None:
    heads = ["Pos", "Qty", "ID", "Thk", "Length", "Material", head]
    order = read_rows(tmp_path, ["1", "2", "1100", "10", "1500", "A36", joint], head=heads)
    assert [line.shape for line in order.lines] == [Cylinder(1100.0, Basis.INSIDE, 1500.0)]


def test_the_degrees_of_a_joint_beside_those_of_an_arc(tmp_path: Path) -> None:
    heads = ["Pos", "Qty", "Radius inside", "Angle", "Thk", "Length", "Material", "Edges"]
    order = read_rows(tmp_path, ["1", "2", "1100", "90", "10", "1500", "A36", "V 60°"], head=heads)
    assert [line.shape for line in order.lines] == [Arc(1100.0, Basis.INSIDE, 90.0, 1500.0)]


@pytest.mark.parametrize(
    ("heads", "cells"),
    [
        (["Nr", "Da x s", "L", "Stk", "Werkst."], ["1", "813 x 10", "3000", "4", "A36"]),
        (["Poz.", "Dz x g", "Dł. [mm]", "Ilość", "Gat."], ["1", "813 x 10", "3000", "4", "A36"]),
        (
            ["Cl.", "Ø", "Side of Ø", "t", "L", "Nos", "Steel"],
            ["4.1", "813", "od", "10", "3000", "4", "A36"],
        ),
        (["№", "Dн", "s", "L", "К-сть", "Сталь"], ["1", "813", "10", "3000", "4", "A36"]),
        (
            ["No", "Diameter luar", "Tebal", "Panjang", "Jumlah", "Bahan"],
            ["1", "813", "10", "3000", "4", "A36"],
        ),
        (
            ["Part", "OD(mm)", "TL(mm)", "Thk.(mm)", "MOC", "Nos."],
            ["shell", "813", "3000", "10", "A36", "4"],
        ),
        (
            ["Mk", "Out.dia", "Pl.thk", "Face", "MATL", "Required"],
            ["A", "813", "10", "3000", "A36", "4 off"],
        ),
    ],
)
def test_heads_that_other_tables_taught(heads: list[str], cells: list[str], tmp_path: Path) -> None:
    """Pipes of 813 x 10 outside, 3000 and 2500 long, four times: whatever the heads call it."""
    other = {"4.1": "4.2", "1": "2", "A": "B", "shell": "end", "3000": "2500"}
    order = read_rows(tmp_path, cells, [other.get(cell, cell) for cell in cells], head=heads)
    assert [(line.shape, line.thickness_mm, line.quantity) for line in order.lines] == [
        (Cylinder(813.0, Basis.OUTSIDE, length), 10.0, 4) for length in (3000.0, 2500.0)
    ]


def test_a_row_whose_mark_counts_courses_is_one_course(tmp_path: Path) -> None:
    heads = ["Mk", "Plates/course", "Width", "T", "Tank ID", "Grade"]
    rows = ["C1", "4", "2400", "10", "12000", "A36"], ["C2", "4", "1800", "8", "12000", "A36"]
    order = read_rows(tmp_path, *rows, head=heads)
    assert [(line.shape, line.quantity) for line in order.lines] == [
        (Arc(6000.0, Basis.INSIDE, 90.0, width), 4) for width in (2400.0, 1800.0)
    ]
    assert not read_rows(tmp_path, ["S4", *rows[0][1:]], ["S9", *rows[1][1:]], head=heads).lines


def test_thousands_are_told_by_the_sizes_that_can_be_rolled(tmp_path: Path) -> None:
    """1,200 across is 1200 mm where other rows show whole millimetres; one row alone is asked about."""
    heads = ["Item", "Qty", "ID mm", "Thk mm", "Length mm", "Material"]
    one, other = ["1", "2", "1,200", "10", "1,500", "A36"], ["2", "2", "900", "10", "950", "A36"]
    assert not read_rows(tmp_path, one, head=heads).lines
    first, _ = read_rows(tmp_path, one, other, head=heads).lines
    assert first.shape == Cylinder(1200.0, Basis.INSIDE, 1500.0)


def _under(title: str, tmp_path: Path, heads: list[str], *rows: list[str]) -> Order:
    return read_rows(tmp_path, heads, *rows, head=[title])


@pytest.mark.parametrize(
    ("title", "angle"),
    [
        ("Półłupiny na mufy", 180.0),
        ("Půlskořepiny", 180.0),
        ("Félhéjak", 180.0),
        ("Полуобечайки", 180.0),
        ("Segmente 90°", 90.0),
        ("Saddle plates 120 deg", 120.0),
    ],
)
def test_a_title_says_which_part_of_a_circle_all_are(title: str, angle: float, tmp_path: Path) -> None:
    heads = {
        "Půl": ["Poz", "Ø vnitřní", "Délka", "Tloušťka", "Kusů", "Materiál"],
        "Fél": ["Poz", "Ø belső", "Hossz", "Vastagság", "Db", "Anyag"],
        "Пол": ["Поз", "Ø внутр", "Длина", "Толщина", "Кол-во", "Материал"],
        "Pół": ["Poz", "Ø wewn", "Długość", "Grubość", "Ilość", "Materiał"],
        "Seg": ["Pos", "Di", "Länge", "Dicke", "Stk", "Werkstoff"],
    }.get(title[:3], ["Pos", "ID", "Length", "Thk", "Qty", "Material"])
    order = _under(title, tmp_path, heads, ["1", "1200", "1500", "10", "2", "A36"])
    assert [line.shape for line in order.lines] == [Arc(600.0, Basis.INSIDE, angle, 1500.0)]


@pytest.mark.parametrize(
    "title", ["Split sleeves", "Clamshells", "Rings, 4 segments per ring", "Repads", "Tank T1 - 3 off"]
)
def test_a_title_that_leaves_open_what_a_row_is_of_is_asked_about(title: str, tmp_path: Path) -> None:
    heads = ["Pos", "ID", "Length", "Thk", "Qty", "Material"]
    assert not _under(title, tmp_path, heads, ["1", "1200", "1500", "10", "2", "A36"]).lines


@pytest.mark.parametrize("name", ["reducer", "elbow 90", "mitre bend", "perforated basket", "seamless pipe"])
def test_a_name_under_part_says_that_a_part_is_no_plain_ring(name: str, tmp_path: Path) -> None:
    heads = ["Pos", "Part", "ID", "L", "Thk", "Qty", "Material"]
    row = ["1", name, "1200", "1500", "10", "2", "A36"]
    assert not read_rows(tmp_path, row, ["2", "nozzle N1", *row[2:]], head=heads).lines[1:]


@pytest.mark.parametrize(
    ("heads", "cells", "shape"),
    [
        (["Nr", "Ø", "Type Ø", "t", "L", "Qty", "Material"], ["1", "800", "inside", "8", "900", "2", "A36"],
         Cylinder(800.0, Basis.INSIDE, 900.0)),
        (["Nr", "Outer Ø x t x L", "Qty", "Material"], ["1", "Ø800 x 8 x 900", "2", "A36"],
         Cylinder(800.0, Basis.OUTSIDE, 900.0)),
        (["N", "OD sup", "OD inf", "H", "t", "Qty", "Mat"], ["1", "800", "600", "900", "8", "2", "A36"],
         Cone(800.0, 600.0, Basis.OUTSIDE, 900.0)),
    ],
)  # fmt: skip
def test_columns_that_say_the_side_or_the_ends(
    heads: list[str], cells: list[str], shape: Shape, tmp_path: Path
) -> None:
    order = read_rows(tmp_path, cells, head=heads)
    assert [line.shape for line in order.lines] == [shape]


def test_the_pipe_that_a_sleeve_goes_on_is_no_side_of_the_sleeve(tmp_path: Path) -> None:
    heads = ["Nr", "To suit pipe OD", "L", "Thk", "Qty", "Material"]
    assert not read_rows(tmp_path, ["1", "800", "900", "8", "2", "A36"], head=heads).lines


@pytest.mark.parametrize("head", ["Pairs", "Qty (pairs)"])
def test_pairs_are_two_pieces_each(head: str, tmp_path: Path) -> None:
    heads = ["Nr", "ID", "L", "Thk", head, "Material"]
    (line,) = read_rows(tmp_path, ["1", "800", "900", "8", "3", "A36"], head=heads).lines
    assert line.quantity == 6


@pytest.mark.parametrize(
    ("head", "cells"),
    [
        ("Zone", ("T-101", "T-102")),
        ("Remarks", ("HX12", "HX13A")),
        ("Area m2", ("5.7", "3.8")),
        ("Fläche m²", ("5,7", "3,8")),
        ("kg/pc", ("141", "123.5")),
    ],
)
def test_columns_that_are_no_sizes(head: str, cells: tuple[str, str], tmp_path: Path) -> None:
    """Marks of plant and areas beside a table that has all its sizes."""
    heads = ["Nr", "ID", "L", "Thk", "Qty", "Material", head]
    row = ["1", "800", "900", "8", "3", "A36"]
    order = read_rows(tmp_path, [*row, cells[0]], ["2", "700", *row[2:], cells[1]], head=heads)
    asked = [question.text for question in order.questions if question.blocking]
    assert ([line.quantity for line in order.lines], asked) == ([3, 3], [])


@pytest.mark.parametrize(
    "head", ["Needed", "Units", "No. of shells", "aant. buizen", "Qty (lengths)", "N.º tubos", "Segs"]
)
def test_heads_of_counts(head: str, tmp_path: Path) -> None:
    heads = ["Pos", "ID", "L", "Thk", head, "Material"]
    row = ["1", "800", "900", "8", "3", "A36"]
    order = read_rows(tmp_path, row, ["2", "700", *row[2:]], head=heads)
    assert [line.quantity for line in order.lines] == [3, 3]


@pytest.mark.parametrize("head", ["Thk (incl 3 CA)", "Thk, incl. 3 mm corrosion", "Thk incl. CA", "W.T."])
def test_heads_of_the_wall(head: str, tmp_path: Path) -> None:
    heads = ["Pos", "OD in", "L in", head, "Qty", "Material"]
    row = ["1", "30", "40", "1/2", "3", "A36"]
    (line, _) = read_rows(tmp_path, row, ["2", "36", *row[2:]], head=heads).lines
    assert line.thickness_mm == pytest.approx(12.7)


@pytest.mark.parametrize("note", ["Full circles, butts open", "Cerchi chiusi", "Alles Vollkreise"])
def test_full_circles_of_all_lines(note: str, tmp_path: Path) -> None:
    heads = ["Pos", "Radius inside", "L", "Thk", "Qty", "Material"]
    order = read_rows(tmp_path, ["1", "800", "900", "8", "3", "A36"], [note], head=heads)
    assert [line.shape for line in order.lines] == [Cylinder(1600.0, Basis.INSIDE, 900.0)]


@pytest.mark.parametrize("note", ["6 staves make a full circle", "Not full circles", "welded full circle"])
def test_a_full_circle_of_pieces_is_none_of_all_lines(note: str, tmp_path: Path) -> None:
    heads = ["Pos", "Radius inside", "L", "Thk", "Qty", "Material"]
    assert not read_rows(tmp_path, ["1", "800", "900", "8", "3", "A36"], [note], head=heads).lines


@pytest.mark.parametrize(
    ("large", "small"),
    [("Di groot", "Di klein"), ("GD int", "PD int"), ("Ø int magg.", "Ø int min."), ("Di mayor", "Di menor")],
)
def test_heads_of_large_and_small_ends(large: str, small: str, tmp_path: Path) -> None:
    heads = ["Pos", large, small, "H", "t", "Qty", "Mat"]
    rows = ["1", "1200", "600", "700", "8", "1", "A36"], ["2", "1000", "500", "650", "8", "1", "A36"]
    order = read_rows(tmp_path, *rows, head=heads)
    assert [line.shape for line in order.lines] == [
        Cone(1200.0, 600.0, Basis.INSIDE, 700.0),
        Cone(1000.0, 500.0, Basis.INSIDE, 650.0),
    ]
    swapped = ([row[0], row[2], row[1], *row[3:]] for row in rows)
    assert not read_rows(tmp_path, *swapped, head=heads).lines


@pytest.mark.parametrize("heads", [("ID max", "ID min"), ("Ø int max", "Ø int mini")])
def test_the_largest_and_smallest_diameter_of_no_cone(heads: tuple[str, str], tmp_path: Path) -> None:
    row = ["1", "1203", "1197", "700", "8", "1", "A36"]
    assert not read_rows(tmp_path, row, head=["Pos", *heads, "L", "t", "Qty", "Mat"]).lines


@pytest.mark.parametrize(("arc", "angle"), [("1885", 90.0), ("120deg", 120.0), ("60°", 60.0)])
def test_a_column_of_arcs_is_of_degrees_or_lengths(arc: str, angle: float, tmp_path: Path) -> None:
    heads = ["Pos", "R mean", "Arc", "L", "t", "Qty", "Mat"]
    (line,) = read_rows(tmp_path, ["1", "1200", arc, "700", "8", "1", "A36"], head=heads).lines
    assert isinstance(line.shape, Arc)
    assert line.shape.angle_deg == pytest.approx(angle, abs=0.01)


@pytest.mark.parametrize("word", ["ekscentrisk", "külpontos", "эксцентр.", "asymmetrisch", "skew cone"])
def test_a_cone_that_leans_is_asked_about(word: str, tmp_path: Path) -> None:
    heads = ["Pos", "Large ID", "Small ID", "Height", "Thk", "Qty", "Material", "Remarks"]
    row = ["1", "1200", "600", "700", "8", "1", "A36", word]
    assert not read_rows(tmp_path, row, head=heads).lines


@pytest.mark.parametrize(
    "numbers", [("10", "20", "30"), ("5", "6", "7"), ("101", "102", "103"), ("1", "2", "4")]
)
@pytest.mark.parametrize("head", ["No", "No.", "Nr"])
def test_numbers_of_rows_are_no_quantities(head: str, numbers: tuple[str, ...], tmp_path: Path) -> None:
    heads = [head, "Mark", "ID", "L", "Thk", "Material"]
    rows = [[number, f"S-{number}", f"80{at}", "900", "8", "A36"] for at, number in enumerate(numbers)]
    order = read_rows(tmp_path, *rows, ["one off each"], head=heads)
    assert [line.quantity for line in order.lines] == [1] * len(numbers)


@pytest.mark.parametrize("head", ["Split", "Sections", "Plates", "No. segs"])
def test_figures_of_what_a_part_is_made_of_are_asked_about(head: str, tmp_path: Path) -> None:
    heads = ["Pos", "Qty", "ID", "L", "Thk", head, "Material"]
    rows = ["1", "4", "800", "900", "8", "2", "A36"], ["2", "1", "700", "900", "8", "3", "A36"]
    assert not read_rows(tmp_path, *rows, head=heads).lines


@pytest.mark.parametrize("head", ["R in.", "Rad in"])
def test_the_inside_of_a_radius_in_millimetres(head: str, tmp_path: Path) -> None:
    heads = ["Pos", "Qty", head, "Angle", "L", "Thk", "Material"]
    row = ["1", "4", "612", "90", "900", "8", "A36"]
    for notes in ([["all dims mm"]], []):
        (line,) = read_rows(tmp_path, row, *notes, head=heads).lines
        assert line.shape == Arc(612.0, Basis.INSIDE, 90.0, 900.0)
    inches = read_rows(tmp_path, ["1", "4", "36", "90", "40", "0.5", "A36"], head=heads)
    assert not inches.lines


@pytest.mark.parametrize("other", ["Carrier OD", "To suit pipe OD", "DN"])
def test_the_pipe_beside_the_size_of_its_sleeve(other: str, tmp_path: Path) -> None:
    heads = ["Pos", other, "Sleeve ID", "L", "Thk", "Qty", "Material"]
    rows = ["1", "500", "520", "900", "8", "2", "A36"], ["2", "600", "622", "900", "8", "2", "A36"]
    order = read_rows(tmp_path, *rows, head=heads)
    assert [line.shape for line in order.lines] == [
        Cylinder(size, Basis.INSIDE, 900.0) for size in (520.0, 622.0)
    ]


@pytest.mark.parametrize("head", ["LG", "Lg ft-in"])
def test_feet_and_inches_with_a_dash(head: str, tmp_path: Path) -> None:
    """A range does not fall: 6-0 is six feet, and so is all under its head."""
    heads = ["Pos", "OD in", head, "Wall in", "Qty", "Material"]
    rows = ["1", "24", "6-0", "0.5", "2", "A36"], ["2", "30", "2-3", "0.5", "2", "A36"]
    order = read_rows(tmp_path, *rows, head=heads)
    assert [line.shape for line in order.lines] == [
        Cylinder(609.6, Basis.OUTSIDE, 1828.8), Cylinder(762.0, Basis.OUTSIDE, 685.8),
    ]  # fmt: skip
    ranges = ["1", "24", "2-3", "0.5", "2", "A36"], ["2", "30", "4-5", "0.5", "2", "A36"]
    assert head != "LG" or not read_rows(tmp_path, *ranges, head=heads).lines


def test_sizes_in_the_order_that_a_title_lists(tmp_path: Path) -> None:
    heads = ["Pos", "Dims", "Qty", "Material"]
    order = read_rows(
        tmp_path, heads, ["1", "820x10x2000", "2", "A36"], head=["Pipes from plate, sizes OD x t x L"]
    )
    assert [(line.shape, line.thickness_mm) for line in order.lines] == [
        (Cylinder(820.0, Basis.OUTSIDE, 2000.0), 10.0)
    ]


def test_how_thick_heads_are_beside_shells(tmp_path: Path) -> None:
    heads = ["Tag", "Shell ID", "Head thk", "Shell thk", "T-T", "Qty", "Material"]
    (line,) = read_rows(tmp_path, ["V-1", "1200", "12", "10", "3000", "1", "A36"], head=heads).lines
    assert line.thickness_mm == 10.0
    alone = [one for one in heads if one != "Shell thk"]
    assert not read_rows(tmp_path, ["V-1", "1200", "12", "3000", "1", "A36"], head=alone).lines


def test_a_legend_of_numbered_heads(tmp_path: Path) -> None:
    heads = ["Pos", "Dim 1", "Dim 2", "Dim 3", "Thk", "Qty", "Material"]
    rows = ["1", "1100", "550", "800", "8", "1", "A36"], ["2", "1000", "500", "700", "8", "1", "A36"]
    note = "Dim 1 = large end ID, Dim 2 = small end ID, Dim 3 = height"
    order = read_rows(tmp_path, *rows, [note], head=heads)
    assert [line.shape for line in order.lines] == [
        Cone(1100.0, 550.0, Basis.INSIDE, 800.0), Cone(1000.0, 500.0, Basis.INSIDE, 700.0),
    ]  # fmt: skip
