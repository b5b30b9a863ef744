"""Texts, archives and ledgers with some of what they say changed."""

from __future__ import annotations

import base64
import json
import random
import re
import sqlite3
import zlib
from contextlib import suppress
from copy import copy
from functools import lru_cache
from pathlib import Path
from typing import Any

EXTREMES = (
    "1e308", "-1e308", "1e12", "1000000", "1000000000000", "0", "-1", "nan", "inf", "9" * 400, "1e-300", '""',
    "true", "[]", "{}", "1e6", "1e4", "1e9", "50000", "9999-12-31",
    "0001-01-01", '"\\u0000"', "0.1", "1e999999",
    "99999999999999999999",
)  # fmt: skip
VALUES: tuple[Any, ...] = (
    None, "", "\0", "x", 0, -1, 1, 10**6, 10**12, 10**15, 2**63 - 1, 1e308, -1e-300, 0.1, 1e9, "NaN", "1e308",
    "9999-12-31", "0001-01-01", "2026-13-45", "9999-12-31 23:59", "-1", "é" * 500, True, [], {}, "\ud800",
)  # fmt: skip


def mutated_text(rng: random.Random, text: str) -> str:
    """Return a text of settings or a record with some values, keys or lines changed."""
    for _ in range(rng.choice((1, 1, 2))):
        chance = rng.random()
        spots = _values_in(text)
        if chance < 0.85 and spots:
            start, end = rng.choice(spots)
            text = text[:start] + rng.choice(EXTREMES) + text[end:]
        elif chance < 0.93:
            lines = text.split("\n")
            at = rng.randrange(len(lines))
            lines[at : at + 1] = [lines[at]] * rng.choice((0, 0, 2))
            text = "\n".join(lines)
        else:
            at = rng.randrange(len(text))
            text = text[:at] + rng.choice(("[", "{", '"', "\n", "\0", "é", "[" * 5_000, "-")) + text[at + 1 :]
    return text


@lru_cache(maxsize=4)
def _values_in(text: str) -> list[tuple[int, int]]:
    return [match.span() for match in re.finditer(r"(?<=[:=] )[^\n,{}\[\]]+|(?<==)[^\n,]+", text)]


def mutated_data(rng: random.Random, text: str | bytes) -> Any:
    """Return the data of a JSON text with one to three values, keys or members changed, anywhere.

    Only what leads to a change is copied; the rest is shared with the next one of the same text.
    """
    data, members = _members_of(text)
    root = copy(data)
    for _ in range(rng.choice((1, 1, 2, 3))):
        *way, key = rng.choice(members)
        here = root
        with suppress(LookupError, TypeError):  # an earlier change took the way there
            for step in way:
                inner = here[step]
                if not isinstance(inner, (dict, list)):
                    raise TypeError
                here[step] = copy(inner)
                here = here[step]
            _change_member(rng, here, key)
    return root


def _change_member(rng: random.Random, here: Any, key: Any) -> None:
    if isinstance(here, dict) and rng.random() < 0.1:
        here["other"] = here.pop(key)
    elif isinstance(here, list) and rng.random() < 0.3:
        here[:] = rng.choice(([], here[1:], here + here[-1:], here[::-1]))
    else:
        value = here[key]
        near = [value * rng.choice((0, -1, 2, 1000, 1e6))] if type(value) in (int, float) else []
        here[key] = rng.choice([*VALUES, *near * 20])


@lru_cache(maxsize=16)
def _members_of(text: str | bytes) -> tuple[Any, list[tuple[Any, ...]]]:
    """Return the data of a JSON text, and the way to every member, each as likely as every other."""
    data = json.loads(text)
    found: list[tuple[Any, ...]] = []
    todo: list[tuple[Any, tuple[Any, ...]]] = [(data, ())]
    while todo:
        here, way = todo.pop()
        for key in list(here) if isinstance(here, dict) else range(len(here)):
            found.append((*way, key))
            if isinstance(here[key], (dict, list)):
                todo.append((here[key], (*way, key)))
    return data, found


def unpacked_archive(record: dict[str, Any]) -> bytes:
    """Return the estimate in a record's archive as a JSON text."""
    return zlib.decompress(base64.b64decode(record["archive"]))


def packed_archive(data: Any) -> str:
    """Return JSON data as the text of an archive."""
    plain = json.dumps(data).encode("utf-8", "surrogatepass")
    return base64.b64encode(zlib.compress(plain, 1)).decode()


def mutate_ledger(rng: random.Random, path: Path) -> None:
    """Change some values of a ledger's file, or some of its bytes."""
    if rng.random() < 0.2:
        data = bytearray(path.read_bytes())
        for _ in range(rng.randint(1, 20)):
            data[rng.randrange(len(data))] = rng.randrange(256)
        path.write_bytes(data[: rng.randrange(len(data))] if rng.random() < 0.2 else data)
        return
    with sqlite3.connect(path) as ledger:
        tables = [row[0] for row in ledger.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        filled = [name for name in tables if ledger.execute(f"SELECT 1 FROM {name}").fetchone()]
        for _ in range(rng.choice((1, 1, 2, 3))):
            table = rng.choice(filled)
            columns = [row[1] for row in ledger.execute(f"PRAGMA table_info({table})")]
            _change(rng, ledger, table, rng.choice(columns))
    ledger.close()


def _change(rng: random.Random, ledger: sqlite3.Connection, table: str, column: str) -> None:
    where = f"WHERE rowid = (SELECT rowid FROM {table} ORDER BY random() LIMIT 1)"
    if rng.random() < 0.1:
        ledger.execute(f"DELETE FROM {table} {where}")
        return
    value = rng.choice(
        [value for value in VALUES if not isinstance(value, (list, dict)) and value != "\ud800"]
    )
    if column == "record":
        (packed,) = ledger.execute(f"SELECT record FROM {table}").fetchone()
        text = zlib.decompress(packed)
        changed = json.dumps(mutated_data(rng, text)).encode("utf-8", "surrogatepass")
        value = rng.choice((zlib.compress(changed, 1), zlib.compress(changed, 1), packed[:-9], b"", None))
    with suppress(sqlite3.IntegrityError, OverflowError):
        ledger.execute(f"UPDATE {table} SET {column} = ? {where}", (value,))
