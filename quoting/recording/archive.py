"""A whole estimate as text and back, so that a later command can write its books again with a few changes.

The text is compact JSON, compressed, in base64. It is read by the declared types of the frozen dataclasses,
so only those classes can come out of it, whatever it says. It is for this program alone: other programs read
the rest of the record.
"""

from __future__ import annotations

import base64
import json
import types
import zlib
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from datetime import date, time
from decimal import Decimal
from enum import Enum
from functools import cache
from typing import Any, Union, get_args, get_origin, get_type_hints

from quoting.core import InputError
from quoting.estimating import Estimate

Convert = Callable[[Any], Any]

MOST_BYTES = 500_000_000
"""More than this is not unpacked: no estimate is so long."""


def pack(estimate: Estimate) -> str:
    """Return the estimate as text."""
    plain = json.dumps(_writer(Estimate)(estimate), ensure_ascii=False, separators=(",", ":"))
    return base64.b64encode(zlib.compress(plain.encode(), 6)).decode()


def unpack(text: str) -> Estimate:
    """Return the estimate that a text holds. Raises InputError when this version cannot read it."""
    try:
        plain = zlib.decompressobj().decompress(base64.b64decode(text, validate=True), MOST_BYTES)
        found: Estimate = _reader(Estimate)(json.loads(plain))
    except (ValueError, TypeError, KeyError, IndexError, ArithmeticError, zlib.error) as error:
        raise InputError(
            "the estimate inside this record cannot be read",
            read=f"{type(error).__name__}: {error}"[:80],
            would_do="make the record again with this version of rollwright",
        ) from error
    return found


def _hints(kind: type) -> list[tuple[str, Any]]:
    """Return name and declared type of each field that the class is made from."""
    hints = get_type_hints(kind)
    return [(field.name, hints[field.name]) for field in fields(kind) if field.init]


def _alternatives(kind: Any) -> list[Any]:
    """Return the kinds of a union without None; the kind alone when it is none."""
    if get_origin(kind) not in (Union, types.UnionType):
        return [kind]
    return [part for part in get_args(kind) if part is not types.NoneType]


@cache
def _writer(kind: Any) -> Convert:
    """Return what turns a value of this declared kind into plain JSON."""
    kinds = _alternatives(kind)
    if len(kinds) > 1:
        writers = {part: _writer(part) for part in kinds if isinstance(part, type) and is_dataclass(part)}
        return lambda value: (
            [type(value).__name__, writers[type(value)](value)] if type(value) in writers else value
        )
    write = _write_one(kinds[0])
    return lambda value: None if value is None else write(value)


def _write_one(kind: Any) -> Convert:
    if is_dataclass(kind):
        return _write_object(kind)
    inside = get_args(kind)
    if get_origin(kind) is tuple:
        if inside[-1] is Ellipsis:
            write = _writer(inside[0])
            return lambda values: [write(value) for value in values]
        writers = [_writer(part) for part in inside]
        return lambda values: [write(value) for write, value in zip(writers, values, strict=True)]
    if _is_mapping(kind):
        write = _writer(inside[1])
        return lambda values: {key: write(value) for key, value in values.items()}
    if isinstance(kind, type) and issubclass(kind, Enum):
        return lambda value: value.value
    return _TEXTS.get(kind, _number)


def _write_object(kind: Any) -> Convert:
    made: list[tuple[str, Convert]] = []

    def write(value: Any) -> list[Any]:
        # The fields are looked up at the first value, since a class may hold others of its own kind.
        if not made:
            made.extend((name, _writer(hint)) for name, hint in _hints(kind))
        return [convert(getattr(value, name)) for name, convert in made]

    return write


def _number(value: Any) -> Any:
    """Return a text or number as it is, one of numpy's as the plain number of the same value."""
    return value.item() if hasattr(value, "item") else value


@cache
def _reader(kind: Any) -> Convert:
    """Return what turns plain JSON into a value of this declared kind."""
    kinds = _alternatives(kind)
    if len(kinds) > 1:
        readers = {
            part.__name__: _reader(part) for part in kinds if isinstance(part, type) and is_dataclass(part)
        }
        return lambda plain: readers[plain[0]](plain[1]) if readers and plain is not None else plain
    read = _read_one(kinds[0])
    return lambda plain: None if plain is None else read(plain)


def _read_one(kind: Any) -> Convert:
    if is_dataclass(kind):
        return _read_object(kind)
    inside = get_args(kind)
    if get_origin(kind) is tuple:
        if inside[-1] is Ellipsis:
            read = _reader(inside[0])
            return lambda plain: tuple(read(item) for item in plain)
        readers = [_reader(part) for part in inside]
        return lambda plain: tuple(read(item) for read, item in zip(readers, plain, strict=True))
    if _is_mapping(kind):
        read = _reader(inside[1])
        return lambda plain: {key: read(item) for key, item in plain.items()}
    if get_origin(kind) is not None:
        return lambda plain: plain
    read_plain: Convert = _READERS.get(kind, kind)
    return read_plain


def _read_object(kind: Any) -> Convert:
    made: list[Convert] = []

    def read(plain: list[Any]) -> Any:
        if not made:
            made.extend(_reader(hint) for _, hint in _hints(kind))
        return kind(*(convert(item) for convert, item in zip(made, plain, strict=True)))

    return read


def _is_mapping(kind: Any) -> bool:
    origin = get_origin(kind)
    return isinstance(origin, type) and hasattr(origin, "items")


_TEXTS: dict[Any, Convert] = {Decimal: str, date: date.isoformat, time: time.isoformat}
_READERS: dict[Any, Convert] = {date: date.fromisoformat, time: time.fromisoformat}
