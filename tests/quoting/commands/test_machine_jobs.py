"""Charts and calibration from the command line."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from quoting.commands.machine_readings import read_readings
from quoting.core import Ends
from quoting.forming import RollTask
from quoting.shop import Shop
from scheduler.commands import main
from tests.quoting.forming.shop import assess, plan_passes
from tests.scheduler.conftest import DEMO

ROLL = "Medium 10 ft"


def _call(*arguments: object) -> tuple[int, str]:
    result = CliRunner().invoke(main, [str(argument) for argument in arguments])
    return result.exit_code, result.output


def _readings(shop: Shop, path: Path, *, off_mm: float) -> Path:
    """Write readings as a machine would give them whose display shows `off_mm` too much."""
    roll, material = shop.roll(ROLL), shop.material("A36")
    rows = ["Roll,Material,Thickness (mm),Width (mm),Readout (mm),Inside diameter (mm)"]
    for thickness, inside in (
        (6.35, 700),
        (6.35, 900),
        (6.35, 1200),
        (9.525, 900),
        (9.525, 1100),
        (12.7, 1400),
    ):
        mean = inside + thickness
        task = RollTask(thickness, 1500.0, mean, 3.1416 * mean, 360.0, Ends.LEAVE_FLAT, 100.0, material)
        plan = plan_passes(task, roll, shop.passes, assess(task, roll, shop.passes))
        shown = plan.passes[-1].readout_mm
        assert shown is not None
        rows.append(f"{ROLL},A36,{thickness},1500,{shown + off_mm:.4f},{inside}")
    path.write_text("\n".join(rows) + "\n")
    return path


def test_the_chart_is_a_picture_and_a_table(tmp_path: Path) -> None:
    code, text = _call(
        "chart", "--shop", DEMO / "shop", "--roll", ROLL, "--material", "304", "--out", tmp_path
    )
    assert code == 0, text
    picture, table = (next(tmp_path.glob(pattern)) for pattern in ("*.png", "*.csv"))
    assert picture.read_bytes().startswith(b"\x89PNG")
    assert "both ends pre-bent" in table.read_text()


def test_an_unknown_roll_or_grade_is_named(tmp_path: Path) -> None:
    code, text = _call(
        "chart", "--shop", DEMO / "shop", "--roll", "Giant", "--material", "A36", "--out", tmp_path
    )
    assert (code, "Giant" in text, ROLL in text) == (2, True, True)
    code, text = _call(
        "chart", "--shop", DEMO / "shop", "--roll", ROLL, "--material", "kryptonite", "--out", tmp_path
    )
    assert (code, "kryptonite" in text) == (2, True)


def test_a_display_that_shows_too_much_is_found_out(shop: Shop, tmp_path: Path) -> None:
    sheet = _readings(shop, tmp_path / "readings.csv", off_mm=2.0)
    before = (DEMO / "shop" / "shop.toml").read_bytes()
    code, text = _call("calibrate", sheet, "--shop", DEMO / "shop")
    assert code == 0, text
    assert "from 6 readings that count of 6" in text
    assert "readout_zero: -0.0" in text, "a display 2 mm too high has its zero 2 mm (0.079 in) lower"
    assert "Nothing was changed" in text
    assert (DEMO / "shop" / "shop.toml").read_bytes() == before


def test_three_readings_say_how_many_more_are_needed(shop: Shop, tmp_path: Path) -> None:
    sheet = _readings(shop, tmp_path / "readings.csv", off_mm=2.0)
    sheet.write_text("\n".join(sheet.read_text().splitlines()[:4]) + "\n")
    code, text = _call("calibrate", sheet, "--shop", DEMO / "shop")
    assert code == 0, text
    assert "inf" not in text
    assert "3 readings, 3 counting; 2 more are needed" in text


def test_a_bad_row_is_named_and_the_others_are_used(shop: Shop, tmp_path: Path) -> None:
    sheet = _readings(shop, tmp_path / "readings.csv", off_mm=0.0)
    sheet.write_text(sheet.read_text() + f"{ROLL},A36,six,1500,20,900\nGiant,A36,6,1500,20,900\n")
    found = read_readings(sheet, shop)
    assert len(found.records[ROLL]) == 6
    assert len(found.warnings) == 2
    assert "row 8" in found.warnings[0]
    assert "six" in found.warnings[0]
    assert "Giant" in found.warnings[1]


def test_a_sheet_without_readings_says_what_would_do(shop: Shop, tmp_path: Path) -> None:
    (tmp_path / "r.csv").write_text("a,b\n1,2\n")
    code, text = _call("calibrate", tmp_path / "r.csv", "--shop", DEMO / "shop")
    assert code == 2
    assert "put Roll, Material, Thickness, Width, Readout and Inside diameter in one row" in text


@pytest.mark.parametrize("command", ["run", "quote", "schedule", "init", "chart", "calibrate"])
def test_every_command_explains_itself(command: str) -> None:
    code, text = _call(command, "--help")
    assert code == 0
    assert len(text) > 100
