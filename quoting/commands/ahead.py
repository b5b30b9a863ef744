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
            _load_libraries()
            return known.writers(every)

        yield take_known
        return
    _load_libraries()
    with folder.aside() as aside, beside(partial(_write_all, writers, aside, known)) as wait:

        def take(every: Mapping[str, Writer]) -> dict[str, Writer]:
            wait()
            return {
                name: partial(_copied, aside / name, writer) if name in writers else writer
                for name, writer in every.items()
            }

        yield take


def _load_libraries() -> None:
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
