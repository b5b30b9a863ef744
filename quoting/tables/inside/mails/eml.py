"""Reads a mail as sheets: its body, each attachment that is an order sheet, and who sent it.

The sender and the subject stand on a last sheet as `Customer` and `Reference`, so that a title block in the
body or an attachment goes before them. Nothing is unpacked to the disk: names of attachments are only shown.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from email import message_from_bytes, policy
from email.message import EmailMessage
from email.utils import formataddr, parseaddr
from pathlib import PurePath

from quoting.core import InputError, Place, shown_name
from quoting.tables.inside.given import Given, Source, pure
from quoting.tables.inside.mails.body import body_rows
from quoting.tables.inside.refusals import SUSPECT
from quoting.tables.inside.text_tables import decoded
from quoting.tables.limits import Limits
from quoting.tables.sheet import LONGEST_TEXT, Cell, Sheet

BODY, HEAD = "mail", "mail head"
_DEEPEST = 3
_MOST_ATTACHMENTS, _MOST_BOUNDARIES = 200, 300
_PICTURES = (".png", ".jpg", ".jpeg", ".gif", ".bmp", ".svg", ".webp", ".ics", ".vcf", ".p7s", ".asc")
"""What signatures bring along; only said, never asked about."""

Reader = Callable[[Source, Limits], tuple[Sheet, ...]]


@dataclass(frozen=True, slots=True)
class MailParts:
    """A mail taken apart: attachments by name, mails within it by theirs."""

    sender: str
    subject: str
    message_id: str
    plain: str
    html: str
    files: tuple[tuple[str, bytes], ...]
    mails: tuple[MailParts, ...] = ()


def read_mail(file: Source, limits: Limits, read: Reader) -> tuple[Sheet, ...]:
    """Return the sheets of an .eml; `read` opens an attachment. InputError when it is no mail."""
    place = Place(shown_name(pure(file)))
    data = file.read_bytes()
    if data.count(b"boundary=") > _MOST_BOUNDARIES:  # the time that the library takes grows with their square
        raise InputError("nests more parts than any mail", place=place, would_do=SUSPECT)
    message = message_from_bytes(data, policy=policy.default)
    parts = _taken_apart(message, place, 0)
    if not (parts.sender or parts.subject or parts.plain or parts.html or parts.files):
        raise InputError(
            "is no mail", place=place, would_do="save it from the mail program once more, as .eml"
        )
    return sheets_of(parts, shown_name(pure(file)), limits, read)


def sheets_of(parts: MailParts, file: str, limits: Limits, read: Reader) -> tuple[Sheet, ...]:
    """Return the sheets of a mail that was taken apart."""
    sheets: list[Sheet] = []
    _add(parts, "", (file, limits, read), sheets)
    head: list[list[Cell]] = [
        ["Customer", _plain(parseaddr(parts.sender)[0] or parts.sender)],
        ["Contact", _plain(parts.sender)],
        ["Reply to", _plain(parts.sender)],
        ["Reference", _plain(parts.subject)],
        ["Message id", _plain(parts.message_id)],
    ]
    return (*sheets, Sheet(file, HEAD, [row for row in head if row[1]], heads=True))


def _add(parts: MailParts, within: str, how: tuple[str, Limits, Reader], sheets: list[Sheet]) -> None:
    """Add the sheets of a mail, and of the mails in it, each under a name of its own."""
    file, limits, read = how
    unread: list[str] = []
    quiet: list[str] = []
    found: list[tuple[str, Sheet]] = []
    for name, data in parts.files[:_MOST_ATTACHMENTS]:
        given = Given(PurePath(name), data)
        if given.suffix.lower() in _PICTURES:
            quiet.append(f"attachment {name} is no order sheet and was not read")
            continue
        try:
            found += [(name, sheet) for sheet in read(given, limits)]
        except InputError as error:
            unread.append(f"attachment not read: {name}: {error.problem}")
    if len(parts.files) > _MOST_ATTACHMENTS:
        unread.append(f"attachments not read: {len(parts.files) - _MOST_ATTACHMENTS} more")
    body = body_rows(parts.plain, parts.html, limits)
    title: list[list[Cell]] = [[_plain(parts.subject)]] if parts.subject else []
    told: list[list[Cell]] = [[text[:LONGEST_TEXT]] for text in unread]
    down = len(title)
    sheet = Sheet(
        file,
        f"{within}{BODY}",
        [*title, *body.rows, *told],
        struck=frozenset((row + down, column) for row, column in body.struck),
        asides=tuple(quiet),
        comments={(row + down, column): text for (row, column), text in body.comments.items()},
    )
    _put(sheets, sheet, limits)
    for name, sheet in found:
        own = "" if PurePath(name).stem == sheet.name else f", {sheet.name}"
        _put(sheets, replace(sheet, file=file, name=f"{within}{name}{own}"), limits)
    for inner in parts.mails:
        _add(inner, f"{within}{_plain(inner.subject)[:40] or 'forwarded'}: ", how, sheets)


def _put(sheets: list[Sheet], sheet: Sheet, limits: Limits) -> None:
    if len(sheets) >= limits.sheets:
        raise InputError(
            f"the mail and what is attached to it hold more than {limits.sheets} sheets",
            place=Place(sheet.file),
            would_do="save the order sheets from it and quote them by themselves",
        )
    taken = {one.name for one in sheets}
    name, number = sheet.name, 2
    while name in taken:
        name, number = f"{sheet.name} ({number})", number + 1
    sheets.append(replace(sheet, name=name))


def _taken_apart(message: EmailMessage, place: Place, depth: int) -> MailParts:
    """Return the parts of a mail; what its encoding hides wrongly is read as it can be."""
    texts = {"plain": "", "html": ""}
    files: list[tuple[str, bytes]] = []
    mails: list[MailParts] = []
    for part in _leaves(message):
        kind = part.get_content_type()
        name = _file_name(part)
        if kind == "message/rfc822":
            inner = part.get_payload()
            if depth < _DEEPEST and isinstance(inner, list) and inner and isinstance(inner[0], EmailMessage):
                mails.append(_taken_apart(inner[0], place, depth + 1))
            else:
                files.append((name or "mail in a mail in a mail", b""))
            continue
        data = part.get_payload(decode=True)
        data = data if isinstance(data, bytes) else b""
        attached = bool(name) or part.get_content_disposition() == "attachment"
        body = kind.removeprefix("text/")
        if kind in ("text/plain", "text/html") and not attached and not texts[body]:
            texts[body] = _text(part, data, place)
        elif attached or not kind.startswith("multipart/"):
            files.append((name or f"part of kind {kind}", data))
    head = {name: _header(message, name) for name in ("From", "Reply-To", "Subject", "Message-ID")}
    shown, address = parseaddr(head["Reply-To"] or head["From"])
    shown = shown or parseaddr(head["From"])[0]
    sender = formataddr((shown, address), charset="utf-8") if address.isascii() else address
    sender = f"{shown} <{address}>" if shown and address else sender
    return MailParts(
        sender, head["Subject"], head["Message-ID"], texts["plain"], texts["html"], tuple(files), tuple(mails)
    )


def _leaves(message: EmailMessage) -> Iterator[EmailMessage]:
    """Yield the parts that hold something; a mail inside is one part."""
    stack = [message]
    while stack:
        part = stack.pop()
        inner = part.get_payload() if part.get_content_maintype() == "multipart" else None
        if isinstance(inner, list):
            stack += [one for one in reversed(inner) if isinstance(one, EmailMessage)]
        else:
            yield part


def _header(message: EmailMessage, name: str) -> str:
    """Return a header as text, on one line; the parser of the library stumbles over some broken ones."""
    try:
        return " ".join(str(message.get(name, "")).split())
    except Exception:  # the library's own faults on headers of no standard
        raw = dict(message.raw_items()).get(name, "")
        return " ".join(str(raw).encode("ascii", "replace").decode("ascii").split())


def _file_name(part: EmailMessage) -> str:
    """Return the name of an attachment; empty when it has none."""
    try:
        named = part.get_filename() or ""
    except Exception:  # as above
        named = "attachment"
    return plain_file_name(named) if named else ""


def plain_file_name(named: str) -> str:
    """Return the last part of a file's name as it can be shown: no folder of the sender's is in it.

    >>> plain_file_name("..\\\\..\\\\etc/orders.csv"), plain_file_name("../..")
    ('orders.csv', 'attachment')
    """
    plain = named.replace("\\", "/").rstrip("/").rpartition("/")[2].replace("\0", "")
    return shown_name(PurePath(plain)) if plain.strip(". ") else "attachment"


def _text(part: EmailMessage, data: bytes, place: Place) -> str:
    """Return a body: in the encoding it names, unless that cannot be; then in the one it looks like."""
    named = part.get_content_charset() or ""
    try:
        if named and named not in ("us-ascii", "ascii"):
            return data.decode(named)
    except (LookupError, ValueError):  # a name that is none, or one for something else than texts
        pass
    try:
        return decoded(data, place)
    except InputError:
        return data.decode("latin-1")


def _plain(text: str) -> str:
    return " ".join(text.split())[:LONGEST_TEXT]
