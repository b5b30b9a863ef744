"""Puts the files of a run in place so that a kill in the middle leaves a set that can be completed.

Renames happen one after the other. So before the first, a list of them is written into the staging folder,
and a text for people into the output folder; both go after the last. Whoever works in the folder next, or
reads a record in it, does first what the list still says.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable, Sequence
from pathlib import Path, PurePath

from quoting.core import UNFINISHED, CannotWriteError, Place

_LIST = ".moves.json"
_LONGEST_LIST = 1_000_000
_FOR_PEOPLE = """A run was stopped while it put its files in place: old and new ones stand side by side here.
Use none of them yet. The next rollwright command on this folder completes the new set and removes this text.
"""

Move = Callable[[Path, str], Path]
Remove = Callable[[str], None]


def put_in_place(
    directory: Path, staging: Path, names: Sequence[str], gone: Sequence[str], move: Move, remove: Remove
) -> list[Path]:
    """Move the named files out of staging, the last one after the files in `gone` were removed; return where
    each came to be.

    When it breaks off after the first move, staging keeps what is needed to complete the set.
    """
    _write_list(staging, names, gone)
    moved: list[Path] = []
    try:
        if len(names) > 1:
            (directory / UNFINISHED).write_text(_FOR_PEOPLE, encoding="utf-8")
        moved += [move(staging / name, name) for name in names[:-1]]
        for name in gone:
            remove(name)
        moved += [move(staging / name, name) for name in names[-1:]]
    finally:
        if not moved or len(moved) == len(names):
            (staging / _LIST).unlink(missing_ok=True)
            (directory / UNFINISHED).unlink(missing_ok=True)
    return moved


def _write_list(staging: Path, names: Sequence[str], gone: Sequence[str]) -> None:
    draft = staging / f"{_LIST}.part"
    draft.write_text(json.dumps({"move": list(names), "remove": list(gone)}), encoding="utf-8")
    os.replace(draft, staging / _LIST)


def is_begun(staging: Path) -> bool:
    """Return whether a run was stopped while it moved files out of this staging folder."""
    return (staging / _LIST).is_file()


def complete(directory: Path, staging: Path, move: Move, remove: Remove) -> None:
    """Do what the list of a stopped run still says.

    Raises CannotWriteError when a file cannot be moved; everything else stays as it is then.
    """
    try:
        with (staging / _LIST).open("rb") as stream:
            todo = json.loads(stream.read(_LONGEST_LIST))  # what is cut off there is no JSON
        names, gone = list(map(str, todo["move"])), list(map(str, todo["remove"]))
        if not all(_stays_inside(directory, name) for name in (*names, *gone)):
            raise ValueError("a name leads out of the folder")
    except (OSError, ValueError, KeyError, TypeError, RecursionError) as error:
        raise CannotWriteError(
            f"a run was stopped here, and its list {staging.name}/{_LIST} cannot be read",
            place=Place(str(directory)),
            would_do=f"remove {staging.name} and {UNFINISHED}, and run again with --force",
        ) from error
    for name in names[:-1]:
        if (staging / name).is_file():
            move(staging / name, name)
    for name in gone:
        remove(name)
    for name in names[-1:]:
        if (staging / name).is_file():
            move(staging / name, name)


def _stays_inside(directory: Path, name: str) -> bool:
    """Return whether a name is one that a run writes: of a file there, or in a sub-folder that is no link.

    The list may have come with a folder that somebody sent.
    """
    parts = PurePath(name).parts
    plain = 0 < len(parts) <= 2 and ".." not in parts and not PurePath(name).anchor and "\0" not in name
    return plain and not (len(parts) == 2 and (directory / parts[0]).is_symlink())
