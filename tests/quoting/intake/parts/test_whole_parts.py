"""Texts that hold a whole part: in any order of sizes and marks they are read as one part or not at all."""

from __future__ import annotations

from itertools import permutations
from math import pi
from pathlib import Path

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import Arc, Basis, Cylinder, NumberStyle, Order
from quoting.intake.parts.pieces import Writing
from quoting.intake.parts.rewritten import rewritten
from quoting.intake.read_orders import read_orders
from tests.benchmarks.intake_reader import grading_shop
from tests.data.sheet_model import TODAY

MM = Writing(NumberStyle.POINT, inch=False)
MARKS = {
    "D": ["ID {}", "{} ID", "inside dia {}", "{} i/d", "Ø int {}", "bore {}", "Innendurchmesser {}"],
    "T": ["{} thk", "t={}", "wall {}", "{} wt", "ép. {}", "thickness {}"],
    "L": ["{} long", "L={}", "{} lg", "length {}", "Länge {}", "h {}"],
}


def sizes(text: str, writing: Writing = MM) -> dict[str, float] | None:
    found = rewritten(text, writing)
    return None if found is None else {one.field: round(one.value, 2) for one in found.sizes}


@given(
    st.integers(300, 4000),
    st.integers(3, 60),
    st.integers(300, 3000),
    st.permutations("DTL"),
    st.tuples(*(st.integers(0, len(MARKS[name]) - 1) for name in "DTL")),
    st.sampled_from([" x ", ", ", "; ", " ", "\n", " - "]),
)
def test_marked_sizes_are_read_in_any_order_or_not_at_all(
    diameter: int, thick: int, length: int, order: list[str], marks: tuple[int, int, int], between: str
) -> None:
    values = {"D": diameter, "T": thick, "L": length}
    said = {name: MARKS[name][at].format(values[name]) for name, at in zip("DTL", marks, strict=True)}
    found = sizes("shell " + between.join(said[name] for name in order))
    if found is not None:
        across = found.pop("H", None) or found.pop("L")
        assert (found, across) == ({"D": diameter, "T": thick}, length)


@given(st.integers(300, 4000), st.integers(3, 40), st.integers(500, 3000), st.permutations(range(3)))
def test_a_flat_plate_that_goes_round_its_diameter_is_told_by_its_length(
    diameter: int, thick: int, width: int, order: list[int]
) -> None:
    girth = round(pi * diameter)
    if abs(girth - width) < 0.05 * girth:
        return
    plate = " x ".join(str((thick, width, girth)[at]) for at in order)
    found = sizes(f"plate {plate} rolled to {diameter} mean")
    assert found == {"D": diameter, "T": thick, "L": width, "G": girth}


@pytest.mark.parametrize("order", list(permutations(["1200 ID", "8 thk", "1500"])))
def test_a_number_without_a_mark_is_what_is_missing(order: tuple[str, ...]) -> None:
    assert sizes("shell " + " x ".join(order)) == {"D": 1200, "T": 8, "L": 1500}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("cone 900/450 inside, 700 high, 6 thk", {"D": 450, "H": 700, "T": 6}),
        ("Ring circumference 3770 outside 75 wide x 12 thk", {"D": 1200.03, "W": 75, "T": 12}),
        ("Pl 12 x 600 wide, chord 1400 inside, rise 210", {"T": 12, "W": 600, "C": 1400, "S": 210}),
        ("1/3 shell seg ID 2400, 900 wide, 10 thk", {"D": 2400, "W": 900, "T": 10, "A": 120}),
        ("6x900 fi wewn. 1200", {"T": 6, "L": 900, "D": 1200}),
    ],
)
def test_what_is_no_plain_cylinder(text: str, found: dict[str, float]) -> None:
    assert sizes(text) == found


@pytest.mark.parametrize(
    "text",
    [
        "halfshell for 508 pipe (outside), 12 thk, 300 wide",  # the size of another part
        "cyl 32 thk ID 2100 L 1475 edge prep 30deg",  # degrees of a bevel
        "1200 ID x 1250 OD x 1500 x 8",  # two sides
        "1200 x 1500 x 2000 x 8",
        "rolled ring 60 ID x 3/4 thk",
        "shell ID 1200 x 8 thk x 9 thk x 1500",
        "half shells f. Rohr DN 300, 8 thk, 200 wide",
        "band for pipe OD 508, 12 thk, 300 wide",
        "cone ID 1200, ID 600, 60 deg, 800 high, 8",
        "Ø est/int 1060/1020/980, 700 long",
    ],
)
def test_what_is_not_clear_is_left(text: str) -> None:
    assert rewritten(text, MM) is None


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ('ID 60" (1524mm) x 3/8" (9.5mm) x 72" (1829mm) lg', {"D": 1524.0, "T": 9.52, "L": 1828.8}),
        ('1524 mm / 60" ID x 10 x 72" long', {"D": 1524.0, "T": 10.0, "L": 1828.8}),
        ("450NB x 10 thk x 1000", {"D": 457.2, "T": 10.0, "L": 1000.0}),
        ("virola Øest/Øint 1060/1020 x 700 long", {"D": 1060.0, "T": 20.0, "L": 700.0}),
        ("bottom cone ID 2400 > ID 300, 60 deg incl., 8 thk", {"D": 300.0, "A": 60.0, "T": 8.0}),
        ("Ri 3000, Abw. 2500, breit 1000, t 10", {"R": 3000.0, "B": 2500.0, "W": 1000.0, "T": 10.0}),
        ("vaippa, ulkokehä 3141.593, korkeus 1000, levy 8", {"D": 1000.0, "H": 1000.0, "T": 8.0}),
        ("reducer conc. OD 610 - OD 406 x 5 height 510", {"D": 406.0, "T": 5.0, "H": 510.0}),
        ("shell 40mm, i.dia 3600, w = 1500, approx 5.4t", {"T": 40.0, "D": 3600.0, "W": 1500.0}),
        ("strake 1450 ID x 1000 x 3", {"D": 1450.0, "L": 1000.0, "T": 3.0}),
        (
            "plate chord 1000, rise 120 (both inside), 500 wide, 6 thk",
            {"C": 1000.0, "S": 120.0, "W": 500.0, "T": 6.0},
        ),
        ("mitja canya radi int. 150, gruix 4, llarg 2 m", {"R": 150.0, "T": 4.0, "L": 2000.0, "A": 180.0}),
    ],
)
def test_sizes_that_are_said_twice_nominally_or_in_one_word(text: str, found: dict[str, float]) -> None:
    assert sizes(text) == found


def order_of(folder: Path, *cells: str) -> Order:
    book = openpyxl.Workbook()
    assert book.active is not None
    for row in (["All dimensions in mm"], ["Item", "Description", "Qty", "Material"]):
        book.active.append(row)
    for number, cell in enumerate(cells, 1):
        book.active.append([number, cell, 1, "S235JR"])
    book.save(folder / "order.xlsx")
    return read_orders(folder / "order.xlsx", grading_shop(), today=TODAY)


def test_a_row_that_left_its_sizes_open_says_how_its_text_was_read(tmp_path: Path) -> None:
    text = "Vat side\n4mm\nInt dia 2250\nHeight 1500"
    order = order_of(tmp_path, text)
    assert not [one for one in order.questions if one.blocking]
    (line,) = order.lines
    assert line.shape == Cylinder(2250.0, Basis.INSIDE, 1500.0)
    assert line.description == " ".join(text.split())
    assert any("is read as" in said and "ID 2250" in said for said in line.assumptions)


def test_two_whole_readings_that_differ_are_asked_about(tmp_path: Path) -> None:
    order = order_of(tmp_path, "Quart de virole 12x750 rayon intérieur 1000mm S275")
    assert not order.lines
    (asked,) = (one for one in order.questions if "two ways" in one.text)
    assert "can be read in two ways: radius 750 mm, length 1000 mm; or radius 1000 mm" in asked.text
    assert [dict(choice.fields)["radius"] for choice in asked.choices] == ["750", "1000"]


def test_half_of_a_shell_stays_half(tmp_path: Path) -> None:
    order = order_of(
        tmp_path, "Meia-virola Ø ext. 1320, ch 16, larg 1200", "virola esp. 10 Ø ext. 1200 alt. 900"
    )
    assert isinstance(order.lines[0].shape, Arc)


def test_a_comma_of_chinese_parts_no_digits_and_the_number_of_a_line_is_no_thickness(tmp_path: Path) -> None:
    (line,) = order_of(tmp_path, "1. 筒节 内径φ1200×1500×10，2件").lines or (None,)
    assert line is None or line.thickness_mm == 10.0
