"""The record of a run, made from its estimate."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from quoting.core import Paper, Question, State
from quoting.estimating import ChoiceWorth, Estimate, OrderEstimate
from quoting.pricing import settings_of
from quoting.record import (
    FORMAT,
    VERSION,
    AnswerRecord,
    ChoiceRecord,
    ChoiceWorthRecord,
    IgnoredRecord,
    MadeRecord,
    OrderRecord,
    QuestionRecord,
    RollRecord,
    RowsRecord,
    RunRecord,
    TotalRecord,
)
from quoting.recording.archive import pack
from quoting.recording.line_records import line_records, place_record
from quoting.recording.nest_records import nest_record
from quoting.recording.price_records import result_id, revision_record, spread_record
from quoting.shop import hours_a_week


def make_record(estimate: Estimate) -> RunRecord:
    """Return the record of an estimate, without a schedule."""
    return replace(describe(estimate), archive=pack(estimate))


def describe(estimate: Estimate) -> RunRecord:
    """Return the record without the packed estimate: all that a page is printed from."""
    return RunRecord(
        format=FORMAT,
        version=VERSION,
        id=result_id(estimate),
        made=_made(estimate),
        revision=revision_record(estimate),
        orders=tuple(_order(order) for order in estimate.orders),
        lines=tuple(line for order in estimate.orders for line in line_records(order, estimate.shop)),
        ignored=tuple(
            IgnoredRecord(place_record(row.place), row.reason, row.text)
            for order in estimate.orders
            for row in order.rows
            if row.state is State.IGNORED
        ),
        questions=tuple(
            _question(order.order.customer, question, estimate.worth.get(question.id, ()))
            for order in estimate.orders
            for question in order.questions
        ),
        answers=tuple(answer for order in estimate.orders for answer in _answers(order)),
        nest=tuple(nest_record(group, estimate.shop) for group in estimate.nests),
    )


def _made(estimate: Estimate) -> MadeRecord:
    shop = estimate.shop
    hours = round(hours_a_week(shop.working_time), 3)
    return MadeRecord(
        today=estimate.today,
        effort=estimate.effort,
        seed=estimate.seed,
        shop=shop.name,
        currency=shop.rates.currency,
        paper=Paper(shop.paper),
        warnings=estimate.warnings,
        rolls=tuple(RollRecord(roll.name, hours) for roll in shop.rolls),
        settings=settings_of(shop),
    )


def _order(order: OrderEstimate) -> OrderRecord:
    states = Counter(row.state for row in order.rows)
    total = order.total
    return OrderRecord(
        file=order.order.file,
        customer=order.order.customer,
        reference=order.order.reference,
        notes=order.order.notes,
        rows=RowsRecord(
            priced=states[State.PRICED],
            question=states[State.QUESTION],
            no_quote=states[State.NO_QUOTE],
            ignored=states[State.IGNORED],
        ),
        total=TotalRecord(total.lines, total.minimum_top_up, total.tax, total.total),
        risk=spread_record(order.risk) if order.risk else None,
    )


def _answers(order: OrderEstimate) -> tuple[AnswerRecord, ...]:
    return tuple(
        AnswerRecord(
            question=given.question,
            customer=order.order.customer,
            line=given.line,
            place=place_record(given.place),
            read=given.read,
            text=given.text,
            answer=given.answer,
        )
        for given in order.order.answers
    )


def _question(customer: str, question: Question, worths: Sequence[ChoiceWorth]) -> QuestionRecord:
    prices = {worth.label: worth for worth in worths}
    return QuestionRecord(
        id=question.id,
        customer=customer,
        line=question.line,
        place=place_record(question.place),
        read=question.read,
        text=question.told,
        choices=tuple(_choice(choice.label, prices.get(choice.label)) for choice in question.choices),
        blocking=question.blocking,
        assumed=question.assumed,
    )


def _choice(label: str, worth: ChoiceWorth | None) -> ChoiceRecord:
    if worth is None:
        return ChoiceRecord(label)
    return ChoiceWorthRecord(
        label, worth.price, worth.blank_width_mm, worth.blank_length_mm, worth.problem, worth.exact
    )
