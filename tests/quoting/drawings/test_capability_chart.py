from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from quoting.drawings import Line, chart_words, draw_chart
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


def test_a_chart_that_is_half_blank_says_why() -> None:
    whole = capability_table(light_roll(rated=(PRE_BEND, PLAIN)), MILD, RULES, pre_bend=True)
    none = (None,) * len(whole.widths_mm)
    told = chart_words([replace(whole, thickness_mm=(none,) * len(whole.diameters_mm))], inch=True)
    assert any("empty, the roll cannot do it at any width; see its rated points" in words for words in told)
    half = (none, *whole.thickness_mm[1:])
    told = chart_words([replace(whole, thickness_mm=half)], inch=True)
    assert any(
        'no line for 7-3/4" ID: tighter than the roll closes at any width' in words for words in told
    ), told
    short = ((whole.thickness_mm[0][0], *none[1:]), *whole.thickness_mm[1:])
    told = chart_words([replace(whole, thickness_mm=short)], inch=True)
    assert any('ends at 5.248" wide: no thickness that it grips' in words for words in told), told


def test_hard_plate_on_a_light_roll_leaves_a_line_out_and_names_the_limit() -> None:
    hard = replace(MILD, key="AR400", yield_low_mpa=1000.0, yield_likely_mpa=1100.0, yield_high_mpa=1300.0)
    table = capability_table(light_roll(rated=(PRE_BEND, PLAIN)), hard, RULES, pre_bend=True)
    assert None in table.thickness_mm[0]
    told = " ".join(chart_words([table], inch=True))
    assert "loaded inside diameter against the top roll" in told
    assert "no line for" in told or "wide: no thickness" in told


def test_the_weight_of_the_piece_is_told_where_it_bends_a_line_down() -> None:
    weak = replace(light_roll(rated=(PRE_BEND, PLAIN)), largest_weight_kg=60.0)
    table = capability_table(weak, MILD, RULES, pre_bend=False)
    assert table.stops[-1] == "weight in the rolls"
    assert "what stops it is" in " ".join(chart_words([table], inch=True))
