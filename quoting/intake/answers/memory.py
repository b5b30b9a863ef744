"""What the shop keeps of a customer's sheets: the parts seen, and the answers given.

The text is JSON, and a person may read and mend it. Its keys:

- `format`, `version` (1), `customer`
- `sheets[]`, newest first, at most 20: `sheet` (a digest of the file, so that the same file read again is not
  compared with itself), `file`, `day`, `parts`: part number -> `revision` and `values` (field texts, lengths
  in mm)
- `answers[]`, newest last, at most 1,000: `question` (line number/field), `row` (the row's text), `read`,
  `text` (the question), `answer`, `day`. An answer is used again only for the same question about a row
  that reads the same; one about a whole file only in the same file (`row` is then the file's name).
- `check`: a digest of all the rest; when it does not fit, a person has changed the text
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from datetime import date
from typing import Any

from quoting.core import Answer, InputError, Order, Place, Question
from quoting.intake.answers.revisions import SeenPart, revisions_of
from quoting.intake.answers.take import prefix_of

FORMAT = "rollwright customer memory"
VERSION = 1
_MOST_MARKS = 3_000_000
_MOST_SHEETS = 20
_MOST_ANSWERS = 1000


@dataclass(frozen=True, slots=True)
class SeenSheet:
    """The parts of one sheet that was read."""

    sheet: str
    file: str
    day: str
    parts: Mapping[str, SeenPart]


@dataclass(frozen=True, slots=True)
class GivenAnswer:
    """An answer with all that it depends on."""

    question: str
    row: str
    read: str
    text: str
    answer: str
    day: str

    @property
    def key(self) -> tuple[str, str, str, str]:
        """Return what must be the same for the answer to hold again."""
        return self.question, self.row, self.read, self.text


@dataclass(frozen=True, slots=True)
class Memory:
    """All that is kept of one customer."""

    customer: str = ""
    sheets: tuple[SeenSheet, ...] = ()
    answers: tuple[GivenAnswer, ...] = ()

    def parts_before(self, sheet: str) -> dict[str, SeenPart]:
        """Return each part as the newest sheet other than this one gave it."""
        found: dict[str, SeenPart] = {}
        for seen in self.sheets:
            if seen.sheet != sheet:
                found = {**seen.parts, **found}
        return found

    def answers_to(self, order: Order) -> dict[str, str]:
        """Return question id -> answer for the open questions of an order that were answered before."""
        known = {given.key: given.answer for given in self.answers}
        keys = {question.id: _key(order, question.id, question) for question in order.questions}
        return {id: known[key] for id, key in keys.items() if key in known}

    def with_order(self, order: Order, sheet: str, day: date) -> Memory:
        """Return the memory with an order's parts and the answers taken in it."""
        seen = SeenSheet(sheet, order.file, day.isoformat(), revisions_of(order))
        others = tuple(one for one in self.sheets if one.sheet != sheet)
        given = [
            GivenAnswer(*_key(order, one.question, one), answer=one.answer, day=day.isoformat())
            for one in order.answers
        ]
        new = {one.key: one for one in given}
        kept = {one.key: one for one in self.answers}
        day_kept = [
            kept[key] if key in kept and kept[key].answer == one.answer else one for key, one in new.items()
        ]
        answers = [*(one for key, one in kept.items() if key not in new), *day_kept]
        return replace(self, sheets=(seen, *others)[:_MOST_SHEETS], answers=tuple(answers[-_MOST_ANSWERS:]))

    def to_text(self) -> str:
        """Return the memory as JSON that `memory_of` reads back."""
        data = {"format": FORMAT, "version": VERSION, **asdict(self)}
        return json.dumps({**data, "check": _digest(data)}, indent=1, ensure_ascii=False) + "\n"


def _key(order: Order, id: str, about: Question | Answer) -> tuple[str, str, str, str]:
    """Return what an answer depends on: the question without its file's letter, the row, what was read."""
    rows = {row.place.whole_row: row.text for row in order.rows}
    row = rows.get(about.place.whole_row, "") if about.line else order.file
    return id.removeprefix(prefix_of(order)), row, about.read, about.text


def memory_of(text: str, file: str) -> tuple[Memory, bool]:
    """Return the memory a text holds, and whether a person has changed it since it was written.

    Raises InputError when the text is no such memory.
    """
    try:
        if text.count("{") + text.count("[") + text.count(",") > _MOST_MARKS:
            raise ValueError("far more than is kept")
        data = json.loads(text)
        if data["format"] != FORMAT or data["version"] != VERSION:
            raise ValueError(f"format {data['format']} {data['version']}")
        check = data.pop("check", "")
        edited = check != _digest(data)
        return Memory(str(data["customer"]), _sheets(data), _answers(data)), edited
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise InputError(
            "cannot be read as what is kept of a customer",
            place=Place(file),
            read=f"{type(error).__name__}: {error}"[:80],
            would_do="mend it, or move it away to start anew",
        ) from error


def _sheets(data: Mapping[str, Any]) -> tuple[SeenSheet, ...]:
    return tuple(
        SeenSheet(
            str(seen["sheet"]),
            str(seen["file"]),
            str(seen["day"]),
            {
                str(number): SeenPart(
                    str(part["revision"]), {str(key): str(value) for key, value in part["values"].items()}
                )
                for number, part in seen["parts"].items()
            },
        )
        for seen in data["sheets"]
    )


def _answers(data: Mapping[str, Any]) -> tuple[GivenAnswer, ...]:
    names = ("question", "row", "read", "text", "answer", "day")
    return tuple(GivenAnswer(*(str(given[name]) for name in names)) for given in data["answers"])


def _digest(data: Mapping[str, Any]) -> str:
    plain = json.dumps(data, sort_keys=True, ensure_ascii=False).encode()
    return hashlib.sha256(plain).hexdigest()[:16]
