"""Sizes as people write them, and back."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quoting.core import (
    MM_PER_INCH,
    Basis,
    Mark,
    Measure,
    NumberStyle,
    SizeError,
    Unit,
    format_length,
    format_weight,
    parse_length,
    parse_measure,
    parse_measures,
)
from tests.quoting.core.measure_text import format_measure


@pytest.mark.parametrize(
    ("text", "number", "unit"),
    [
        ("1/4", 0.25, None),
        (".25", 0.25, None),
        ('0.25"', 0.25, Unit.INCH),
        ("1-1/2", 1.5, None),
        ('1 1/2"', 1.5, Unit.INCH),
        ("1 - 1/2", 1.5, None),
        ("1½", 1.5, None),
        ("１／４", 0.25, None),
        ("5'-6 1/2\"", 66.5, Unit.INCH),
        ("5' 6", 66.0, Unit.INCH),
        ("5′6″", 66.0, Unit.INCH),
        ("5 ft 6 in", 66.0, Unit.INCH),
        ("5.5'", 66.0, Unit.INCH),
        ("12'-0", 144.0, Unit.INCH),
        ("66.5", 66.5, None),
        ("6mm", 6.0, Unit.MM),
        ("1 500 mm", 1500.0, Unit.MM),
        ("1.5 m", 1.5, Unit.M),
        ("48''", 48.0, Unit.INCH),
        ("10 ga", 10.0, Unit.GAUGE),
        ("#10", 10.0, Unit.GAUGE),
        ("DN600", 600.0, Unit.DN),
        ("NPS 24", 24.0, Unit.NPS),
        ("90°", 90.0, Unit.DEGREE),
    ],
)
def test_a_size_is_read_with_its_unit(text: str, number: float, unit: Unit | None) -> None:
    size = parse_measure(text)
    assert (size.low, size.high, size.unit) == (number, number, unit)


@pytest.mark.parametrize(
    ("text", "mark", "basis"),
    [
        ("48 OD", Mark.DIAMETER, Basis.OUTSIDE),
        ('48" O.D.', Mark.DIAMETER, Basis.OUTSIDE),
        ("ID 48", Mark.DIAMETER, Basis.INSIDE),
        ("Ø48", Mark.DIAMETER, None),
        ("48 dia.", Mark.DIAMETER, None),
        ("R24", Mark.RADIUS, None),
        ('24" IR', Mark.RADIUS, Basis.INSIDE),
        ("C/L 24 R", Mark.RADIUS, Basis.MEAN),
        ("6 THK", Mark.THICKNESS, None),
        ("3/16 PL", Mark.THICKNESS, None),
        ("10GA HR", Mark.THICKNESS, None),
        ("12'-0\" LONG", Mark.LENGTH, None),
        ('24" pipe', Mark.DIAMETER, None),
        ("DN600", Mark.DIAMETER, Basis.OUTSIDE),
    ],
)
def test_marks_tell_what_a_number_measures(text: str, mark: Mark, basis: Basis | None) -> None:
    size = parse_measure(text)
    assert (size.mark, size.basis) == (mark, basis)


def test_a_plate_call_out_is_three_sizes() -> None:
    sizes = parse_measures("PL 1/2 x 60 x 12'-0")
    assert [size.to_mm(inch=True) / MM_PER_INCH for size in sizes] == [0.5, 60.0, 144.0]
    assert sizes[0].mark is Mark.THICKNESS


@pytest.mark.parametrize("text", ["24 +1/8 -0", "24 +1/8/-0", "24 -0 +1/8", "24 +.125 -.0"])
def test_tolerances_keep_the_nominal_size(text: str) -> None:
    size = parse_measure(text)
    assert (size.low, size.plus, size.minus) == (24.0, 0.125, 0.0)


def test_a_range_keeps_both_ends() -> None:
    assert (parse_measure("10-12").low, parse_measure("10 to 12 mm").high) == (10.0, 12.0)
    assert parse_measure("10-12").is_range


@pytest.mark.parametrize(
    ("text", "style", "number"),
    [
        ("1,500", NumberStyle.POINT, 1500.0),
        ("1,500", NumberStyle.COMMA, 1.5),
        ("1.500", NumberStyle.COMMA, 1500.0),
        ("1.234,5", NumberStyle.UNKNOWN, 1234.5),
        ("1,234.5", NumberStyle.UNKNOWN, 1234.5),
        ("12,5", NumberStyle.UNKNOWN, 12.5),
        ("1.234.567", NumberStyle.POINT, 1234567.0),
    ],
)
def test_number_forms_of_both_sides_of_the_ocean(text: str, style: NumberStyle, number: float) -> None:
    assert parse_measure(text, style).low == number


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("6 foo", "foo"),
        ("48 id od", "od"),
        ("4/1", "1"),
        ("1200/600", "600"),
        ("48/24", "24"),
        ("5/4", "5"),
        ("5'-13\"", "13"),
        ("12-0", "-"),
        ("48 -1/8", "-"),
        ("1 500", "500"),
        ("10 GA 304", "304"),
        ("approx 6", "approx"),
        ("48x", ""),
        ("", ""),
        ("24 $", "$"),
    ],
)
def test_the_part_that_was_not_understood_is_pointed_at(text: str, part: str) -> None:
    with pytest.raises(SizeError) as caught:
        parse_measures(text)
    assert caught.value.text[caught.value.start : caught.value.end] == part


def test_one_comma_and_three_digits_is_not_guessed() -> None:
    with pytest.raises(SizeError, match="decimal mark or mark thousands"):
        parse_measure("1,500", NumberStyle.UNKNOWN)


def test_a_bare_gauge_has_no_thickness() -> None:
    with pytest.raises(ValueError, match="10 ga has no metal"):
        parse_measure("10 ga").to_mm(inch=True)
    assert parse_measure("10 ga galv").to_mm(inch=True) == pytest.approx(0.1382 * 25.4)
    assert parse_measure("10 ga").to_mm(inch=True, gauge_table="steel") == pytest.approx(0.1345 * 25.4)


def test_plain_lengths_only() -> None:
    assert parse_length("6 mm", inch=True) == 6
    for text in ("10 ga", "10-12", "24 +1 -0", "DN600", "2 x 4"):
        with pytest.raises(SizeError):
            parse_length(text, inch=True)


@pytest.mark.parametrize(
    ("inches", "text"),
    [
        (0.25, '1/4"'),
        (1.5, '1-1/2"'),
        (0.188, '3/16"'),
        (0.1345, '0.1345"'),
        (73.827, '73.827"'),
        (48, '48"'),
    ],
)
def test_inches_as_the_shop_reads_them(inches: float, text: str) -> None:
    assert format_length(inches * MM_PER_INCH, inch=True) == text


def test_feet_and_inches_carry_over() -> None:
    assert format_length(143.9999 * MM_PER_INCH, inch=True, feet=True) == "12'-0\""
    assert format_length(66.5 * MM_PER_INCH, inch=True, feet=True) == "5'-6-1/2\""
    assert format_length(11.5 * MM_PER_INCH, inch=True, feet=True) == '11-1/2"'


def test_metric_and_weights() -> None:
    assert format_length(1836.584, inch=False) == "1836.58 mm"
    assert format_length(6, inch=False, mark=False) == "6"
    assert format_weight(1000, inch=True) == "2,205 lb"


_numbers = st.integers(1, 9_999_999).map(lambda number: number / 1000)


@given(st.integers(1, 64 * 400), st.booleans())
def test_writing_a_64th_and_reading_it_back_is_the_identity(sixty_fourths: int, feet: bool) -> None:
    mm = sixty_fourths / 64 * MM_PER_INCH
    assert parse_length(format_length(mm, inch=True, feet=feet), inch=True) == pytest.approx(mm, abs=1e-9)


@given(_numbers)
def test_any_length_comes_back_within_a_thousandth_of_an_inch(mm: float) -> None:
    assert parse_length(format_length(mm, inch=True), inch=True) == pytest.approx(mm, abs=0.001 * 25.4)
    assert parse_length(format_length(mm, inch=True, feet=True), inch=True) == pytest.approx(mm, abs=0.0254)
    assert parse_length(format_length(mm, inch=False), inch=True) == pytest.approx(mm, abs=0.00501)


@st.composite
def measures(draw: st.DrawFn) -> Measure:
    unit = draw(st.sampled_from([None, Unit.MM, Unit.CM, Unit.M, Unit.INCH]))
    low = draw(_numbers)
    high = round(low + draw(_numbers), 3) if draw(st.booleans()) else low
    mark, basis = draw(
        st.sampled_from(
            [
                (None, None),
                (Mark.THICKNESS, None),
                (Mark.LENGTH, None),
                *((mark, basis) for mark in (Mark.DIAMETER, Mark.RADIUS) for basis in (None, *Basis)),
            ]
        )
    )
    plus, minus = draw(st.sampled_from([(None, None), (0.125, 0.0), (0.5, 0.25), (1.5, None)]))
    return Measure(low, high, unit, mark, basis, plus=plus, minus=minus)


@given(measures())
def test_writing_a_measure_and_reading_it_back_is_the_identity(measure: Measure) -> None:
    found = parse_measure(format_measure(measure))
    for name in ("low", "high", "unit", "mark", "basis", "plus", "minus"):
        assert getattr(found, name) == getattr(measure, name)


@given(st.integers(3, 30), st.sampled_from(["", "steel", "galvanized", "stainless", "aluminium"]))
def test_gauges_come_back(number: int, metal: str) -> None:
    measure = Measure(number, number, Unit.GAUGE, Mark.THICKNESS, metal=metal)
    found = parse_measure(format_measure(measure))
    assert (found.low, found.unit, found.metal) == (number, Unit.GAUGE, metal)


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_with_a_place(text: str) -> None:
    refused: SizeError | None = None
    sizes: tuple[Measure, ...] = ()
    try:
        sizes = parse_measures(text)
    except SizeError as error:
        refused = error
    assert all(size.low <= size.high for size in sizes)
    assert refused is None or 0 <= refused.start <= refused.end <= len(refused.text)
