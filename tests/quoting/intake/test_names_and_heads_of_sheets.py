"""Names that are no doubt, heads told by their cells, plates in words, who asks in a form."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, Order
from quoting.intake.layout import heading_meaning
from quoting.intake.words import said_in_text
from tests.quoting.intake.sheets import read_rows


def round_and_long(order: Order) -> list[tuple[str, float, float]]:
    """Return side, diameter and length in inches of the cylinders of an order."""
    shapes = [line.shape for line in order.lines if isinstance(line.shape, Cylinder)]
    return [
        (str(one.basis), round(one.diameter_mm / 25.4, 3), round(one.length_mm / 25.4, 3)) for one in shapes
    ]


def asked(order: Order) -> list[str]:
    return [one.id for one in order.questions if one.blocking]


@pytest.mark.parametrize(
    "remark",
    [
        "millwrights will mount the lifters",
        "our welders will attach lifting lugs later",
        "hood, RH",
        "skirt guard LH",
        "smoke box",
        "inlet box shell",
        "A588 weathering plate",
    ],
)
def test_names_and_others_work_stop_no_line(remark: str) -> None:
    assert not [one for one in said_in_text(remark)[0] if one.does in ("ask", "out", "free", "soft")]


@pytest.mark.parametrize(
    "remark",
    [
        "LH of item 3",
        "guard RH, 4 holes",
        "mitred elbow LH",
        "box section",
        "tool box",
        "weathering plate",
        "flights",
    ],
)
def test_what_changes_the_part_is_still_asked(remark: str) -> None:
    assert [one for one in said_in_text(remark)[0] if one.does in ("ask", "say")]


@pytest.mark.parametrize("remark", ["rusted out in 6 yrs", "3 shifts a day here", "20 minutes from the yard"])
def test_numbers_of_time_are_no_sizes(tmp_path: Path, remark: str) -> None:
    head = ["Item", "Qty", "ID", "Thk", "Length", "Material", "Remarks"]
    order = read_rows(tmp_path, ["1", "2", '48"', '1/4"', '60"', "A36", remark], head=head)
    assert len(order.lines) == 1


@pytest.mark.parametrize(
    ("heading", "side"),
    [("Form to IR", Basis.INSIDE), ("Curved to OR", Basis.OUTSIDE), ("Bent to inside", Basis.INSIDE)],
)
def test_a_verb_before_the_side_is_a_radius(heading: str, side: Basis) -> None:
    found = heading_meaning(heading)
    assert (found.field, found.basis) == ("radius", side)


@pytest.mark.parametrize("marks", [["77-1001", "77-1002"], ["P-104", "P-105"]])
@pytest.mark.parametrize("heading", ["ID tag", "ID no", "Equip ID"])
def test_an_id_over_marks_is_no_diameter(tmp_path: Path, heading: str, marks: list[str]) -> None:
    head = [heading, "Qty", "Roll OD", "Plate thk", "Roll length", "Grade"]
    rows = [[mark, "2", f'{48 + at}"', '1/4"', '60"', "A36"] for at, mark in enumerate(marks)]
    order = read_rows(tmp_path, *rows, head=head)
    assert round_and_long(order) == [("outside", 48, 60), ("outside", 49, 60)]


def test_an_id_over_sizes_with_their_unit_stays_the_diameter(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "Shell ID", "Thk", "Length", "Grade"]
    order = read_rows(tmp_path, ["S1", "2", "600mm", "6mm", "900mm", "A36"], head=head)
    assert [line.shape for line in order.lines] == [Cylinder(600, Basis.INSIDE, 900)]


@pytest.mark.parametrize("pair", [("war", "ist"), ("was", "to be"), ("old", "is"), ("était", "est")])
def test_what_a_size_was_is_left_beside_what_it_is(tmp_path: Path, pair: tuple[str, str]) -> None:
    head = ["Mark", "Qty", f"OD {pair[0]}", f"OD {pair[1]}", "Thk", "Length", "Material"]
    order = read_rows(tmp_path, ["S1", "2", '42"', '44"', '1/4"', '60"', "A36"], head=head)
    assert round_and_long(order) == [("outside", 44, 60)]


@pytest.mark.parametrize(
    "plate", ["PL 3/8 x 60 x 152 A36 ROLL TO 48 ID", "PL 3/8 x 152 x 60, A36, roll to 48 ID"]
)
def test_a_plate_that_closes_its_diameter_is_read_either_way(tmp_path: Path, plate: str) -> None:
    order = read_rows(tmp_path, ["1", "2", plate], head=["Item", "Qty", "Description"])
    assert round_and_long(order) == [("inside", 48, 60)]


def test_a_plate_that_closes_no_circle_is_asked_about(tmp_path: Path) -> None:
    plate = "PL 3/8 x 60 x 90 A36 ROLL TO 48 ID"
    order = read_rows(tmp_path, ["1", "2", plate], head=["Item", "Qty", "Description"])
    assert order.lines == ()


@pytest.mark.parametrize(("own", "far"), [("38", "36"), ("38", "60")])
def test_a_length_near_the_girth_stands_in_another_row_too(tmp_path: Path, own: str, far: str) -> None:
    head = ["Item", "Qty", "OD", "Thk", "Length", "Material"]
    rows = [["1", "2", '12"', '1/4"', f'{own}"', "A36"], ["2", "2", '20"', '1/4"', f'{far}"', "A36"]]
    same = [*rows[1][:4], f'{own}"', "A36"]
    assert len(read_rows(tmp_path, rows[0], rows[1], head=head).lines) == 1
    assert len(read_rows(tmp_path, rows[0], same, head=head).lines) == 2


@pytest.mark.parametrize("label", ["Your name", "Requested by", "Contact person", "E-mail"])
def test_who_asks_in_a_form_is_no_part(tmp_path: Path, label: str) -> None:
    rows = [
        ["Part", "mixing drum"], ["Quantity", "3"], ["Material", "A36"], ["Thickness", '1/4"'],
        ["Outside diameter", '30"'], ["Length", '40"'],
    ]  # fmt: skip
    order = read_rows(tmp_path, *rows, head=[label, "a person"], title="Rolling request")
    assert [(line.place.row, line.quantity) for line in order.lines] == [(3, 3)]


_GERMAN = ["Pos", "Bezeichnung", "Menge", "Blechdicke (mm)", "Werkstoff"]
_DUTCH = ["Pos", "Omschrijving", "Aantal", "Plaatdikte (mm)", "Materiaal"]


@pytest.mark.parametrize(
    ("head", "text"),
    [
        (_GERMAN, "Auslaufkegel, Ø innen 1800 - 400, Höhe 900"),
        (_GERMAN, "Reduzierkonus Ø inn. 1800 / 400, Höhe 900"),
        (_DUTCH, "Instortkegel, Ø bi 1800 x 400, hoogte 900"),
        (_DUTCH, "Trechterkegel Ø inw. 1800 - 400, hoogte 900"),
    ],
)
def test_cones_in_one_word_with_both_ends_behind_a_side(tmp_path: Path, head: list[str], text: str) -> None:
    order = read_rows(tmp_path, ["1", text, "2", "6", "A36"], head=head)
    shapes = [line.shape for line in order.lines if isinstance(line.shape, Cone)]
    assert [(one.large_mm, one.small_mm, one.height_mm, one.basis) for one in shapes] == [
        (1800, 400, 900, Basis.INSIDE)
    ]


def test_letting_something_be_is_no_welding(tmp_path: Path) -> None:
    head = ["Pos", "Menge", "Ø innen", "Blechdicke", "Länge", "Werkstoff", "Bemerkung"]
    row = ["1", "2", "800 mm", "6 mm", "900 mm", "A36", "Schutzfolie drauf lassen"]
    assert not asked(read_rows(tmp_path, row, head=head))


def test_words_alone_in_a_row_are_a_note(tmp_path: Path) -> None:
    head = ["Item", "Qty", "ID", "Thk", "Length", "Material"]
    order = read_rows(tmp_path, ["1", "2", '48"', '1/4"', '60"', "A36"], ["", "", "no rush"], head=head)
    assert len(order.lines) == 1
    assert not asked(order)


def test_the_number_of_an_inquiry_above_the_head_is_no_head(tmp_path: Path) -> None:
    head = ["Item", "Text", "Qty", "ID (in)", "Thk (in)", "Length (in)", "Material"]
    rows = [head, ["1", "can", "2", "48", "1/4", "60", "A36"]]
    order = read_rows(tmp_path, *rows, head=["Request", "40117", "", "Area", "Boiler"])
    assert round_and_long(order) == [("inside", 48, 60)]
    assert not any("40117" in text for line in order.lines for text in line.assumptions)


def test_arcs_by_a_radius_to_form_to(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "Thk", "Form to IR", "Degrees", "Length", "Alloy"]
    order = read_rows(tmp_path, ["G1", "2", ".125", "8.5", "160", "31", "5052-H32"], head=head)
    shapes = [line.shape for line in order.lines if isinstance(line.shape, Arc)]
    assert [(round(one.radius_mm / 25.4, 3), one.angle_deg, one.basis) for one in shapes] == [
        (8.5, 160, Basis.INSIDE)
    ]


SLEEVES = ["Item", "Qty", "Description", "OD", "Wall", "Length", "Material"]


@pytest.mark.parametrize(
    ("text", "across", "priced"),
    [
        ('Sleeve for 24" pipe', "25.25", True),
        ('Sleeve for 24" pipe', "26.5", False),
        ('Sleeve for 24" pipe', "24.5", False),
        ('Sleeve for 12" pipe', "13.25", False),
        ('Sleeve, slip fit over 24" pipe', "25.25", False),
        ('Sleeve for 24" or 26" pipe', "25.25", False),
        ("to fit over the pipe", "25.25", False),
    ],
)
def test_a_sleeve_whose_inside_fits_the_pipe_it_names_asks_nothing(
    tmp_path: Path, text: str, across: str, priced: bool
) -> None:
    order = read_rows(tmp_path, ["1", "4", text, across, "1/2", "12", "A36"], head=SLEEVES)
    assert bool(order.lines) is priced


@pytest.mark.parametrize(("text", "priced"), [("Virole cuve 5000 L", True), ("cuve 5000 L x 3", False)])
def test_what_a_vessel_holds_is_no_length(tmp_path: Path, text: str, priced: bool) -> None:
    head = ["Rep", "Désignation", "Qté", "Nuance", "Ép.", "Ø int", "Longueur"]
    order = read_rows(tmp_path, ["V1", text, "2", "304L", "4", "1600", "1250"], head=head)
    assert bool(order.lines) is priced


@pytest.mark.parametrize("title", ["Enquiry ref: E5512", "Anfrage Nr. 4711", "Pedido: OC-2231", "PO 118/26"])
def test_a_title_that_is_only_a_number_of_the_order_is_its_reference(tmp_path: Path, title: str) -> None:
    order = read_rows(tmp_path, ["1", "4", "Shell", "48", "1/2", "12", "A36"], head=SLEEVES, title=title)
    assert order.reference in title
    assert order.reference
    assert not [one for one in order.questions if one.id.endswith("notes_ok")]


@pytest.mark.parametrize("title", ["Order 118/26 in 316L with mill certs", "quote 250"])
def test_a_title_that_says_more_than_its_number_is_told(tmp_path: Path, title: str) -> None:
    order = read_rows(tmp_path, ["1", "4", "Shell", "48", "1/2", "12", "A36"], head=SLEEVES, title=title)
    assert [one for one in order.questions if title in one.text]
