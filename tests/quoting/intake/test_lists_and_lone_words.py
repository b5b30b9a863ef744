"""Counts between dashes, units and bought parts in other languages, what tanks hold, names that tell shapes."""
# ruff: noqa: E501 - the heads and texts of a sheet stay on one line, as people type them

from __future__ import annotations

import csv
from collections.abc import Sequence
from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, Order, State
from quoting.intake.read_orders import read_orders
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY


def _read(folder: Path, *rows: Sequence[str]) -> Order:
    file = folder / "order.csv"
    with file.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows(rows)
    return read_orders(file, grading_shop(), today=TODAY)


def _asked(order: Order) -> list[str]:
    return [question.text for question in order.questions if question.blocking]


@pytest.mark.parametrize(
    ("thick", "round_", "long", "count"),
    [
        ("Esp. plg", "Diám. int. plg", "Largo plg", "Cant"),
        ("Espesor (pulgadas)", "Diámetro interior (pulgadas)", "Largo (pulgadas)", "Cantidad"),
        ("Wanddicke (Zoll)", "Innendurchmesser (Zoll)", "Länge (Zoll)", "Stück"),
        ("Épaisseur (pouces)", "Ø intérieur (pouces)", "Longueur (pouces)", "Quantité"),
        ("Spessore (pollici)", "Diametro interno (pollici)", "Lunghezza (pollici)", "Quantità"),
    ],
)
def test_inches_in_heads_of_other_languages(
    tmp_path: Path, thick: str, round_: str, long: str, count: str
) -> None:
    head = ["Pos", count, thick, round_, long, "Material"]
    (line,) = _read(tmp_path, head, ["1", "2", "1/4", "36", "60", "A36"]).lines
    assert (line.thickness_mm, line.shape) == (6.35, Cylinder(914.4, Basis.INSIDE, 1524.0))


@pytest.mark.parametrize(("wide", "round_"), [("Blank W", "Blank L"), ("Blank width", "Blank lgth")])
def test_the_sizes_of_blanks_are_those_of_the_plate(tmp_path: Path, wide: str, round_: str) -> None:
    head = ["Mark", "Pcs", "T in", wide, round_, "Finished OD", "Grade"]
    (line,) = _read(tmp_path, head, ["R-31", "3", "0.5", "72", "124.1", "40", "A36"]).lines
    assert line.shape == Cylinder(1016.0, Basis.OUTSIDE, 1828.8)


def test_counts_between_dashes_and_names_with_a_number(tmp_path: Path) -> None:
    order = _read(
        tmp_path,
        ["cook chamber - one piece - 1/4 A36 - 36 inside - 60 long"],
        ["drum 1 - qty 3 - 36 ID x 84 long x 1/2 A36"],
        ["cone for the stack - two pieces - 3/16 A36 - 14 inside at the bottom, 8 inside at the top, 9 straight up and down"],
        ["everything in inches"],
    )  # fmt: skip
    assert [(line.quantity, line.shape) for line in order.lines] == [
        (1, Cylinder(914.4, Basis.INSIDE, 1524.0)),
        (3, Cylinder(914.4, Basis.INSIDE, 2133.6)),
        (2, Cone(355.6, 203.2, Basis.INSIDE, 228.6)),
    ]


def test_a_list_of_cells_begins_each_part_with_its_count(tmp_path: Path) -> None:
    order = _read(
        tmp_path,
        ["6 pcs", 'ID 18"', 'PL 1/4"', '24" long', "A36"],
        ["1 pc", 're-roll our old can, it got squashed, about 40"'],
        ["4 pcs", 'OD 22-1/2"', 'PL 3/16"', '36" long', "304"],
    )
    states = {row.place.row: row.state for row in order.rows}
    assert states == {1: State.PRICED, 2: State.QUESTION, 3: State.PRICED}
    assert order.lines[1].material.startswith("304")


HEAD = ["Drg", "Part", "Reqd", "OD mm", "Plate mm", "Length mm", "Material", "Remarks"]


@pytest.mark.parametrize(
    ("name", "remark", "angle"),
    [("half shell", "", 180), ("Chute nose, 1/4 circle", "", 90), ("Chute nose, 1/4 circle", "90 degrees", 90),
     ("hood, 3/4 circle", "", 270), ("quarter of ring", "", 90)],
)  # fmt: skip
@pytest.mark.parametrize("column", [0, 1])
def test_a_name_of_words_tells_the_part_of_a_circle(
    tmp_path: Path, name: str, remark: str, angle: int, column: int
) -> None:
    row = ["TQ-30", "B-1", "2", "1200", "12", "900", "A36", remark]
    row[column] = name
    order = _read(tmp_path, HEAD, row)
    assert [line.shape for line in order.lines] == [Arc(600.0, Basis.OUTSIDE, angle, 900.0)] or _asked(order)
    assert not any(isinstance(line.shape, Cylinder) for line in order.lines)


BOUGHT = {
    "Pos, Descripción, Cant, Diámetro interior mm, Espesor mm, Largo mm, Material": [
        "Tornillería 3/4",
        "Junta de goma",
    ],
    "Pos, Benennung, Stück, Ø innen mm, Dicke mm, Länge mm, Werkstoff": [
        "Gummidichtung",
        "Schraubensatz M20",
    ],
    "Rep, Désignation, Qté, Ø intérieur mm, Épaisseur mm, Longueur mm, Matière": [
        "Visserie M16",
        "Joint caoutchouc",
    ],
    "Pos, Descrizione, Quantità, Diametro interno mm, Spessore mm, Lunghezza mm, Materiale": [
        "Viteria",
        "Guarnizione in gomma",
    ],
    "Pos, Omschrijving, Aantal, Binnendiameter mm, Dikte mm, Lengte mm, Materiaal": [
        "Bevestigingsmateriaal",
        "Rubberpakking",
    ],
    "Item, Descrição, Quantidade, Diâmetro interno mm, Espessura mm, Comprimento mm, Material": [
        "Parafusos",
        "Junta de borracha",
    ],
    "Pos, Benämning, Antal, Innerdiameter mm, Plåt mm, Längd mm, Material": ["Gummipackning", "Fastelement"],
    "PR line, Text, Qty, Inside dia mm, Thk mm, Length mm, Spec": ["BOLT, PLOW 3/4 X 2-1/2"],
}


@pytest.mark.parametrize(("head", "part"), [(head, part) for head, parts in BOUGHT.items() for part in parts])
def test_bought_parts_are_not_asked_for_their_sizes(tmp_path: Path, head: str, part: str) -> None:
    order = _read(
        tmp_path,
        head.split(", "),
        ["1", "tank", "2", "1200", "10", "1500", "A36"],
        ["2", part, "4", "", "", "", ""],
    )
    assert [row.reason for row in order.rows if row.number == "2"] == [
        "a part that is bought, nothing to roll"
    ]


@pytest.mark.parametrize(
    "name", ["Virola tanque 5.000 l", "Tank 50 m3", "Vessel 1,500 ltr", "Cuve 200 hl", "Tank 2 000 litres"]
)
def test_what_a_tank_holds_is_no_length(tmp_path: Path, name: str) -> None:
    head = ["Item", "Description", "Qty", "ID mm", "Thk mm", "Length mm", "Material"]
    (line,) = _read(tmp_path, head, ["1", name, "2", "1750", "10", "1500", "A36"]).lines
    assert line.shape == Cylinder(1750.0, Basis.INSIDE, 1500.0)


CONES = {
    "Pos, Teil, Stück, Ø innen mm, Dicke mm, Höhe mm, Werkstoff": "Trichter, Ø innen 1500 / 300, Höhe 1150, gerade",
    "Pos, Detalle, Cantidad, Diám. interior mm, Espesor mm, Alto mm, Acero": "Cono de fondo, recto, Ø int. 1500 a 300, alto 1150",
    "Rep, Désignation, Qté, Ø intérieur mm, Épaisseur mm, Hauteur mm, Matière": "Cône droit, Ø int. 1500 / 300, hauteur 1150",
    "Pos, Descrizione, Quantità, Diametro interno mm, Spessore mm, Altezza mm, Materiale": "Cono, retto, Ø int. 1500 / 300, altezza 1150",
}


@pytest.mark.parametrize(("head", "part"), CONES.items())
def test_a_straight_cone_is_a_concentric_one(tmp_path: Path, head: str, part: str) -> None:
    order = _read(
        tmp_path,
        head.split(", "),
        ["1", "tank", "2", "1200", "10", "1500", "A36"],
        ["2", part, "2", "", "4", "", "A36"],
    )
    assert [line.shape for line in order.lines if line.id == "2"] == [
        Cone(1500.0, 300.0, Basis.INSIDE, 1150.0)
    ]


@pytest.mark.parametrize(
    "text", ["shell, straight legs 100", "cone with straight end 50", "conical hopper, straight one side"]
)
def test_other_straight_parts_are_asked_about(tmp_path: Path, text: str) -> None:
    head = ["Item", "Description", "Qty", "ID mm", "Thk mm", "Length mm", "Material"]
    assert _asked(_read(tmp_path, head, ["1", text, "2", "1750", "10", "1500", "A36"]))


SIZES = ["item", "part", "qty", "inside dia in", "thick in", "long in"]
SHELLS = (["1", "feed end shell", "1", "52", "1/2", "36"], ["3", "dust hood", "1", "70", "1/4", "24"])


@pytest.mark.parametrize(
    ("note", "states"),
    [
        ("#3 - scratch that one, found a spare behind the crusher", [State.PRICED, State.NO_QUOTE]),
        ("no. 3 is on hold", [State.PRICED, State.QUESTION]),
        ("#4 finish not required", [State.PRICED, State.PRICED]),
    ],
)
def test_a_note_that_opens_with_the_number_of_a_line(tmp_path: Path, note: str, states: list[State]) -> None:
    order = _read(tmp_path, SIZES, *SHELLS, [note], ["everything A36"])
    assert [row.state for row in order.rows if row.number] == states


def test_parts_in_columns_have_their_names_above_them(tmp_path: Path) -> None:
    order = _read(
        tmp_path,
        ["", "Part 1", "Part 2"],
        ["What is it", "tumbler drum", "dryer drum"],
        ["How many do you need", "2", "1"],
        ["Inside diameter, inches", "33", "48"],
        ["How long, inches", "48", "60"],
        ["How thick, inches", "3/16", "1/4"],
        ["Which metal", "A36", "304"],
    )
    assert [(line.quantity, line.part_no) for line in order.lines] == [(2, "Part 1"), (1, "Part 2")]
    assert not _asked(order)


def test_an_older_message_below_is_asked_about_once(tmp_path: Path) -> None:
    old = [[f'({n}) rolls {d}" ID x 24" long, 1/4" A36'] for n, d in ((2, 38), (2, 29), (1, 20))]
    order = _read(tmp_path, ['(2) rolls 38" ID x 24" long, 3/8" A36'], ["----- Original message -----"], *old)
    assert len(order.lines) == 1
    assert len(_asked(order)) == 1


@pytest.mark.parametrize(
    ("text", "material"),
    [('4 pcs, OD 22", PL 3/16", 36" long, 304', "304"), ('4 pcs, OD 22", PL 3/16", 304', "")],
)
def test_a_number_alone_between_commas_is_a_steel(tmp_path: Path, text: str, material: str) -> None:
    order = _read(tmp_path, [text], ['2 pcs, OD 30", PL 1/4", 40" long, A36'])
    assert [line.material[:3] for line in order.lines] == ([material, "A36"] if material else ["A36"])


def test_an_export_with_long_codes(tmp_path: Path) -> None:
    head = ["PO_REQ", "LN", "ITEM_DESC", "QTY_REQ", "UM", "MATL", "THK_IN", "ROLL_ID_IN", "LEN_IN", "NEED_DT"]
    row = ["R0091827", "1", "SHELL ROLLED SURGE BIN", "2", "EA", "A36", "0.25", "66", "48", "2027-01-15"]
    (line,) = _read(tmp_path, head, row).lines
    assert line.shape == Cylinder(1676.4, Basis.INSIDE, 1219.2)


def test_the_plate_is_theirs_beside_the_number_of_a_mark(tmp_path: Path) -> None:
    head = ["Mark", "Pcs", "T in", "Length", "OD in", "Grade"]
    title = "Overflow rolling - plate is ours, burned and bevelled, tagged by mark no."
    (line,) = _read(tmp_path, [title], head, ["R-31", "3", "0.5", "72", "40", "A36"]).lines
    assert line.free_issue


def test_dimensions_inside_in_a_letter(tmp_path: Path) -> None:
    order = _read(
        tmp_path,
        ["Merci de nous chiffrer le roulage suivant, acier S235JR, cotes intérieures en mm :"],
        ["- 4 viroles Ø 630, longueur 1250, ép. 3"],
        ["- 2 cônes droits Ø 800 / Ø 300, hauteur 700, ép. 3"],
    )
    shapes = [line.shape for line in order.lines]
    assert shapes == [Cylinder(630.0, Basis.INSIDE, 1250.0), Cone(800.0, 300.0, Basis.INSIDE, 700.0)]


def test_one_length_of_segments_of_other_degrees_is_axial(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Thk in", "Inside rad in", "Included angle", "Length in", "Spec"]
    order = _read(
        tmp_path,
        head,
        ["1", "8", "1/2", "30", "90", "48", "A36"],
        ["2", "8", "1/2", "30", "60", "48", "A36"],
    )
    assert [line.shape.length_mm for line in order.lines if isinstance(line.shape, Arc)] == [1219.2, 1219.2]


@pytest.mark.parametrize("long", ["20 foot long", "20 feet long"])
def test_feet_before_a_size_are_no_supports(tmp_path: Path, long: str) -> None:
    order = _read(
        tmp_path, [f"2 off shells 48 in inside, 1/4 in thick, {long}, A36"], ["1 off same but half round"]
    )
    assert order.lines[0].shape == Cylinder(1219.2, Basis.INSIDE, 6096.0)
    assert order.lines[1].shape == Arc(609.6, Basis.INSIDE, 180.0, 6096.0)


def test_a_letter_of_a_farm_is_read_line_by_line(tmp_path: Path) -> None:
    order = _read(
        tmp_path,
        ["Howdy,"],
        ["1 piece 1/4 inch plate A36 rolled to 24 inches inside, 60 inches long, tack the seam"],
        ["1 piece same but only half round, for the lid"],
        ["culvert maybe 3 foot across, 20 foot long, whatever thickness you think"],
    )
    assert [row.state for row in order.rows][1:] == [State.PRICED, State.QUESTION, State.QUESTION]


@pytest.mark.parametrize(
    ("head", "row"),
    [
        (["Line", "Goods", "Qty"], ["1", "shell 1200 i/d, 8mm, 1500 long", "2"]),
        (["Line", "Goods", "Material"], ["1", "shell 1200 i/d, 8mm, 1500 long, 2 off", "S235JR"]),
        (["Osa", "Nimike", "Määrä", "Materiaali"], ["1", "Putki sisäØ 1200 x 8 x 1500", "2", "S235JR"]),
        (
            ["No", "Keterangan", "Jumlah", "Material"],
            ["1", "Pipa dia dalam 1200, tebal 8, panjang 1500", "2", "S235JR"],
        ),
        (["Pos", "Remarks", "Qty", "Material"], ["1", "shell 1200 i/d, 8mm, 1500 long", "2", "S235JR"]),
    ],
)
def test_a_column_of_texts_that_alone_tells_the_sizes_is_read(
    tmp_path: Path, head: list[str], row: list[str]
) -> None:
    order = _read(tmp_path, ["All dimensions in mm, S235JR"], head, row)
    (line,) = order.lines
    assert (line.quantity, line.thickness_mm) == (2, 8.0)
    assert line.shape == Cylinder(1200.0, Basis.INSIDE, 1500.0)
