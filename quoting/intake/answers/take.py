"""Takes answers to questions, and builds the line that each choice would give."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from quoting.core import (
    Alternative,
    Answer,
    Basis,
    Choice,
    Draft,
    Order,
    OrderLine,
    Question,
    Reading,
    SizeError,
    Unit,
    parse_measure,
)
from quoting.intake.answers.natural import lone_size, natural, spoken
from quoting.intake.asked_once import ask_once, is_shared, kind_of, reasons_of, without_lines
from quoting.intake.cells import is_tougher
from quoting.intake.doubts import settle
from quoting.intake.layout import Meaning
from quoting.intake.lines import (
    COLUMN,
    ask_duplicate,
    assemble,
    doubt_of,
    record_of,
    waiting,
    whole_file_questions,
)
from quoting.intake.row_record import Record, number_text
from quoting.intake.shapes import unit_missing
from quoting.intake.shop_view import ShopView
from quoting.intake.size_column import MM
from quoting.intake.texts import BASIS_WORDS, count_of, date_of, ends_in
from quoting.shop import Materials, Shop, materials_of

Fields = tuple[tuple[str, str], ...]
_LENGTHS = frozenset((
    "diameter", "radius", "large", "small", "length", "width", "girth", "height", "slant", "chord",
    "rise", "arc_length", "thickness", "stock_thickness",
))  # fmt: skip
_MOST_ROUNDS = 5


def resolve(order: Order, answers: Mapping[str, str], shop: Shop) -> Order:
    """Return the order with answers taken: question id -> choice label or text.

    A line whose last blocking question is answered moves to `lines`, with the answer among its assumptions.
    An answer that is not understood leaves its question open, with a word about it. Unknown ids are passed
    over. Where one answer raises the next question, that one is answered too if its id is among them.
    """
    for _ in range(_MOST_ROUNDS):
        before = order.questions
        order = _resolved(order, answers, shop)
        if order.questions == before:
            break
    return order


def _resolved(order: Order, answers: Mapping[str, str], shop: Shop) -> Order:
    materials = materials_of(shop)
    known = {key: text.strip() for key, text in answers.items() if text and text.strip()}
    by_line: dict[str, list[Question]] = {}
    whole: list[tuple[Question, Fields]] = []
    for question in order.questions:
        if question.line:
            by_line.setdefault(question.line, []).append(question)
        elif question.id in known and (fields := fields_of(question, known[question.id], order, materials)):
            whole.append((question, fields))
    redone = _Redone(order, materials, known)
    records = [redone.draft(draft, by_line.get(draft.id, []), whole) for draft in order.drafts]
    taken = tuple(dict.fromkeys((*order.answers, *redone.taken)))
    answered = frozenset(one.question for one in taken)
    done = _reassembled(order, records, shop, answered)
    questions = tuple(_refused(one, known, answered) for one in done.questions)
    return replace(done, questions=questions, answers=taken)


def _refused(question: Question, answers: Mapping[str, str], answered: frozenset[str]) -> Question:
    """Return a question about all lines with the answer to it that was not understood."""
    answer = answers.get(question.id, "")
    known = bool(question.line) or question.id in answered or not answer
    return question if known else replace(question, refused=answer)


def alternatives(order: Order, question: Question, shop: Shop) -> tuple[tuple[Choice, OrderLine], ...]:
    """Return the order line that each choice of a question would give, to price the difference.

    Other open questions of the line are taken at their first choice. A choice that gives no line (because
    something without choices is still missing) is left out. A question about the whole file gives under
    every choice the lines that it concerns and that nothing else keeps waiting: the others would wait with
    any answer to it. Where every line that waits for it waits for more, the first choices answer that too.
    """
    if not question.choices:
        return ()
    alone = _only(order, question)
    others = {
        other.id: other.choices[0].label
        for other in alone.questions
        if other.id != question.id and other.choices and other.blocking
    }
    found = []
    for choice in question.choices:
        answered = _resolved(alone, {**others, question.id: choice.label}, shop)
        found += [(choice, line) for line in answered.lines]
    return tuple(found)


def every_alternative(orders: Iterable[Order], shop: Shop) -> tuple[Alternative, ...]:
    """Return the order line that each choice of each question of orders would give."""
    return tuple(
        Alternative(question.id, choice.label, line)
        for order in orders
        for question in order.questions
        for choice, line in alternatives(order, question, shop)
    )


def _only(order: Order, question: Question) -> Order:
    """Return the order with only the drafts that a question concerns, and the questions about those."""
    if question.line:
        drafts = tuple(draft for draft in order.drafts if draft.id == question.line)
        questions = tuple(other for other in order.questions if other.line in ("", question.line))
    else:
        drafts = tuple(draft for draft in order.drafts if concerns(question, draft))
        free = _waiting_for_no_other(drafts, order, question)
        drafts = free if free or not question.blocking else drafts
        questions = order.questions
    return replace(order, drafts=drafts, questions=questions, rows=())


def _waiting_for_no_other(drafts: Sequence[Draft], order: Order, question: Question) -> tuple[Draft, ...]:
    """Return the drafts that no question but one about the whole file keeps from being priced."""
    others = [other for other in order.questions if other.blocking and other.id != question.id]
    own = {other.line for other in others if other.line}
    whole = [other for other in others if not other.line]
    return tuple(
        draft
        for draft in drafts
        if draft.id not in own and not any(concerns(other, draft) for other in whole)
    )


def concerns(question: Question, draft: Draft) -> bool:
    """Return whether a question about the whole file concerns a line."""
    field = name_of(question)
    values = dict(draft.values)
    if is_shared(field):
        return field in waiting(values)
    if field.startswith(COLUMN):
        return f"{field}_cell" in values and field not in values
    if field == "unit":
        return unit_missing(values)
    return not values.get(field)


def fields_of(
    question: Question,
    answer: str,
    order: Order,
    materials: Materials,
    values: Mapping[str, str] | None = None,
) -> Fields:
    """Return the fields that an answer sets; empty when it is not understood.

    The answer may be a choice's label, a word that only one label holds, the choice's number, or a text that
    the question's field can be read from; `values` are what the line says so far.
    """
    choice = choice_of(question, answer)
    if choice is not None:
        return choice.fields
    field = name_of(question)
    if is_shared(field):
        alone = replace(question, id=f"all/{kind_of(field)}")
        found = fields_of(alone, answer, order, materials, values)
        return tuple(dict.fromkeys((*found, (field, "yes")))) if found else ()
    answer = spoken(answer, field, inch=not order.metric)
    if field == "material" and any(is_tougher(answer, key) for key in materials.find(answer).keys):
        return ()
    known = dict(values or {})
    return _parsed(field, lone_size(answer), order, materials) or natural(
        question, answer, order, materials, known
    )


def answered_columns(order: Order) -> tuple[tuple[str, Meaning], ...]:
    """Return header and meaning of the columns that answers have explained, to pin them for the customer."""
    found = []
    for answer in order.answers:
        name = answer.question.rpartition("/")[2]
        told = (dict(draft.values) for draft in order.drafts)
        values = next((one for one in told if one.get(name)), None)
        if values is None or not name.startswith(COLUMN) or not answer.place.header:
            continue
        side = Basis(values["basis"]) if values[name] == "diameter" and values.get("basis") else None
        header = " ".join(answer.place.header.lower().split())
        found.append((header, Meaning(values[name], side, values.get(f"{name}_unit", ""))))
    return tuple(found)


def choice_of(question: Question, answer: str) -> Choice | None:
    """Return the choice an answer names, if it names exactly one."""
    plain = " ".join(answer.lower().split()).rstrip(".")
    exact = [choice for choice in question.choices if choice.label.lower() == plain]
    if exact:
        return exact[0]
    if numbered := _by_number(question, plain):
        return numbered
    words = [set(re.findall(r"[a-z0-9/.\-]+", choice.label.lower())) for choice in question.choices]
    said = set(re.findall(r"[a-z0-9/.\-]+", plain))
    close = [choice for choice, own in zip(question.choices, words, strict=True) if said and said <= own]
    return close[0] if len(close) == 1 else None


def _by_number(question: Question, plain: str) -> Choice | None:
    """Return the choice that an answer names by its number, where no choice is a number itself."""
    match = _NUMBER.fullmatch(plain)
    field = kind_of(name_of(question))
    if (
        match is None
        or field in _COUNTED
        or any(one.isdecimal() for c in question.choices for one in c.label)
    ):
        return None
    at = int(match[1]) - 1
    return question.choices[at] if 0 <= at < len(question.choices) else None


_NUMBER = re.compile(r"(?:option|choice|no\.?|nr\.?|#)?\s*\(?(\d)\)?")
_COUNTED = _LENGTHS | {
    "quantity",
    "quantity_ok",
    "angle",
    "size",
    "line",
    "material",
    "number_ok",
    "weld_gap",
}
"""Kinds of questions that a number answers by itself."""


def _parsed(field: str, answer: str, order: Order, materials: Materials) -> Fields:
    """Return the fields that a free text sets for the field a question is about."""
    if field in _LENGTHS:
        return _length_fields(field, answer, inch=not order.metric)
    value = ""
    if field == "quantity":
        count = count_of(answer)
        value = str(count.number or (count.options[0] if len(count.options) == 1 else ""))
    elif field == "material":
        found = materials.find(answer)
        value = found.keys[0] if len(found.keys) == 1 and not found.rest else ""
    elif field == "basis":
        value = _basis_word(answer)
    elif field == "angle":
        match = re.fullmatch(r"\s*(\d+(?:[.,]\d+)?)\s*(°|deg\.?|degrees)?\s*", answer, re.I)
        degrees = float(match.group(1).replace(",", ".")) if match else 0.0
        value = number_text(degrees) if 0 < degrees <= 360 else ""
    elif field == "due":
        spoken = re.sub(r"^\W*(it is|by|on|the)\b|\bplease\b", " ", answer, flags=re.I).strip(" .")
        day = date_of(spoken).value
        value = day.isoformat() if day else ""
    elif field == "ends":
        value = str(ends_in(answer) or "")
    return ((field, value),) if value else ()


def _basis_word(answer: str) -> str:
    """Return the basis that the words of an answer name, when they name one only."""
    words = answer.lower().replace(".", "").split()
    named = {BASIS_WORDS[word] for word in words if word in BASIS_WORDS}
    return named.pop() if len(named) == 1 and "not" not in words else ""


def _length_fields(field: str, answer: str, *, inch: bool) -> Fields:
    """Return the fields of a size in words of the grammar; `48 OD` also settles the basis."""
    try:
        size = parse_measure(answer)
    except SizeError:
        return ()
    if size.is_range or size.unit is Unit.DEGREE or size.low <= 0:
        return ()
    name = "thickness" if field == "stock_thickness" else field
    extra: Fields = (("thickness_ok", "yes"),) if field == "stock_thickness" else ()
    basis: Fields = (("basis", str(size.basis)),) if size.basis else ()
    if size.unit is Unit.GAUGE:
        metal: Fields = (("gauge_metal", size.metal),) if size.metal else ()
        return (("gauge", str(int(size.low))), *metal) if name == "thickness" else ()
    if size.unit in (Unit.NPS, Unit.DN):
        return ((name, number_text(size.to_mm(inch=inch))), *basis)
    unit = str(size.unit) if size.unit else ("in" if inch or size.fraction else "mm")
    cleared: Fields = (("gauge", ""),) if name == "thickness" else ()
    return ((name, number_text(size.low * MM[unit])), *basis, *extra, *cleared)


class _Redone:
    """Settles drafts again with the answers."""

    def __init__(self, order: Order, materials: Materials, answers: Mapping[str, str]) -> None:
        self.order, self.materials, self.answers = order, materials, answers
        self.desk = ShopView(self.materials, not order.metric)
        self.seen: dict[tuple[tuple[str, str], ...], str] = {}
        self.shared = {name: one for one in order.questions if is_shared(name := name_of(one))}
        self.taken: list[Answer] = []

    def draft(self, draft: Draft, questions: list[Question], whole: list[tuple[Question, Fields]]) -> Record:
        record = record_of(draft)
        for question, fields in whole:
            if concerns(question, draft):
                self.take(record, question, fields)
        for question in questions:
            answer = self.answers.get(question.id, "")
            fields = fields_of(question, answer, self.order, self.materials, record.values) if answer else ()
            if fields:
                self.take(record, question, fields)
            else:
                record.doubt(doubt_of(replace(question, refused=answer)))
        self.columns(record)
        for name in waiting(record.values):
            if one := self.shared.get(name):
                record.doubt(doubt_of(replace(one, id=f"{one.line}/{kind_of(name)}")))
        self.drop_settled(record)
        settle(record, self.desk)
        self.still_waiting(record)
        ask_duplicate(record, draft.number, self.seen, self.materials)
        return record

    def take(self, record: Record, question: Question, fields: Fields) -> None:
        """Set the answered fields and say so on the line."""
        for name, value in fields:
            if value:
                record.values[name] = value
            else:
                record.values.pop(name, None)
        answer = self.answers[question.id]
        taken = Answer(question.id, question.line, question.place, question.read, question.text, answer)
        self.taken.append(taken)
        record.assumptions.append(_assumption(question, fields, answer))
        kind = kind_of(name_of(question))
        record.readings.append(Reading(kind, question.place, question.read, answer))

    def columns(self, record: Record) -> None:
        """Take the cells of the columns that an answer has explained."""
        for name, field in list(record.values.items()):
            cell = record.values.get(f"{name}_cell", "") if name.startswith(COLUMN) else ""
            if not cell or record.values.get(field):
                continue
            unit = record.values.get(f"{name}_unit", "")
            text = f"{cell} {unit}" if unit and cell.replace(".", "", 1).isdigit() else cell
            for key, value in _parsed(field, text, self.order, self.materials):
                record.values.setdefault(key, value)

    def still_waiting(self, record: Record) -> None:
        """Ask nothing of a line that an open question about a column, or about several lines, may answer."""
        for name in waiting(record.values):
            if name.startswith(COLUMN):
                for field in ("quantity", "thickness", "diameter", "length"):
                    if field in record.doubts and not record.doubts[field].read:
                        del record.doubts[field]
            elif name in self.shared:
                record.doubts.pop(kind_of(name), None)

    def drop_settled(self, record: Record) -> None:
        """Drop a doubt whose field another answer has filled."""
        for name in list(record.doubts):
            if record.doubts[name].blocking and record.values.get(name):
                del record.doubts[name]


def _assumption(question: Question, fields: Fields, answer: str) -> str:
    """Return what a line says of an answer; what the shop asked itself is no matter of the customer's."""
    if not question.for_shop:
        asked = question.text
        name = name_of(question)
        if not question.line and (name == "ends" or is_shared(name)):  # lines that were none then have it too
            asked = without_lines(asked)
        return f"{asked} Answer: {answer}"
    chosen = (choice.label for choice in question.choices if choice.fields == fields)
    return next(chosen, "quoted in another plate than the sheet asks for")


def _reassembled(order: Order, records: list[Record], shop: Shop, answered: frozenset[str]) -> Order:
    prefix, materials = prefix_of(order), materials_of(shop)
    named = [(draft.id, draft.number) for draft in order.drafts]
    numbers = [number for _, number in named]
    shared = ask_once(list(zip(numbers, records, strict=True)), prefix)
    asked = {**reasons_of(order.questions), **shared.reasons}
    texts = {row.place: row.text for row in order.rows}
    parts = [
        assemble(record, names, order.customer, materials, texts.get(record.place, ""), asked)
        for names, record in zip(named, records, strict=True)
    ]
    rows = {part.row.place: part.row for part in parts}
    questions = [question for part in parts for question in part.questions]
    noted = [one for one in order.questions if not one.line and one.id not in answered and _noted(one)]
    questions += whole_file_questions(
        parts, prefix, shop.default_ends, materials.in_family(None), (*noted, *shared.questions)
    )
    return replace(
        order,
        lines=tuple(part.line for part in parts if part.line is not None),
        questions=tuple(questions),
        rows=tuple(rows.get(row.place, row) for row in order.rows),
        drafts=tuple(part.draft for part in parts),
    )


def _noted(question: Question) -> bool:
    """Return whether a question about all lines was raised by the sheet, and not by what its lines lack."""
    name = name_of(question)
    return name.endswith("_ok") or name.startswith(COLUMN) or is_shared(name)


def name_of(question: Question) -> str:
    """Return the last part of a question's id: what it is about."""
    return question.id.rpartition("/")[2]


def prefix_of(order: Order) -> str:
    """Return what stands before `all` or a line's number in the ids of this order."""
    draft = order.drafts[0] if order.drafts else None
    if draft is None or draft.number not in draft.id:
        return ""
    return draft.id[: draft.id.index(draft.number)]
