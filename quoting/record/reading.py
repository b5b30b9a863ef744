"""A record read back from its file, and the text of one to be written."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any, Literal

from pydantic import TypeAdapter, ValidationError
from pydantic_core import from_json, to_json

from quoting.core import InputError, Place
from quoting.record.checked import adapter_of, refusal
from quoting.record.schema import RunRecord
from quoting.record.trial import SMALL, JsonRoom, JsonSize, tried
from quoting.record.upgrading import VERSION, of_today

FORMAT: Literal["rollwright result"] = "rollwright result"

ROOM = JsonRoom(150_000_000, 250_000, 2_000_000)
"""No record is larger: a fifth more than 5,000 lines take."""

_GIVE = "give the result.json that a quote run has written"


@cache
def record_adapter() -> TypeAdapter[RunRecord]:
    """Return what reads and writes records; built once, at the first use."""
    return adapter_of(RunRecord)


def read_record(path: Path) -> RunRecord:
    """Return the record in a file.

    Raises InputError when it is missing, no record or of another version, and for the first value in it that
    is missing or cannot be, by its path in the file.
    """
    place = Place(str(path))
    return record_of(_bytes(path, place), place)


def record_of(text: bytes, place: Place) -> RunRecord:
    """Return the record in a text; `place` is where it comes from. Raises InputError like `read_record`.

    A long text is first tried by a process of its own.
    """
    size = JsonSize()
    size.add(text)
    ROOM.check(size, place)
    if not SMALL.holds(size):
        tried("quoting.record.reading:try_record", text, place)
    return _record(text, place)


def try_record(text: bytes) -> None:
    """Read a record and keep nothing of it: what a trial does. Raises InputError."""
    _record(text, Place(""))


def _record(text: bytes, place: Place) -> RunRecord:
    try:
        plain = from_json(text)
    except ValueError as error:
        raise InputError(
            "cannot be read as a record of a run", place=place, read=str(error)[:80], would_do=_GIVE
        ) from error
    if not isinstance(plain, dict) or plain.get("format") != FORMAT:
        raise InputError("is no record of a run", place=place, would_do=_GIVE)
    version = _known_version(plain.get("version"), place)
    if version < VERSION:
        text = to_json(of_today(plain, version), inf_nan_mode="constants")
    del plain
    try:
        return record_adapter().validate_json(text)
    except ValidationError as error:
        raise refusal(error, place) from error


def record_text(record: RunRecord) -> bytes:
    """Return the record as it stands in its file."""
    return record_adapter().dump_json(record, indent=1, by_alias=True) + b"\n"


def _bytes(path: Path, place: Place) -> bytes:
    try:
        if path.exists() and not path.is_file():
            raise InputError("is no file", place=place, would_do=_GIVE)
        if path.stat().st_size > ROOM.letters:
            raise InputError("is far larger than any record", place=place, would_do=_GIVE)
        return path.read_bytes()
    except (OSError, ValueError) as error:
        raise InputError(
            "cannot be read as a record of a run", place=place, read=str(error)[:80], would_do=_GIVE
        ) from error


def _known_version(version: Any, place: Place) -> int:
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise InputError("has no version of the record", place=place, read=str(version)[:80], would_do=_GIVE)
    if version > VERSION:
        raise InputError(
            f"has a newer version of the record than this program reads, {VERSION}",
            place=place,
            read=str(version)[:20],
            would_do="read it with the version of rollwright that wrote it",
        )
    return version
