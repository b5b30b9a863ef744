"""What sheets that nobody had tuned to showed: asked where it costs money, priced where it is plain."""

from __future__ import annotations

from pathlib import Path

import pytest

from quoting.core import Ends, Order
from tests.quoting.intake.sheets import GOOD, HEAD, read_rows
from tests.quoting.intake.small_shop import TODAY, small_shop

INFO = [*HEAD, "Remarks"]


@pytest.mark.parametrize(
    "remark",
    [
        "by Imaginary Fab", "use 5/16 if cheaper", "5/16 min after forming", "in review",
        "don't make this one yet", "join to item 8", "diameter is outside", "double wall",
        "square duct section", "half cone", "with or without seam?", "make it thicker if you like",
    ],
)  # fmt: skip
def test_a_remark_that_may_change_the_line_is_asked(tmp_path: Path, remark: str) -> None:
    order = read_rows(tmp_path, [*GOOD, remark], head=INFO)
    assert not order.lines
    assert any(remark in one.text for one in order.questions)


@pytest.mark.parametrize("remark", ["4 lifting lugs", "(2) 6 in holes", "shot blast & prime inside"])
def test_extra_work_with_its_count_is_said_and_no_riddle(tmp_path: Path, remark: str) -> None:
    (line,) = read_rows(tmp_path, [*GOOD, remark], head=INFO).lines
    assert any("not in the price" in text for text in line.assumptions)


@pytest.mark.parametrize("name", ["Access tube #4", "Manway neck", "Nozzle ring"])
def test_a_name_is_no_size_and_no_extra(tmp_path: Path, name: str) -> None:
    (line,) = read_rows(tmp_path, [*GOOD, name], head=[*HEAD, "Description"]).lines
    assert not any("not in the price" in text for text in line.assumptions)


def test_a_tick_asks_for_what_its_heading_says(tmp_path: Path) -> None:
    (line,) = read_rows(tmp_path, [*GOOD, "X"], head=[*HEAD, "Galvanize"]).lines
    assert any("Galvanize" in text for text in line.assumptions)


@pytest.mark.parametrize(
    ("cell", "ends"),
    [("ok to leave", Ends.LEAVE_FLAT), ("none", Ends.PRE_BEND), ("trim off", Ends.TRIM)],
)
def test_flats_by_their_heading(tmp_path: Path, cell: str, ends: Ends) -> None:
    (line,) = read_rows(tmp_path, [*GOOD, cell], head=[*HEAD, "End flats"]).lines
    assert line.ends is ends


def test_no_flats_allowed_is_said_for_all_lines(tmp_path: Path) -> None:
    (tmp_path / "order.csv").write_text(
        "\n".join(("1. No flats allowed - prebend both ends", ",".join(HEAD), ",".join(GOOD)))
    )
    assert _read(tmp_path).lines[0].ends is Ends.PRE_BEND


def test_a_heading_stops_only_the_rows_under_it(tmp_path: Path) -> None:
    second = ["2", "1", "30", "ID", "1/4", "60", "A36"]
    order = read_rows(tmp_path, GOOD, ["ALTERNATES - DO NOT PRICE YET"], second)
    assert [line.number for line in order.lines] == ["1"]


def test_the_drawing_stands_on_the_line_beside_the_part(tmp_path: Path) -> None:
    head = [*HEAD, "Part No", "Drawing", "Rev", "Description"]
    (line,) = read_rows(tmp_path, [*GOOD, "P-7", "D-100", "B", "shell"], head=head).lines
    assert (line.part_no, line.description, line.drawn_revision) == ("P-7", "shell; drawing D-100", "B")


def _read(folder: Path) -> Order:
    from quoting.intake.read_orders import read_orders  # noqa: PLC0415

    return read_orders(folder / "order.csv", small_shop(), today=TODAY)
