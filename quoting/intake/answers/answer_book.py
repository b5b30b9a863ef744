"""Reads the answers that a customer or estimator wrote into a question book."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from quoting.core import InputError, Place, Question, shown_name
from quoting.tables import Limits, Sheet, read_sheets, text_of

_ID = re.compile(r"^\S(?:.*\S)?/[a-z_0-9]+$")
_ID_HEADERS = ("id", "question id", "question no", "question number", "no", "ref")


@dataclass(frozen=True, slots=True)
class WrittenAnswer:
    """An answer as it came back, and the question as it was printed beside it ("" when the book has none)."""

    answer: str
    asked: str = ""

    def fits(self, question: Question) -> bool:
        """Return whether it was given to this very question, and not to another under the same id."""
        return not self.asked or _plain(self.asked).startswith(_plain(question.text))


def read_answers(path: str | os.PathLike[str], limits: Limits | None = None) -> Mapping[str, WrittenAnswer]:
    """Return question id -> answer from every sheet that has an id column and a column headed "answer".

    Empty answers are left out. Raises InputError when the file does not open or no sheet has both columns.
    """
    answers: dict[str, WrittenAnswer] = {}
    found = False
    for sheet in read_sheets(path, limits or Limits()):
        head = _head(sheet)
        if head is None:
            continue
        found = True
        row, ids, column, asked = head
        for cells in sheet.rows[row + 1 :]:
            if max(ids, column) >= len(cells):
                continue
            key, answer = text_of(cells[ids]), text_of(cells[column])
            if answer and _ID.match(key):
                question = text_of(cells[asked]) if asked is not None and asked < len(cells) else ""
                answers[key] = WrittenAnswer(answer, question)
    if not found:
        raise InputError(
            "no column of answers was found",
            place=Place(shown_name(Path(path))),
            would_do='it needs a header row with "id" and "answer", as the question book has them',
        )
    return answers


def _head(sheet: Sheet) -> tuple[int, int, int, int | None] | None:
    """Return the header row, and the columns of id, answer and question (if there is one) of a sheet."""
    for index, cells in enumerate(sheet.rows[:40]):
        texts = [text_of(cell).lower().strip(".:") for cell in cells]
        answer = next(
            (at for at, text in enumerate(texts) if text in ("answer", "answers", "your answer")), None
        )
        ids = next((at for at, text in enumerate(texts) if text in _ID_HEADERS), None)
        if answer is not None and ids is not None:
            return index, ids, answer, texts.index("question") if "question" in texts else None
    return None


def _plain(text: str) -> str:
    return " ".join(text.split()).lower()
