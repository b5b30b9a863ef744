"""Which reader opens which kind of file: by its ending, on the disk and as an attachment alike."""

from __future__ import annotations

from quoting.core import InputError, Place, shown_name
from quoting.tables.inside.given import Source, pure
from quoting.tables.inside.text_tables import read_text
from quoting.tables.inside.workbooks import read_book
from quoting.tables.kinds import BOOKS, PAGES, TEXTS
from quoting.tables.limits import Limits
from quoting.tables.sheet import Sheet


def read_any(file: Source, limits: Limits) -> tuple[Sheet, ...]:
    """Return the sheets of a file of a known kind; InputError for another, and when it cannot be read."""
    kind = file.suffix.lower()
    if kind == ".eml":
        from quoting.tables.inside.mails import read_mail  # noqa: PLC0415 - a spreadsheet needs none of it

        return read_mail(file, limits, _attached)
    if kind == ".msg":
        from quoting.tables.inside.mails import read_msg  # noqa: PLC0415

        return read_msg(file, limits, _attached)
    return _attached(file, limits)


def _attached(file: Source, limits: Limits) -> tuple[Sheet, ...]:
    """Return the sheets of a file that is no mail: what may be attached to one."""
    kind = file.suffix.lower()
    if kind in BOOKS:
        return read_book(file, limits)
    if kind in TEXTS:
        return (read_text(file, limits),)
    if kind in PAGES:
        from quoting.tables.inside.pdf import read_pdf  # noqa: PLC0415

        return (read_pdf(file, limits),)
    raise InputError(
        f"files of kind {kind or 'without an ending'} are not read", place=Place(shown_name(pure(file)))
    )
