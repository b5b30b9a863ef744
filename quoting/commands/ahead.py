"""Books that are written on another core while this one still works out what they do not hold."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from functools import partial
from importlib import import_module
from pathlib import Path

from quoting.books import OutputFolder
from quoting.commands.known_books import KnownBooks, known_books
from quoting.commands.quote_files import Writer
from quoting.core import beside
from quoting.record import record_adapter
from quoting.tables import start_reader

_LIBRARIES = (
    "PIL.ImageDraw",
    "PIL.ImageFont",
    "PIL.PngImagePlugin",
    "babel.numbers",
    "reportlab.pdfgen.canvas",
    "reportlab.platypus",
    "xlsxwriter",
    "zxingcpp",
)
"""What most books are written with: loaded once here, not by each of the processes that write them."""
_FOR_DRAWINGS = "ezdxf"
"""Only one of those processes needs it, and most of the others are ready before it is."""

Taking = Callable[[Mapping[str, Writer]], dict[str, Writer]]
"""From writers to the same, those of books that are there taking them."""


@contextmanager
def written_ahead(folder: OutputFolder, writers: Mapping[str, Writer], workers: int) -> Iterator[Taking]:
    """Have a process of its own write these books into a folder aside; yield what takes them from there.

    A book that failed there is written again when its turn comes, and its error told then. Known books are
    taken as they are.
    """
    if workers < 2:
        yield dict
        return
    known = known_books(writers)
    if known.known is not None:

        def take_known(every: Mapping[str, Writer]) -> dict[str, Writer]:
            load_libraries()
            return known.writers(every)

        yield take_known
        return
    start_reader()  # the rack's book is read once more to be written anew
    load_libraries()
    with folder.aside() as aside, beside(partial(_write_all, writers, aside, known)) as wait:
        import_module(_FOR_DRAWINGS)  # and what reads and writes records: nothing else is done here meanwhile
        record_adapter()

        def take(every: Mapping[str, Writer]) -> dict[str, Writer]:
            wait()
            return {
                name: partial(_copied, aside / name, writer) if name in writers else writer
                for name, writer in every.items()
            }

        yield take


def load_libraries() -> None:
    """Load what most books are written with, before the processes that write them are forked."""
    for name in _LIBRARIES:
        import_module(name)


def _write_all(writers: Mapping[str, Writer], folder: Path, known: KnownBooks) -> None:
    for name, writer in writers.items():
        writer(folder / f"begun-{name}")
        os.replace(folder / f"begun-{name}", folder / name)
    known.keep({name: folder / name for name in writers})


def _copied(ready: Path, writer: Writer, path: Path) -> None:
    if ready.exists():
        shutil.copyfile(ready, path)
    else:
        writer(path)
