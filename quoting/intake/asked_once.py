"""One question for all lines in which one cause asks the same: a remark that stands in a hundred rows."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from quoting.core import Choice, Question
from quoting.intake.row_record import Doubt, Record

MANY = 3
"""From so many lines on a question that is the same in all of them is asked once."""
_NAME = re.compile(r"(?:same|told)_(\d+)_(\w+)")
_SHOWN = 8
_READ = 4
_OWN = frozenset(("duplicate", "hidden", "columns_ok", "struck_ok", "line"))
"""Questions that are about one row by itself, whatever it says."""


def kind_of(name: str) -> str:
    """Return what a question asks about, by the last part of its id.

    >>> kind_of("same_2_remark_ok"), kind_of("remark_ok")
    ('remark_ok', 'remark_ok')
    """
    match = _NAME.fullmatch(name)
    return match[2] if match else name


def is_shared(name: str) -> bool:
    """Return whether a question, by the last part of its id, is asked once for several lines."""
    return name.startswith(("same_", "told_")) and _NAME.fullmatch(name) is not None


def holds_up(name: str) -> bool:
    """Return whether a question about all lines that a line waits for keeps it from being priced."""
    return not name.startswith("told_")


@dataclass(frozen=True, slots=True)
class Shared:
    """The questions asked once, and what each of them asks of a line by itself, by its name."""

    questions: tuple[Question, ...]
    reasons: dict[str, str]


def ask_once(lines: Sequence[tuple[str, Record]], prefix: str) -> Shared:
    """Return a question for each doubt that many lines share, which then wait for it instead of asking.

    `lines` are the numbers of the lines, as the customer gave them, and their records.
    """
    groups: dict[tuple[object, ...], list[tuple[str, Record]]] = {}
    for number, record in lines:
        if record.values.get("left_out"):
            continue
        for doubt in record.doubts.values():
            if key := _cause(doubt):
                groups.setdefault(key, []).append((number, record))
    after = 1 + max((at for _, record in lines for at in _used(record)), default=0)
    questions, reasons = [], {}
    for at, (key, members) in enumerate((one for one in groups.items() if len(one[1]) >= MANY), after):
        field = str(key[0])
        doubts = [record.doubts.pop(field) for _, record in members]
        name = f"{'same' if doubts[0].blocking else 'told'}_{at}_{field}"
        for _, record in members:
            known = [one for one in record.values.get("waits", "").split(",") if one]
            record.values["waits"] = ",".join((*known, name))
        numbers = [number for number, _ in members]
        questions.append(_question(doubts, numbers, f"{prefix}all/{name}"))
        reasons[name] = doubts[0].for_many or doubts[0].text
    return Shared(tuple(questions), reasons)


def line_numbers(numbers: Sequence[str]) -> str:
    """Return how a question names the lines that it is about.

    >>> line_numbers(["3"]), line_numbers(["3", "5"])
    ('Line 3', 'Lines 3, 5')
    """
    if len(numbers) == 1:
        return f"Line {numbers[0]}"
    few = (
        numbers
        if len(numbers) <= _SHOWN
        else [*numbers[: _SHOWN - 1], f"and {len(numbers) - _SHOWN + 1} more"]
    )
    return f"Lines {', '.join(few)}"


def reasons_of(questions: Iterable[Question]) -> dict[str, str]:
    """Return what each question that is asked once asks of a line by itself, by its name."""
    named = {question.id.rpartition("/")[2]: question for question in questions if not question.line}
    return {name: without_lines(one.text) for name, one in named.items() if is_shared(name)}


def without_lines(text: str) -> str:
    """Return a question about several lines without their numbers before it."""
    return text[text.find(": ") + 2 :]


def _cause(doubt: Doubt) -> tuple[object, ...]:
    """Return what is the same where one cause asks; empty where a question is about one row by itself."""
    if doubt.field in _OWN:
        return ()
    same = (doubt.field, doubt.choices, doubt.blocking, doubt.assumed, doubt.for_shop, doubt.refused)
    if doubt.for_many:
        return *same, doubt.for_many, doubt.place.sheet, doubt.place.column
    return (*same, doubt.text, doubt.read) if doubt.read or doubt.field == "material" else ()


def _used(record: Record) -> list[int]:
    """Return the numbers of the questions asked once that a line waits for, or has been answered."""
    waits = record.values.get("waits", "")
    return [int(match[1]) for match in map(_NAME.fullmatch, waits.split(",")) if match] if waits else []


def _question(doubts: Sequence[Doubt], numbers: Sequence[str], id_: str) -> Question:
    first = doubts[0]
    read = tuple(dict.fromkeys(doubt.read for doubt in doubts))
    shown = ", ".join(read[:_READ])
    name = id_.rpartition("/")[2]
    return replace(
        first.question(""),
        id=id_,
        read=shown,
        text=f"{line_numbers(numbers)}: {first.for_many or first.text}",
        choices=tuple(Choice(one.label, (*one.fields, (name, "yes"))) for one in first.choices),
    )
