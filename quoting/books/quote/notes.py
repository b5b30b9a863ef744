"""The small print of each line of a quote: what we ask, why we decline, what we assumed, when it is ready."""

from __future__ import annotations

import re

from quoting.books.look import Entry, NumberedQuestion, listed
from quoting.books.quote.letter_source import Letter
from quoting.books.quote.nearest import nearest_words
from quoting.books.quote.terms import delivery_words
from quoting.core import Arc, State
from quoting.estimating import (
    LineResult,
    edge_words,
    ends_words,
    judge_tolerances,
    physical_problem,
    springback_band,
    weld_words,
)
from quoting.forming import NAMES, DemandRow

_TOO_TIGHT = "the diameter is tighter than our rolls can close"
_IN_PLAIN_WORDS = {
    NAMES[row][0]: words
    for row, words in (
        (DemandRow.WIDTH, "it is wider than our rolls"),
        (DemandRow.THICKEST, "the plate is thicker than our rolls open to"),
        (DemandRow.THINNEST, "the plate is thinner than our rolls can grip"),
        (DemandRow.LEAST_DIAMETER, _TOO_TIGHT),
        (DemandRow.TOP_ROLL_FIT, _TOO_TIGHT),
        (DemandRow.ROOM, _TOO_TIGHT),
        (DemandRow.WEIGHT, "the piece is heavier than our rolls can carry"),
        (DemandRow.CONES, "our rolls for this size do not roll cones"),
        (DemandRow.PRE_BEND, "our rolls cannot pre-bend the ends of this plate"),
    )
}

_SIZES = [NAMES[row][0] for row in (DemandRow.WIDTH, DemandRow.THICKEST, DemandRow.THINNEST)]
"""What no softer plate gets round: it is said also where a load is beyond the rolls by more."""


_SAID_BELOW = re.compile(r"\((bevel|weld|tolerance|extras)\) is read as")
"""How a reading of edges, welds, tolerances and handwork looks; line and terms say what becomes of each."""


def line_notes(entry: Entry, letter: Letter) -> list[str]:
    """Return what stands below a line, in whole sentences."""
    result = entry.result
    notes: list[str] = []
    waiting = [item for item in entry.asked if item.question.blocking and not item.question.for_shop]
    if entry.state is State.QUESTION:
        say, put = letter.tongue.say, letter.tongue.put
        numbers = listed([str(item.number) for item in waiting]).replace(" and ", f" {say('and')} ")
        if entry.being_checked:
            notes.append(say("We are checking this line on our side and will come back to you on it."))
        elif waiting:
            asks = " ".join(say(item.question.text) for item in waiting)
            notes.append(put("We need to know (question {own}): {own2}", own=numbers, own2=asks))
        else:
            reason = say(entry.reason or "what is wanted on this line")
            notes.append(put("We need to know: {what}", what=reason))
    if entry.state is State.NO_QUOTE:
        notes += _declined(entry, letter)
    if entry.state is State.PRICED and result:
        notes += _made(result, letter)
    return notes


def _declined(entry: Entry, letter: Letter) -> list[str]:
    say, put = letter.tongue.say, letter.tongue.put
    reason = say(_polite(entry, letter))
    notes = [put("Thank you for asking. We cannot make this line as it stands: {what}.", what=reason)]
    nearest = nearest_words(entry.result, inch=letter.inch) if entry.result else ()
    if nearest:
        ways = f"; {say('or')} ".join(map(say, nearest))
        notes.append(put("The nearest we can do: {own}. Tell us and we will quote it.", own=ways))
    return notes


def _polite(entry: Entry, letter: Letter) -> str:
    """Return the reason in words for a customer: the limit, not how our machines are loaded."""
    route = entry.result.route if entry.result else None
    if route is not None and route.ok:
        return "no plate that we have or can buy serves it as we cut"
    if route is None:
        return entry.reason.rstrip(".")
    if route.problem:
        return physical_problem(route.rollings, letter.shop, inch=letter.inch) or route.problem
    verdict = route.governing.verdict
    beyond = [verdict.limit, *(one.name for one in verdict.limits if one.used > 1 and one.name in _SIZES)]
    plain = (_IN_PLAIN_WORDS[name] for name in beyond if name in _IN_PLAIN_WORDS)
    return next(plain, "it takes more force than our rolls have")


def _made(result: LineResult, letter: Letter) -> list[str]:
    notes: list[str] = []
    assumed = [
        *dict.fromkeys(
            (
                *result.line.assumptions,
                *_assumed(result, letter),
                *(item.question.assumed for item in _own(result, letter) if item.question.assumed),
            )
        )
    ]
    assumed = [text for text in assumed if not _SAID_BELOW.search(text)]
    say, put = letter.tongue.say, letter.tongue.put
    if assumed:
        notes.append(put("Assumed: {own}.", own="; ".join(map(say, assumed))))
    if result.line.edge_prep:
        notes.append(say(f"Edges: {edge_words(result.line.edge_prep, inch=letter.inch)}."))
    if result.line.weld:
        notes.append(say(f"Welding by us: {weld_words(result.line)}."))
    if result.line.remarks:
        remarks = "; ".join(dict.fromkeys(result.line.remarks)).rstrip(".")
        notes.append(put("Your remarks: {own}.", own=remarks))
    notes += map(say, _tolerances(result, letter))
    notes += map(say, _springback(result, letter))
    if result.told:
        ways = f"; {say('or')} ".join(map(say, result.told))
        notes.append(put("Also possible: {own}. Tell us and we will quote it.", own=ways))
    delivery = say(delivery_words(result.line, letter.promise))
    return [*notes, delivery] if delivery else notes


def _tolerances(result: LineResult, letter: Letter) -> list[str]:
    """Return what becomes of each tolerance asked for; one that was not understood is not accepted."""
    line = result.line
    if result.route is None or not (line.tolerances or line.tolerance):
        return []
    if not line.tolerances:
        return [
            f"Tolerance asked for: {line.tolerance}. Not understood and NOT in this price; please explain."
        ]
    judged = judge_tolerances(line, result.route, letter.shop)
    return [f"Tolerance: {one.words(inch=letter.inch)}." for one in judged]


def _springback(result: LineResult, letter: Letter) -> list[str]:
    """Return how far the diameter may spring before it is corrected, where the grade's plate varies much."""
    if result.route is None:
        return []
    arc = isinstance(result.line.shape, Arc)
    band = springback_band(result.route.rollings, letter.shop, inch=letter.inch, arc=arc)
    return [f"Springback: plate of this grade comes out {band} before it is corrected."] if band else []


def _assumed(result: LineResult, letter: Letter) -> list[str]:
    """Return the line's assumptions, the flats in the customer's own unit system."""
    route = result.route
    if route is None:
        return list(result.assumptions)
    shop_words, own_words = (ends_words(route, inch=inch) for inch in (letter.shop.inch, letter.inch))
    return [own_words if text == shop_words else text for text in result.assumptions]


def _own(result: LineResult, letter: Letter) -> list[NumberedQuestion]:
    return [
        item for item in letter.asked if item.question.line == result.line.id and not item.question.blocking
    ]
