"""Lists of parts in the words of a mail, and notes about their lines: counts, ends, faces, deletions."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, Order, State
from quoting.intake.texts import plain_sizes, shape_words
from quoting.intake.texts.part_counts import counted_things, dashes_apart, named_times
from quoting.intake.words import said_in_text
from tests.quoting.intake.sheets import read_rows


def _mail(folder: Path, *texts: str, title: str = "Please price, A36, all in inches:") -> Order:
    return read_rows(folder, *([text] for text in texts), head=[title])


def _said(text: str) -> set[str]:
    return {one.name for one in said_in_text(text)[0] if one.does in ("ask", "out", "free")}


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("3 sealed drums, 1/4 plate, 30 inches inside diameter, 20 inches tall", 3),
        ("b) 12 smoker bodies 24 OD x 40 long", 12),
        ("TK-4: 1 outer casing, 1/4 x 40 ID x 60", None),
        ("7: 1 curved panel, 40 IR, 60 deg, 30 wide", 1),
        ("item 9 - 40 hoops - 26 dia - 4 wide", 40),
        ("24 stack, 1/4 thk, 60 long", None),
        ("6 lugs, 1/4 thk, 20 long", None),
        ("3 inches wide, 48 OD, 1/4 thk", None),
        ("16 gauge shells 24 OD x 30", None),
        ("5 sets, 48 OD, 1/4 thk", None),
        ("8 weeks, 48 OD, 1/4 thk", None),
        ("4 barrels", None),
    ],
)
def test_a_number_before_things_counts_them_where_their_sizes_follow(text: str, count: int | None) -> None:
    assert counted_things(text)[0] == count


def test_a_number_behind_a_mark_counts_its_parts() -> None:
    marks = frozenset(("r", "pl"))
    assert named_times("TK7 x 3, 40 OD, 30 long", marks) == (3, "TK7, 40 OD, 30 long")
    for text in ("R24 x 6, 38 wide", "PL10 x 48, 60 ID", "TK7 x 3 x 40", "M20 x 60, bolts"):
        assert named_times(text, marks)[0] is None


def test_dashes_between_unlike_sizes_part_them() -> None:
    assert dashes_apart("dia 36 in - 72 in long - 5/16 thick") == "dia 36 in ; 72 in long ; 5/16 thick"
    for text in ("24 - 26 OD, 60 long", "48 OD - 1/16", "60 in - 62 in long", "cone - 30 high"):
        assert dashes_apart(text) == text


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("700 to inside skin", "700 inside"),
        ('24" dia over outside of metal', '24" OD'),
        ("30 in at centreline of plate, 12 wide", "30 in mean, 12 wide"),
        ("6 mm on inside", "6 mm on inside"),
        ("24 to 26 OD", "24 to 26 OD"),
        ("36 straight height", "36 height"),
    ],
)
def test_words_behind_a_size_say_to_which_face_it_is(text: str, plain: str) -> None:
    assert plain_sizes(text) == plain


def test_the_ends_of_a_cone_stand_at_top_and_bottom(tmp_path: Path) -> None:
    order = _mail(
        tmp_path,
        "K1: 2 pcs, top 20 ID, bottom 48 ID, 30 high straight up, 1/4 A36",
        "K2: 1 pc, transition 40 square to 24 round, 36 high, 3/16 A36",
    )
    assert [line.shape for line in order.lines] == [Cone(1219.2, 508.0, Basis.INSIDE, 762.0)]
    asked = [row for row in order.rows if row.state is State.QUESTION]
    assert len(asked) == 1, "a row with a mark like those of parts is no note"
    assert "large" not in plain_sizes("1/4 top, 3/8 bottom, 40 OD").lower()


@pytest.mark.parametrize(
    "text",
    [
        "120 degree saddle, 21 inch inside radius", "we have a new truck", "duct 20 high straight up",
        "channel shells", "weathering paint by others later", "bevelling done in our own shop",
    ],
)  # fmt: skip
def test_names_and_asides_are_no_doubt(text: str) -> None:
    assert not _said(text)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("we have the plate", "free_issue"), ("we have 3/8 A36", "free_issue"), ("channel ring", "shape"),
        ("weathering plate", "material"), ("cone, straight on the back", "eccentric"),
        ("60 long with 6 straight", "shape"), ("development to follow", "reference"),
    ],
)  # fmt: skip
def test_what_changes_a_part_still_stops_it(text: str, name: str) -> None:
    assert name in _said(text)


def test_barrels_and_drums_are_round() -> None:
    assert shape_words("exchanger channel barrels") == shape_words("drums") == {"shape": "cylinder"}


def test_a_clause_of_a_grade_and_a_size_is_the_plate_of_all(tmp_path: Path) -> None:
    order = _mail(
        tmp_path,
        "2 shells 48 ID x 60 long",
        "1 shell 30 ID x 20 long, .250 here",
        title="Tank, all in inches. A36, 3/8",
    )
    assert [line.thickness_mm for line in order.lines] == [pytest.approx(9.525), pytest.approx(6.35)]
    order = _mail(tmp_path, "2 shells 48 ID x 60 long", title="Tank, all in inches. A36 flange, 3/8")
    assert not order.lines
    order = _mail(tmp_path, "2 shells 48 ID x 60 long", title="Shells of A36, .1875 unless told, inches")
    assert [line.thickness_mm for line in order.lines] == [pytest.approx(4.7625)]


def test_a_remark_that_is_a_size_and_no_more_is_that_size(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "ID (in)", "Length (in)", "Material", "Note"]
    order = read_rows(
        tmp_path,
        ["A", "2", "48", "60", "A36", "use 1/2 plate"],
        ["B", "2", "30", "60", "A36", "pad 3/8 thk"],
        head=head,
    )
    assert [(line.part_no, line.thickness_mm) for line in order.lines] == [("A", 12.7)]


def test_a_note_that_deletes_a_line_by_its_number_leaves_it_out(tmp_path: Path) -> None:
    head = ["Seq", "Qty", "ID (in)", "Thk (in)", "Length (in)", "Material"]
    rows = (["1", "2", "48", "1/4", "60", "A36"], ["2", "2", "30", "1/4", "60", "A36"])
    order = read_rows(
        tmp_path, *rows, ["Seq 2 was cancelled by the client 10/2, please do not quote."], head=head
    )
    assert [line.id for line in order.lines] == ["1"]
    assert next(row for row in order.rows if row.number == "2").state is State.NO_QUOTE
    order = read_rows(tmp_path, *rows, ["Seq 2 may be cancelled."], head=head)
    assert [line.id for line in order.lines] == ["1"]
    assert next(row for row in order.rows if row.number == "2").state is State.QUESTION


@pytest.mark.parametrize("note", ["Verpackung entfällt, Abholung durch uns", "Anlieferung entfällt"])
def test_a_delivery_that_falls_away_cancels_no_line(tmp_path: Path, note: str) -> None:
    head = ["lfd. Nr.", "Menge", "Innendurchmesser", "Dicke", "Breite", "Werkstoff"]
    row = ["1", "2", "1200", "8", "1500", "304L"]
    assert read_rows(tmp_path, row, [note], head=head, title="Maße in mm").lines
    assert not read_rows(tmp_path, row, ["Auftrag entfällt"], head=head, title="Maße in mm").lines


def test_sets_in_the_cell_of_quantities_times_the_pieces_of_one(tmp_path: Path) -> None:
    head = ["SL", "Item", "Qty", "ID (mm)", "Thk (mm)", "Width (mm)", "Material"]
    order = read_rows(
        tmp_path,
        ["1", "Clamp ring, each set = 2 halves of 180 deg", "6 sets", "400", "8", "100", "A36"],
        ["2", "Clamp ring", "2 sets", "400", "8", "100", "A36"],
        head=head,
    )
    assert [(line.quantity, line.shape) for line in order.lines] == [
        (12, Arc(200.0, Basis.INSIDE, 180.0, 100.0))
    ]


def test_a_length_that_another_diameter_has_too_is_no_girth(tmp_path: Path) -> None:
    head = ["Item", "Qty", "OD (mm)", "Thk (mm)", "Length (mm)", "Material"]
    order = read_rows(
        tmp_path, ["1", "2", "450", "4", "1400", "A36"], ["2", "2", "700", "4", "1400", "A36"], head=head
    )
    assert [line.id for line in order.lines] == ["1", "2"]
    order = read_rows(
        tmp_path, ["1", "2", "450", "4", "1400", "A36"], ["2", "2", "700", "4", "900", "A36"], head=head
    )
    assert "1/length" in {one.id for one in order.questions}


def test_a_rolled_length_beside_a_diameter_is_along_the_axis(tmp_path: Path) -> None:
    row = ["3", "1010", "5", "1200", "A36"]
    order = read_rows(tmp_path, row, head=["Qty", "OD (mm)", "Thk (mm)", "Rolled length (mm)", "Material"])
    assert order.lines[0].shape == Cylinder(1010.0, Basis.OUTSIDE, 1200.0)
    head = ["Qty", "OD (mm)", "Thk (mm)", "Rolled length (mm)", "Width (mm)", "Material"]
    order = read_rows(tmp_path, [*row[:4], "500", "A36"], head=head)
    assert not any(line.shape == Cylinder(1010.0, Basis.OUTSIDE, 1200.0) for line in order.lines)


@pytest.mark.parametrize(
    ("charge", "out"), [("Packing & freight", True), ("Carriage to our yard", True), ("Freight car", False)]
)
def test_a_row_that_is_a_charge_is_no_part(tmp_path: Path, charge: str, out: bool) -> None:
    head = ["Item", "Qty", "Description", "ID (in)", "Thk (in)", "Length (in)", "Material"]
    row = ["2", "1", charge, "", "", "", ""]
    order = read_rows(tmp_path, ["1", "2", "shell", "48", "1/4", "60", "A36"], row, head=head)
    state = next(one for one in order.rows if one.number == "2").state
    assert (state is State.NO_QUOTE) == out
    sized = read_rows(tmp_path, ["2", "1", charge, "48", "1/4", "60", "A36"], head=head)
    assert sized.rows[-1].state is State.PRICED


def test_a_mail_in_spanish_says_long_and_round_by_name(tmp_path: Path) -> None:
    order = _mail(
        tmp_path, '6 tramos de ducto 20" x 48" de largo, placa 1/4"', '1 codo de gajos 90°, 20", placa 1/4"',
        title="Favor de cotizar: todo A36, medidas en pulgadas, diámetro interior",
    )  # fmt: skip
    assert [(line.quantity, line.shape) for line in order.lines] == [
        (6, Cylinder(508.0, Basis.INSIDE, 1219.2))
    ]
    elbow = next(row for row in order.rows if row.place.row == 3)
    assert elbow.state is not State.PRICED
