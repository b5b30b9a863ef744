"""Records with one thing in them gone wrong, as other programs, editors and disks do it."""

from __future__ import annotations

import base64
import copy
import json
import random
import zlib
from collections.abc import Iterator
from typing import Any

WRONG: tuple[Any, ...] = (
    *(None, True, False, 0, -1, 1, 0.5, -0.5, 1e12, 1e13, 1e308, -1e308, 10**400),
    *(float("nan"), float("inf"), float("-inf"), [], {}, [None], [[]], {"a": 1}),
    *("", "\n", "=1+1", "\ud800", "١٢", "x" * 5000, "priced", "question", "cone", "A-10"),
    *("NaN", "Infinity", "sNaN", "1e999999", "-1", "0", "0.00", "1E+12", "12,50"),
    *("9999-12-31", "0001-01-01", "2026-12-01", "2026-02-30"),
    *("2026-12-01T08:00:00+05:00", "2999-12-31T23:59:59"),
)
"""What stands where something else should."""

DEEP = 5000


def spoilt_records(text: str, count: int, seed: int) -> Iterator[tuple[str, bytes]]:
    """Yield records that differ from a good one in one place: what was done, and the file's bytes."""
    draw = random.Random(seed)
    good = json.loads(text)
    places = list(_places(good))
    for _ in range(count):
        kind = draw.choices(("value", "bytes", "archive", "deep"), (88, 6, 5, 1))[0]
        if kind == "bytes":
            yield "bytes", _damaged(text.encode(), draw)
        elif kind == "deep":
            yield "deep", _deep(good, draw.choice(places))
        else:
            record = copy.deepcopy(good)
            done = _spoil(record, draw.choice(places), draw) if kind == "value" else _archive(record, draw)
            yield done, json.dumps(record).encode()


def _places(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, item in items:
        yield (*path, key)
        yield from _places(item, (*path, key))


def _holder(record: Any, path: tuple[str | int, ...]) -> Any:
    for key in path[:-1]:
        record = record[key]
    return record


def _spoil(record: Any, path: tuple[str | int, ...], draw: random.Random) -> str:
    """Change one place, often to another value of its own kind, which may well be let by."""
    holder, key = _holder(record, path), path[-1]
    how = draw.choice(("wrong",) * 3 + ("own kind",) * 3 + ("gone", "renamed", "twice"))
    if how == "gone":
        del holder[key]
    elif how == "renamed" and isinstance(holder, dict):
        holder[f"{key} "] = holder.pop(key)
    elif how == "twice" and isinstance(holder, list):
        holder.insert(0, copy.deepcopy(holder[int(key)]))
    elif how == "own kind":
        holder[key] = _own_kind(holder[key], draw)
    else:
        holder[key] = copy.deepcopy(draw.choice(WRONG))
    return f"{how}: {'.'.join(map(str, path))}"


def _own_kind(value: Any, draw: random.Random) -> Any:
    if isinstance(value, bool):
        return not value
    if isinstance(value, (int, float)):
        return type(value)(draw.choice((0, 1, 2, 7, value * 10, value * 1000, 1e6, 1e9, 1e12)))
    if isinstance(value, list):
        return value[:-1]
    if isinstance(value, str):
        try:
            float(value)
        except ValueError:
            return draw.choice(("", "another", value + " x", value[:-1], "2026-12-24", "2026-12-24T09:00:00"))
        return draw.choice(("0", "-5.00", "0.01", "1000000.00", "999999999999", "1E-30"))
    return value


def _archive(record: Any, draw: random.Random) -> str:
    """Change one place of the estimate inside, packed again as if nothing had been done."""
    plain = json.loads(zlib.decompress(base64.b64decode(record["archive"])))
    path = draw.choice(list(_places(plain)))
    done = _spoil(plain, path, draw)
    record["archive"] = base64.b64encode(zlib.compress(json.dumps(plain).encode(), 1)).decode()
    return f"archive, {done}"


def _damaged(data: bytes, draw: random.Random) -> bytes:
    place = draw.randrange(len(data))
    cut = data[:place]
    return draw.choice(
        (cut, cut + bytes([draw.randrange(256)]) + data[place + 1 :], cut + data[place + 1 :], data + cut)
    )


def _deep(record: Any, path: tuple[str | int, ...]) -> bytes:
    spoilt = copy.deepcopy(record)
    _holder(spoilt, path)[path[-1]] = "DEEP"
    return json.dumps(spoilt).replace('"DEEP"', "[" * DEEP + "]" * DEEP, 1).encode()
