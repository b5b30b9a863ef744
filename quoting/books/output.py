"""An output folder that fills whole or not at all, and file names that are safe everywhere.

Every file of a run is first written into a hidden staging folder beside its final place; only when all of
them are complete are they moved, each by an atomic rename. A run that fails, or is killed, leaves what was
there before.
"""

from __future__ import annotations

import os
import re
import shutil
import tempfile
import unicodedata
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from quoting.errors import InputError, Place

_RESERVED = re.compile(r"^(con|prn|aux|nul|com\d|lpt\d)$", re.IGNORECASE)
_LONGEST_NAME = 60


def safe_name(text: str, *, fallback: str = "customer") -> str:
    """Return `text` as a file-name part that Windows, macOS and Linux all accept and no path can hide in.

    >>> safe_name("../Ünal & Sons: tanks?")
    'unal-sons-tanks'
    """
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode()
    name = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:_LONGEST_NAME].strip("-")
    return fallback if not name or _RESERVED.match(name) else name


class OutputFolder:
    """Where one run's files go. Raises InputError when the folder cannot take them."""

    def __init__(self, directory: Path, *, force: bool = False) -> None:
        self.directory = directory
        self.force = force

    def prepare(self) -> None:
        """Make the folder if need be and see that it can be written to."""
        try:
            self.directory.mkdir(parents=True, exist_ok=True)
            with tempfile.TemporaryFile(dir=self.directory):
                pass
        except OSError as error:
            raise InputError(
                f"cannot write into this folder ({error.strerror or error})",
                place=Place(str(self.directory)),
                would_do="give another folder with --out, or the right to write into this one",
            ) from error

    def refuse_existing(self, names: list[str]) -> None:
        """Raise InputError when a file of the run is there already and `force` was not given."""
        there = [name for name in names if (self.directory / name).exists()]
        if there and not self.force:
            raise InputError(
                f"would overwrite {', '.join(there)}",
                place=Place(str(self.directory)),
                would_do="give another --out folder, or --force to replace them",
            )

    @contextmanager
    def staged(self) -> Iterator[Path]:
        """Yield a staging folder; on a clean exit move all that is in it to its final place."""
        self.prepare()
        staging = Path(tempfile.mkdtemp(prefix=".staging-", dir=self.directory))
        try:
            yield staging
            made = sorted(path for path in staging.iterdir() if path.is_file())
            self.refuse_existing([path.name for path in made])
            for path in made:
                self._move(path)
        finally:
            shutil.rmtree(staging, ignore_errors=True)

    def write(self, writers: dict[str, Callable[[Path], None]]) -> list[Path]:
        """Write every named file with its writer, all or none; return the paths, in the order given."""
        self.prepare()
        self.refuse_existing(list(writers))
        with self.staged() as staging:
            for name, writer in writers.items():
                writer(staging / name)
        return [self.directory / name for name in writers]

    def _move(self, path: Path) -> None:
        target = self.directory / path.name
        try:
            os.replace(path, target)
        except PermissionError as error:
            raise InputError(
                f"{path.name} cannot be replaced, another program may have it open",
                place=Place(str(self.directory)),
                would_do="close it and run again, or give another --out folder",
            ) from error
