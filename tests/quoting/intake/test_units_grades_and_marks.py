"""Notes above a table that give units, grades and marks to some of its rows or columns, and columns that say
who brings the plate.
"""

from __future__ import annotations

from pathlib import Path

import pytest
import xlsxwriter

from quoting.core import Basis, Cylinder, Order
from quoting.intake.layout import heading_meaning
from quoting.intake.layout.for_all import units_of_sizes
from quoting.intake.layout.statements import Statements
from quoting.intake.read_orders import read_orders
from quoting.shop import Materials
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY

IN = 25.4


def read(folder: Path, *rows: tuple[object, ...]) -> Order:
    file = folder / "order.xlsx"
    with xlsxwriter.Workbook(file) as book:
        sheet = book.add_worksheet("Parts")
        for at, row in enumerate(rows):
            sheet.write_row(at, 0, row)
    return read_orders(file, grading_shop(), today=TODAY)


def blocking(order: Order) -> list[str]:
    return [one.id for one in order.questions if one.blocking]


def test_a_note_gives_units_to_some_sizes(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        ("Infeed tubes. Thickness in inches, everything else in millimetres.",),
        ("Item", "Pcs", "Thickness", "Inside dia", "Length", "Grade"),
        (1, 3, "3/8", 610, 1830, "44W"),
    )
    (line,) = order.lines
    assert line.shape == Cylinder(610, Basis.INSIDE, 1830)
    assert line.thickness_mm == pytest.approx(3 / 8 * IN)


@pytest.mark.parametrize(
    ("text", "units"),
    [
        ("diameters in mm, lengths in inches", {"diameter": "mm", "length": "in"}),
        ("All dimensions in mm", {}),
        ("Thickness in mm, length in mm", {}),
        ("Wall thickness in inches; thickness in mm", {}),
    ],
)
def test_units_of_sizes_by_their_names(text: str, units: dict[str, str]) -> None:
    assert units_of_sizes(text) == units


def test_a_line_left_out_of_the_grade_for_all_needs_its_own(tmp_path: Path) -> None:
    head = ("Poste", "Nbre", "Ø intérieur", "Épaisseur", "Hauteur", "Remarque")
    note = ("Cuverie. Nuance 1.4301 sauf poste 3 (voir nota).",)
    first = (1, 4, 1590, "2 mm", 1250, "passivation par nous")
    told = read(tmp_path, note, head, first, (3, 1, 1200, "3 mm", 1000, "nota : ce poste en 1.4404"))
    assert [line.material for line in told.lines] == ["1.4301", "1.4404"]
    untold = read(tmp_path, note, head, first, (3, 1, 1200, "3 mm", 1000, ""))
    assert [line.number for line in untold.lines] == ["1"]
    assert blocking(untold) == ["3/material"]


def test_rows_with_the_sign_of_a_note_have_its_grade(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        ("Proszę o cenę. Blacha S355J2. Dwie pozycje ze znakiem * są z nierdzewki 1.4404.",),
        ("Lp", "Ilość", "Średnica zewn.", "Grubość", "Długość", "Uwagi"),
        (1, 3, 1016, 8, 2000, ""),
        (2, 1, 900, 4, 1500, "*"),
    )
    assert not any(line.number == "2" and line.material == "S355J2" for line in order.lines)


def test_a_zinc_coating_and_a_bore_say_metal_and_side(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        ("Enquiry: we close the seam. Z275 galvanised throughout. Sizes mm, bore.",),
        ("Ref", "No. off", "Dia", "Sheet (mm)", "Length", "Notes"),
        ("EX4", 2, 800, 1.5, 1250, "forklift on site until 3pm"),
    )
    (line,) = order.lines
    assert (line.material, line.shape) == ("galvanized", Cylinder(800, Basis.INSIDE, 1250))
    assert heading_meaning("Bore dia").basis is Basis.INSIDE


def test_who_brings_the_plate_is_no_thickness(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        ("#", "Part", "Mat", "t mm", "ID mm", "long mm", "qty", "who supplies plate"),
        (1, "drum", "S355J2", 16, 2200, 1950, 1, "you"),
        (2, "tube", "316L", 6, 760, 1200, 4, "we send it"),
        (3, "stub", "316L", 6, 700, 1200, 4, "to be agreed"),
    )
    assert [(line.number, line.free_issue) for line in order.lines] == [("1", False), ("2", True)]
    assert {one.line for one in order.questions if one.blocking} == {"3"}


def test_a_mail_that_asks_for_the_following_in_a_grade() -> None:
    said = Statements()
    book = Materials(grading_shop().materials, ())
    said.hear(["Could you give me a number for the following in A36?"], book)
    assert said.grade == "A36"


def test_bare_numbers_beside_sizes_in_inches_that_can_only_be_millimetres(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        ("Sl", "Equipment", "Dimension", "Material", "Nos"),
        (1, "Receiver shell", "ID 1000 x 10 THK x 1500 L", "SA516 GR 70", 2),
        (2, "Blind flange 24 in 150#", "", "SA105", 2),
    )
    assert [line.shape for line in order.lines] == [Cylinder(1000, Basis.INSIDE, 1500)]


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("GD-A: 12 ea, .125 thk x 20 wide, rolled 180 deg to 9 inside radius (inches), A36", 12),
        ("Tank shell i.d. 1.5 m, 2 m high, 10 mm plate S235JR, two required", 2),
        ("casing OD 1400 wt 30 length 2500 S355J2, 1 nr", 1),
        ("2 Zyl. 560 i.D. x 4 x 2000, 1.4301 geb.", 2),
        ("16 tank plates, 8 x 2000, inside radius 6 m, 30 degrees each, S355J2", 16),
    ],
)
def test_counts_before_and_behind_a_part_told_in_one_text(tmp_path: Path, text: str, count: int) -> None:
    order = read(tmp_path, ("Item", "Description"), (1, text))
    assert [line.quantity for line in order.lines] == [count]


def test_a_radius_in_brackets_must_be_half_the_diameter(tmp_path: Path) -> None:
    order = read(tmp_path, ("Item", "Description"), (1, "1 shell ID 800 (R 420 inside) x 8 x 1000 S235JR"))
    assert not order.lines
    assert "1/diameter" in blocking(order)


def of_two_tabs(folder: Path, note: str) -> Order:
    file = folder / "order.xlsx"
    head, row = ("Mark", "Pcs", "OD", "Thk", "Long"), ("S1", 2, '48"', '.500"', '96"')
    with xlsxwriter.Workbook(file) as book:
        for name, rows in (
            ("Notes", [("Notes to bidders",), (note,)]),
            ("South", [head, row]),
            ("North", [head, row]),
        ):
            sheet = book.add_worksheet(name)
            for at, cells in enumerate(rows):
                sheet.write_row(at, 0, cells)
    return read_orders(file, grading_shop(), today=TODAY)


def test_a_cover_gives_each_tab_its_grade(tmp_path: Path) -> None:
    order = of_two_tabs(tmp_path, "b) Tab South: all plate A516-70. Tab North: all plate 304L")
    assert [line.material for line in order.lines] == ["A516-70", "304/304L"]


def test_a_tab_that_waits_keeps_its_lines_waiting(tmp_path: Path) -> None:
    order = of_two_tabs(tmp_path, "All plate A36. Tab North: on hold")
    assert blocking(order)
