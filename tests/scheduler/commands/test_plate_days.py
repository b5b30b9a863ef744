"""Plates come when the rack says, or so many working days after they were ordered."""

from __future__ import annotations

import json
from pathlib import Path

from tests.scheduler.commands.test_run_job import SHEET, call, run
from tests.scheduler.conftest import DEMO


def test_a_plate_on_its_way_is_cut_on_its_day_and_a_later_start_does_not_push_it(tmp_path: Path) -> None:
    sheet = tmp_path / "orders-yard.csv"
    sheet.write_text(SHEET)
    assert run(sheet, tmp_path / "quoted", command="quote").exit_code == 0
    record = json.loads((tmp_path / "quoted" / "result.json").read_text("utf-8"))
    for nest in record["nest"]:
        for plate in nest["plates"]:
            plate["here_on"] = "2026-12-09"
    coming = tmp_path / "coming.json"
    coming.write_text(json.dumps(record))
    for start in ("2026-12-01", "2026-12-08"):
        out = tmp_path / start
        options = ("--shop", DEMO / "shop", "--start", start, "--effort", "quick", "--out", out)
        assert call("schedule", coming, *options).exit_code == 0
        plan = json.loads((out / "result.json").read_text("utf-8"))["schedule"]["operations"]
        assert min(one["start"] for one in plan if one["kind"] == "cut")[:10] == "2026-12-09"
