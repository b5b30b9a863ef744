"""The note on what became of a file: what was priced, asked and declined, as a text and as a page."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from pathlib import Path
from urllib.parse import quote

from quoting.intake import is_courtesy
from quoting.record import PricedLineRecord, ReadLineRecord, RunRecord

_FILES = "Files"
NOTES = ("note.txt", "note.html")
"""What the note is called, as a text and as a page."""
_STYLE = (
    "body{font:16px/1.4 sans-serif;max-width:46em;margin:2em auto;padding:0 1em;color:#1d2733}"
    "h1{font-size:1.35em;margin-bottom:.1em}h2{font-size:1.05em;margin:1.3em 0 .2em}"
    "ul{margin:.2em 0;padding-left:1.3em}li{margin:.15em 0}.lead{color:#4a5866;margin-top:0}"
)


@dataclass(frozen=True, slots=True)
class NotePart:
    """A heading and the sentences under it."""

    title: str
    points: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Note:
    """A title, one sentence that says all, and the parts that are not empty."""

    title: str
    lead: str
    parts: tuple[NotePart, ...]

    def text(self) -> str:
        """Return the note as plain text."""
        lines = [self.title, "", self.lead]
        for part in self.parts:
            lines += ["", f"{part.title}:", *(f"  - {point}" for point in part.points)]
        return "\n".join(lines) + "\n"

    def page(self) -> str:
        """Return the note as a page that needs nothing from outside; all texts are texts, never markup."""
        body = [f"<h1>{escape(self.title)}</h1>", f'<p class="lead">{escape(self.lead)}</p>']
        for part in self.parts:
            points = "".join(f"<li>{_linked(point, part)}</li>" for point in part.points)
            body.append(f"<h2>{escape(part.title)}</h2><ul>{points}</ul>")
        head = f'<meta charset="utf-8"><title>{escape(self.title)}</title><style>{_STYLE}</style>'
        return f'<!doctype html><html lang="en"><head>{head}</head><body>{"".join(body)}</body></html>\n'

    def write(self, folder: Path) -> None:
        """Write note.txt and note.html into a folder."""
        for name, text in zip(NOTES, (self.text(), self.page()), strict=True):
            (folder / name).write_text(text, encoding="utf-8", errors="replace")


def note_of(
    record: RunRecord,
    name: str,
    files: tuple[str, ...],
    *,
    pinned: str = "",
    next_steps: tuple[str, ...] = (),
) -> Note:
    """Return the note on a quoted file; `files` are the names of what was made, `pinned` the customer whose
    columns and language of the shop's folder were used, `next_steps` what can be done now.
    """
    currency = record.made.currency
    customers = ", ".join(dict.fromkeys(order.customer for order in record.orders))
    priced = [
        f"line {line.number}, {line.part}: {line.quantity} at {line.price.unit:,.2f}, "
        f"{line.price.extended:,.2f} {currency}"
        for line in record.lines
        if isinstance(line, PricedLineRecord) and line.state == "priced"
    ]
    blocking = [_asked(one.text, one.line, record, one.assumed) for one in record.questions if one.blocking]
    mild = [_asked(one.text, one.line, record, one.assumed) for one in record.questions if not one.blocking]
    declined = [
        f"line {line.number}{_part(line)}: {line.reason}" for line in record.lines if line.state == "no-quote"
    ]
    kept = [f"columns and language as kept for {pinned}"] if pinned else []
    sheets = (
        f"the sheet says: {note}"
        for one in record.orders
        for note in one.notes
        if not is_courtesy(note) and note not in (one.customer, one.reference)
    )
    told = dict.fromkeys((*kept, *record.made.warnings, *sheets))
    total = sum(order.total.total for order in record.orders)
    waiting = sum(line.state == "question" for line in record.lines)
    lines = "1 line" if len(priced) == 1 else f"{len(priced)} lines"
    lead = (
        f"{lines} priced, {total:,.2f} {currency} in all; {waiting} wait for answers; "
        f"{len(declined)} cannot be done."
    )
    parts = (
        NotePart("Priced", tuple(priced)),
        NotePart("Asked, the line waits", tuple(blocking)),
        NotePart("Asked, priced on an assumption", tuple(mild)),
        NotePart("Declined", tuple(declined)),
        NotePart("Good to know", tuple(told)),
        NotePart("What next", next_steps),
        NotePart(_FILES, files),
    )
    return Note(f"{customers}: {name}", lead, tuple(part for part in parts if part.points))


def note_of_refusal(name: str, why: str) -> Note:
    """Return the note on a file that could not be quoted."""
    mend = "Mend it as it says, or ask the sender again, and drop it into the inbox once more."
    return Note(f"{name}: not quoted", why, (NotePart("What to do", (mend,)),))


def _linked(point: str, part: NotePart) -> str:
    """Return a point of the page; a file's name opens the file, which stands beside the page."""
    return f'<a href="{quote(point)}">{escape(point)}</a>' if part.title == _FILES else escape(point)


def _asked(text: str, line: str, record: RunRecord, assumed: str) -> str:
    number = next((one.number for one in record.lines if one.id == line), line)
    where = f"line {number}: " if line else ""
    return f"{where}{text}{f' (assumed: {assumed})' if assumed else ''}"


def _part(line: object) -> str:
    return f", {line.part}" if isinstance(line, ReadLineRecord) else ""
