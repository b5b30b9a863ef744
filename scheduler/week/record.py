"""What the key `schedule` of `result.json` holds: the planned week as plain values.

Moments are local clock time as YYYY-MM-DDTHH:MM:SS, days YYYY-MM-DD, minutes whole numbers, money decimal
text in the shop's currency with four places. Keys:

- `start`: first day of the plan; `rolls[]`, `stations[]`: the machines in the shop's order
- `operations[]`, machine by machine in running order: id, kind (`cut`, `roll`, `re-round`), machine, line and
  customer (null for a plate), plate (null for a line), lot (parts, of; null when the line is rolled whole),
  setup_start, setup_end, setup_minutes, setup_why, setup_parts[] (why, minutes), start,
  run_minutes, end, due (null without a date)
- `objective`: total and its parts setup, lateness, overtime, wip (work in progress),
  running (what dearer rolls than the cheapest able one cost more)
- `aim`: `money` (least total) or `dates-first` (least lateness, then the rest)
- `bound`: no plan has a lower total (dates first: a lower lateness); `gap`: the share of it that might still
  be saved, 0 to 1; `proven`: whether nothing better exists; `method`: the sequencer that found the plan
- `overtime[]`: the overtime that the plan works: machine, start, end
- `comparison[]`: the same work in plain orders: order, setup_minutes, lateness, total; and against it the
  plan's saved_setup_minutes, saved_money, added_lateness, lateness_per_saved_setup_minute (null when no
  set-up minute was saved)
- `late[]`: line, customer, finish, due, days, cost, tried[] (kinds of change tried; empty when the line was
  not looked into), cures[] (plans with one thing changed that help): kind (`order`, `overtime`, `Saturday`,
  `wish`, `roll`, `plate`, `split`), do (in words), on_time, late_minutes, less_late_minutes, money (what the
  whole plan costs more; negative: less), later[] (other lines that get late or later: line,
  late_minutes_before, late_minutes), moved[] (other lines that end on a later day but in time)
- `loads[]`: machine, monday, open_minutes, setup_minutes, run_minutes, share
- `unplanned[]`: line, customer, reason
- `notes[]`: what else the scheduler has to know
"""

from __future__ import annotations

from datetime import datetime, time, timedelta
from decimal import Decimal
from typing import Any

from scheduler.sequence import Aim, Saving
from scheduler.week.week_plan import Cure, Late, MachineLoad, PlannedOperation, WeekPlan


def schedule_record(week: WeekPlan) -> dict[str, Any]:
    """Return the planned week as the record holds it."""
    return {
        "start": week.start.isoformat(),
        "rolls": list(week.rolls),
        "stations": list(week.stations),
        "operations": [_operation(slot) for slot in week.slots],
        **_worth(week),
        "overtime": _overtime(week),
        "comparison": [_comparison(saving) for saving in week.savings],
        "late": [_late(late) for late in week.late],
        "loads": [_load(load) for load in week.loads],
        "unplanned": [
            {"line": item.line.id, "customer": item.line.customer, "reason": item.reason}
            for item in week.unplanned
        ],
        "notes": list(week.notes),
    }


def _operation(slot: PlannedOperation) -> dict[str, Any]:
    line, plate = slot.line, slot.work.plate
    return {
        "id": slot.work.operation.id,
        "kind": slot.work.kind,
        "machine": slot.machine,
        "line": line.id if line else None,
        "customer": line.customer if line else None,
        "plate": plate.id if plate else None,
        "lot": {"parts": line.lot.parts, "of": line.lot.of} if line and line.lot else None,
        "setup_start": slot.setup_start.isoformat(),
        "setup_end": slot.setup_end.isoformat(),
        "setup_minutes": slot.setup_minutes,
        "setup_why": slot.setup.why if slot.setup else "",
        "setup_parts": [
            {"why": why, "minutes": round(minutes, 3)}
            for why, minutes in (slot.setup.parts if slot.setup else ())
        ],
        "start": slot.start.isoformat(),
        "run_minutes": slot.run_minutes,
        "end": slot.end.isoformat(),
        "due": line.due.isoformat() if line and line.due else None,
    }


def _worth(week: WeekPlan) -> dict[str, Any]:
    plan, cost = week.plan, week.plan.cost
    return {
        "objective": {
            "total": _money(cost.total),
            "setup": _money(cost.setup),
            "lateness": _money(cost.lateness),
            "overtime": _money(cost.overtime),
            "wip": _money(cost.wip),
            "running": _money(cost.running),
        },
        "aim": "money" if week.aim is Aim.MONEY else "dates-first",
        "bound": _money(plan.bound),
        "gap": round(week.gap, 6),
        "proven": plan.proven,
        "method": plan.method,
    }


def _overtime(week: WeekPlan) -> list[dict[str, str]]:
    midnight = datetime.combine(week.start, time())
    return [
        {
            "machine": used.machine,
            "start": (midnight + timedelta(minutes=used.start)).isoformat(),
            "end": (midnight + timedelta(minutes=used.end)).isoformat(),
        }
        for used in week.plan.overtime
    ]


def _comparison(saving: Saving) -> dict[str, Any]:
    each = saving.lateness_per_setup_minute
    return {
        "order": saving.name,
        "setup_minutes": saving.plain.setup_minutes,
        "lateness": _money(saving.plain.cost.lateness),
        "total": _money(saving.plain.total),
        "saved_setup_minutes": saving.setup_minutes,
        "saved_money": _money(saving.money),
        "added_lateness": _money(saving.lateness),
        "lateness_per_saved_setup_minute": None if each is None else _money(each),
    }


def _late(late: Late) -> dict[str, Any]:
    return {
        "line": late.line.id,
        "customer": late.line.customer,
        "finish": late.finish.isoformat(),
        "due": late.due.isoformat(),
        "days": late.days,
        "cost": _money(late.cost),
        "tried": list(late.tried),
        "cures": [_cure(cure) for cure in late.cures],
    }


def _cure(cure: Cure) -> dict[str, Any]:
    return {
        "kind": cure.kind,
        "do": cure.do,
        "on_time": cure.on_time,
        "late_minutes": cure.late,
        "less_late_minutes": cure.less_late,
        "money": _money(cure.money),
        "later": [
            {"line": later.line, "late_minutes_before": later.before, "late_minutes": later.after}
            for later in cure.later
        ],
        "moved": list(cure.moved),
    }


def _load(load: MachineLoad) -> dict[str, Any]:
    return {
        "machine": load.machine,
        "monday": load.monday.isoformat(),
        "open_minutes": load.open_minutes,
        "setup_minutes": load.setup_minutes,
        "run_minutes": load.run_minutes,
        "share": round(load.share, 4),
    }


def _money(amount: Decimal) -> str:
    return str(amount.quantize(Decimal("0.0001")))
