from __future__ import annotations

from pathlib import Path

import pytest

from quoting.drawings import Line, draw_chart
from quoting.drawings.capability_chart import _lines, _Panel
from quoting.forming import capability_table
from tests.quoting.forming.shop import MILD, PLAIN, PRE_BEND, RULES, light_roll


def test_every_line_ends_where_the_table_says() -> None:
    table = capability_table(light_roll(rated=(PRE_BEND, PLAIN)), MILD, RULES, pre_bend=True)
    panel = _Panel(0.0, 2.0, 100.0, 25.4)
    drawn = [item for item in _lines(panel, table, 1.0, inch=True) if isinstance(item, Line)]
    curves = [item for item in drawn if not item.closed and len(item.path) > 2]
    assert len(curves) == len(table.diameters_mm)
    for curve, row in zip(curves, table.thickness_mm, strict=True):
        known = [(x, y) for x, y in zip(table.widths_mm, row, strict=True) if y is not None]
        for corner, (width, thickness) in zip(curve.path, known, strict=True):
            assert (corner.x, corner.y) == pytest.approx(panel.at(width / 25.4, thickness / 25.4))


def test_chart_is_a_picture_and_the_same_every_time(tmp_path: Path) -> None:
    roll = light_roll(rated=(PRE_BEND, PLAIN))
    tables = [capability_table(roll, MILD, RULES, pre_bend=pre_bend) for pre_bend in (True, False)]
    draw_chart(tables, tmp_path / "a.png", inch=True)
    draw_chart(tables, tmp_path / "b.png", inch=True)
    first = (tmp_path / "a.png").read_bytes()
    assert first.startswith(b"\x89PNG")
    assert first == (tmp_path / "b.png").read_bytes()
    draw_chart(tables[0], tmp_path / "c.png")
    assert (tmp_path / "c.png").stat().st_size > 10_000
