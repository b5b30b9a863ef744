"""Which orders of a run can be answered in their customer's language: all of an answer, or none of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from quoting.books.quote import own_term, quote_letter, say_all
from quoting.books.reply import reply_text
from quoting.books.tongue import UnsaidError, tongue_of
from quoting.estimating import Estimate, OrderEstimate

LANGUAGES = {"en": "English", "de": "German", "es": "Spanish", "fr": "French"}


def spoken(estimate: Estimate, say: Callable[[str], None] = lambda _: None) -> Estimate:
    """Return the estimate with the language of an order taken back where a sentence of its quote or mail
    cannot be said in it; `say` is told which.
    """
    orders = []
    for order in estimate.orders:
        missing = _unsaid(estimate, order)
        if missing:
            language = LANGUAGES[order.order.language]
            say(f'the quote of {order.order.file} is in English: no {language} words for "{missing}"')
            order = replace(order, order=replace(order.order, language=""))  # noqa: PLW2901
        orders.append(order)
    own = estimate.shop.letter
    languages = {one.order.language for one in orders} - {"", "en"}
    texts = filter(None, (own.payment, own.delivery, own.tolerances))
    if any(own_term(text, one) == own_term(text, "") for text in texts for one in languages):
        say("payment, delivery and tolerances are printed as the shop's book has them, in its own words")
    return replace(estimate, orders=tuple(orders))


def _unsaid(estimate: Estimate, order: OrderEstimate) -> str:
    """Return the first sentence that cannot be said; empty when all can be, and for English."""
    tongue = tongue_of(order.order.language)
    if not tongue.entries:
        return ""
    try:
        say_all(quote_letter(estimate, order, number=""))
        reply_text(estimate, order, "0", tongue)
    except UnsaidError as error:
        return str(error)
    return ""
