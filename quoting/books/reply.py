"""A reply ready to send: a mail draft (RFC 5322, MIME) with the quote and its questions attached.

Nothing here sends anything. `X-Unsent` opens it as a draft in mail programs that know the mark (common
practice, no standard); in others it is opened and sent on by hand.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from email import policy
from email.message import EmailMessage
from email.utils import parseaddr
from hashlib import sha256
from pathlib import Path

from quoting.books.look import customer_questions, day_words, entries_of
from quoting.books.questions import asked_words, checked_words, greeting, write_questions
from quoting.books.quote import quote_letter
from quoting.books.tongue import ENGLISH, Tongue
from quoting.core import State
from quoting.estimating import Estimate, OrderEstimate

_ADDRESS = re.compile(r"[!-~]+@[A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)+")
_BOOK = ("application", "vnd.openxmlformats-officedocument.spreadsheetml.sheet")
_KINDS = {".pdf": ("application", "pdf"), ".xlsx": _BOOK}
_LONGEST_NAME = 80


def write_reply(
    estimate: Estimate, order: OrderEstimate, path: Path, *, number: str, attached: Sequence[str]
) -> None:
    """Write the draft to one customer to `path` (.eml); the files `attached` stand beside it already."""
    message = EmailMessage(policy=policy.SMTP)
    source = order.order
    message["X-Unsent"] = "1"
    if sender := address_in(estimate.shop.letter.contact):
        message["From"] = sender
    if to := address_in(source.reply_to) or address_in(source.contact):
        message["To"] = to
    reference = _line(source.reference or source.file)
    message["Subject"] = reference if reference.lower().startswith("re:") else f"Re: {reference}"
    if re.fullmatch(r"<[!-~]+@[!-~]+>", source.message_id):
        message["In-Reply-To"] = message["References"] = source.message_id
    tongue = quote_letter(estimate, order, number=number).tongue
    message.set_content(reply_text(estimate, order, number, tongue))
    for name in attached:
        main, sub = _KINDS[Path(name).suffix]
        data = (path.parent / name).read_bytes()
        message.add_attachment(data, maintype=main, subtype=sub, filename=name)
    if customer_questions(order) and not tongue.entries:
        name = f"questions-{path.stem.removeprefix('reply-')}.xlsx"
        data = _questions(estimate, order, path.with_suffix(".part.xlsx"))
        message.add_attachment(data, maintype=_BOOK[0], subtype=_BOOK[1], filename=name)
    digest = sha256(b"".join(part.as_bytes() for part in message.iter_parts())).hexdigest()
    message.set_boundary(f"=_{digest[:40]}")  # the same draft every time, and nothing in it can end a part
    path.write_bytes(message.as_bytes())


def reply_text(estimate: Estimate, order: OrderEstimate, number: str, tongue: Tongue = ENGLISH) -> str:
    """Return the words of the reply: what is attached, and the questions, numbered as on the quote."""
    said = map(tongue.say, _opening(estimate, order, number))
    text = [greeting(order, tongue), "", " ".join(said), ""]
    if customer_questions(order):
        text += asked_words(estimate, order, tongue)
        closing = tongue.say("A short answer by number is enough.")
        if not tongue.entries:  # the list that is filled in and read back is in English
            closing = "A short answer by number is enough; or fill in the list that is attached."
        text += ["", closing, ""]
    return "\n".join([*text, tongue.say("Kind regards"), estimate.shop.name]) + "\n"


def _opening(estimate: Estimate, order: OrderEstimate, number: str) -> list[str]:
    states = [entry.state for entry in entries_of(order)]
    priced, declined = states.count(State.PRICED), states.count(State.NO_QUOTE)
    words = ["Thank you for your inquiry."]
    if priced:
        until = estimate.today + timedelta(days=estimate.shop.pricing.validity_days)
        money = f"{order.total.total:,.2f} {estimate.shop.rates.currency}"
        words.append(
            f"Attached is our quotation {number} over {priced} of {len(states)} lines: {money}, "
            f"valid until {day_words(until)}."
        )
    if declined:
        words.append(
            "Some lines we cannot make as they stand; the attached paper says why, and what would do."
        )
    if checked := checked_words(order):
        words.append(checked)
    return words


def address_in(text: str) -> str:
    """Return the one plain mail address in a text such as `Jane Doe <jane@example.com>`; else nothing.

    >>> address_in("Jane Doe <jane@example.com>"), address_in("Office, a@example.com"), address_in("Jane")
    ('jane@example.com', 'a@example.com', '')
    """
    found = parseaddr(text)[1]
    if _ADDRESS.fullmatch(found):
        return found
    match = _ADDRESS.search(text)
    return match[0].strip("<>(),;") if match else ""


def _line(text: str) -> str:
    return " ".join(text.split())[:_LONGEST_NAME]


def _questions(estimate: Estimate, order: OrderEstimate, path: Path) -> bytes:
    """Return the questions book of this customer alone: no other one's lines are in it."""
    try:
        write_questions(replace(estimate, orders=(order,)), path, for_customer=True)
        return path.read_bytes()
    finally:
        path.unlink(missing_ok=True)
