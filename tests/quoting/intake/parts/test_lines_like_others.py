"""Lines of mails that need the lines around them: counts of each, the side of all, another line."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from quoting.core import Basis, Cone, Cylinder
from quoting.intake.read_orders import read_orders
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY
from tests.quoting.intake.parts.test_lines_of_mails import _mail

_RING = Cylinder(1200.0, Basis.INSIDE, 1500.0)


@pytest.mark.parametrize(
    "line",
    [
        "1200 x 1500 x 10, 2 off",
        "1200 x 10 x 1500, 2 off",
        "1200 dia x 1500 lg x 10, 2 off",
        "1200 x 1500 lg x 10, 2 off",
        "shell 1200 x 1500 x 10 2x",
    ],
)
def test_the_side_of_all_diameters_tells_which_number_is_one(tmp_path: Path, line: str) -> None:
    (found,) = _mail(tmp_path, "S275JR, all dims I.D. unless noted, mm", line).lines
    assert (found.shape, found.thickness_mm, found.quantity) == (_RING, 10.0, 2)


@pytest.mark.parametrize(
    "line", ["plate 1200 x 1500 x 10, 2 off", "1200 x 1500 x 200, 2 off", "1200 x 1500, 2 off"]
)
def test_numbers_that_may_be_flat_or_are_too_few_are_asked_about(tmp_path: Path, line: str) -> None:
    assert not _mail(tmp_path, "S275JR, all dims I.D. unless noted, mm", line).lines


@pytest.mark.parametrize(
    "like",
    [
        "2) 1 off as item 1 but 800 long",
        "2) 1 off as 1 but 800 long",
        "2) 1 off same but 800 long",
        "2) 1 Stk wie Pos. 1, jedoch 800 lang",
        "2) 1 st idem maar 800 lg",
        "2) 1 pza igual pero largo 800",
        "2) 1 pz come sopra ma lunghezza 800",
    ],
)
def test_a_line_may_be_as_another_one_but_for_what_it_says(tmp_path: Path, like: str) -> None:
    first, second = _mail(tmp_path, "S275JR", "1) 2 off shell ID 1200 x 1500 long x 10 thk", like).lines
    assert (first.quantity, second.quantity) == (2, 1)
    assert second.shape == Cylinder(1200.0, Basis.INSIDE, 800.0)


def test_a_number_that_says_not_what_it_is_is_asked_about(tmp_path: Path) -> None:
    lines = _mail(
        tmp_path, "S275JR", "1) 2 off shell ID 1200 x 1500 x 10", "2) 1 off as item 1 but 800"
    ).lines
    assert [one.quantity for one in lines] == [2]


@pytest.mark.parametrize("lead", ["n.{}", "{}/", "{}"])
def test_numbers_before_all_parts_that_do_not_count_on_are_their_pieces(tmp_path: Path, lead: str) -> None:
    parts = [f"{lead.format(count)} virolle ID 1200 x 1500 long x 10 thk" for count in (4, 1, 2)]
    assert [one.quantity for one in _mail(tmp_path, "S275JR", *parts).lines] == [4, 1, 2]


@pytest.mark.parametrize(
    ("lead", "numbers"), [("n.{}", (1, 2, 3)), ("{}/", (1, 2, 4)), ("n.{}", (1, 2, 1, 2))]
)
def test_numbers_that_count_on_are_those_of_lines(
    tmp_path: Path, lead: str, numbers: tuple[int, ...]
) -> None:
    parts = [f"{lead.format(count)} virolle ID 1200 x 1500 long x 10 thk" for count in numbers]
    assert not _mail(tmp_path, "S275JR", *parts).lines


@pytest.mark.parametrize("label", ["01.-", "1./", "1.-)", "1º)", "Item 1."])
def test_a_number_of_a_line_is_set_apart_in_many_ways(tmp_path: Path, label: str) -> None:
    (found,) = _mail(tmp_path, "S275JR", f"{label} virola ID 1200 x 1500 long x 10 thk, 4 pcs").lines
    assert (found.shape, found.quantity) == (_RING, 4)


def test_one_unit_of_two_ends_holds_for_both(tmp_path: Path) -> None:
    (found,) = _mail(
        tmp_path, "S235JR", "2 adet konik iç çap 1000 / 400 mm, yükseklik 600 mm, kalınlık 8 mm"
    ).lines
    assert found.shape == Cone(1000.0, 400.0, Basis.INSIDE, 600.0)


def test_feet_and_inches_in_french(tmp_path: Path) -> None:
    (found,) = _mail(tmp_path, "acier A36", "1 mcx diam. ext. 36 po x 3/8 po x 4 pi 7 po de long").lines
    assert found.shape == Cylinder(914.4, Basis.OUTSIDE, 1397.0)


@pytest.mark.parametrize("line", ["Regards, Ron P. ext 214", "Toimitus viikolla 20. t. Jarmo"])
def test_a_telephone_and_a_name_give_no_sizes(tmp_path: Path, line: str) -> None:
    assert not _mail(tmp_path, "S275JR", "2 off shell 1500 long", line).lines
    order = _mail(tmp_path, "S275JR", "2 off shell ID 1200 x 1500 long", line)
    assert not order.lines


def test_a_line_that_begins_as_the_parts_do_is_one_of_them(tmp_path: Path) -> None:
    order = _mail(
        tmp_path,
        "xapa S275JR",
        "2 u. virolla diàm. int. 900, gruix 6, llarg 1200",
        "1 u. con 900 / 200, alçada 850, 6",
        "3 u. virolla diàm. int. 800, gruix 6, llarg 1200",
    )
    assert [draft.place.row for draft in order.drafts] == [2, 3, 4]


def test_a_line_of_all_heads_those_that_give_only_their_pieces_and_lengths(tmp_path: Path) -> None:
    order = _mail(
        tmp_path, 'riser rings - all 48" ID, 3/16" A36', '6 ea 24" tall', '2 ea 36" tall but 60" ID'
    )
    assert [(one.quantity, one.thickness_mm) for one in order.lines] == [(6, 4.7625), (2, 4.7625)]
    assert [one.shape for one in order.lines] == [
        Cylinder(1219.2, Basis.INSIDE, 609.6),
        Cylinder(1524.0, Basis.INSIDE, 914.4),
    ]


def test_a_whole_part_that_speaks_of_all_is_no_heading(tmp_path: Path) -> None:
    lines = (
        'shell, all seams open, 48" ID x 1/4" x 60" long',
        '6 ea 24" ID x 1/4" x 24" tall',
        '2 ea 24" tall',
    )
    assert _mail(tmp_path, "A36", *lines).drafts[0].place.row == 2


def test_one_size_in_inches_makes_no_inches_of_bare_numbers_that_cannot_be(tmp_path: Path) -> None:
    order = _mail(
        tmp_path,
        "all 316L, sizes are inside dia x height x thickness",
        "V101 strake 1450 x 1000 x 3 (2 off)",
        "V102 strake 980 x 640 x 4 (1 off)",
        'clamp ferrule 2" (12 off)',
    )
    assert [one.shape for one in order.lines] == [
        Cylinder(1450.0, Basis.INSIDE, 1000.0),
        Cylinder(980.0, Basis.INSIDE, 640.0),
    ]


@pytest.mark.parametrize(
    "line",
    [
        "R int 600 círculo completo, 1500 largo, 10 esp, 2 pzas",
        "blacha gr. 10 zwinięta R wewn. 600 pełny krąg, szer. 1500, 2 szt",
        "shell dia 1200, dims inside, 10 thk, 1500 long, 2 off",
        "mantel 2x, inwendige diameter 1,20 m, L 1,50 m, dik 10",
    ],
)
def test_full_circles_sides_in_a_clause_and_counts_with_an_x(tmp_path: Path, line: str) -> None:
    (found,) = _mail(tmp_path, "S275JR", line).lines
    assert (found.shape, found.thickness_mm, found.quantity) == (_RING, 10.0, 2)


@pytest.mark.parametrize(
    "line",
    [
        "shell dia 1200, ground, inside, 10 thk, 1500 long, 2 off",
        "shell dia 1200 (polished inside), 10 thk, 1500 long, 2 off",
    ],
)
def test_work_on_one_side_is_no_side_of_the_sizes(tmp_path: Path, line: str) -> None:
    assert not _mail(tmp_path, "S275JR", line).lines


def test_a_transition_of_two_diameters_is_a_cone(tmp_path: Path) -> None:
    title = "S235JR, Radien und Durchmesser = innen"
    (found,) = _mail(
        tmp_path, title, "Übergang konzentrisch DM 1.800 / 1.500, Länge 1.200, t=14, 1 Stk."
    ).lines
    assert found.shape == Cone(1800.0, 1500.0, Basis.INSIDE, 1200.0)


def test_a_comma_between_chinese_words_and_counts_parts_no_digits(tmp_path: Path) -> None:
    order = _mail(tmp_path, "材质Q355B", "1、筒体 外径1020×14,长2000,6件", "2、筒体 外径1020×14,长1260,1件")
    assert [(one.quantity, one.thickness_mm) for one in order.lines] == [(6, 14.0), (1, 14.0)]


def test_who_makes_a_test_supplies_no_plate(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    for row in (
        ("Inside diameter (mm)", "680"),
        ("Length (mm)", "1,150"),
        ("Thickness (mm)", "3"),
        ("Material", "S235JR"),
        ("Number required", "2"),
        ("Hydro test", "by client, 24 bar"),
        ("Prüfung", "bauseits"),
    ):
        sheet.append(row)
    book.save(tmp_path / "form.xlsx")
    (found,) = read_orders(tmp_path / "form.xlsx", grading_shop(), today=TODAY).lines
    assert found.shape == Cylinder(680.0, Basis.INSIDE, 1150.0)
    assert not found.free_issue


def test_a_line_that_ends_in_a_colon_heads_pieces_and_lengths(tmp_path: Path) -> None:
    order = _mail(tmp_path, 'cans, A572-50, 48" OD, 1/2" wall:', '2 @ 96" long', '3 @ 60" long')
    assert [(one.quantity, one.thickness_mm) for one in order.lines] == [(2, 12.7), (3, 12.7)]


@pytest.mark.parametrize(
    "line", ["1 adet konik 1200/600x8x700", "1 cône 1200/600 x 700 x 8", "1 cone 1200/600 x 8 x 700"]
)
def test_a_cone_needs_no_mark_where_the_side_of_all_is_told(tmp_path: Path, line: str) -> None:
    (found,) = _mail(tmp_path, "S235JR, all dims inside", "2 off shell 1200 x 8 x 1500", line).lines[1:]
    assert (found.shape, found.thickness_mm) == (Cone(1200.0, 600.0, Basis.INSIDE, 700.0), 8.0)


def test_a_name_of_two_numbers_gives_no_size(tmp_path: Path) -> None:
    (found,) = _mail(tmp_path, "T1 shell 2: 3000 ID x 1500 x 8 S275JR, one off").lines
    assert (found.shape, found.thickness_mm) == (Cylinder(3000.0, Basis.INSIDE, 1500.0), 8.0)


def test_one_of_each_is_the_count_of_all(tmp_path: Path) -> None:
    order = _mail(tmp_path, "One of each please in S355J2:", "OD 1016 x 20 x 3000", "OD 914 x 16 x 3000")
    assert [one.quantity for one in order.lines] == [1, 1]


def test_lines_of_three_pieces_under_a_line_of_their_names(tmp_path: Path) -> None:
    order = _mail(
        tmp_path,
        "Pos;Menge;Bezeichnung",
        "1;2;Rohr DA 1220x10x3000 S235JR",
        "2;4;Rohr DA 1016x10x3000 S235JR",
    )
    assert [one.quantity for one in order.lines] == [2, 4]


def test_what_a_part_is_called_may_stand_before_what_it_is_like(tmp_path: Path) -> None:
    lines = ("Rep 1 : 2 viroles Dext 1420 ép 20 L 2980", "Rep 2 : 1 virole idem L 1540")
    first, second = _mail(tmp_path, "Bonjour, S355J2", *lines).lines
    assert (second.shape, second.thickness_mm) == (
        Cylinder(1420.0, Basis.OUTSIDE, 1540.0),
        first.thickness_mm,
    )


def test_one_size_that_is_the_same_gives_no_other(tmp_path: Path) -> None:
    order = _mail(
        tmp_path, "S275JR", "1) 2 off shell ID 1200 x 1500 long x 10 thk", "2) 1 off same dia, 800 long"
    )
    assert [one.quantity for one in order.lines] == [2]


def test_plain_counts_and_slashes_of_a_list_are_read_with_its_side(tmp_path: Path) -> None:
    order = _mail(
        tmp_path,
        "S235JR, alles innen",
        "4x Schuss 2000 / 1500 / 6",
        "2x Schuss 1800 / 1500 / 6",
        "1x Konus 2000 Di",
    )
    assert [one.quantity for one in order.lines] == [4, 2]
    assert {draft.place.row for draft in order.drafts} == {2, 3, 4}


@pytest.mark.parametrize(
    ("title", "lines"),
    [
        ("rings from 3/8 A36 plate", ("10 pcs 24 ID x 6 long", "6 pcs 30 ID x 6 long")),
        ("chapa 3/8 A36", ("2 virolas 24 diam int x 6 largo", "1 virola 30 diam int x 6 largo")),
    ],
)
def test_the_plate_of_all_lines_tells_their_unit(tmp_path: Path, title: str, lines: tuple[str, ...]) -> None:
    order = _mail(tmp_path, title, *lines)
    assert [one.shape for one in order.lines] == [
        Cylinder(609.6, Basis.INSIDE, 152.4),
        Cylinder(762.0, Basis.INSIDE, 152.4),
    ]


@pytest.mark.parametrize(
    "line",
    [
        "gusset 200 x 150 x 10",
        "cover 900 x 900 x 6",
        "end cap 300 x 200 x 6",
        "wear strip 1000 x 50 lg x 10",
        "ring 100 x 20 x 1200",
        "ring 400 x 10 x 1200",
        "duct 600 x 400 x 5",
    ],
)
def test_flat_things_are_no_shells_where_the_side_of_all_is_told(tmp_path: Path, line: str) -> None:
    title = "S275JR, all dims I.D. unless noted, mm"
    assert len(_mail(tmp_path, title, "2 off shell 1200 x 1500 x 10", f"4 off {line}").lines) == 1


@pytest.mark.parametrize("line", ["weld 2x", "bevel 2x", "painted 2x"])
def test_work_that_is_done_twice_counts_no_parts(tmp_path: Path, line: str) -> None:
    assert not _mail(tmp_path, "S275JR", f"shell ID 1200 x 8 thk x 1500 long {line}").lines


def test_a_line_like_another_one_with_work_is_asked_about(tmp_path: Path) -> None:
    lines = ("Item 1: ID 1500 x 10 thk x 2000 long, 2 off", "Item 2: as item 1 with manhole, 1 off")
    assert [one.quantity for one in _mail(tmp_path, "S275JR", *lines).lines] == [2]
