"""Cones in columns of one diameter, sizes in two units, and notes that give lines their grade."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Basis, Cone, Cylinder
from quoting.intake.read_orders import read_orders
from tests.benchmarks.intake_reader import grading_shop
from tests.quoting.intake.sheets import write_rows
from tests.quoting.intake.small_shop import TODAY
from tests.quoting.intake.test_whole_sheets import read

METRIC = "Pos|Stk|Bezeichnung|Di mm|t mm|H mm|Werkstoff|Bemerkung"


@pytest.mark.parametrize(
    "row",
    [
        "Konus auf Ø 500|1800|10|900|A36|",
        "Konus konzentrisch auf Ø innen 500, Höhe 900|1800|10|900|A36|",
        "cone|1800|10|900|A36|tapers to 500 ID",
        "cone|1800 tapering to 500|10|900|A36|height is on the axis",
        "Kegel|von 1800 auf 500|10|900|A36|",
        "Kegel|1800 verjüngt auf 500|10|900|A36|",
    ],
)
def test_a_cone_goes_from_the_diameter_of_its_column_to_another(tmp_path: Path, row: str) -> None:
    order = read(tmp_path, f"{METRIC}\n1|1|Mantel|1800|10|2000|A36|\n2|1|{row}")
    shapes = [line.shape for line in order.lines]
    assert shapes == [Cylinder(1800, Basis.INSIDE, 2000), Cone(1800, 500, Basis.INSIDE, 900)]


@pytest.mark.parametrize("remark", ["welds to cone to 500 ID", "below the cone to 500", "taper"])
def test_a_cone_beside_the_part_is_none(tmp_path: Path, remark: str) -> None:
    order = read(tmp_path, f"{METRIC}\n1|1|Mantel|1800|10|2000|A36|{remark}")
    assert not order.lines
    assert order.questions


def test_a_taper_has_two_ends_that_differ(tmp_path: Path) -> None:
    head = "Can|Btm ID|Top ID|Thk mm|Ht mm|Qty|Material|Note"
    order = read(tmp_path, f"{head}\nK1|3200|2800|16|2500|1|A36|TAPER\nK2|2800|2800|16|2500|1|A36|TAPER")
    assert [line.shape for line in order.lines] == [Cone(3200, 2800, Basis.INSIDE, 2500)]
    assert any("TAPER" in question.text for question in order.questions)


@pytest.mark.parametrize(
    ("head", "pair"), [("DN", "1000/800"), ("OD mm", "DN1000/800"), ("OD mm", "DN1000/DN800")]
)
def test_both_ends_of_a_reducer_are_nominal_sizes(tmp_path: Path, head: str, pair: str) -> None:
    order = read(
        tmp_path,
        f"Pos|Item|{head}|Wall mm|Height mm|Qty|Material\n1|Cone, concentric|{pair}|10|700|2|A36",
    )
    assert [line.shape for line in order.lines] == [Cone(1016, 812.8, Basis.OUTSIDE, 700)]


def test_one_size_in_two_units_is_one(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        'Line|Qty|Dia|Thk|Lg|Grade\n1|2|108" ID [2743]|1/4" [6.4]|27-1/2" [699]|A36\n'
        '2|2|108" ID [2743]|1/4" [6]|60" [1524]|A36',
    )
    (line,) = order.lines
    assert (line.thickness_mm, line.shape) == (6.35, Cylinder(2743.2, Basis.INSIDE, 698.5))
    assert any('1/4" [6]' in question.text for question in order.questions)


def test_the_order_of_sizes_stands_in_one_sentence_of_a_title(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        "Temporary casings, bridge. Sizes OD x wall x length. A36. cans rolled\nRef|Type|Size|No.\n"
        'C1|can|1180 x 20mm x 3.0m|8\nC2|can|1524 (60") x 16mm x 2.5m|4',
    )
    assert [line.shape for line in order.lines] == [
        Cylinder(1180, Basis.OUTSIDE, 3000),
        Cylinder(1524, Basis.OUTSIDE, 2500),
    ]


def test_a_row_names_its_own_diameter_under_a_head_of_places(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        "KILN SHELL INSIDE DIA 3800 MM, MATERIAL A36\nSec.|Location|Thk mm|Length mm|Nos\n"
        "1|inlet|20|2200|3\n2|seal ring ID 4250|10|750|1",
    )
    assert [line.shape.diameter_mm for line in order.lines if isinstance(line.shape, Cylinder)] == [
        3800,
        4250,
    ]


@pytest.mark.parametrize(
    "note",
    [
        "Materials: items 1 to 2 in 304L, item 3 onwards A36",
        "304L for items 1 and 2, A36 for the others",
        "items 1-2 304L, rest A36",
    ],
)
def test_a_note_gives_groups_of_lines_their_grade(tmp_path: Path, note: str) -> None:
    order = read(
        tmp_path,
        "Item|Qty|ID mm|Thk mm|Length mm\n1|2|900|6|1500\n2|2|800|6|1500\n3|1|700|6|1500\n4|1|600|6|1500\n\n"
        f"{note}",
    )
    assert [line.material[:3] for line in order.lines] == ["304", "304", "A36", "A36"]


def test_numbered_lines_of_a_mail_take_the_grade_of_their_group(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        "Materials: items 1 to 2 in 304L and item 3 onwards A36\n"
        "1. Shell, i/d 3200, 4 thick, 1500 deep - 6 off\n"
        "2. Top course, i/d 3200, 4 thick, 1120 deep - 3 off\n3. Skirt, i/d 3000, 10 thick, 500 deep - 3 off",
    )
    assert [line.material[:3] for line in order.lines] == ["304", "304", "A36"]


def test_the_lot_of_a_title_is_that_of_the_sheet(tmp_path: Path) -> None:
    order = read(
        tmp_path, f"ROLLED FERRULES - SURFACE PENSTOCK, LOT 3\n{METRIC}\n1|1|Mantel|1800|10|2000|A36|"
    )
    assert len(order.lines) == 1


def test_a_standard_named_is_is_no_verb(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        "MATERIAL IS 2062 E250 BR UNLESS NOTED\nItem|Qty|ID mm|Thk mm|Length mm\n1|2|900|6|1500",
    )
    assert not any('"2062' in question.text for question in order.questions)


@pytest.mark.parametrize(
    "part", ["pipe 60.3 x 2.9 bent to R 800", "Rohr 60,3 x 2,9 zum Bogen R 800 gebogen, 90°"]
)
def test_a_pipe_that_is_bent_is_no_plate_work(tmp_path: Path, part: str) -> None:
    order = read(
        tmp_path, f"Pos|Benennung|Stk|Werkstoff\n1|{part}|3|A36\n2|Mantel 900 innen x 6 x 1500|2|A36"
    )
    assert any("plate work" in question.text for question in order.questions)


def test_a_cover_says_the_side_and_the_grade_of_its_list(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        "Design|API 650, all diameters on the parts list are INSIDE\nMaterial unless noted|A36\n\n"
        "Mk|Per tank|Total (3 tanks)|Dia in|Thk in|Height in\nS1|8|24|48|1/4|60\nS2|2|6|36|1/4|60\n"
        "S3|2|9|30|1/4|60",
    )
    assert [(line.quantity, line.material, line.shape.basis) for line in order.lines] == [
        (24, "A36", Basis.INSIDE),
        (6, "A36", Basis.INSIDE),
    ]
    assert any("2 per unit, 9 in all, and 3 units" in question.text for question in order.questions)


@pytest.mark.parametrize(
    "title",
    ["Everything is 304, 2B.", "quotation request, inside dia are all 900 mm, 304L", "All parts 304"],
)
def test_a_grade_of_all_stands_beside_its_finish(tmp_path: Path, title: str) -> None:
    rows = [[title], ["Item", "Qty", "ID mm", "Thk mm", "Length mm"], ["1", "2", "900", "6", "1500"]]
    order = read_orders(write_rows(tmp_path, *rows), grading_shop(), today=TODAY)
    assert [line.material for line in order.lines] == ["304/304L"]


def test_a_size_of_all_is_no_part_of_the_words_before_it(tmp_path: Path) -> None:
    title = "Shells, quotation request , inside dia are all 1800mm, material A36"
    order = read(tmp_path, f"{title}\nNo|Shell|Wall mm|Length mm|Qty\n1|G1|10|2400|6\n2|G2|10|1280|1")
    assert [line.shape for line in order.lines] == [
        Cylinder(1800, Basis.INSIDE, 2400),
        Cylinder(1800, Basis.INSIDE, 1280),
    ]


def test_the_length_of_a_cone_is_said_along_its_axis(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        "viroles en A36, cotes en mm\n- 2 viroles coniques concentriques Ø int. 1700 / Ø int. 1500, ép. 10,"
        " longueur suivant axe 1200\n- 4 viroles Ø int. 1500, ép. 10, longueur 2500",
    )
    assert Cone(1700, 1500, Basis.INSIDE, 1200) in [line.shape for line in order.lines]


def test_a_shape_nobody_knows_is_a_name_beside_radius_and_degrees(tmp_path: Path) -> None:
    head = "Mk|Shape|Thk mm|Radius mm inside|Angle|Long mm|Qty|Plate"
    order = read(tmp_path, f"{head}\nR3|spoon|12|1400|65|2400|2|A36\nR5|lip|12|500||1200|6|A36")
    assert [line.part_no for line in order.lines] == ["R3"]
    assert any("how many degrees of arc" in question.text for question in order.questions)


def test_pieces_of_a_ring_are_its_degrees(tmp_path: Path) -> None:
    head = "Mk|Part|Thk mm|ID mm|Angle|Long mm|Qty|Plate|Remarks"
    order = read(tmp_path, f"{head}\nR3|segment|10|6200|60|2000|12|A36|6 pcs / ring")
    assert [line.quantity for line in order.lines] == [12]


def test_a_head_of_diameters_and_large_ends_holds_cylinders_too(tmp_path: Path) -> None:
    head = "Mk|Part|Inside dia / large ID mm|Small ID mm|Thk mm|Height mm|Qty|Material"
    order = read(
        tmp_path, f"{head}\n1|body|1200||6|1000|4|A36\n2|cone|1200|250|6|900|4|A36\n3|cone|1200||6|900|4|A36"
    )
    assert [line.shape for line in order.lines] == [
        Cylinder(1200, Basis.INSIDE, 1000),
        Cone(1200, 250, Basis.INSIDE, 900),
    ]


@pytest.mark.parametrize(
    "remark", ["disegno 904-3 rev. 1, consegna sett. 4", "drawing 8812 rev B, flanges by us", "added 12.11."]
)
def test_numbers_of_papers_beside_other_remarks_are_no_sizes(tmp_path: Path, remark: str) -> None:
    order = read(tmp_path, f"{METRIC}\n1|1|Mantel|1800|10|2000|A36|{remark}")
    assert len(order.lines) == 1


def test_two_sizes_of_a_cell_are_choices(tmp_path: Path) -> None:
    order = read(tmp_path, f"{METRIC}\n1|1|Mantel|1900 (drawing says 1950)|10|2000|A36|")
    (asked,) = [question for question in order.questions if "several sizes" in question.text]
    assert [choice.label for choice in asked.choices] == ["1900", "1950"]


@pytest.mark.parametrize("part", ["Dichtung", "Gewebekompensator", "filter bags"])
def test_parts_that_are_bought_are_not_rolled(tmp_path: Path, part: str) -> None:
    order = read(
        tmp_path,
        f"Pos|Stk|Benennung|Di mm|t mm|H mm|Werkstoff\n1|1|Mantel|1800|10|2000|A36\n2|1|{part}|600|||",
    )
    assert len(order.lines) == 1
    assert any(row.reason and "bought" in row.reason for row in order.rows)


def test_what_was_delivered_leaves_open_what_is_wanted(tmp_path: Path) -> None:
    head = "Item|Ordered|Delivered|Outstanding|ID mm|Thk mm|Length mm|Material"
    order = read(tmp_path, f"{head}\n1|6|2|4|1200|8|1500|A36\n2|5|0|5|1400|8|1500|A36")
    assert not order.lines
    assert any("Two quantities are given, 6 and 2" in question.text for question in order.questions)


def test_nothing_delivered_yet_leaves_the_quantity(tmp_path: Path) -> None:
    head = "Item|Qty|Delivered|ID mm|Thk mm|Length mm|Material"
    order = read(tmp_path, f"{head}\n1|6|0|1200|10|1500|A36\n2|5|0|1400|10|1500|A36")
    assert [line.quantity for line in order.lines] == [6, 5]


def test_both_ends_of_a_cone_and_its_height_in_one_cell(tmp_path: Path) -> None:
    order = read(tmp_path, "Item|Qty|Size|Thk mm|Material\n1|2|1200/600 ID x 700 high|10|A36")
    assert [line.shape for line in order.lines] == [Cone(1200, 600, Basis.INSIDE, 700)]


@pytest.mark.parametrize(("text", "mm"), [("30/10e", [3.0]), ("30/10 mm", [3.0]), ("8/10", [])])
def test_sheet_in_tenths_of_a_millimetre_says_so(tmp_path: Path, text: str, mm: list[float]) -> None:
    rows = [
        ["Rep", "Qté", "Ø int mm", "ép.", "Long. mm", "Matière"],
        ["1", "2", "1200", text, "1500", "304L"],
    ]
    order = read_orders(write_rows(tmp_path, *rows), grading_shop(), today=TODAY)
    assert [line.thickness_mm for line in order.lines] == mm


@pytest.mark.parametrize(
    "remark", ["bore machined to H8 by you", "bored to 1780 H7", "turned to size by the roller"]
)
def test_machining_by_the_roller_is_asked(tmp_path: Path, remark: str) -> None:
    order = read(tmp_path, f"{METRIC}\n1|1|Mantel|1800|10|2000|A36|{remark}")
    assert not order.lines
    assert any("machining is not in the price" in question.text for question in order.questions)


def test_a_number_under_a_head_nobody_knows_is_said(tmp_path: Path) -> None:
    order = read(tmp_path, "Item|Qty|ID mm|Thk mm|Length mm|Material|Zeta\n1|2|1200|10|1500|A36|12")
    (line,) = order.lines
    assert '"Zeta: 12" was not understood, nothing is priced for it' in line.assumptions
