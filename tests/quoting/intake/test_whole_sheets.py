"""Kinds of whole sheets of ordinary senders: what is plain in them is read, what is not stays a question."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, Order
from quoting.intake.layout.for_all import facts_in, sides_of_lines
from quoting.intake.read_orders import read_orders
from quoting.intake.words import said_in_text
from tests.quoting.intake.sheets import write_rows
from tests.quoting.intake.small_shop import TODAY, small_shop


def read(folder: Path, sheet: str) -> Order:
    """Read a sheet written as text, its cells parted by strokes."""
    return read_orders(
        write_rows(folder, *(row.strip().split("|") for row in sheet.strip().splitlines())),
        small_shop(),
        today=TODAY,
    )


INCHES = "Item|Qty|Dia (in)|Thk (in)|Length (in)|Material"


@pytest.mark.parametrize(
    "note",
    [
        "Dia. on lines 1 and 2 is INSIDE, line 3 OUTSIDE.",
        "NOTE: diameters of items 1, 2 are ID, all others OD",
        "Items 1-2: inside diameter; item 3: outside diameter",
        "Pos. 3 Durchmesser außen, Pos. 1-2 innen",
        "1-2 no'lu kalemlerde çap İÇ ÇAP, 3 no'lu kalemde DIŞ ÇAPTIR.",
    ],
)
def test_sides_of_lines_by_their_numbers(tmp_path: Path, note: str) -> None:
    order = read(tmp_path, f"{INCHES}\n1|2|48|1/4|60|A36\n2|2|36|1/4|60|A36\n3|1|24|1/4|60|A36\n\n{note}")
    assert [line.shape.basis for line in order.lines] == [Basis.INSIDE, Basis.INSIDE, Basis.OUTSIDE]


@pytest.mark.parametrize(
    "note",
    ["Item 3: OD 50, ID 48", "item 2 inside of item 3", "items 1 and 2 painted inside", "Pos 1 ID 500"],
)
def test_what_names_lines_and_sides_and_more_gives_no_side(note: str) -> None:
    assert sides_of_lines(note) == ()


def test_a_side_of_some_lines_is_no_side_of_all() -> None:
    assert facts_in("Items 2-3: outside diameter").basis is None
    assert facts_in("Items 2-3: outside diameter, primed").basis is None
    assert facts_in("Outside diameter, primed").basis is Basis.OUTSIDE


def test_a_figure_in_a_head_that_is_understood_makes_no_row_of_parts(tmp_path: Path) -> None:
    order = read(
        tmp_path, "Lp.|Nazwa|Dz|g|L|Gatunek|Szt.|Masa 1 szt.|Uwagi\n1|płaszcz|1420|10|2000|A36|3|695|"
    )
    (line,) = order.lines
    assert line.thickness_mm == 10
    assert line.shape == Cylinder(1420, Basis.OUTSIDE, 2000)


@pytest.mark.parametrize("same", ["dtto", ",,", "-//-", "wie vor", "jw.", "come sopra", "aynı", "同上"])
def test_marks_for_the_cell_above(tmp_path: Path, same: str) -> None:
    order = read(tmp_path, f"{INCHES.replace('Dia', 'ID')}\n1|2|48|1/4|60|A36\n2|1|{same}|{same}|30|{same}")
    assert [line.shape for line in order.lines] == [
        Cylinder(1219.2, Basis.INSIDE, 1524), Cylinder(1219.2, Basis.INSIDE, 762)
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("head", "cell", "degrees"),
    [
        ("Angle", "180 (half)", 180), ("Angle", "90° each", 90), ("Arc", "1/4 circle", 90),
        ("Part of circle", "1/2", 180), ("Angle", "120 Grad", 120), ("Angle", "90 (half)", 0),
        ("Angle", "4 x 90", 0), ("Angle", "1/2", 0), ("Angle", "approx 90", 0),
    ],
)  # fmt: skip
def test_shares_of_a_circle(tmp_path: Path, head: str, cell: str, degrees: int) -> None:
    order = read(
        tmp_path, f"Item|Qty|Inside radius (in)|{head}|Thk (in)|Width (in)|Material\n1|2|30|{cell}|1/2|40|A36"
    )
    assert [line.shape for line in order.lines] == (
        [Arc(762, Basis.INSIDE, degrees, 1016)] if degrees else []
    )


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("Owner furnishes no material", False), ("no plate supplied by customer", False),
        ("owner furnishes material", True), ("no delay, plate supplied by customer", True),
    ],
)  # fmt: skip
def test_plate_that_is_not_supplied(text: str, asked: bool) -> None:
    assert any(said.name == "free_issue" for said in said_in_text(text)[0]) is asked


@pytest.mark.parametrize(
    ("name", "asked"),
    [("cone transition", False), ("concentric transition", False), ("transition", True)],
)
def test_a_transition_that_is_a_cone(tmp_path: Path, name: str, asked: bool) -> None:
    order = read(
        tmp_path,
        "Item|Description|Qty|Large ID (in)|Small ID (in)|Thk (in)|Height (in)|Material"
        f"\n1|{name}|1|48|24|1/4|30|A36",
    )
    assert [line.shape for line in order.lines] == ([] if asked else [Cone(1219.2, 609.6, Basis.INSIDE, 762)])


@pytest.mark.parametrize(
    ("name", "priced"), [("sleeve over pipe", True), ("sleeve over pipe, loose fit", False)]
)
def test_what_goes_over_a_pipe_is_made_to_the_inside_size_given(
    tmp_path: Path, name: str, priced: bool
) -> None:
    sheet = f"Item|Description|Qty|%s (in)|Thk (in)|Length (in)|Material\n1|{name}|1|24|1/4|30|A36"
    assert bool(read(tmp_path, sheet % "ID").lines) is priced
    assert not read(tmp_path, sheet % "OD").lines


def test_halves_are_counted_by_their_own_head(tmp_path: Path) -> None:
    form = "Description|Half shell, 180 deg\nInside radius|30 in\nThickness|1/2 in\nWidth|40 in\nMaterial|A36"
    (line,) = read(tmp_path, f"{form}\nNo. of halves|4").lines
    assert (line.quantity, line.shape) == (4, Arc(762, Basis.INSIDE, 180, 1016))
    assert not read(tmp_path, f"{form}\nQty|2\nNo. of halves|4").lines


@pytest.mark.parametrize(
    ("note", "ids"),
    [("Schedule B end sizes are I.D.", ["B1"]), ("Schedule A: all dia inside", ["A1"])],
)
def test_the_side_of_one_table_is_told_by_its_title(tmp_path: Path, note: str, ids: list[str]) -> None:
    """One said of a single table is none of the others."""
    order = read(
        tmp_path,
        "SCHEDULE A\nItem|Qty|Dia (in)|Plate (in)|Length (in)|Grade\nA1|6|84|1/4|60|A36\n\nSCHEDULE B\n"
        f"Item|Qty|Large end (in)|Small end (in)|Plate (in)|Height (in)|Grade\n"
        f"B1|1|84|60|1/4|72|A36\n\n{note}",
    )
    assert [(line.id, line.shape.basis) for line in order.lines] == [(one, Basis.INSIDE) for one in ids]


def test_rows_of_unknown_labels_stay_with_parts_along_columns(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        "Spool cans - tailings line 2\nSpool|TS-01|TS-02\nQty|4|2\nOD (in)|36|30\nWall (in)|1/4|3/8\n"
        "Lining|rubber by others|\nLength (in)|60|72\nGrade|A36|A36\nRelease|on hold|",
    )
    assert [(line.part_no, line.quantity) for line in order.lines] == [("TS-02", 2)]
    assert [one.line for one in order.questions if "on hold" in one.text] == ["TS-01"]


def test_marks_under_the_name_of_the_part_number_it(tmp_path: Path) -> None:
    head = "Shell|Bottom OD (in)|Top OD (in)|Height (in)|Thk (in)|Grade|Qty"
    order = read(tmp_path, f"{head}\n2.1|60|60|40|1/2|A36|1\n2.2|60|54|40|1/2|A36|1")
    assert [line.id for line in order.lines] == ["2.1", "2.2"]


@pytest.mark.parametrize(
    ("size", "shape"),
    [
        ("OD 1620/1220 x 8", Cone(1620, 1220, Basis.OUTSIDE, 900)),
        ("1620/1220 ID x 8", Cone(1620, 1220, Basis.INSIDE, 900)),
        ("OD 1620/1604 x 8", None),
    ],
)
def test_both_ends_of_a_cone_before_its_plate(tmp_path: Path, size: str, shape: Cone | None) -> None:
    order = read(tmp_path, f"Item|Description|Size (mm)|Length (mm)|Qty|Grade\n1|cone|{size}|900|2|A36")
    assert [line.shape for line in order.lines] == ([shape] if shape else [])


@pytest.mark.parametrize(
    ("cell", "asked"),
    [
        ("60 (rolled)", ""), ("60 ecc. flat invert", "eccentric"), ("60 on hold", "on hold"),
        ("60 min", "min"), ("60 blah", "blah"), ("60 by tape", "tape"),
    ],
)  # fmt: skip
def test_words_behind_a_size(tmp_path: Path, cell: str, asked: str) -> None:
    order = read(tmp_path, f"Item|Qty|ID (in)|Thk (in)|Length (in)|Material\n1|2|48|1/4|{cell}|A36")
    assert bool(order.lines) is not bool(asked)
    assert any(asked in one.text for one in order.questions)


@pytest.mark.parametrize(
    "line", ["2 nozzles 304L ID 24 x 1/4 thk x 30 long", "2 manways 24 ID x 1/4 thk x 30 long"]
)
def test_nozzles_with_all_sizes_of_a_part_are_the_part(tmp_path: Path, line: str) -> None:
    order = read(tmp_path, f"All A36 unless noted, inches\n3 shells ID 48 x 1/4 thk x 60 long\n{line}")
    assert [one.quantity for one in order.lines if one.material == "A36"][:1] == [3]
    assert len(order.drafts) == 2
    assert not any("not in the price" in text for one in order.lines for text in one.assumptions)


@pytest.mark.parametrize(
    ("name", "weight"),
    [
        ("Ringflansch", "95"), ("forged ring", "95"), ("geschmiedeter Ring", "95"), ("casting", "95"),
        ("ring", "forged"), ("ring", "Ringflansch geschmiedet"),
    ],
)  # fmt: skip
def test_what_is_forged_or_cast_is_not_rolled(tmp_path: Path, name: str, weight: str) -> None:
    head = "Pos|Benennung|Innendurchmesser (mm)|Breite (mm)|Dicke (mm)|Werkstoff|Menge|Gewicht"
    assert not read(tmp_path, f"{head}\n1|{name}|1500|150|6|A36|1|{weight}").lines


def test_both_sides_of_a_square_are_no_ends_of_a_cone(tmp_path: Path) -> None:
    order = read(tmp_path, "Item|Qty|ID (mm)|Thk (mm)|Length|Material\n1|2|600 x 600|6||A36")
    assert any("a flat plate" in one.text for one in order.questions)


@pytest.mark.parametrize(
    "line",
    [
        "1 st kon invändigt 1200 ner till 400, höjd 650, tjocklek 6, A36",
        "1 szt. stożek wewn. 1200 zwężony do 400, wysokość 650, grubość 6, A36",
        "1 adet koni iç çap 1200'den 400'e, yükseklik 650, kalınlık 6, A36",
    ],
)
def test_a_cone_from_one_diameter_down_to_the_other(tmp_path: Path, line: str) -> None:
    other = {"s": "2 st mantel invändig diameter 1200, tjocklek 6, höjd 900, A36",
             "z": "2 szt. płaszcz wewn. 1200, grubość 6, wysokość 900, A36",
             "a": "2 adet gövde iç çap 1200, kalınlık 6, yükseklik 900, A36"}[line[2]]  # fmt: skip
    order = read(tmp_path, f"mm\n{line.replace(',', ';')}\n{other.replace(',', ';')}")
    assert Cone(1200, 400, Basis.INSIDE, 650) in [one.shape for one in order.lines]


@pytest.mark.parametrize("work", ["painted", "hot rolled", "galvanized", "shop primed", "polished", "tested"])
def test_work_named_before_the_part_does_not_hide_it(tmp_path: Path, work: str) -> None:
    order = read(
        tmp_path, f"All A36\n3 shells 48 ID x 1/4 thk x 60 long\n2 {work} shells 48 ID x 1/4 thk x 30 long"
    )
    assert [line.quantity for line in order.lines] == [3, 2]


def test_neither_does_the_number_of_its_line(tmp_path: Path) -> None:
    order = read(
        tmp_path,
        "3 shells 48 ID x 1/4 thk x 60 long A36\nitem 2 painted can 48 ID 1/4 wall 30 long qty 2 A36",
    )
    assert len(order.drafts) == 2


def test_a_mill_finish_before_the_part_does_not_hide_it(tmp_path: Path) -> None:
    order = read(
        tmp_path, "3 shells 48 ID x 1/4 thk x 60 long A36\n2 2B shells 48 ID x 1/4 thk x 30 long 304"
    )
    assert len(order.drafts) == 2
