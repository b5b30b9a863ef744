from __future__ import annotations

from pathlib import Path

from quoting.drawings import draw_chart
from quoting.forming import capability_table
from tests.quoting.forming.shop import MILD, PLAIN, PRE_BEND, RULES, light_roll


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
