"""What is wrong or noteworthy in the shop's book, gathered so that one run names all of it."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass

from quoting.core import InputError, on_one_line
from quoting.shop.form_words import in_form_words
from quoting.shop.quantities import Quantity

_MOST, _LONGEST = 200, 300
"""Problems that one message names, and letters of each part of one."""
_LONGEST_WORD = 100


class BookError(InputError):
    """The shop's book cannot be used; `problems` names every place that must be mended."""

    def __init__(self, file: str, problems: Iterable[str]) -> None:
        self.problems = tuple(problems)
        count = len(self.problems)
        some = "at least " if count >= _MOST else ""
        head = f"{on_one_line(file, _LONGEST)} has {some}{count} problem{'s' if count > 1 else ''} to mend:"
        super().__init__("\n  - ".join((head, *self.problems)))


@dataclass(frozen=True, slots=True)
class Rule:
    """What a reader takes for one setting: kind, range, unit; the forms of the book are made of it.

    `kind` is text, texts, flag, choice, number, whole, money, share, quantity, money_per, band or other.
    """

    kind: str
    least: float | None = None
    most: float | None = None
    positive: bool = False
    words: tuple[str, ...] = ()
    stem: str = ""
    quantity: Quantity | None = None


class Findings:
    """Problems that stop the run and warnings that do not, in the order in which they were met.

    Of a book that was read from a workbook (`form`) they speak in the workbook's words.
    """

    def __init__(self, file: str, *, form: bool = False) -> None:
        self.file, self.form = file, form
        self.problems: list[str] = []
        self.warnings: list[str] = []
        self.rules: dict[tuple[str, str], Rule] = {}

    def problem(self, where: str, what: str, *, read: object = None, would_do: str = "") -> None:
        """Note something that stops the run: where it stands, what was read, what would do.

        Raises BookError when there are so many by now that nobody would read more.
        """
        said = in_form_words if self.form else str
        text = said(f"{on_one_line(where, _LONGEST)}: {what}")
        if read is not None:
            text += f' - read "{on_one_line(str(read), _LONGEST)}"'
        if would_do:
            text += f"; {said(would_do)}"
        self.problems.append(text)
        if len(self.problems) >= _MOST:
            self.raise_if_any()

    def warn(self, text: str) -> None:
        """Note something that the shop should know and that stops nothing."""
        self.warnings.append(in_form_words(text) if self.form else text)

    def raise_if_any(self) -> None:
        """Raise BookError with every problem noted so far; do nothing when there is none."""
        if self.problems:
            raise BookError(self.file, self.problems)


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """Return `did you mean "..."?` for the nearest known word, or an empty string.

    >>> did_you_mean("workin_length_in", ["working_length_in", "top_roll_in"])
    'did you mean "working_length_in"?'
    """
    if len(word) > _LONGEST_WORD:
        return ""  # looking for words like it takes time with the square of its length
    near = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f'did you mean "{near[0]}"?' if near else ""
