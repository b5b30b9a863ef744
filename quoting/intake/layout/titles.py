"""Who asks, under which reference: from the title block, the titles, or the file's name."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from quoting.intake.layout.who_asks import WhoAsks
from quoting.intake.texts import shape_words

_CUSTOMER = (
    "customer",
    "company",
    "from",
    "customer name",
    "client",
    "buyer company",
    "bill to",
    "sold to",
    "firm",
)
_REFERENCE = (
    "rfq", "rfq no", "rfq #", "quote request", "po", "po no", "po #",
    "reference", "ref", "enquiry", "inquiry",
    "request no", "order no", "project", "job", "rfq number", "our ref", "enquiry no", "inquiry no",
)  # fmt: skip
_FILE_WORDS = frozenset(
    ("", "order", "orders", "rfq", "enquiry", "inquiry", "sheet", "quote", "request", "list")
)
_JOINS = frozenset(("and", "with", "of", "for", "to", "the", "from", "new", "final", "copy"))
_CONTACT = ("contact", "attn", "attention", "buyer", "email", "e-mail", "phone", "name", "requested by")


_NOT_A_NAME = re.compile(
    r"\d|[:=]|\b(rfq|quot\w*|request|enquiry|inquiry|orders?|list|sheet|parts?|dim\w*|all|please|tank|section|notes?)\b"
    r"|.{50}",
    re.I,
)


_MOST_TITLES = 5
_CAPITALS = re.compile(r"[A-ZÀ-Ý][\w.'’-]+(?:\s+(?:&|[A-ZÀ-Ý][\w.'’-]*)){1,4}")
"""Two to five words in capitals, as a firm's name is written."""
_DASH = re.compile(r"\s+[-|:–—]\s+")
_ASKS = re.compile(
    r"(?:request for (?:a )?(?:quot\w+|price)|quotation request|rfq|enquiry|inquiry)\b"
    r"\W*(?:n[or]?[.°º]?\s*)?((?=[\w/-]*\d)[A-Za-z0-9][\w/-]*)?",
    re.I,
)


_ENQUIRY = (
    r"rfq|enquiry|inquiry|quot(?:e|ation)|request(?: for (?:a )?(?:quot\w+|price))?|(?:purchase )?order|po"
    r"|bid|tender"
    r"|project|job|ref(?:erence|erencia|erenz|érence)?|anfrage|angebot|bestellung|auftrag|projekt"
    r"|demande(?: de prix| d[e'’] ?\w+)?|consultation|appel d['’]offres|commande|affaire"
    r"|pedido|solicitud|consulta|oferta|cotización|orden(?: de compra)?|proyecto|obra"
    r"|richiesta(?: (?:d['’i] ?)?\w+)?|ordine|commessa|progetto|offerteaanvraag|aanvraag|bestelling|opdracht"
    r"|orçamento|ordem|zapytanie|zamówienie|förfrågan|beställning|forespørgsel|ordre|poptávka|objednávka|zakázka"
    r"|teklif|sipariş|proje|cerere|comandă|proiect|tarjouspyyntö|tilaus|ajánlatkérés|megrendelés"
)
_OF_NUMBERS = r"ref(?:erence|erencia|erenz|érence)?|no|nr|n[°ºo]|num\w*|number|id"
_NUMBERED = re.compile(
    rf"(?:(?:our|your)\s+)?(?:{_ENQUIRY})(?=[\W\d])[\s.:#-]*(?:(?:{_OF_NUMBERS})(?=[\W\d])[\s.:#-]*){{0,3}}"
    r"(?P<number>(?=[\w./-]*\d)[\w./-]{4,})",
    re.I,
)
"""A title that is no more than the number of an enquiry or order: Enquiry ref: E5512, Anfrage Nr. 4711. A
shorter number may be one of pieces: quote 250."""


def order_number(title: str) -> str:
    """Return the number where a title is no more than that of an enquiry or order, else nothing.

    >>> order_number("Enquiry ref: E5512"), order_number("RFQ 24-118 rings"), order_number("quote 250")
    ('E5512', '', '')
    """
    match = _NUMBERED.fullmatch(title.strip())
    return match["number"] if match else ""


@dataclass(frozen=True, slots=True)
class Heading:
    """The customer's name, reference and contact, and where a mail is answered; parts may be empty."""

    customer: str
    reference: str
    contact: str
    reply_to: str = ""
    message_id: str = ""


def heading_of(pairs: Mapping[str, str], titles: Sequence[str], stem: str, asks: WhoAsks) -> Heading:
    """Return the heading of a file from its `Name: value` pairs, its titles and its name without ending.

    `asks` is what the sheets say of it in their own words.
    """
    named, reference = _asking_title(titles)
    customer = _first(pairs, _CUSTOMER) or asks.customer or named or _customer_of(titles, stem)
    number = _first(pairs, _REFERENCE) or asks.reference or reference
    return Heading(
        customer,
        number or next(filter(None, map(order_number, titles)), ""),
        _first(pairs, _CONTACT) or asks.contact,
        pairs.get("reply to", ""),
        pairs.get("message id", ""),
    )


def _asking_title(titles: Sequence[str]) -> tuple[str, str]:
    """Return the name and the number of a title such as `Name - Request for quote 4471`."""
    for title in titles[:_MOST_TITLES]:
        name, dash, rest = (part.strip() for part in _DASH.sub("\0", title, count=1).partition("\0"))
        asked = _ASKS.match(rest) if dash else None
        if asked and name and not _NOT_A_NAME.search(name):
            return name, asked.group(1) or ""
        asked = _ASKS.search(title)
        name = title[: asked.start()].strip(" -–:|,") if asked else ""
        if asked and _CAPITALS.fullmatch(name) and not _NOT_A_NAME.search(name) and not shape_words(name):
            return name, asked.group(1) or ""
    return "", ""


def _first(pairs: Mapping[str, str], names: Sequence[str]) -> str:
    return next((pairs[name] for name in names if pairs.get(name)), "")


def _customer_of(titles: Sequence[str], stem: str) -> str:
    """Return the title the file is named after, else the file's name."""
    words = [word for word in re.split(r"[\W_]+", stem.lower()) if word]
    while words and words[-1] in _FILE_WORDS | _JOINS:
        words.pop()
    while words and words[0] in _FILE_WORDS | _JOINS:
        words.pop(0)
    for title in titles:
        for part in re.split(r"\s+[-|:]\s+", title):
            named = set(re.findall(r"[a-z0-9]+", re.sub(r"\(.*?\)", "", part.lower())))
            if len(named) >= 2 and named <= set(words):
                return part.strip()
    return " ".join(words).title() or stem
