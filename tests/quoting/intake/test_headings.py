"""Headings that are no known phrase are read word by word; a column nobody understands is asked once."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Basis, Cylinder, Order, Place
from quoting.intake.answers import resolve
from quoting.intake.layout.columns import Meaning, meaning_of
from quoting.intake.read_orders import read_orders
from tests.quoting.intake.small_shop import TODAY, small_shop

INCH = 25.4


@pytest.mark.parametrize(
    ("header", "field", "basis"),
    [
        ("Qty. to be quoted", "quantity", None),
        ("Shell inside diameter, inches", "diameter", Basis.INSIDE),
        ("Length of shell along axis (in)", "length", None),
        ("Quanity", "quantity", None),
        ("Daimeter OD", "diameter", Basis.OUTSIDE),
        ("Lenght", "length", None),
        ("Materail", "material", None),
        ("Ø-innen", "diameter", Basis.INSIDE),
        ("Mantellg.", "length", None),
        ("Kundenwunschtermin", "due", None),
        ("Innerdiameter", "diameter", Basis.INSIDE),
        ("Plåttjocklek", "thickness", None),
        ("Épaisseur tôle (mm)", "thickness", None),
        ("Staalsoort", "material", None),
        ("Qty / tank", "per_unit", None),
        ("Wall height", "height", None),
        ("Qty 2", "breaks", None),
    ],
)
def test_a_heading_is_read_word_by_word(header: str, field: str, basis: Basis | None) -> None:
    assert (meaning_of(header).field, meaning_of(header).basis) == (field, basis)


@pytest.mark.parametrize(
    "header",
    [
        "Flange OD",
        "Bolt circle dia",
        "Lining thickness",
        "Crate width",
        "Paint system",
        "ID x OD",
        "Colour code",
    ],
)
def test_a_size_of_something_else_is_no_size_of_the_part(header: str) -> None:
    assert meaning_of(header).field == ""


def test_a_word_not_understood_beside_a_size_is_remembered() -> None:
    assert meaning_of("Net length") == Meaning("length", sure=False)
    assert meaning_of("Shell length").sure


def _odd(tmp_path: Path, *rows: str) -> Order:
    file = tmp_path / "order.csv"
    file.write_text("\n".join(rows))
    return read_orders(file, small_shop(), today=TODAY)


def odd_length(tmp_path: Path) -> Order:
    """Return an order whose lengths stand under a heading that nobody knows."""
    return _odd(tmp_path, "Mark,Off,OD in,Plate in,Zeug,Grade", "A,2,48,1/4,60,A36", "B,1,50,1/4,72,A36")


def test_an_unknown_column_is_one_question_and_no_refusal(tmp_path: Path) -> None:
    order = odd_length(tmp_path)
    (asked,) = (one for one in order.questions if one.blocking)
    assert asked.text == 'Column E is headed "Zeug" and holds 60, 72: is it the length?'
    assert asked.place == Place("order.csv", "order", 1, "E", "Zeug")
    assert not order.lines


@pytest.mark.parametrize(
    "answer",
    [
        "the length", "length", "Length.", "it is the overall length", "LG", "that's the length",
        "yes, length", "shell length", "long", "length in inches", "The finished length please", "cut length",
    ],
)  # fmt: skip
def test_any_natural_answer_is_taken_for_all_lines(tmp_path: Path, answer: str) -> None:
    order = odd_length(tmp_path)
    (asked,) = (one for one in order.questions if one.blocking)
    shapes = [line.shape for line in resolve(order, {asked.id: answer}, small_shop()).lines]
    lengths = [shape.length_mm for shape in shapes if isinstance(shape, Cylinder)]
    assert lengths == pytest.approx([60 * INCH, 72 * INCH])
    assert {shape.basis for shape in shapes} == {Basis.OUTSIDE}


def test_a_column_that_is_nothing_leaves_the_length_open(tmp_path: Path) -> None:
    order = odd_length(tmp_path)
    (asked,) = (one for one in order.questions if one.blocking)
    left = resolve(order, {asked.id: "ignore it"}, small_shop())
    assert not left.lines
    assert all("How long" in one.text for one in left.questions if one.line and one.blocking)


def test_cells_tell_what_an_unknown_heading_cannot(tmp_path: Path) -> None:
    order = _odd(
        tmp_path,
        "Mark,Off,Dia in,Seite,Plate in,Lg in,Ztyp",
        "A,2,48,inside,1/4,60,A36",
        "B,1,50,outside,1/4,72,A36",
    )
    assert [line.shape.basis for line in order.lines] == [Basis.INSIDE, Basis.OUTSIDE]
    assert {line.material for line in order.lines} == {"A36"}
