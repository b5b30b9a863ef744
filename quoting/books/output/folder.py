"""An output folder that fills whole or not at all, and file names that are safe everywhere.

Every file of a run is first written into a hidden staging folder beside its final place; only when all of
them are complete are they moved, each by an atomic rename. A run that fails, or is killed, leaves what was
there before; after a kill between the first and the last rename whoever works here next completes the set.
The folder is locked for as long as a run works in it. A name may lead into a sub-folder, as in
`cutting/plate-01.svg`; the promise is the same there.
"""

from __future__ import annotations

import os
import shutil
import tempfile
from collections import Counter
from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from pathlib import Path

from quoting.books.output.folder_lock import locked
from quoting.books.output.set_in_place import complete, is_begun, put_in_place
from quoting.core import UNFINISHED, CannotWriteError, InputError, Place, do_all

_STAGING = ".staging-"


class OutputFolder:
    """Where one run's files go. Raises InputError when the folder cannot take them.

    `notes` tells, after writing, which file had to take a second name because another program held the first.
    """

    def __init__(self, directory: Path, *, force: bool = False) -> None:
        self.directory = directory
        self.force = force
        self.notes: list[str] = []
        self._held = False

    def prepare(self) -> None:
        """Make the folder if need be and see that it can be written to."""
        try:
            self.directory.mkdir(parents=True, exist_ok=True)
            with tempfile.TemporaryFile(dir=self.directory):
                pass
        except OSError as error:
            raise CannotWriteError(
                f"cannot write into this folder ({error.strerror or error})",
                place=Place(str(self.directory)),
                would_do="give another folder with --out, or the right to write into this one",
            ) from error

    @contextmanager
    def hold(self) -> Iterator[None]:
        """Keep every other run out of the folder, and clear away what a killed one left."""
        if self._held:
            yield
            return
        self.prepare()
        with locked(self.directory) as alone:
            self._held = True
            try:
                if alone:
                    self._clear()
                yield
            finally:
                self._held = False

    def refuse_existing(self, names: list[str]) -> None:
        """Raise InputError when a file of the run is there already and `force` was not given."""
        there = [name for name in names if os.path.lexists(self.directory / name)]
        if there and not self.force:
            raise InputError(
                f"would overwrite {', '.join(files_words(there))}",
                place=Place(str(self.directory)),
                would_do="give another --out folder, or --force to replace them",
            )
        for name in there:
            path = self.directory / name
            if path.is_dir() and not path.is_symlink():
                raise InputError(
                    f"{name} is a folder and stands where a file should go",
                    place=Place(str(self.directory)),
                    would_do="move it away, or give another --out folder",
                )

    @contextmanager
    def staged(self) -> Iterator[Path]:
        """Yield a staging folder; on a clean exit move all that is in it to its final place."""
        with self._staging() as staging:
            yield staging
            self._move_all(staging, sorted(path for path in staging.rglob("*") if path.is_file()))

    def write(
        self,
        writers: dict[str, Callable[[Path], None]],
        *,
        stale: Sequence[str] = (),
        complete: Callable[[], None] = lambda: None,
        after: Collection[str] = (),
        long: Sequence[str] = (),
        workers: int = 1,
        done: Callable[[int, int], None] = lambda _number, _of: None,
    ) -> list[Path]:
        """Write every named file with its writer, all or none; return the paths, in the order given.

        The last file is moved last: while it is the old one, or missing, the run is not complete. Files that
        match a pattern of `stale` are those of an earlier run: they count as overwritten, and what of them is
        not made again is removed, so that no old drawing stays among the new ones. `complete` is called when
        every file is written and none is moved yet; when it raises, the folder stays as it was. The files
        `after` are written when all others are, since they read them; `workers` processes write at a time,
        and begin with what takes `long`, in this order; `done` hears how many of how many are written.
        """
        self.prepare()
        earlier = self._matching(stale)
        self.refuse_existing([*writers, *(name for name in earlier if name not in writers)])
        with self._staging() as staging:
            for name in writers:
                (staging / name).parent.mkdir(parents=True, exist_ok=True)
            jobs = {name: partial(writer, staging / name) for name, writer in writers.items()}
            first = _bundles([name for name in jobs if name not in after], long)
            ready = [sum(map(len, first[:number])) for number in range(len(first) + 1)]
            together = [partial(_each, [jobs[name] for name in names]) for names in first]
            do_all(together, workers, lambda number: done(ready[number], len(jobs)))
            for name in after:
                jobs[name]()
            complete()
            return self._move_all(staging, [staging / name for name in writers], earlier)

    @contextmanager
    def aside(self) -> Iterator[Path]:
        """Yield a hidden folder for what is made ahead; it is gone at the end, a killed run's at the next."""
        with self.hold():
            folder = Path(tempfile.mkdtemp(prefix=_STAGING, dir=self.directory))
            try:
                yield folder
            finally:
                shutil.rmtree(folder, ignore_errors=True)

    @contextmanager
    def _staging(self) -> Iterator[Path]:
        with self.hold():
            staging = Path(tempfile.mkdtemp(prefix=_STAGING, dir=self.directory))
            try:
                yield staging
            except Exception as error:
                if (refused := _of_the_system(error)) is None:
                    raise
                raise CannotWriteError(
                    f"cannot write ({refused.strerror or refused})",
                    place=Place(str(self.directory)),
                    would_do="make room, or give another folder with --out",
                ) from error
            finally:
                if not is_begun(staging):
                    shutil.rmtree(staging, ignore_errors=True)

    def _matching(self, patterns: Sequence[str]) -> list[str]:
        found = (path for pattern in patterns for path in self.directory.glob(pattern))
        return sorted(path.relative_to(self.directory).as_posix() for path in found)

    def _move_all(self, staging: Path, made: list[Path], earlier: Sequence[str] = ()) -> list[Path]:
        names = [path.relative_to(staging).as_posix() for path in made]
        self.refuse_existing(names)
        for name in sorted({name.rpartition("/")[0] for name in names} - {""}):
            self._sub_folder(name)
        gone = [name for name in earlier if name not in names]
        return put_in_place(self.directory, staging, names, gone, self._move, self._remove)

    def _sub_folder(self, name: str) -> None:
        """Make a sub-folder and see, before any file is moved, that it takes files; no link is followed."""
        folder = self.directory / name
        if folder.is_symlink() or (folder.exists() and not folder.is_dir()):
            raise InputError(
                f"{name} stands where a folder should go, and is none",
                place=Place(str(self.directory)),
                would_do="move it away, or give another --out folder",
            )
        OutputFolder(folder).prepare()

    def _remove(self, name: str) -> None:
        try:
            (self.directory / name).unlink(missing_ok=True)
        except OSError:
            self.notes.append(f"{name} is of an earlier run and cannot be removed: delete it")

    def _move(self, path: Path, name: str) -> Path:
        """Move a file to its place; a link there is replaced, never followed.

        Where another program holds the old file open (Windows refuses then), the new one takes a free name.
        """
        target = self.directory / name
        try:
            os.replace(path, target)
        except PermissionError:
            second = self._second_name(path, target)
            self.notes.append(
                f"{path.name} is held open by another program and stays as it was; "
                f"the new one is {second.name}: close the old one and delete it"
            )
            return second
        return target

    def _second_name(self, path: Path, held: Path) -> Path:
        free = (held.with_name(f"{path.stem}-{number}{path.suffix}") for number in range(2, 100))
        target = next((name for name in free if not os.path.lexists(name)), None)
        try:
            if target is not None:
                os.replace(path, target)
                return target
        except OSError:
            pass
        raise CannotWriteError(
            f"{path.name} cannot be replaced, another program may have it open",
            place=Place(str(self.directory)),
            would_do="close it and run again, or give another --out folder",
        )

    def _clear(self) -> None:
        """Complete the set of a run that was killed while it moved its files, and remove what others left.

        Nobody else is at work here now.
        """
        for path in self.directory.glob(f"{_STAGING}*"):
            if path.is_symlink() or not path.is_dir():
                continue
            if is_begun(path):
                complete(self.directory, path, self._move, self._remove)
                self.notes.append(
                    "the files of a run that was stopped while it put them in place are complete"
                )
            shutil.rmtree(path, ignore_errors=True)
        (self.directory / UNFINISHED).unlink(missing_ok=True)


def _bundles(names: Sequence[str], long: Sequence[str]) -> list[list[str]]:
    """Return the names in bundles that one process writes each, the long ones first as given.

    All DXF files are one: the library that writes them takes longer to load than most of them to write.
    """
    drawn = [name for name in names if name.endswith(".dxf")]
    alone = [[name] for name in names if name not in drawn]
    bundles = [drawn, *alone] if drawn else alone
    place = {name: number for number, name in enumerate(long)}
    return sorted(bundles, key=lambda bundle: place.get(bundle[0], len(long) + (bundle is not drawn)))


def _each(jobs: Sequence[Callable[[], None]]) -> None:
    for job in jobs:
        job()


def settled(directory: Path) -> None:
    """Complete what a run that was killed while it put its files in place has left, before it is read."""
    if (directory / UNFINISHED).exists():
        with OutputFolder(directory).hold():
            pass


def _of_the_system(error: Exception) -> OSError | None:
    """Return what the operating system has refused, also when a writer of books has wrapped it; else None."""
    inner = error.args[0] if error.args else None
    return error if isinstance(error, OSError) else inner if isinstance(inner, OSError) else None


def files_words(names: Collection[str]) -> list[str]:
    """Return file names as they are told: those of a sub-folder in one.

    >>> files_words(["a.xlsx", "cutting/b.svg", "cutting/b.dxf"])
    ['a.xlsx', 'cutting/ (2 files)']
    """
    folders = Counter(name.rpartition("/")[0] for name in names if "/" in name)
    told = [f"{folder}/ ({count} file{'s' if count > 1 else ''})" for folder, count in folders.items()]
    return [name for name in names if "/" not in name] + told
