"""The owner's page: what came in, what was made of it, how full the rolls were, what was late."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from quoting.books.look import BookColumn, BookSheet, day_words
from quoting.hindsight import JobDone, MarginGroup, MonthFigures, margin_group

COLUMNS = (
    BookColumn("", 33), BookColumn("", 11), BookColumn("", 13), BookColumn("", 13), BookColumn("", 13),
    BookColumn("", 13), BookColumn("", 19),
)  # fmt: skip
_LAST = len(COLUMNS) - 1
_SHOWN = 5


def first_page(sheet: BookSheet, found: MonthFigures, today: date) -> None:
    """Write the page."""
    facts = found.facts
    sheet.text(0, 0, f"{facts.shop}: {found.first:%B %Y}", "title line")
    says = (
        f"Money in {facts.currency} before tax, as of {day_words(today)}. Quoted is what went out, won "
        "what was ordered, delivered what left the rolls for good: different lines, never added up."
    )
    sheet.wide(1, 0, _LAST, says, "quiet")
    row = _flow(sheet, 3, found)
    row = _margin(sheet, row + 1, found)
    row = _worst(sheet, row + 1, found)
    row = _hours(sheet, row + 1, found)
    row = _late(sheet, row + 1, found)
    _won(sheet, row + 1, found, today)


def _heads(sheet: BookSheet, row: int, names: Sequence[tuple[str, str]]) -> None:
    sheet.heads(row, [BookColumn(name, 0, style) for name, style in names])
    sheet.fill(row, range(len(names), len(COLUMNS)), "head")


def _flow(sheet: BookSheet, row: int, found: MonthFigures) -> int:
    _heads(sheet, row, [("The month", ""), ("Lines", "whole"), ("Money", "money")])
    flows = (
        ("Quoted (each inquiry once)", len(found.quoted), [line.price for line in found.quoted]),
        ("Won", len(found.won), [line.price for line in found.won]),
        ("Delivered", len(found.delivered), [job.price for job in found.delivered]),
    )
    for name, count, money in flows:
        row += 1
        sheet.text(row, 0, name)
        sheet.number(row, 1, count, "whole")
        sheet.number(row, 2, sum(money, Decimal(0)), "money")
    return row + 1


def _margin(sheet: BookSheet, row: int, found: MonthFigures) -> int:
    if not found.told:
        sheet.wide(
            row, 0, _LAST, "No delivered job has its minutes written down: no margin can be told.", "bold"
        )
        return row + 1
    whole = margin_group(
        "", f"Delivered, with minutes ({len(found.told)} of {len(found.delivered)})", found.told
    )
    _heads(
        sheet,
        row,
        [
            ("What was made of it", ""), ("Price", "money"), ("Profit quoted", "money"),
            ("Profit made", "money"), ("Quoted", "percent"), ("Made", "percent"),
        ],
    )  # fmt: skip
    row += 1
    _group(sheet, row, whole)
    row += 1
    steps = [f"{step} {money:,.0f}" for step, money in found.steps.items() if money > 0]
    won = [f"{step} {-money:,.0f}" for step, money in found.steps.items() if money < 0]
    words = f"Lost against the quotes by step: {', '.join(steps) or 'nothing'}."
    if won:
        words += f" Gained: {', '.join(won)}."
    sheet.wide(row, 0, _LAST, words, "bold")
    more = [f"{step} {minutes:,.0f} min" for step, minutes in found.facts.beyond.items() if minutes >= 1]
    if more:
        row += 1
        words = f"Minutes beyond today's book, as the fit splits them: {', '.join(more[:_SHOWN])}."
        sheet.wide(row, 0, _LAST, words)
    if odd := [job for job in found.told if job.odd]:
        row += 1
        sheet.wide(row, 0, _LAST, _odd_words(odd, found), "bold")
    return row + 1


def _odd_words(odd: Sequence[JobDone], found: MonthFigures) -> str:
    rest = margin_group("", "", [job for job in found.told if not job.odd])
    told = ", ".join(
        f"{job.line} ({took:,.0f} min where {planned:,.0f} were planned)"
        for job in odd[:_SHOWN]
        for took, planned in [(job.setup + job.run, job.planned_setup + job.planned_run)]
    )
    return (
        f"Look first whether this was a slip of the pen: {told}. Without it {rest.real_share:.1%} was made."
    )


def _group(sheet: BookSheet, row: int, group: MarginGroup) -> None:
    sheet.text(row, 0, group.group)
    for column, value in ((1, group.price), (2, group.quoted), (3, group.real)):
        sheet.number(row, column, value, "money")
    sheet.number(row, 4, group.quoted_share, "percent")
    sheet.number(row, 5, group.real_share, "percent bold")


def _worst(sheet: BookSheet, row: int, found: MonthFigures) -> int:
    jobs = sorted(found.told, key=lambda job: job.real_margin - job.quoted_margin)
    worst = [job for job in jobs if job.real_margin < job.quoted_margin][:_SHOWN]
    if not worst:
        return row
    _heads(
        sheet,
        row,
        [
            ("Where most was lost", ""), ("Price", "money"), ("Profit quoted", "money"),
            ("Profit made", "money"), ("Lost", "money"), ("Most in", "inset"),
        ],
    )  # fmt: skip
    for job in worst:
        row += 1
        _job(sheet, row, job)
    return row + 1


def _job(sheet: BookSheet, row: int, job: JobDone) -> None:
    sheet.text(row, 0, f"{job.line} · {job.customer}", "line")
    money = (job.price, job.quoted_margin, job.real_margin, job.quoted_margin - job.real_margin)
    for column, value in enumerate(money, 1):
        sheet.number(row, column, value, "money")
    step = max(job.lost, key=lambda name: job.lost[name], default="")
    sheet.text(row, 5, step, "inset")
    sheet.text(row, 6, job.part, "quiet")


def _hours(sheet: BookSheet, row: int, found: MonthFigures) -> int:
    _heads(
        sheet,
        row,
        [
            ("Roll hours", ""), ("Open", "number"), ("Won (sold)", "number"), ("On delivered", "number"),
            ("Set-up share", "percent"), ("as planned", "percent"),
        ],
    )  # fmt: skip
    for one in found.hours:
        row += 1
        sheet.text(row, 0, one.roll)
        for column, value in enumerate((one.open, one.sold, one.worked), 1):
            sheet.number(row, column, value, "number")
        if one.worked:
            sheet.number(row, 4, one.setup_share, "percent")
            sheet.number(row, 5, one.planned_setup_share, "percent")
    return row + 1


def _late(sheet: BookSheet, row: int, found: MonthFigures) -> int:
    share = found.in_time
    told = (
        f"In time: {share.hits} of {share.of} jobs with a date, {share.value:.0%} "
        f"(truly between {share.low:.0%} and {share.high:.0%})."
        if share.of
        else "No delivered job has a date."
    )
    sheet.wide(row, 0, _LAST, told, "bold")
    for job in found.late[:_SHOWN]:
        row += 1
        sheet.text(row, 0, f"{job.line} · {job.customer}", "line")
        sheet.text(row, 1, f"{job.late_days} days", "right")
        sheet.wide(row, 2, _LAST, job.why_late, "text inset")
    if len(found.late) > _SHOWN:
        row += 1
        sheet.wide(row, 0, _LAST, f"and {len(found.late) - _SHOWN} more, on the sheet Jobs", "quiet")
    return row + 1


def _won(sheet: BookSheet, row: int, found: MonthFigures, today: date) -> None:
    whole = next((rate.share for rate in found.rates if rate.by == "all"), None)
    told = "No line is decided yet."
    if whole is not None:
        told = (
            f"Won: {whole.hits} of {whole.of} lines decided so far, {whole.value:.0%} (truly between "
            f"{whole.low:.0%} and {whole.high:.0%})."
        )
    sheet.wide(row, 0, _LAST, told, "bold")
    sheet.wide(row + 1, 0, _LAST, found.point.words)
    used, area = (sum(pair[at] for pair in found.facts.plate_used.values()) for at in (0, 1))
    rack = sum((plate.value for plate in found.facts.rack), Decimal(0))
    old = sum((plate.value for plate in found.facts.rack if _days(plate.since, today) > 180), Decimal(0))
    words = f"The rack holds {rack:,.0f}, {old:,.0f} of it known for over half a year"
    words += f"; {used / area:.0%} of the plate of delivered jobs became parts." if area else "."
    sheet.wide(row + 2, 0, _LAST, words)


def _days(since: date | None, today: date) -> int:
    return (today - since).days if since else 0
