"""Invented floors of 24 to 60 won jobs on the demo shop's rolls; every number here is made up."""

from __future__ import annotations

import random
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime, timedelta

from quoting.shop import Family, Shop
from scheduler.jobs import ROLL, PlateToCut, WonLine
from scheduler.jobs.won_lines import RollChoice
from scheduler.replanning import Floor, FloorJob, FloorStop
from scheduler.week import WeekPlan
from tests.scheduler.conftest import LINE

MONDAY = datetime(2026, 11, 30, 6, 0)
GAUGES = (3.2, 4.8, 6.4, 8.0, 9.5, 12.7, 16.0, 19.0)


def floor(jobs: int, seed: int, shop: Shop) -> Floor:
    """So many jobs on Monday morning: due over the load's weeks, some plates to buy, some to re-round."""
    chance = random.Random(seed)
    rolls = [roll.name for roll in shop.rolls]
    lines, plates = [], []
    for number in range(1, jobs + 1):
        minutes = chance.choice((30, 45, 60, 90, 120, 180, 240))
        first = chance.randrange(len(rolls))
        able = rolls[first : first + chance.choice((1, 2, 2))]
        plate = PlateToCut(
            f"P{number} #1",
            "A36",
            6.35,
            "thermal",
            chance.choice((10, 20, 40)),
            chance.choice((0, 0, 0, 1, 3)),
        )
        plates.append(plate)
        due = MONDAY.date() + timedelta(days=chance.randint(2, 4 + jobs // 4))
        lines.append(
            replace(
                LINE,
                id=f"J-{number}",
                number=str(number),
                customer=f"Customer {chance.randint(1, 8)} (invented)",
                thickness_mm=chance.choice(GAUGES),
                diameter_mm=chance.choice((500.0, 800.0, 1200.0)),
                family=chance.choice((Family.CARBON, Family.CARBON, Family.CARBON, Family.STAINLESS)),
                crane=chance.random() < 0.3,
                crew=chance.choice((1, 1, 2)),
                due=due,
                re_round=number % 5 == 0,
                plates=(plate.id,),
                blanks_on={plate.id: 1},
                choices=tuple(RollChoice(roll, minutes * chance.uniform(0.9, 1.2), 8.0) for roll in able),
            )
        )
    return Floor(MONDAY, tuple(FloorJob(line, "won") for line in lines), tuple(plates))


def facts(found: Floor) -> Mapping[str, str]:
    """What each job's plan is made from, as the ledger tells it."""
    leads = {plate.id: plate.here_in_days for plate in found.plates}
    start = found.moment.date()
    return {
        job.line.id: " ".join(
            str(part)
            for part in (
                job.line.due,
                job.line.quantity,
                job.minutes_left,
                *(start + timedelta(days=leads[plate]) for plate in job.line.plates if leads.get(plate)),
            )
        )
        for job in found.jobs
    }


def with_job(found: Floor, line: str, **changes: object) -> Floor:
    """The floor with one job changed; keys of the line are changed in the line."""
    own = set(WonLine.__dataclass_fields__)
    jobs = tuple(
        replace(
            job,
            line=replace(job.line, **{k: v for k, v in changes.items() if k in own}),  # type: ignore[arg-type]
            **{k: v for k, v in changes.items() if k not in own},  # type: ignore[arg-type]
        )
        if job.line.id == line
        else job
        for job in found.jobs
    )
    return replace(found, jobs=jobs)


def while_rolling(plan: WeekPlan, moment: datetime) -> datetime:
    """The first moment from this one on at which the plan has a roll at work."""
    rolled = [slot for slot in plan.slots if slot.work.kind == ROLL and slot.end > moment]
    return max(moment, min(slot.start for slot in rolled) + timedelta(minutes=1))


def later(found: Floor, plan: WeekPlan, moment: datetime) -> Floor:
    """The floor at a later moment when all went as planned."""
    rolled = {slot.line.id: slot for slot in plan.slots if slot.line and slot.work.kind == ROLL}
    cut = {slot.work.plate.id for slot in plan.slots if slot.work.plate and slot.end <= moment}
    jobs = []
    for job in found.jobs:
        slot = rolled[job.line.id]
        if slot.end <= moment:
            if job.line.re_round:
                jobs.append(replace(job, state="at the welder", since=slot.end, roll=slot.machine))
        elif slot.start < moment:
            left = max(1, _open_minutes(plan, slot.machine, moment, slot.end))
            jobs.append(
                replace(job, state="on the roll", since=slot.start, roll=slot.machine, minutes_left=left)
            )
        elif set(job.line.plates) <= cut:
            jobs.append(replace(job, state="cut"))
        else:
            jobs.append(job)
    passed = (moment.date() - found.moment.date()).days
    plates = tuple(
        replace(p, here_in_days=max(0, p.here_in_days - passed)) for p in found.plates if p.id not in cut
    )
    return replace(found, moment=moment, jobs=tuple(jobs), plates=plates)


def _open_minutes(plan: WeekPlan, machine: str, begin: datetime, end: datetime) -> int:
    """Working minutes of a machine between two moments."""
    times = ((max(begin, one.start), min(end, one.end)) for one in plan.open_times[machine])
    return sum(round((to - start).total_seconds() / 60) for start, to in times if to > start)


Event = Callable[[Floor, WeekPlan], Floor]


def _waiting(found: Floor, plan: WeekPlan, number: int = 0, **with_: object) -> FloorJob:
    """A job that has not begun, by its place in the plan."""
    begins = {slot.line.id: slot.start for slot in plan.slots if slot.line and slot.work.kind == ROLL}
    waiting = [
        job
        for job in found.jobs
        if job.state in ("won", "cut")
        and all(getattr(job.line, name) == value for name, value in with_.items())
    ]
    return sorted(waiting, key=lambda job: begins[job.line.id])[number]


def _on_roll(found: Floor) -> FloorJob:
    return next(job for job in found.jobs if job.on_roll)


def _plate_late(found: Floor, plan: WeekPlan) -> Floor:
    job = next(job for job in found.jobs if job.state == "won")
    late = dict.fromkeys(job.line.plates, 4)
    plates = tuple(replace(p, here_in_days=late.get(p.id, p.here_in_days)) for p in found.plates)
    return replace(found, plates=plates)


def _roll_down(found: Floor, plan: WeekPlan) -> Floor:
    begin = found.moment + timedelta(hours=6)
    return replace(found, stops=(FloorStop(begin, begin + timedelta(days=2), "Medium 10 ft"),))


def _absent(found: Floor, plan: WeekPlan) -> Floor:
    return replace(found, stops=(FloorStop(found.moment, found.moment + timedelta(hours=9), people=1),))


def _date_earlier(found: Floor, plan: WeekPlan) -> Floor:
    job = _waiting(found, plan, 8)
    return with_job(found, job.line.id, due=found.moment.date() + timedelta(days=1))


def _date_later(found: Floor, plan: WeekPlan) -> Floor:
    job = _waiting(found, plan, 3)
    return with_job(found, job.line.id, due=found.moment.date() + timedelta(days=20))


def _half_done(found: Floor, plan: WeekPlan) -> Floor:
    job = _waiting(found, plan, 2)
    done = {other.line.id for other in found.jobs if other.on_roll and other.roll == _free_roll(found, job)}
    found = replace(found, jobs=tuple(other for other in found.jobs if other.line.id not in done))
    half = job.line.choices[0].rolling_minutes // 2
    return with_job(
        found, job.line.id, state="on the roll", roll=_free_roll(found, job), minutes_left=max(1, half),
        since=found.moment,
    )  # fmt: skip


def _free_roll(found: Floor, job: FloorJob) -> str:
    busy = {other.roll for other in found.jobs if other.on_roll}
    return next((c.roll for c in job.line.choices if c.roll not in busy), job.line.choices[0].roll)


def _at_the_welder(found: Floor, plan: WeekPlan) -> Floor:
    job = _waiting(found, plan, 0, re_round=True)
    return with_job(
        found, job.line.id, state="at the welder", since=found.moment, roll=job.line.choices[0].roll
    )


def _twice_as_long(found: Floor, plan: WeekPlan) -> Floor:
    job = _on_roll(found)
    return with_job(
        found, job.line.id, minutes_left=(job.minutes_left or 0) + job.line.choices[0].rolling_minutes
    )


def _quantity(found: Floor, plan: WeekPlan) -> Floor:
    job = _waiting(found, plan, 4)
    choices = tuple(replace(c, minutes=2 * c.minutes) for c in job.line.choices)
    return with_job(found, job.line.id, quantity=2, choices=choices)


def _cancelled(found: Floor, plan: WeekPlan) -> Floor:
    gone = _waiting(found, plan, 5).line.id
    return replace(found, jobs=tuple(job for job in found.jobs if job.line.id != gone))


def _rush(found: Floor, plan: WeekPlan) -> Floor:
    like = _waiting(found, plan, 1).line
    due = found.moment.date() + timedelta(days=1)
    new = replace(like, id="J-RUSH", number="R", due=due, plates=(), blanks_on={}, re_round=False)
    return replace(found, jobs=(*found.jobs, FloorJob(new, "cut")))


EVENTS: Mapping[str, Event] = {
    "plate late": _plate_late,
    "roll down for two days": _roll_down,
    "operator absent for one shift": _absent,
    "date moved earlier": _date_earlier,
    "date moved later": _date_later,
    "job half done": _half_done,
    "only the re-round left, at the welder": _at_the_welder,
    "job took twice as long": _twice_as_long,
    "quantity doubled": _quantity,
    "job cancelled": _cancelled,
    "rush job in": _rush,
}
