"""Opens what a run has made in the programs that the desk has for it."""

from __future__ import annotations

from pathlib import Path

import click

OPEN = click.option(
    "--open", "open_after", is_flag=True, help="Open the books that matter when all is written."
)
_FIRST = ("questions-*.xlsx", "run-schedule-*.xlsx", "quote-*.pdf", "costing-*.xlsx")
_MOST = 4


def open_books(folder: Path) -> None:
    """Open at most four books of a folder, questions first; where nothing can open them that is told."""
    books = [path for pattern in _FIRST for path in sorted(folder.glob(pattern))][:_MOST]
    for book in books:
        try:
            opened = click.launch(str(book)) == 0
        except OSError:
            opened = False
        if not opened:
            click.echo(f"no program here opened {book.name}; it is in {folder}", err=True)
            return
