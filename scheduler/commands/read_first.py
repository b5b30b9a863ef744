"""What comes before a command reads a file: a set of books made whole, the reading process begun."""

from __future__ import annotations

from pathlib import Path

from quoting.core import UNFINISHED


def settled_at(where: Path) -> None:
    """Complete what a killed run has left half in place, before a record of it is read."""
    unfinished = list(where.rglob(UNFINISHED)) if where.is_dir() else [where.parent / UNFINISHED]
    for text in unfinished:
        if text.exists():
            from quoting.books import settled  # noqa: PLC0415 - heavy

            settled(text.parent)


def get_ready_to_read() -> None:
    """Start the process that reads files: it gets ready while this one loads its libraries."""
    from quoting.tables import start_reader  # noqa: PLC0415 - keeps --help quick

    start_reader()
