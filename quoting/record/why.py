"""Why this price: ten lines with the numbers, from the record, to be read out on the phone."""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal

from quoting.core import InputError
from quoting.record.schema import (
    PricedLineRecord,
    ReadLineRecord,
    RunRecord,
    SensitivityRecord,
    UnreadLineRecord,
)

_NEEDED = (
    "operator_hour",
    "helper_hour",
    "setup_hour",
    "overhead_share",
    "material_markup_share",
    "margin",
    "line_minimum",
    "rounding",
)


def find_line(record: RunRecord, asked: str) -> UnreadLineRecord:
    """Return the line of this id, or of this customer's line number when only one line has it.

    Raises InputError naming the nearest ids when there is none, or several.
    """
    by_id = [line for line in record.lines if line.id == asked]
    found = by_id or [line for line in record.lines if line.number == asked]
    if len(found) == 1:
        return found[0]
    known = [line.id for line in found or record.lines]
    shown = ", ".join(known[:12]) + (" ..." if len(known) > 12 else "")
    problem = "several lines have this number" if found else "no line of the record has this id or number"
    raise InputError(problem, read=asked, would_do=f"give one of: {shown}")


def why_lines(record: RunRecord, line: UnreadLineRecord) -> tuple[str, ...]:
    """Return the ten lines of a priced line; for another line what is open, in as many lines as it takes.

    Raises InputError when the record lacks a setting that the price was built from.
    """
    if not isinstance(line, PricedLineRecord):
        return _not_priced(line)
    rates = _rates(record)
    return (
        _what(line, record.made.currency),
        _made(line),
        _plate(line),
        _cutting(line),
        _setup(line, rates),
        _rolling(line, rates),
        _other(line, rates),
        _price(line, rates),
        _margin(line),
        _sure(line),
    )


def what_if_lines(line: UnreadLineRecord) -> tuple[str, ...]:
    """Return what each change would do, where that was worked out; empty where it was not."""
    if not isinstance(line, PricedLineRecord):
        return ()
    return tuple(_what_if(found, line.quantity) for found in line.sensitivities)


def _rates(record: RunRecord) -> Mapping[str, Decimal]:
    settings = record.made.settings
    for name in _NEEDED:
        if name not in settings:
            raise InputError(
                f"the record has no made.settings.{name}",
                would_do="give the file as the run wrote it",
            )
    return settings


def _not_priced(line: UnreadLineRecord) -> tuple[str, ...]:
    said = [f"Line {line.number} of {line.customer} is not priced ({line.state}): {line.reason}."]
    if isinstance(line, ReadLineRecord):
        said += [f"Nearest: {text}" for text in line.nearest]
    return tuple(said)


def _what(line: PricedLineRecord, currency: str) -> str:
    price, quantity = line.price, line.quantity
    each = f"{_money(price.unit)} {currency} each"
    whole = f", {_money(price.extended)} for {quantity:,}" if quantity > 1 else ""
    return f"Line {line.number}, {quantity:,} x {line.part}: {each}{whole}."


def _made(line: PricedLineRecord) -> str:
    verdict, blank = line.verdict, line.blank
    pieces = "" if blank.pieces == 1 else f" in {blank.pieces} pieces a part"
    steps = line.rolls[0].passes[0].steps
    passes = [step for step in steps if not (step.pre_bend or step.re_roll)]
    count = f"{len(passes)} pass{'es' if len(passes) != 1 else ''}"
    return (
        f"Rolled on {verdict.roll}{pieces}, ends: {line.ends}, {count} on the first piece; "
        f"{verdict.limit} governs, {verdict.used:.0%} used."
    )


def _plate(line: PricedLineRecord) -> str:
    parts, drivers = line.price.parts, line.drivers
    if not drivers.plate_cost:
        return "Plate: the customer's own, nothing charged for it."
    names = line.plates
    of = f" of {len(names)} plate{'s' if len(names) != 1 else ''} ({', '.join(names[:3])}"
    where = f"{of}{', ...' if len(names) > 3 else ''})" if names else ""
    drop = drivers.drop_credit
    less = f", less {_money(drop)} for drops we keep" if parts.plate < drivers.plate_cost else ""
    return f"Plate {_money(parts.plate)}: its share{where}{less}; {_part(parts.plate, line)} of the cost."


def _cutting(line: PricedLineRecord) -> str:
    parts = line.price.parts
    off = parts.edge + parts.bench + parts.welding + parts.filler
    named = ", ".join(item.name for item in line.work)
    work = f"; off the roll {_money(off)}: {named}" if named else ""
    return f"Cutting {_money(parts.cutting)}{work}."


def _setup(line: PricedLineRecord, rates: Mapping[str, Decimal]) -> str:
    minutes, quantity = line.drivers.setup_minutes, line.quantity
    money = line.price.parts.setup
    each = f", {_money(money / quantity)} on each piece" if quantity > 1 else ""
    return (
        f"Set-up {_money(money)}: {minutes:.1f} min at {_money(rates['setup_hour'])} an hour, "
        f"once for the line{each}."
    )


def _rolling(line: PricedLineRecord, rates: Mapping[str, Decimal]) -> str:
    parts, drivers, band = line.price.parts, line.drivers, line.minutes
    hour = drivers.roll_rate + rates["operator_hour"] + rates["helper_hour"] * (drivers.crew - 1)
    people = "1 person" if drivers.crew == 1 else f"{drivers.crew} people"
    lifting = parts.lifting
    crane = f"; crane {drivers.crane_minutes:.0f} min {_money(lifting)}" if lifting else ""
    return (
        f"Rolling {_money(parts.rolling)}: {drivers.rolling_minutes:.0f} min "
        f"({band.low:.0f} to {band.high:.0f}), roll and {people} at {_money(hour)} an hour{crane}."
    )


def _other(line: PricedLineRecord, rates: Mapping[str, Decimal]) -> str:
    parts = line.price.parts
    said = [f"Overhead {_money(parts.overhead)}: {rates['overhead_share']:.1%} of our own work"]
    if parts.outside:
        said.append(f"outside work {_money(parts.outside)}")
    if parts.certificate:
        said.append(f"certificate {_money(parts.certificate)}")
    return ", ".join(said) + "."


def _price(line: PricedLineRecord, rates: Mapping[str, Decimal]) -> str:
    price, parts = line.price, line.price.parts
    plate_share = f"{rates['material_markup_share']:.1%}"
    said = [
        f"Cost {_money(price.cost)}",
        f"markup on plate {_money(parts.material_markup)} ({plate_share} of its cost)",
        f"margin on our work {_money(parts.processing_margin)} ({rates['margin']:.1%} of its price)",
    ]
    if parts.outside_markup:
        said.append(f"markup on outside work {_money(parts.outside_markup)}")
    if parts.minimum_top_up:
        said.append(
            f"top-up {_money(parts.minimum_top_up)} to the least charge of {_money(rates['line_minimum'])}"
        )
    return f"{' + '.join(said)}; the unit price is rounded up to {rates['rounding']}."


def _margin(line: PricedLineRecord) -> str:
    price, override = line.price, line.override
    profit = price.extended - price.cost
    floor = "UNDER the floor" if price.under_floor else "the floor is"
    said = (
        f"Left over {_money(profit)}: {price.margin:.1%} of the price, "
        f"{price.markup:.1%} on the cost; {floor} {_money(price.floor_unit)} each."
    )
    if override and override.unit is not None:
        return f"{said} Price set by hand: {override.reason or 'no reason given'}."
    return said


def _sure(line: PricedLineRecord) -> str:
    risk = line.risk
    if not risk:
        return "How sure: not drawn for this line."
    reasons = f" Mind: {'; '.join(risk.reasons)}." if risk.reasons else ""
    return (
        f"How sure: the cost stays under {_money(risk.p50)} in half of the draws and under "
        f"{_money(risk.p90)} in nine of ten; {risk.loss_chance:.1%} chance of losing money.{reasons}"
    )


def _what_if(found: SensitivityRecord, quantity: int) -> str:
    change = found.change[:1].upper() + found.change[1:]
    if found.problem:
        return f"{change}: cannot be done, {found.problem}."
    assert found.extended is not None
    assert found.difference is not None
    moved = found.difference
    if found.kind == "merge":
        return f"{change}: {_money(found.extended)} for the two ({moved:+,.2f})."
    assert found.unit is not None
    if found.kind == "quantity":
        return f"{change}: {_money(found.unit)} each ({moved:+,.2f} each)."
    whole = f", {_money(found.extended)} for {quantity:,}" if quantity > 1 else ""
    return f"{change}: {_money(found.unit)} each{whole} ({moved:+,.2f})."


def _part(amount: Decimal, line: PricedLineRecord) -> str:
    cost = line.price.cost
    return f"{amount / cost:.0%}" if cost else "0%"


def _money(amount: Decimal) -> str:
    return f"{amount:,.2f}"
