"""A whole estimate as text and back, so that a later command can write its books again with a few changes.

The text is JSON with every value under its name, compressed, in base64. It is read by the declared types of
the estimate's own classes, so only those can come out of it, whatever it says. It is for this program alone:
other programs read the rest of the record. It has the record's version, and rises with it.
"""

from __future__ import annotations

import base64
import zlib
from dataclasses import dataclass, fields, is_dataclass
from decimal import Decimal
from functools import cache
from typing import Any, ClassVar

from pydantic import ConfigDict, TypeAdapter, ValidationError
from pydantic_core import from_json, to_json

from quoting.core import InputError, Paper, Place, on_one_line
from quoting.estimating import Estimate
from quoting.record import SMALL, VERSION, JsonRoom, JsonSize, adapter_of, of_today, refusal, tried
from quoting.recording.first_version import named
from quoting.recording.fits_together import misfit

ROOM = JsonRoom(150_000_000, 1_300_000, 8_000_000)
"""More than this is not unpacked: a fifth more than an estimate of 5,000 lines."""
FEW = 200
"""Lines up to which an estimate is sooner written than it is worked out how its classes are written."""
_NOW = f'{{"version":{VERSION},'.encode()

_STEP = 1 << 20
"""Bytes that are unpacked at a time."""
MOST = Decimal("1e15")
"""No number of an estimate is larger, so that none is beyond reckoning."""


@dataclass(frozen=True, slots=True)
class ArchivedRun:
    """What the text holds."""

    __pydantic_config__: ClassVar[ConfigDict] = ConfigDict(extra="forbid", strict=True, allow_inf_nan=False)

    version: int
    estimate: Estimate


@cache
def archive_adapter() -> TypeAdapter[ArchivedRun]:
    """Return what reads and writes archives; built once, at the first use."""
    return adapter_of(ArchivedRun)


def pack(estimate: Estimate) -> str:
    """Return the estimate as text."""
    run = ArchivedRun(VERSION, estimate)
    plain = _text_of_few(run) if len(estimate.lines) <= FEW else _text_of_many(run)
    return base64.b64encode(zlib.compress(plain, 6)).decode()


# A number may be one of numpy's: both write it as the plain number of the same value.
def _text_of_few(run: ArchivedRun) -> bytes:
    return to_json(run, inf_nan_mode="null", fallback=lambda value: value.item())


def _text_of_many(run: ArchivedRun) -> bytes:
    return archive_adapter().dump_json(run, warnings=False, fallback=lambda value: value.item())


def unpack(text: str, place: Place) -> Estimate:
    """Return the estimate that a text holds; `place` is the record's.

    A long one is first tried by a process of its own. Raises InputError when this version cannot read it,
    naming the first value that is missing or cannot be.
    """
    return _read(text, place, first=True)


def try_archive(text: bytes) -> None:
    """Read an archive and keep nothing of it: what a trial does. Raises InputError."""
    _read(text.decode("ascii"), Place(""), first=False)


def _read(text: str, place: Place, *, first: bool) -> Estimate:
    try:
        plain = _unpacked(text, place, first=first)
        run = archive_adapter().validate_json(_of_today(plain))
    except ValidationError as error:
        raise refusal(error, place, inside="archive") from error
    except (ValueError, TypeError, LookupError, zlib.error) as error:
        raise InputError(
            "the estimate inside this record cannot be read",
            place=place,
            read=f"{type(error).__name__}: {error}"[:80],
            would_do="make the record again with this version of rollwright",
        ) from error
    if run.estimate.shop.paper not in list(Paper):
        raise InputError(
            "archive.estimate.shop.paper is no paper that is printed on",
            place=place,
            read=run.estimate.shop.paper,
            would_do="give the file as the run wrote it",
        )
    if (found := _too_large(run.estimate)) is not None:
        path, value = found
        raise InputError(
            f"archive.estimate{path} is too large",
            place=place,
            read=str(value),
            would_do="give a true figure",
        )
    if (missing := misfit(run.estimate)) is not None:
        raise InputError(
            f"archive.estimate {missing[0]}",
            place=place,
            read=on_one_line(missing[1], 60),
            would_do="give the file as the run wrote it",
        )
    return run.estimate


def _unpacked(text: str, place: Place, *, first: bool) -> bytes:
    """Return the JSON text, unpacked step by step: what it says of its own length is not asked."""
    opened, size = zlib.decompressobj(), JsonSize()
    pieces: list[bytes] = []
    rest = base64.b64decode(text, validate=True)
    while rest and not opened.eof:
        piece = opened.decompress(rest, _STEP)
        rest = opened.unconsumed_tail
        size.add(piece)
        ROOM.check(size, place)
        if first and not SMALL.holds(size):
            pieces.clear()
            tried("quoting.recording.archive:try_archive", text.encode("ascii"), place)
            return _unpacked(text, place, first=False)
        pieces.append(piece)
    if not opened.eof:
        raise ValueError("it is cut off")
    return b"".join(pieces)


def _of_today(text: bytes) -> bytes:
    """Return an archive of an earlier version as this version writes it."""
    if text.startswith(_NOW):
        return text  # and is not read twice
    plain = from_json(text)
    if isinstance(plain, list):
        plain = {"version": 1, "estimate": named(plain)}
    version = plain["version"]
    if version == VERSION:
        return text
    if version not in range(1, VERSION):
        raise ValueError(f"version {str(version)[:20]}, this program reads up to {VERSION}")
    return to_json(of_today(plain, version), inf_nan_mode="constants")


def _too_large(value: Any) -> tuple[str, Any] | None:
    """Return the first number beyond reason with its path; the path is put together then."""
    kind: Any = type(value)
    if kind is tuple:
        for index, item in enumerate(value):
            if (found := _too_large(item)) is not None:
                return f"[{index}]{found[0]}", found[1]
    elif issubclass(kind, (int, float, Decimal)):
        return None if abs(value) <= MOST else ("", value)
    else:
        for name in _fields(kind):
            if (found := _too_large(getattr(value, name))) is not None:
                return f".{name}{found[0]}", found[1]
    return None


@cache
def _fields(kind: Any) -> tuple[str, ...]:
    """Return the names of a record's fields; of what is no record, none. Looked up once for each class."""
    return tuple(field.name for field in fields(kind)) if is_dataclass(kind) else ()
