"""Pipe sizes with a schedule: outside diameter and wall by the tables of ASME B36.10M and B36.19M."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Basis, Cylinder
from quoting.intake.answers import resolve
from tests.quoting.intake.sheets import read_rows
from tests.quoting.intake.small_shop import small_shop

INCH = 25.4
HEAD = ["Item", "Qty", "Pipe size", "Sch", "Length (in)", "Material"]


@pytest.mark.parametrize(
    ("size", "schedule", "outside_in", "wall_mm"),
    [
        ('24"', "STD", 24, 9.53),
        ("NPS 24", "XS", 24, 12.7),
        ('20" NPS', "20", 20, 9.53),
        ("12", "Sch 40S", 12.75, 9.53),
        ("16", "Sch. 30", 16, 9.53),
        ('30"', "std wt", 30, 9.53),
    ],
)
def test_a_column_of_pipe_sizes(
    tmp_path: Path, size: str, schedule: str, outside_in: float, wall_mm: float
) -> None:
    (line,) = read_rows(tmp_path, ["1", "2", size, schedule, "48", "A36"], head=HEAD).lines
    assert isinstance(line.shape, Cylinder)
    assert line.shape.diameter_mm == pytest.approx(outside_in * INCH)
    assert line.shape.basis is Basis.OUTSIDE
    assert line.thickness_mm == wall_mm
    assert any("ASME B36.10M" in text for text in line.assumptions)


@pytest.mark.parametrize(
    "text",
    [
        '24" XS pipe, 48" long', '24" sch XS x 48" lg', 'NPS 24 XS x 48" long', 'pipe DN600 XS 48" long',
        'XS 24" pipe, 48" long',
    ],
)  # fmt: skip
def test_a_pipe_in_words(tmp_path: Path, text: str) -> None:
    head = ["Item", "Qty", "Description", "Material"]
    (line,) = read_rows(tmp_path, ["1", "2", text, "A36"], head=head).lines
    assert isinstance(line.shape, Cylinder)
    assert (line.shape.diameter_mm, line.shape.length_mm) == pytest.approx((24 * INCH, 48 * INCH))
    assert line.shape.basis is Basis.OUTSIDE
    assert line.thickness_mm == 12.7


def test_a_schedule_that_the_pipe_does_not_have_is_asked(tmp_path: Path) -> None:
    order = read_rows(tmp_path, ["1", "2", "NPS 26", "40", "48", "A36"], head=HEAD)
    assert not order.lines
    assert any("schedule" in one.text and "wall thickness" in one.text for one in order.questions)


def test_a_schedule_beside_a_plain_size_offers_the_pipe(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Dia", "Wall", "Length (in)", "Material"]
    order = read_rows(tmp_path, ["1", "2", "26 pipe", "sch 20", "48", "A36"], head=head)
    (asked,) = (one for one in order.questions if one.blocking)
    (line,) = resolve(order, {asked.id: "yes"}, small_shop()).lines
    assert line.shape.basis is Basis.OUTSIDE
    assert line.thickness_mm == 12.7


def test_a_wall_and_a_schedule_that_differ_are_asked(tmp_path: Path) -> None:
    head = ["Item", "Qty", "Description", "Thk (in)", "Material"]
    order = read_rows(tmp_path, ["1", "2", '24" std pipe, 48" long', "1/2", "A36"], head=head)
    assert not order.lines
    assert any("9.5" in one.text or "3/8" in one.text for one in order.questions)
