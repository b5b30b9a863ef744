"""Throws random sizes and damaged workbooks at the readers and collects every traceback."""

from __future__ import annotations

import faulthandler
import random
import re
import tempfile
import traceback
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from xml.sax.saxutils import escape

from quoting.core import InputError, NumberStyle, SizeError, parse_measures
from quoting.intake.read_orders import read_orders
from tests.quoting.intake.repacking import packed
from tests.quoting.intake.small_shop import TODAY, small_shop

LONGEST_SECONDS = 60
"""A file that takes longer ends the program, with a trace of where it was."""

_PIECES = [
    "1",
    "2",
    "12",
    "48",
    "0",
    "007",
    "1/2",
    "3/16",
    "1-1/2",
    ".25",
    "0.25",
    "1,5",
    "1.234,5",
    "1,234.5",
    "½",
    "1½",
    "'",
    '"',
    "''",
    "-",
    "--",
    "+",
    "±",
    "+/-",
    "/",
    "//",
    "x",
    "X",
    "*",
    "by",
    "to",
    "Ø",
    "ø",
    "R",
    "D",
    "ID",
    "OD",
    "O.D.",
    "I.D.",
    "IR",
    "OR",
    "DN",
    "NPS",
    "PL",
    "THK",
    "WALL",
    "ga",
    "GA",
    "gauge",
    "#",
    "HR",
    "SS",
    "mm",
    "MM",
    "cm",
    "m",
    "in",
    "ft",
    "feet",
    "deg",
    "°",
    "(",
    ")",
    ",",
    ".",
    ";",
    "?",
    "tbd",
    "１",
    "／",
    "×",
    "–",
    "’",
    "”",
    "\t",
    "approx",
    "max",
    "min",
    "dia",
    "mean",
    "c/l",
    "lg",
    "long",
    "wide",
    "high",
    "9999999999",
    "1e9",
    "nan",
    "inf",
    "-1",
    "''",
    "'-",
]


def fuzz_grammar(rng: random.Random, count: int) -> list[str]:
    """Return the tracebacks (not SizeErrors) that random texts cause in the size grammar."""
    failures: list[str] = []
    for _ in range(count):
        if rng.random() < 0.85:
            joined = rng.choice(("", " ", " ", ""))
            text = joined.join(rng.choice(_PIECES) for _ in range(rng.randint(1, 8)))
        else:
            text = "".join(chr(rng.choice((rng.randint(32, 126), rng.randint(0, 0x2FFF)))) for _ in range(12))
        style = rng.choice(tuple(NumberStyle))
        try:
            for size in parse_measures(text, style):
                if not (0 <= size.low <= size.high < 1e9 and 0 <= size.start <= size.end <= len(text)):
                    failures.append(f"{text!r}: {size}")
        except SizeError as error:
            if not 0 <= error.start <= error.end <= len(error.text):
                failures.append(f"{text!r}: error outside the text")
        except Exception:
            failures.append(f"{text!r}: {traceback.format_exc(limit=-2)}")
    return failures


def fuzz_workbooks(rng: random.Random, count: int, folder: Path) -> list[str]:
    """Return the tracebacks (not InputErrors) that damaged corpus files cause in `read_orders`."""
    sources = sorted(file for file in folder.iterdir() if file.suffix != ".json")
    shop = small_shop()
    failures: list[str] = []
    with tempfile.TemporaryDirectory() as temporary:
        for number in range(count):
            source = rng.choice(sources)
            file = Path(temporary) / f"m{number}{source.suffix}"
            file.write_bytes(mutated(rng, source))
            faulthandler.dump_traceback_later(LONGEST_SECONDS, exit=True)  # a reader that never ends
            try:
                order = read_orders(file, shop, today=TODAY)
                places = [(row.place.sheet, row.place.row) for row in order.rows]
                if len(set(places)) != len(places):
                    failures.append(f"{source.name}: a row is accounted for twice")
            except InputError:
                pass
            except Exception:
                failures.append(f"{source.name}: {traceback.format_exc(limit=-3)}")
            file.unlink()
    faulthandler.cancel_dump_traceback_later()
    return failures


def mutated(rng: random.Random, source: Path) -> bytes:
    """Return the file with some of its cells or some of its bytes changed.

    Changed cells leave a file that opens, so that the damage gets as far as the prices; changed bytes, inside
    a part of a zip or anywhere, mostly leave one that does not.
    """
    data = _bytes_of(source)
    if rng.random() < 0.75:
        if data.startswith(b"PK"):
            return _mutated_zip(rng, data, _mutated_values)
        if source.suffix in (".csv", ".tsv", ".txt"):
            return _mutated_fields(rng, data)
    if data.startswith(b"PK") and rng.random() < 0.8:
        return _mutated_zip(rng, data, _mutated_bytes)
    return _mutated_bytes(rng, data)


@lru_cache(maxsize=256)
def _bytes_of(source: Path) -> bytes:
    return source.read_bytes()


_HOSTILE = (
    "=1+1", "@SUM(A1)", "=cmd|' /C calc'!A0", "https://example.invalid/x", "1e308", "-1e308", "NaN", "0",
    "-5", "999999999", "0.0000001", "1/0", "31/31/2026", "2026-02-30", "\u202e evil", "'", '""', "x" * 400,
    "../../etc/passwd", "CON", "A\ufeffB", "\u00bd", "1\u20442", "\uff1d1+1", "360", "180", "ID", "OD",
    "all", "TOTAL",
)  # fmt: skip


def _value(rng: random.Random) -> str:
    """Return what a cell is changed to: something hostile, pieces of sizes, or nothing."""
    chance = rng.random()
    if chance < 0.4:
        return rng.choice(_HOSTILE)
    return "" if chance < 0.5 else " ".join(rng.choice(_PIECES) for _ in range(rng.randint(1, 4)))


def _mutated_values(rng: random.Random, part: bytes) -> bytes:
    """Change the text of some cells of an XML part; what is no number there becomes an inline text."""
    text, spots = _values_in(part)
    for start, end in sorted(rng.sample(spots, min(len(spots), rng.randint(1, 3))), reverse=True):
        new = _value(rng)
        if text[end:].startswith("</v>"):
            new = rng.choice(
                (str(rng.randint(-5, 400)), f"{rng.uniform(-1, 100):.4f}", "1e300", "0", "46000")
            )
        text = text[:start] + escape(new) + text[end:]
    return text.encode("utf-8", errors="replace")


@lru_cache(maxsize=256)
def _values_in(part: bytes) -> tuple[str, list[tuple[int, int]]]:
    """Return an XML part as text, and where the texts of its cells are."""
    text = part.decode("utf-8", errors="replace")
    return text, [match.span(1) for match in re.finditer(r">([^<>]{1,200})</(?:\w+:)?(?:t|v|p)>", text)]


def _mutated_fields(rng: random.Random, data: bytes) -> bytes:
    """Change some fields of a text sheet, whatever its separator."""
    text = data.decode("utf-8", errors="surrogateescape")
    spots = [match.span() for match in re.finditer(r"[^,;\t\r\n]+", text)]
    for start, end in sorted(rng.sample(spots, min(len(spots), rng.randint(1, 3))), reverse=True):
        text = text[:start] + _value(rng).replace("\n", " ") + text[end:]
    return text.encode("utf-8", errors="surrogateescape")


def _mutated_bytes(rng: random.Random, data: bytes) -> bytes:
    changed = bytearray(data)
    for _ in range(rng.randint(1, 20)):
        at = rng.randrange(len(changed))
        action = rng.random()
        if action < 0.6:
            changed[at] = rng.randrange(256)
        elif action < 0.8:
            del changed[at : at + rng.randint(1, 30)]
        else:
            changed[at:at] = bytes(
                rng.choice(b"<>&\"'0123456789,;/=.-xA \n") for _ in range(rng.randint(1, 10))
            )
        if not changed:
            return b"\0"
    return bytes(changed)


def _mutated_zip(rng: random.Random, data: bytes, change: Callable[[random.Random, bytes], bytes]) -> bytes:
    """Change the text of one part and pack it again, so that the damage gets past the zip."""
    whole = packed(data)
    names = list(whole.parts)
    wanted = [name for name in names if "sheet" in name or "content" in name or "Strings" in name] or names
    parts = [name for name in wanted if not name.endswith(("/", ".rels"))] or wanted
    victim = rng.choice(parts)
    part = whole.parts[victim]
    return whole.with_part(victim, change(rng, part) if part else part)
