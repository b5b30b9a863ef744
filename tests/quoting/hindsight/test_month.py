"""The owner's month: three kinds of line that are never mixed, margins down to the step, honest win rates."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import numpy as np
import openpyxl
import pytest

from quoting.books import write_month
from quoting.hindsight import JobDone, LineDecided, MonthFacts, PlateLeft, month_figures
from quoting.hindsight.month.win_rate import counted_once, firth, margin_point, win_rates

DECEMBER = date(2026, 12, 1)
JOB = JobDone(
    "A-1", "Tank works", "20261130-01", "2 × Cylinder", "cylinder", "Medium", Decimal(1000), Decimal(800),
    Decimal(900), {"rolling": Decimal(130), "set-up": Decimal(-30)}, 20, 100, 15, 160,
    date(2026, 12, 9), date(2026, 12, 7), "took 160 min where 100 were planned",
)  # fmt: skip
LINE = LineDecided(
    "A-1", "Tank works", "Cylinder", 2, Decimal(1000), 0.2, "cylinder", "A36", "won", date(2026, 11, 30),
    date(2026, 12, 1), "", 120, "Medium",
)  # fmt: skip


def facts(jobs: list[JobDone], lines: list[LineDecided]) -> MonthFacts:
    rack = (PlateLeft("R-1", "A36", 2, Decimal(500), False, date(2026, 5, 1)),)
    return MonthFacts(
        "A shop (invented)", "USD", "letter", tuple(jobs), tuple(lines), rack, {"Medium": 40.0},
        {"A36": (7.0, 10.0)}, {"check": 41.0, "square": -3.0},
    )  # fmt: skip


def test_quoted_won_and_delivered_are_three_things() -> None:
    later = replace(LINE, line="B-1", part="Cone", state="open", quoted=date(2026, 12, 3), decided=None)
    found = month_figures(facts([JOB], [LINE, later]), DECEMBER)
    assert [line.line for line in found.quoted] == ["B-1"], "A-1 went out in November"
    assert [line.line for line in found.won] == ["A-1"]
    assert [job.line for job in found.delivered] == ["A-1"]
    assert month_figures(facts([JOB], [LINE, later]), date(2026, 11, 5)).delivered == ()


def test_a_margin_goes_down_to_the_step_that_lost_it() -> None:
    better = replace(
        JOB, line="A-2", customer="Ducts", real_cost=Decimal(700), lost={"rolling": Decimal(-100)}, due=None
    )
    found = month_figures(facts([JOB, better], [LINE]), DECEMBER)
    groups = {(one.by, one.group): one for one in found.groups}
    tank = groups["customer", "Tank works"]
    assert (tank.quoted, tank.real) == (Decimal(200), Decimal(100))
    assert (tank.step, tank.step_lost) == ("rolling", Decimal(130))
    assert groups["customer", "Ducts"].step == ""
    assert groups["week", "week of 07 Dec"].jobs == 2
    assert found.steps == {"rolling": Decimal(30), "set-up": Decimal(-30)}
    assert [job.line for job in found.late] == ["A-1"]
    assert (found.in_time.hits, found.in_time.of) == (0, 1), "a job without a date is neither"


def test_a_job_without_minutes_is_delivered_and_in_no_margin() -> None:
    silent = replace(JOB, line="A-3", told=False, lost={})
    found = month_figures(facts([JOB, silent], [LINE]), DECEMBER)
    assert len(found.delivered) == 2
    assert [job.line for job in found.told] == ["A-1"]
    assert found.groups[0].jobs == 1


def test_hours_sold_are_those_won() -> None:
    lost = replace(LINE, line="A-9", part="Arc", state="lost", roll_minutes=600)
    (hours,) = month_figures(facts([JOB], [LINE, lost]), DECEMBER).hours
    assert hours.sold == 2.0
    assert hours.worked == pytest.approx(175 / 60)
    assert (hours.setup_share, hours.planned_setup_share) == pytest.approx((15 / 175, 20 / 120))
    assert hours.open == pytest.approx(40 * 31 / 7)


def test_an_inquiry_that_comes_again_counts_once_and_a_win_stays_one() -> None:
    lost = replace(LINE, line="D-1", state="lost", quoted=date(2026, 11, 2))
    again = replace(LINE, line="E-1", state="lost", quoted=date(2026, 12, 9))
    assert [one.line for one in counted_once([again, LINE, lost])] == ["A-1"]
    (rate, *_) = win_rates([again, LINE, lost])
    assert (rate.share.hits, rate.share.of) == (1, 1)
    asked_again = replace(LINE, line="F-1", state="open", quoted=date(2026, 12, 9))
    (rate, *_) = win_rates([asked_again, lost])
    assert (rate.share.hits, rate.share.of) == (0, 1), "a loss stays one until it is asked again and won"


def quotes(count: int, slope: float, seed: int = 3) -> list[LineDecided]:
    """Decided lines whose chance to win falls with the margin by `slope` on the logit scale."""
    rng = np.random.default_rng(seed)
    found = []
    for number in range(count):
        margin = float(rng.uniform(0.05, 0.45))
        won = rng.random() < 1 / (1 + np.exp(-slope * (margin - 0.25)))
        found.append(
            replace(
                LINE, line=f"A-{number}", part=f"Part {number}", margin=margin, state="won" if won else "lost"
            )
        )
    return found


def test_a_point_of_margin_is_told_only_where_the_lines_carry_it() -> None:
    few = margin_point(quotes(40, -12), "USD")
    assert few.chance is None
    assert "40 lines are decided" in few.words
    flat = margin_point(quotes(200, 0), "USD")
    assert flat.chance is None
    assert "not change with the margin" in flat.words
    told = margin_point(quotes(400, -12), "USD")
    assert told.chance is not None
    assert told.chance == pytest.approx(-0.03, abs=0.01), "a quarter of the slope, a point of margin"
    assert "A point more margin" in told.words


def test_firth_is_finite_where_wins_and_losses_are_apart() -> None:
    """Worked out by a second program: separated data, slope -20.655 (13.45); mixed, -8.149 (7.346)."""
    x = np.array([-0.15, -0.10, -0.05, 0, 0.05, 0.10, 0.15, 0.20])
    assert firth(x, np.array([1.0, 1, 1, 1, 0, 0, 0, 0])) == pytest.approx((-20.655, 13.45), abs=0.01)
    assert firth(x, np.array([1.0, 1, 0, 1, 0, 1, 0, 0])) == pytest.approx((-8.149, 7.346), abs=0.005)


def test_the_book_opens_with_the_page_and_says_what_looks_like_a_slip(tmp_path: Path) -> None:
    slip = replace(JOB, line="A-4", run=1500, real_cost=Decimal(3000))
    path = tmp_path / "month.xlsx"
    write_month(month_figures(facts([JOB, slip], [LINE]), DECEMBER), date(2026, 12, 31), path)
    book = openpyxl.load_workbook(path)
    assert book.sheetnames == ["December 2026", "Margins", "Jobs", "Won and lost", "Lines", "Plate and rack"]
    page = " ".join(
        str(cell) for row in book["December 2026"].iter_rows(values_only=True) for cell in row if cell
    )
    assert "slip of the pen: A-4 (1,515 min where 120 were planned). Without it 10.0% was made" in page
    assert "1 of 1 lines decided so far" in page
    assert "500 of it known for over half a year" in page
    assert "70% of the plate" in page
    assert "as the fit splits them: check 41 min." in page
