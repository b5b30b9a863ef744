"""What a job that is set up waits for, and which minutes of overtime are listed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

from quoting.shop import Shop
from scheduler.calendar import overtime_price
from scheduler.jobs.won_lines import RollChoice
from scheduler.planning import PlanAsked, plan_week
from scheduler.planning.waits import Waits
from scheduler.sequence import (
    After,
    Assignment,
    Job,
    Machine,
    Mode,
    Operation,
    Plan,
    SequenceProblem,
    Staffing,
    Window,
)
from scheduler.sequence.plan import Cost
from tests.scheduler.conftest import won

MONDAY = date(2026, 11, 30)
OPEN = (Window(0, 300), Window(330, 600))


def _word(operation: Operation, start: int, *others: tuple[Operation, Assignment], people: int = 9) -> str:
    """What the operation waits for on its roll, set up by minute 100, when it starts at `start`."""
    own = Assignment(operation.id, "roll", 80, 20, start, start + 30)
    operations = (operation, *(other for other, _ in others))
    problem = SequenceProblem(
        (Machine("roll", "roll", OPEN), Machine("other", "roll", OPEN)),
        operations,
        tuple(Job(one.job, 600) for one in operations),
        staffing=(Staffing(0, 600, people),),
    )
    plan = Plan((own, *(at for _, at in others)), Cost(), Decimal(0), False, "by hand")
    return Waits(problem, plan).word(own, 100, OPEN)


def _rolling(name: str = "roll A", *, crane: bool = False, after: tuple[After, ...] = ()) -> Operation:
    modes = (Mode("roll", 30), Mode("other", 30))
    return Operation(name, name, modes, crew=1, crane=crane, after=after)


def _elsewhere(name: str, start: int, end: int, *, crane: bool = False) -> tuple[Operation, Assignment]:
    return _rolling(name, crane=crane), Assignment(name, "other", start, 0, start, end)


def test_a_job_that_begins_when_it_is_set_up_waits_for_nothing() -> None:
    assert _word(_rolling(), 100) == ""


def test_set_up_by_the_break_it_waits_for_the_next_open_hours() -> None:
    operation = _rolling()
    own = Assignment(operation.id, "roll", 280, 20, 330, 360)
    problem = SequenceProblem(
        (Machine("roll", "roll", OPEN), Machine("other", "roll", OPEN)), (operation,), (Job("roll A", 600),)
    )
    waits = Waits(problem, Plan((own,), Cost(), Decimal(0), False, "by hand"))
    assert waits.word(own, 300, OPEN) == "the next open hours"


def test_it_waits_for_its_blank_or_the_weld() -> None:
    cut = _elsewhere("cut P-1", 100, 180)
    assert _word(_rolling(after=(After("cut P-1"),)), 180, cut) == "its blank"
    before = _elsewhere("roll A lot 1", 20, 50)
    assert _word(_rolling(after=(After("roll A lot 1", 130),)), 180, before) == "the weld"


def test_it_waits_for_the_crane_while_another_job_hangs_on_it() -> None:
    lifted = _elsewhere("roll B", 90, 180, crane=True)
    assert _word(_rolling(crane=True), 180, lifted) == "the crane"


def test_else_it_waits_for_people() -> None:
    assert _word(_rolling(), 180, _elsewhere("roll B", 90, 180), people=1) == "the crew"


def test_only_the_minutes_of_overtime_that_are_worked_are_listed_and_paid(shop: Shop) -> None:
    """Work for a day and a little, due that day and dear when late: not all of the two hours on offer."""
    dear = replace(shop, working_time=replace(shop.working_time, late_cost_per_day=Decimal(5000)))
    roll = "Light 5 ft"
    long = won("A-1", due=MONDAY, choices=(RollChoice(roll, 480.0, 0.0),), plates=())
    week = plan_week(PlanAsked([long], [], dear, MONDAY), effort="quick")
    extra = [one for one in week.open_times[roll] if one.overtime]
    minutes = sum((one.end - one.start for one in extra), timedelta()) / timedelta(minutes=1)
    assert 0 < minutes < 120
    assert week.plan.cost.overtime == int(minutes) * overtime_price(dear)
