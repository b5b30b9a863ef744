"""What the prices cover, what they leave out, and the words a quote stands on."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal

from quoting.books.look import day_words, lines_words
from quoting.books.quote.letter_source import Days, Letter
from quoting.core import Arc, Ends, OrderLine, State, format_weight
from quoting.estimating import LineResult, freight_of
from quoting.record import PromiseRecord

# What a plate roller leaves out unless asked: common practice, no source.
EXCLUSIONS = (
    "Non-destructive testing, heat treatment, blasting and paint",
    "Trimming to a final length, fit-up to other parts and work on site",
    "Engineering and drawings",
    "Packing and freight; a rolled shell is charged by its volume more often than by its weight",
    "Light marks of the rolls on the surface, and the thinning that bending brings",
)


_WORK = {
    "edges prepared": "Edge preparation as said on the line",
    "long seam welded": "Welding of the long seam as said on the line",
    "girth seams welded": "Welding of the girth seams as said on the line",
    "flats cut off after rolling": "Extra length at both ends, cut off after rolling",
    "cut edges ground": "Cut edges ground",
    "plate straightened before rolling": "Straightening of the plate before rolling",
    "template made": "A template",
    "your plate taken in and marked": "Taking in, checking and marking your plate",
}
_MANY = 6
_LANGUAGES = re.compile(r"\s*\|\s*(?=[a-z]{2}:)")
CENT = Decimal("0.01")
Block = tuple[str, tuple[str, ...]]


def terms(letter: Letter) -> list[Block]:
    """Return the blocks below the totals: a heading and its points, none of them empty."""
    priced = [entry.result for entry in letter.entries if entry.result and entry.state is State.PRICED]
    if not priced:
        asks = "This is not an offer yet: answer what we ask and we quote at once."
        return _said(letter, [("Before we can quote", (asks,))])
    blocks = [
        ("Included in the prices", _included(letter, priced)),
        ("Not included", _excluded(letter, priced)),
        ("Delivery and validity", _standing(letter)),
        ("Plate and certificates", _plate(letter, priced)),
    ]
    if letter.changes:
        blocks.insert(0, ("Changed since the last quotation, which this one replaces", letter.changes))
    return _said(letter, blocks)


def _said(letter: Letter, blocks: list[Block]) -> list[Block]:
    """Return the blocks in the customer's language; what a revision changed is said there already."""
    say = letter.tongue.say
    return [(say(title), tuple(map(say, points))) for title, points in blocks]


def own_term(text: str, language: str) -> str:
    """Return a term of the shop's own in a language, as it stands where it has none in that.

    >>> own_term("30 days net | de: 30 Tage netto", "de"), own_term("30 days net | de: 30 Tage netto", "fr")
    ('30 Tage netto', '30 days net')
    """
    first, *others = _LANGUAGES.split(text)
    return {one[:2]: one[3:].strip() for one in others}.get(language, first)


def delivery_words(line: OrderLine, promise: Days) -> str:
    """Return when the line is ready, beside the day that was asked for; empty when neither is known."""
    asked = f"you asked for {day_words(line.due)}" if line.due else ""
    ready = promise.get(line.id)
    if isinstance(ready, PromiseRecord):
        return _promised(line, ready)
    if ready is None:
        return f"Delivery: {asked}; we confirm the day with your order." if asked else ""
    return f"Ready on {day_words(ready)}" + (f" ({asked})." if asked else ".")


def _promised(line: OrderLine, days: PromiseRecord) -> str:
    """Return the day that is promised, the earliest, and until when it stands."""
    until = f"if ordered by {day_words(days.order_by)}"
    soon = f"; at the earliest {day_words(days.earliest)}" if days.earliest < days.safe else ""
    if line.due is None:
        return f"Ready on {day_words(days.safe)} {until}{soon}."
    if days.safe <= line.due:
        return f"Ready on {day_words(line.due)}, as you asked, {until}{soon}."
    return (
        f"Ready on {day_words(days.safe)} {until}{soon}. You asked for {day_words(line.due)}, which we "
        "cannot promise."
    )


def _included(letter: Letter, priced: list[LineResult]) -> tuple[str, ...]:
    def where(holds: Callable[[LineResult], bool]) -> str:
        return _which(priced, holds)

    points = []
    if bought := where(lambda result: not result.line.free_issue):
        points.append(f"Plate, cut to the developed blank on the mean diameter{bought}")
    if own := where(lambda result: result.line.free_issue):
        points.append(f"Cutting and rolling of the plate that you supply{own}")
    if bent := where(lambda result: bool(result.route and result.route.ends is Ends.PRE_BEND)):
        points.append(f"Pre-bending of both ends; a short flat remains at each{bent}")
    if springy := where(_tried):
        points.append(
            f"Trial passes that correct the springback; the mill test report before rolling helps{springy}"
        )
    points.append("Rolling to the diameter stated, checked with template or girth tape, deburred and marked")
    if tacked := where(_tacked):
        points.append(f"Long seam tacked in the rolls{tacked}")
    if rounded := where(lambda result: result.line.re_round):
        points.append(f"Re-rounding after the seam is welded{rounded}")
    for name, words in _WORK.items():
        if done := where(lambda result, name=name: any(item.name == name for item in result.work)):  # type: ignore[misc]
            points.append(f"{words}{done}")
    return tuple(f"{point}." for point in points)


def _which(priced: list[LineResult], holds: Callable[[LineResult], bool]) -> str:
    numbers = [result.line.number for result in priced if holds(result)]
    if not numbers:
        return ""
    others = [result.line.number for result in priced if not holds(result)]
    if not others:
        return " (all priced lines)"
    if len(others) < len(numbers) and len(numbers) > _MANY:
        return f" (all priced lines but {', '.join(others)})"
    return f" ({lines_words(numbers)})"


def _tried(result: LineResult) -> bool:
    """Return whether trial passes are in the price."""
    return bool(result.route and any(rolling.task.trials for rolling in result.route.rollings))


def _tacked(result: LineResult) -> bool:
    route = result.route
    return bool(
        route and any(step.name == "tack" for rolling in route.rollings for step in rolling.minutes.steps)
    )


def _excluded(letter: Letter, priced: list[LineResult]) -> tuple[str, ...]:
    points = [f"{text}." for text in EXCLUSIONS]
    if open_ := _which(priced, lambda result: result.line.weld is None):
        points.insert(0, f"Welding of the seams{open_}.")
    shells = [result for result in priced if not isinstance(result.line.shape, Arc)]
    plain = [result.line.number for result in shells if not result.line.re_round]
    if plain and len(plain) < len(priced):
        points.append(f"Re-rounding after welding on {lines_words(plain)}: as rolled.")
    elif plain:
        points.append("Re-rounding after welding: all lines are as rolled.")
    if not letter.shop.pricing.tax_share:
        points.append("Taxes.")
    return tuple(points)


def _standing(letter: Letter) -> tuple[str, ...]:
    until = day_words(letter.valid_until)
    own, code = letter.shop.letter, letter.tongue.code
    payment, tolerances = own_term(own.payment, code), own_term(own.tolerances, code)
    points = [
        f"Delivery: {own_term(own.delivery, code) or 'ex works'}.",
        *_freight(letter),
        *((f"Payment: {payment}.",) if payment else ()),
        *((f"Tolerances: {tolerances}.",) if tolerances else ()),
        f"Prices stand until {until}. The plate is what moves: after that day we price the plate anew and "
        "leave the work as it is.",
        "We cut and start the delivery time once you have confirmed material, sizes, diameter basis, "
        "tolerance and date in writing.",
    ]
    if any(isinstance(day, PromiseRecord) for day in letter.promise.values()):
        points.append("A day that is named with an order day moves when the order comes later.")
    if not letter.promise:
        points.append("Delivery days are given with the order confirmation, from the queue at that time.")
    points.append(_rush(letter))
    return tuple(points)


def _freight(letter: Letter) -> tuple[str, ...]:
    """Return what our own carriage would cost, where the shop's book has rates for it."""
    found = freight_of((entry.result for entry in letter.entries if entry.result), letter.shop)
    if found is None:
        return ()
    size = f"{found.volume_m3 / 0.3048**3:,.0f} cubic feet" if letter.inch else f"{found.volume_m3:,.1f} m3"
    weight = format_weight(found.weight_kg, inch=letter.inch)
    why = f"by volume, {size}" if found.by_volume else f"by weight, {weight}"
    currency = letter.shop.rates.currency
    return (f"Delivered by us: {found.cost:,.2f} {currency} for all priced lines, {why}; not in the total.",)


def _rush(letter: Letter) -> str:
    """Return what a rush costs: by what it displaces where the ledger tells, else by the shop's rule."""
    if found := letter.expedite:
        return (
            f"Expedited: all priced lines ready on {day_words(found.day)} for {found.price:,.2f} "
            f"{letter.shop.rates.currency} more, ordered by the day named there."
        )
    if any(isinstance(day, PromiseRecord) for day in letter.promise.values()):
        return "In a hurry? The days named are the soonest that the work before yours lets us promise."
    share, priced = letter.shop.pricing.expedite_share, letter.order.total.before_tax
    if not share or not priced:
        return "In a hurry? Ask: we say what a rush costs and which day it buys."
    amount = (priced * share).quantize(CENT, ROUND_HALF_UP)
    currency = letter.shop.rates.currency
    return (
        f"Expedited, where the week allows: {share:.0%} more, {amount:,.2f} {currency} on all priced lines. "
        "We name the day it buys before you decide."
    )


def _drops(letter: Letter) -> str:
    if letter.shop.pricing.drop_owner == "shop":
        return "Drops stay with us; the prices cover the plate your parts use."
    return "Drops are yours; the prices cover whole plates. Tell us with the order if you want them sent."


def _plate(letter: Letter, priced: list[LineResult]) -> tuple[str, ...]:
    bought = [result for result in priced if not result.line.free_issue]
    points = [_drops(letter)] if bought else []
    with_certificate = [result.line.number for result in priced if result.line.certificate]
    if with_certificate:
        points.append(
            f"Mill test report of the plate with {lines_words(with_certificate)}; the heat number is "
            "marked on each part."
        )
    if len(with_certificate) < len(priced):
        where = " on the other lines" if with_certificate else ""
        points.append(f"No mill test report{where}; ask before we cut, it cannot be added later.")
    own = [result.line.number for result in priced if result.line.free_issue]
    owed = letter.shop.risk.free_issue_owed_share
    if own:
        points.append(
            f"Your plate, {lines_words(own)}: inspected when it arrives; no spare piece is assumed, so a "
            "try piece is extra. What is left of it is yours; tell us with the order if you want it back."
        )
        points.append(
            f"Of a plate of yours that is lost in our hands we owe {owed:.0%} of its value."
            if owed
            else "A plate of yours that is spoiled in rolling is not replaced by us."
        )
    return tuple(points)
