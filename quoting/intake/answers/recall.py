"""Takes answers, from question books and remembered, as long as one of them opens the next question."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from quoting.core import Order
from quoting.intake.answers.answer_book import WrittenAnswer
from quoting.intake.answers.memory import Memory
from quoting.intake.answers.take import resolve
from quoting.shop import Shop


def with_answers(
    order: Order, written: Mapping[str, WrittenAnswer], shop: Shop, memory: Memory | None = None
) -> Order:
    """Return the order with every answer taken that was given to one of its questions.

    A written answer goes before a remembered one. One that stands beside another question than the order now
    asks under its id is not taken: the sheet has changed since, or it is another sheet.
    """
    while known := {**(memory.answers_to(order) if memory else {}), **_fitting(order, written)}:
        after = resolve(order, known, shop)
        if after.answers == order.answers:
            return after
        order = after
    return order


def _fitting(order: Order, written: Mapping[str, WrittenAnswer]) -> dict[str, str]:
    return {
        question.id: found.answer
        for question in order.questions
        if (found := written.get(question.id)) and found.fits(question)
    }


def not_taken(orders: Iterable[Order], written: Mapping[str, WrittenAnswer]) -> tuple[str, ...]:
    """Return the ids of the written answers that no order has taken, in their order in the books."""
    orders = list(orders)
    taken = {given.question for order in orders for given in order.answers}
    return tuple(id for id in written if id not in taken)
