"""The one family of errors, each written for the person who can mend it."""

from __future__ import annotations

from dataclasses import dataclass

_LONGEST_READ = 300
_LONGEST_PLACE = 400


@dataclass(frozen=True, slots=True)
class Place:
    """Where a value stands: file, sheet, 1-based row, column letter and the header over it."""

    file: str
    sheet: str = ""
    row: int | None = None
    column: str = ""
    header: str = ""

    def __init__(
        self, file: str, sheet: str = "", row: int | None = None, column: str = "", header: str = ""
    ) -> None:
        """Fill the slots by their own setters: a long sheet has 200,000 places, in half the time."""
        _FILE(self, file)
        _SHEET(self, sheet)
        _ROW(self, row)
        _COLUMN(self, column)
        _HEADER(self, header)

    def __str__(self) -> str:
        """Return the address as a person would say it: `orders.xlsx, sheet "RFQ", row 7, column C (Thk)`."""
        parts = [self.file]
        if self.sheet:
            parts.append(f'sheet "{self.sheet}"')
        if self.row is not None:
            parts.append(f"row {self.row}")
        if self.column:
            parts.append(f"column {self.column}" + (f" ({self.header})" if self.header else ""))
        return ", ".join(parts)

    @property
    def cell(self) -> tuple[str, str, int | None, str]:
        """Return file, sheet, row and column: what tells one part of a run from another.

        Parts that stand along the columns share a row; where each row is one, its place has no column.
        """
        return self.file, self.sheet, self.row, self.column

    @property
    def whole_row(self) -> tuple[str, str, int | None]:
        """Return file, sheet and row: what a part and the questions about it have in common."""
        return self.file, self.sheet, self.row

    def at(self, *, row: int | None = None, column: str = "", header: str = "") -> Place:
        """Return the same file and sheet with another cell."""
        return Place(self.file, self.sheet, row if row is not None else self.row, column, header)


_FILE, _SHEET, _ROW, _COLUMN, _HEADER = (
    getattr(Place, name).__set__ for name in ("file", "sheet", "row", "column", "header")
)


def column_letters(index: int) -> str:
    """Return the letters of a column counted from 0.

    >>> column_letters(0), column_letters(25), column_letters(26)
    ('A', 'Z', 'AA')
    """
    from xlsxwriter.utility import xl_col_to_name  # noqa: PLC0415 - keeps --help quick

    return str(xl_col_to_name(index))


def on_one_line(text: str, most: int) -> str:
    """Return a text as it can be shown: on one line, not too long, without signs that steer a screen.

    >>> on_one_line("A36\\x1b[2J\\nplate", 60), len(on_one_line("9" * 4000, 60))
    ('A36 [2J plate', 60)
    """
    if not text.isprintable():
        text = "".join(sign if sign.isprintable() else " " for sign in text)
    return text if len(text) <= most else f"{text[: most - 25]} ... {text[-20:]}"


class RollwrightError(Exception):
    """Base of every error this project raises on purpose; its text is fit to show to the user."""

    def __reduce__(self) -> tuple[object, ...]:
        """Let an error travel from a worker process as it is, whatever its kind was made from."""
        return _as_it_was, (type(self), self.args, self.__dict__)


def _as_it_was(
    kind: type[RollwrightError], args: tuple[object, ...], state: dict[str, object]
) -> RollwrightError:
    error = kind.__new__(kind, *args)
    error.__dict__.update(state)
    return error


class InputError(RollwrightError):
    """Something the user gave cannot be used: says where, what was read and what would do."""

    def __init__(
        self,
        problem: str,
        *,
        place: Place | None = None,
        read: str = "",
        would_do: str = "",
    ) -> None:
        self.problem = problem
        self.place = place
        self.read = read
        self.would_do = would_do
        text = f"{on_one_line(str(place), _LONGEST_PLACE)}: {problem}" if place else problem
        if read:
            text += f' - read "{on_one_line(read, _LONGEST_READ)}"'
        if would_do:
            text += f"; {would_do}"
        super().__init__(text)


class CannotWriteError(InputError):
    """A file or folder cannot be written: no room, no right, or held by another program."""


class RangeError(RollwrightError, ValueError):
    """A number outside its physical range: names the value and the allowed range."""

    def __init__(self, name: str, value: object, allowed: str) -> None:
        self.name, self.value, self.allowed = name, value, allowed
        super().__init__(f"{name} = {value} is out of range: {allowed}")
