"""The demo: an invented shop and three invented customers, the same files from every run of the script."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest
from python_calamine import CalamineWorkbook

from quoting.shop import Edge, load_shop
from tests.data import make_demo
from tests.data.order_rows import order_rows

DEMO = make_demo.HERE


def test_the_demo_files_are_what_the_script_writes(tmp_path: Path) -> None:
    make_demo.main(tmp_path)
    written = sorted(path.relative_to(tmp_path) for path in tmp_path.rglob("*.xlsx"))
    assert len(written) == 4
    for name in written:
        assert (tmp_path / name).read_bytes() == (DEMO / name).read_bytes(), name


def test_the_demo_shop_loads_without_a_warning() -> None:
    shop = load_shop(DEMO / "shop")
    assert shop.warnings == ()
    assert [roll.cones for roll in shop.rolls] == [True, False, True]
    held = [plate for plate in shop.stock if not plate.buyable]
    assert 25 <= len(held) <= 35
    assert {plate.edge for plate in held} == set(Edge)
    assert sum(plate.remnant for plate in held) >= 5


def test_every_demo_file_says_that_it_is_invented() -> None:
    assert "invented" in (DEMO / "shop" / "shop.toml").read_text("utf-8").splitlines()[0]
    for path in sorted(DEMO.rglob("*.xlsx")):
        book = CalamineWorkbook.from_path(str(path))
        for name in book.sheet_names:
            top = book.get_sheet_by_name(name).to_python()[:2]
            assert any("invented" in str(cell).casefold() for row in top for cell in row), (path.name, name)


def test_the_demo_orders_have_forty_to_sixty_lines_due_in_one_to_four_weeks() -> None:
    rows = [row for name in ("tidy", "metric", "messy") for row in order_rows(name)[1:]]
    lines = [row for row in rows if any(cell is not None for cell in row)]
    assert 40 <= len(lines) <= 60
    due = [cell for row in lines for cell in row if isinstance(cell, datetime) and cell.month == 12]
    assert all(datetime(2026, 12, 7) <= day <= datetime(2026, 12, 28) for day in due)


@pytest.mark.parametrize("roll", load_shop(DEMO / "shop").rolls, ids=lambda roll: roll.name)
def test_a_demo_roll_is_rated_inside_its_own_limits(roll: object) -> None:
    machine = load_shop(DEMO / "shop").roll(getattr(roll, "name", ""))
    for point in machine.rated:
        assert machine.least_thickness_mm <= point.thickness_mm <= machine.largest_thickness_mm
        assert point.width_mm <= machine.working_length_mm
        assert point.inside_diameter_mm >= machine.least_inside_diameter_mm
