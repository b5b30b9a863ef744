"""Lines of mails that are whole parts: counts, grades and weights beside sizes, and what holds for all."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from quoting.core import Basis, Cone, Cylinder, Order
from quoting.intake.parts.told import orders_in
from quoting.intake.read_orders import read_orders
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY


def _mail(folder: Path, *lines: str) -> Order:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for line in lines:
        sheet.append([line])
    book.save(folder / "mail.xlsx")
    return read_orders(folder / "mail.xlsx", grading_shop(), today=TODAY)


@pytest.mark.parametrize(
    ("line", "count"),
    [
        ("1) Shell ID 1450 x 3200 long x 12 thk - 02 Nos.", 2),
        ('Sleeve 42" OD x 1" wall x 18" lg (16 ea) 973 lbs ea', 16),
        ("Shell ID 1450 x 3200 long x 12 thk, qty 3, S355J2, 1250 kg/pc", 3),
        ("Mk D1 (2) shell OD 965 x 1500 x 8", 2),
        ('Can A - 60" OD, 48" long, 3/8 plate (4)', 4),
        ("01 / ID 1980 / L 2500 / t 10 / pcs 2", 2),
    ],
)
def test_the_pieces_of_a_line_stand_beside_its_weight_and_its_grade(
    tmp_path: Path, line: str, count: int
) -> None:
    order = _mail(tmp_path, "please quote in S275JR", line)
    assert [one.quantity for one in order.lines] == [count]


@pytest.mark.parametrize(
    ("title", "lines", "thick"),
    [
        ('Duct for the boiler, 1/4" A36, all ID:', ('(2) 38" dia x 60"', '(1) 38" dia x 27 3/4"'), 6.35),
        (
            "Bleche S235JR 2 mm, alle Maße innen",
            ("4 Stk; Rohr D 900; L 1250", "2 Stk; Rohr D 710; L 1250"),
            2.0,
        ),
        ("parede 6,3 em A36, diâmetro interno", ("virola Ø 1200, comprimento 1500, 3 pç",) * 2, 6.3),
        ("chapa SAE 1020 esp. 10, Ø interno, A36", ("virola Ø 1200, comprimento 1500, 3 pç",) * 2, 10.0),
    ],
)
def test_the_one_thickness_of_a_mail_is_that_of_its_parts(
    tmp_path: Path, title: str, lines: tuple[str, ...], thick: float
) -> None:
    order = _mail(tmp_path, title, *lines)
    drafts = [dict(draft.values) for draft in order.drafts]
    assert [float(draft["thickness"]) for draft in drafts] == [pytest.approx(thick)] * len(lines)
    assert all(draft["basis"] == "inside" for draft in drafts)


@pytest.mark.parametrize(
    "title", ["A36 flange, 3/8, all ID", "A36, lining 3/8, all ID", "A36, 3/8 or 1/2, all ID"]
)
def test_a_thickness_of_another_thing_is_not_that_of_the_parts(tmp_path: Path, title: str) -> None:
    assert not _mail(tmp_path, title, '(2) 38" dia x 60"', '(1) 38" dia x 27 3/4"').lines


def test_a_thickness_of_one_row_is_not_that_of_all(tmp_path: Path) -> None:
    order = _mail(
        tmp_path, "S275JR 10 mm, inside dia", "2 off dia 1200 x 1500 x 8", "1 off dia 900, 1500 long"
    )
    assert [dict(draft.values).get("thickness") for draft in order.drafts] == ["8", None]


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("QUOTE ID X LENGTH X THK", (("D", "inside"), ("L", ""), ("T", ""))),
        ("Ø ext x long x ép (mm)", (("D", "outside"), ("L", ""), ("T", ""))),
        ("Maße: s x Da x L", (("T", ""), ("D", "outside"), ("L", ""))),
        ("średnica wewn. x długość x grubość", (("D", "inside"), ("L", ""), ("T", ""))),
        ("shells x cones x rings", None),
        ("width x length x thk", None),
    ],
)
def test_a_sheet_may_list_the_order_of_its_sizes(
    text: str, order: tuple[tuple[str, str], ...] | None
) -> None:
    assert orders_in([text]) == (() if order is None else (order,))


def test_numbers_without_a_mark_stand_in_the_order_that_is_listed(tmp_path: Path) -> None:
    order = _mail(
        tmp_path,
        "S275JR, sizes are OD x thk x length",
        "1) 1200 x 10 x 1500 - 3 off",
        "2) 900 x 8 x 1200 - 2 off",
    )
    shapes = [one.shape for one in order.lines]
    assert [(one.diameter_mm, one.length_mm) for one in shapes if isinstance(one, Cylinder)] == [
        (1200.0, 1500.0),
        (900.0, 1200.0),
    ]
    assert [one.thickness_mm for one in order.lines] == [10.0, 8.0]


def test_a_line_above_those_that_are_known_is_a_part_like_them(tmp_path: Path) -> None:
    order = _mail(
        tmp_path,
        "rolled plates grade S355J2",
        "P1 shell strake R=4250 to inside of plt, arc 38 deg, lg 9600, 14mm, 2 off P+S",
        "P2 bilge plt R=1100 inside, 90 deg, lg 8400, 16mm, 2 off",
        "P3 tunnel 2150 ID x 1780 lg x 22mm, 1 off",
    )
    assert {draft.place.row for draft in order.drafts} == {2, 3, 4}


@pytest.mark.parametrize(
    "lines",
    [
        ("Mark / OD / length / wall / qty", "A1 / 914 / 2440 / 12 / 3", "A2 / 762 / 1220 / 10 / 2"),
        ("Hi, list below as: mark, OD, length, wall, qty", "A1, 914, 2440, 12, 3", "A2, 762, 1220, 10, 2"),
        ("mark / OD / length / wall / qty", "A1 - 914 - 2440 - 12 - 3", "A2 - 762 - 1220 - 10 - 2"),
        ("Pos; Da; L; Wandstärke; Stück", "A1; 914; 2440; 12; 3", "A2; 762; 1220; 10; 2"),
    ],
)
def test_a_line_may_head_those_below_it(tmp_path: Path, lines: tuple[str, ...]) -> None:
    order = _mail(tmp_path, *lines, "S275JR")
    drafts = [dict(draft.values) for draft in order.drafts]
    assert [(one["diameter"], one["length"], one["thickness"], one["quantity"]) for one in drafts] == [
        ("914", "2440", "12", "3"),
        ("762", "1220", "10", "2"),
    ]


@pytest.mark.parametrize(
    "line",
    [
        "2 off CONE 1200 to 600 inside x 800 high x 10",
        "cone ID 1200 -> 600 x 800 h x 10 t, 2 off",
        "2 Stk Konus innen 1200 auf 600, 800 hoch, 10 dick",
        "2 pzas cono 1200 a 600 int x 800 altura x 10",
    ],
)
def test_a_word_or_an_arrow_joins_the_ends_of_a_cone(tmp_path: Path, line: str) -> None:
    (found,) = _mail(tmp_path, "S275JR", line).lines
    assert found.shape == Cone(1200.0, 600.0, Basis.INSIDE, 800.0)
    assert (found.thickness_mm, found.quantity) == (10.0, 2)


def test_two_counts_of_one_line_are_asked_about(tmp_path: Path) -> None:
    assert not _mail(tmp_path, "S275JR", "1 shell 1200 ID x 1500 x 10, qty 2").lines
    assert not _mail(tmp_path, "S275JR", "1 shell 1200 ID x 1500 x 10, 20 pcs").lines


@pytest.mark.parametrize(
    "line",
    [
        "3 off ring O.D. 1220 / I.D. 1200 / 1500 wide",
        "ring OD 1220 x ID 1200 x 1500 long, 3 off",
    ],
)
def test_two_diameters_of_a_ring_tell_its_wall(tmp_path: Path, line: str) -> None:
    (found,) = _mail(tmp_path, "S275JR", line).lines
    assert found.shape == Cylinder(1220.0, Basis.OUTSIDE, 1500.0)
    assert found.thickness_mm == 10.0


@pytest.mark.parametrize("length", ["1m50", "1 m 50"])
def test_metres_may_stand_before_their_centimetres(tmp_path: Path, length: str) -> None:
    (found,) = _mail(tmp_path, "S275JR", f"3 viroles Ø int 1200, longueur {length}, ép 10 mm").lines
    assert found.shape == Cylinder(1200.0, Basis.INSIDE, 1500.0)


def test_a_thousand_with_a_point_is_no_grade(tmp_path: Path) -> None:
    order = _mail(tmp_path, "S235JR", "Mantel Innendurchmesser 1.050 mm, Länge 1.240 mm, s 5 mm, 2 Stk")
    assert dict(order.drafts[0].values)["material"] == "S235JR"


@pytest.mark.parametrize(
    "line", ["3 x 1200 ID x 1500 x 10", "3 x Ø1200 ID x 1500 x 10", "REF. 100234 3 off 1200 ID x 1500 x 10"]
)
def test_a_count_may_stand_before_an_x_and_a_stock_number_before_all(tmp_path: Path, line: str) -> None:
    (found,) = _mail(tmp_path, "S275JR", line).lines
    assert found.shape == Cylinder(1200.0, Basis.INSIDE, 1500.0)
    assert (found.thickness_mm, found.quantity) == (10.0, 3)


def test_a_numbered_line_that_is_not_clear_is_no_title(tmp_path: Path) -> None:
    order = _mail(
        tmp_path,
        "Acier S355J2, cotes intérieures.",
        "1- trémie conique gd diam. 3,20 m pt diam. 0,60 m haut. 2,40 m tôle 10 mm - 2 pces",
        "2- ceinture diam. 3,20 m haut. 0,80 m tôle 12 mm - 2 pces",
        "3- ceinture diam. 3,20 m haut. 0,60 m tôle 12 mm - 2 pces",
    )
    assert {draft.place.row for draft in order.drafts} == {2, 3, 4}


def test_what_stands_below_a_mail_about_errors_calls_no_line_off(tmp_path: Path) -> None:
    line = "3 off 1200 ID x 1500 x 10"
    assert _mail(tmp_path, "S275JR", line, "If you received it in error delete it.").lines
    assert not _mail(tmp_path, "S275JR", line, "The shells were listed in error, delete them.").lines


@pytest.mark.parametrize(
    "line",
    [
        "4 meios tubos Ø int 1200 L=1500 chapa 10",
        "4 medios tubos Ø int 1200 x 1500 x 10",
        "4 demis cylindres Ø int 1200 x 1500 x 10",
        "4 halbe Rohre Di 1200 x 1500 x 10",
        "4 mezzi cilindri Ø int. 1200 x 1500 x 10",
    ],
)
def test_half_tubes_in_the_plural_are_no_full_cylinders(tmp_path: Path, line: str) -> None:
    order = _mail(tmp_path, "Material S275JR", line)
    assert not any(isinstance(one.shape, Cylinder) for one in order.lines)
