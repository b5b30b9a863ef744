"""What to do next in a folder, as `rollwright` alone tells it."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from quoting.core import RollwrightError, first_few
from scheduler.commands.next_step.open_questions import waiting_answers


def what_next(folder: Path, today: date | None = None) -> str:
    """Return what to do next in a folder: start a shop, look after late jobs, plan what was won, quote an
    order, take answers.
    """
    books = sorted((*folder.glob("shop.*"), *folder.glob("*/shop.*")))
    shops = [book.parent for book in books if book.name in ("shop.xlsx", "shop.toml")]
    if not shops:
        return "Next: no shop's book in this folder yet; `rollwright init my-shop` starts one."
    shop = shops[0]
    if told := _late_and_unplanned(shop, today or date.today()):
        return told
    inbox = folder / "inbox"
    if inbox.is_dir() and any(path.is_file() and path.name[0] != "." for path in inbox.iterdir()):
        watch = f"rollwright watch {inbox} --shop {shop} --out quotes"
        return f"Next: orders wait in {inbox}; `{watch}` prices them."
    if told := waiting_answers(folder, shop):
        return told
    return f"Next: `rollwright run ORDERS.xlsx --shop {shop} --out out` prices sheets and plans them."


def _late_and_unplanned(shop: Path, today: date) -> str:
    """Return which jobs are late, that jobs were won which no published plan holds, and which quotes have run
    out; nothing without a ledger that opens.
    """
    if not (shop / "ledger.db").is_file():
        return ""
    from quoting.ledger_commands import expired_quotes, late_jobs, unplanned_jobs  # noqa: PLC0415 - only with a ledger

    try:
        late, waiting = late_jobs(shop, today), unplanned_jobs(shop)
        over = expired_quotes(shop, today)
    except RollwrightError:  # held or damaged: the next command on it says so
        return ""
    morning = f"{today + timedelta(days=1)} 06:00"
    plan = f'`rollwright plan --from "{morning}" --shop {shop} --out week`'
    told = []
    if late:
        first = late[0]
        planned = f"planned to be ready on {first.ready}" if first.ready else "not planned to be ready"
        more = f", and {len(late) - 1} more" if len(late) > 1 else ""
        rush = f'`rollwright rush {first.line} --by {max(first.day, today)} --from "{morning}" --shop {shop}`'
        told.append(
            f"Late: {first.line} is wanted on {first.day} and {planned}{more}; {rush} says what it takes."
        )
    if waiting:
        named = f"{len(waiting)} won lines are" if len(waiting) > 1 else f"{waiting[0]} was won and is"
        told.append(f"Next: {named} not planned; {plan} does it.")
    if over:
        number = over[0].partition(" ")[0]
        renew = f"`rollwright renew {number} --shop {shop} --out again`"
        told.append(
            f"Run out: {first_few(over, 3)}; {renew} prices a quote again and lists the differences, "
            f"`rollwright lost {number} --shop {shop}` closes it."
        )
    return "\n".join(told)
