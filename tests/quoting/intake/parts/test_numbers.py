"""Numbers as buyers write them, alone and with what stands beside them."""

from __future__ import annotations

import pytest

from quoting.core import NumberStyle
from quoting.intake.parts.marks import plain_signs
from quoting.intake.parts.pieces import Writing, pieces_of
from quoting.intake.parts.snippet import Kind


def numbers(
    text: str, style: NumberStyle = NumberStyle.POINT, *, inch: bool = False
) -> list[tuple[float, str]]:
    pieces = pieces_of(text, Writing(style, inch))
    assert pieces is not None
    return [(round(one.value, 4), one.unit) for one in pieces if one.kind is Kind.NUMBER]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("7'-11 3/4\"", [(95.75, "in")]),
        ("11'-3 3/16", [(135.1875, "in")]),
        ("16'-0 OD", [(192.0, "in")]),
        ("8 ft tall", [(96.0, "in")]),
        ("8 ft 3/8 plate", [(96.0, "in"), (0.375, "in")]),
        ("5 ft 6 in", [(66.0, "in")]),
        ("47½\" Ø", [(47.5, "in")]),
        ("1-1/2 x 48", [(1.5, "in"), (48.0, "")]),
        (".250W", [(0.25, "")]),
        ("96.25; 36.0L", [(96.25, ""), (36.0, "")]),
        ("3m20", [(3200.0, "mm")]),
        ("2,4 m", [(2400.0, "mm")]),
        ("10 ga", [(10.0, "ga")]),
        ("60°", [(60.0, "deg")]),
        ("24\" NPS", [(24.0, "NPS")]),
        ("DN 600", [(600.0, "DN")]),
        ("长度6米", [(6000.0, "mm")]),
    ],
)  # fmt: skip
def test_a_number_is_read_with_its_unit(text: str, found: list[tuple[float, str]]) -> None:
    assert numbers(text) == found


@pytest.mark.parametrize(
    "text",
    [
        "2 off",
        "3 pcs",
        "8/set",
        "(4)",
        "x2",
        "CAN-07",
        "S355J2",
        "1.4301",
        "grade 350",
        "450 kg",
        "+/-3",
        "qty 6",
    ],
)
def test_a_number_that_is_no_size_is_none(text: str) -> None:
    assert numbers(text) == []


def test_a_sign_before_three_digits_is_told_by_the_size_where_the_file_does_not_tell() -> None:
    assert numbers("ID 1,250", NumberStyle.UNKNOWN) == [(1250.0, "")]
    assert numbers("96.250", NumberStyle.UNKNOWN, inch=True) == [(96.25, "")]
    assert pieces_of("L 12,500", Writing(NumberStyle.UNKNOWN, inch=False)) is None


def test_a_fraction_of_millimetres_is_not_clear() -> None:
    assert pieces_of("3/8 mm", Writing(NumberStyle.POINT, inch=False)) is None


def test_plain_signs_keep_every_place() -> None:
    text = "Épaisseur ⅜″ × Ø1 200 – Ł"
    assert len(plain_signs(text)) == len(text)


@pytest.mark.parametrize(
    "text", ["Zarge 1, ID 1800, 8 thk", "can 1 of tower: ID 1800 x 8 thk", "02 / ID 1800 / t 8"]
)
def test_the_number_of_a_name_is_no_size(text: str) -> None:
    assert [value for value, _ in numbers(text)] == [1800.0, 8.0]
