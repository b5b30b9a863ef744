"""Reads a mail that a mail program saved as .msg ([MS-OXMSG], a compound file), by python-oxmsg."""

from __future__ import annotations

from quoting.core import InputError, Place, shown_name
from quoting.tables.inside.given import Source, pure
from quoting.tables.inside.mails.eml import MailParts, Reader, plain_file_name, sheets_of
from quoting.tables.limits import Limits
from quoting.tables.sheet import Sheet


def read_msg(file: Source, limits: Limits, read: Reader) -> tuple[Sheet, ...]:
    """Return the sheets of a .msg as `read_mail` does. InputError when it is none or cannot be read."""
    from oxmsg import Message  # noqa: PLC0415 - only where such a mail is read

    try:
        message = Message.load(file.read_bytes())
        headers = {name.lower(): value for name, value in message.message_headers.items()}
        parts = MailParts(
            message.sender or "",
            message.subject or "",
            headers.get("message-id", ""),
            message.body or "",
            message.html_body or "",
            tuple(
                (plain_file_name(one.file_name or "attachment"), one.file_bytes or b"")
                for one in message.attachments
            ),
        )
    except (MemoryError, RecursionError):
        raise
    except Exception as error:  # the library has no family of errors of its own
        raise InputError(
            "cannot be read as a saved mail",
            place=Place(shown_name(pure(file))),
            would_do="save it as .eml, or save the order sheet in it by itself",
        ) from error
    return sheets_of(parts, shown_name(pure(file)), limits, read)
