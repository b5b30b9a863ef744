"""What a title or a note says of all parts: sets, halves, degrees, plate, side, counts; and of one mark."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Arc, Basis, Cylinder, InputError, State
from quoting.intake.layout import facts_in
from tests.quoting.intake.sheets import read_rows


@pytest.mark.parametrize(
    ("text", "pieces", "halves"),
    [
        ("Each set is made up of 2 half rounds", 2, True),
        ("one pair = two halves", 2, True),
        ("4 segments per set", 4, False),
        ("3 plates make a set", 3, False),
        ("Set 2 of 5", 0, False),
        ("We need 6 sets", 0, False),
    ],
)
def test_what_one_set_is(text: str, pieces: int, halves: bool) -> None:
    assert (facts_in(text).of_set, facts_in(text).halves) == (pieces, halves)


def test_sets_of_halves_are_counted_and_bent_by_what_the_title_says(tmp_path: Path) -> None:
    head = ["Item", "No. of sets", "ID", "Thk", "Length", "Grade", "Remarks"]
    rows = [
        ["1", "4", '40"', '1/4"', '60"', "A36", "split along the length"],
        ["2", "1", '36"', '1/4"', '60"', "A36", ""],
    ]
    order = read_rows(tmp_path, *rows, head=head, title="Kiln covers. Each set is 2 half shells.")
    assert [line.quantity for line in order.lines] == [8, 2]
    assert [isinstance(line.shape, Arc) and line.shape.angle_deg for line in order.lines] == [180, 180]


def test_sets_that_nobody_explains_are_asked_about(tmp_path: Path) -> None:
    head = ["Item", "No. of sets", "ID", "Thk", "Length", "Grade"]
    with pytest.raises(InputError, match="quantity"):
        read_rows(tmp_path, ["1", "4", '40"', '1/4"', '60"', "A36"], head=head)


@pytest.mark.parametrize(
    ("text", "angle"),
    [
        ("all rolled to half rounds", 0),
        ("All items are half pipes, primed", 180),
        ("everything 180 deg", 180),
        ("All parts 60° segments", 60),
        ("each 45 deg", 0),
        ("all half shells go to the yard", 0),
        ("qty counted in half shells", 180),
        ("all bevels 30 deg", 0),
    ],
)
def test_degrees_of_all_parts(text: str, angle: int) -> None:
    assert facts_in(text).angle == angle


def test_a_count_of_halves_makes_no_whole_rings(tmp_path: Path) -> None:
    head = ["Mark", "Halves", "ID", "Thk", "Length", "Grade"]
    order = read_rows(tmp_path, ["B1", "6", '40"', '1/4"', '60"', "A36"], head=head)
    assert all(isinstance(line.shape, Arc) and line.shape.angle_deg == 180 for line in order.lines)
    head[1] = "Qty"
    ring = read_rows(tmp_path, ["B1", "6", '40"', '1/4"', '60"', "A36"], head=head)
    assert all(isinstance(line.shape, Cylinder) for line in ring.lines)


@pytest.mark.parametrize("whole", ["full ring", "360 deg"])
def test_a_row_that_is_a_whole_ring_stays_one(tmp_path: Path, whole: str) -> None:
    head = ["Mark", "Qty", "OR", "Thk", "Length", "Grade", "Remarks"]
    row = ["B1", "6", '20"', '1/4"', '60"', "A36", whole]
    order = read_rows(tmp_path, row, head=head, title="All parts are half shells")
    assert not any(isinstance(line.shape, Arc) and line.shape.angle_deg == 180 for line in order.lines)


@pytest.mark.parametrize(
    ("title", "material", "thick"),
    [
        ("Hopper wear strips from 3/8 A36 plate", "A36", 9.525),
        ("AR400, 3/8", "AR400", 9.525),
        ("Aluminum 4 mm, 5052", "5052-H32", 4.0),
        ("Plate: A36 1/4 in", "A36", 6.35),
    ],
)
def test_plate_of_a_title_is_that_of_all_lines(
    tmp_path: Path, title: str, material: str, thick: float
) -> None:
    head = ["Mark", "Qty", "OD", "Length"]
    order = read_rows(tmp_path, ["B1", "6", '40"', '60"'], head=head, title=title)
    assert [(line.material, round(line.thickness_mm, 3)) for line in order.lines] == [(material, thick)]


def test_plate_beside_a_condition_is_not_taken(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "OD", "Length"]
    title = "Stock on hand: A36 3/8 maybe some 1/2"
    with pytest.raises(InputError, match="thickness"):
        read_rows(tmp_path, ["B1", "6", '40"', '60"'], head=head, title=title)


def test_a_side_alone_in_a_title_is_that_of_its_table(tmp_path: Path) -> None:
    assert facts_in("RINGS - outside").basis is Basis.OUTSIDE
    assert facts_in("Cans, inside").basis is Basis.INSIDE
    for other in ("Wear liners - inside", "red paint, outside", "ladder rungs - inside", "dock 4, inside"):
        assert facts_in(other).basis is None
    rows = [
        ["A1", "2", "40", "1/4", "60", "A36"],
        [],
        ["DRUMS"],
        ["Mark", "Qty", "Dia (in)", "Thk (in)", "Length (in)", "Grade"],
        ["D1", "2", "44", "1/4", "60", "A36"],
    ]
    head = ["Mark", "Qty", "Dia (in)", "Thk (in)", "Length (in)", "Grade"]
    order = read_rows(tmp_path, *rows, head=head, title="SHELLS - outside")
    assert [(line.part_no, line.shape.basis) for line in order.lines] == [("A1", Basis.OUTSIDE)]


@pytest.mark.parametrize(
    "text",
    [
        "Quantities are for the whole job, 4 tanks",
        "4 vessels, qty listed not per vessel",
        "Stückzahlen nicht je Behälter, 4 Behälter",
    ],
)
def test_counts_that_are_not_for_one_are_for_all(text: str) -> None:
    facts = facts_in(text)
    assert facts.in_all
    assert not facts.per_set


def test_counts_for_one_are_still_for_one() -> None:
    assert facts_in("qty per tank, 3 tanks").per_set
    assert not facts_in("price for the lot, qty below").in_all


def test_a_note_that_begins_with_a_mark_is_about_that_part(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "ID", "Thk", "Length", "Grade"]
    rows = [[f"W{n}", "2", f'{40 + n}"', '1/4"', '60"', "A36"] for n in (1, 2, 3)]
    order = read_rows(tmp_path, *rows, ["W2 to be held, drawing not approved"], head=head)
    assert [line.part_no for line in order.lines] == ["W1", "W3"]


def test_a_note_about_all_that_names_a_mark_still_stops_all(tmp_path: Path) -> None:
    head = ["Mark", "Qty", "ID", "Thk", "Length", "Grade"]
    rows = [[f"W{n}", "2", f'{40 + n}"', '1/4"', '60"', "A36"] for n in (1, 2)]
    order = read_rows(tmp_path, *rows, ["all parts like W2 on hold"], head=head)
    assert order.lines == ()


def test_bought_parts_are_told_as_such(tmp_path: Path) -> None:
    head = ["Item", "Description", "Qty", "ID", "Thk", "Length", "Grade"]
    rows = [
        ["1", "shell", "2", '40"', '1/4"', '60"', "A36"],
        ["2", "Hex bolts M20", "48", "", "", "", "8.8"],
        ["3", "bolt ring", "2", "", "", "", "A36"],
    ]
    order = read_rows(tmp_path, *rows, head=head)
    assert [(row.number, row.state) for row in order.rows if row.number] == [
        ("1", State.PRICED), ("2", State.NO_QUOTE), ("3", State.QUESTION),
    ]  # fmt: skip


def test_a_bought_name_with_sizes_to_roll_is_no_bought_part(tmp_path: Path) -> None:
    head = ["Item", "Description", "Qty", "ID", "Thk", "Length", "Grade"]
    order = read_rows(tmp_path, ["1", "bearing", "2", '40"', '1/4"', '6"', "A36"], head=head)
    assert [row.state for row in order.rows if row.number] != [State.NO_QUOTE]


@pytest.mark.parametrize(
    ("text", "side"),
    [
        ("Stack, OD'S SHOWN", Basis.OUTSIDE),
        ("radius is to inside of trough", Basis.INSIDE),
        ("all rad to I.S.", Basis.INSIDE),
        ("Conussen (hartmaten = neutrale lijn)", Basis.MEAN),
        ("plate to I.S. 2062", None),
    ],
)
def test_a_side_that_a_title_or_note_gives(text: str, side: Basis | None) -> None:
    assert facts_in(text).basis is side


@pytest.mark.parametrize(
    ("title", "thick"),
    [
        ("Stack section 6 mm A36, dims in mm", 6),
        ("Blech A36 6 mm", 6),
        ("Pads for 12 mm shell, A36", 0),
        ("for 10 mm A36 tank", 0),
        ("8 mm fillet welds, A36", 0),
        ("A36 plates with 5 mm protective film", 0),
        ("old shell was 8 mm A36", 0),
    ],
)
def test_a_plate_that_a_title_names_and_one_of_another_part(tmp_path: Path, title: str, thick: float) -> None:
    head = ["Mark", "ID mm", "Length mm", "Qty"]
    try:
        order = read_rows(tmp_path, ["P1", "900", "1500", "2"], head=head, title=title)
    except InputError:
        assert not thick
    else:
        assert {line.thickness_mm for line in order.lines} == ({thick} if thick else set())
