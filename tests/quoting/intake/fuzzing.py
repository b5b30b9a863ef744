"""Throws random sizes and damaged workbooks at the readers and collects every traceback."""

from __future__ import annotations

import random
import tempfile
import traceback
import zipfile
from io import BytesIO
from pathlib import Path

from quoting.errors import InputError
from quoting.intake import read_orders
from quoting.units import NumberStyle, SizeError, parse_measures
from tests.quoting.intake.small_shop import TODAY, small_shop

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
    return failures


def mutated(rng: random.Random, source: Path) -> bytes:
    """Return the file with some of its bytes changed: inside a part of a zip, or anywhere."""
    data = source.read_bytes()
    if data.startswith(b"PK") and rng.random() < 0.8:
        return _mutated_zip(rng, data)
    return _mutated_bytes(rng, data)


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


def _mutated_zip(rng: random.Random, data: bytes) -> bytes:
    """Change the text of one part and pack it again, so that the damage gets past the zip."""
    out = BytesIO()
    with zipfile.ZipFile(BytesIO(data)) as archive, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as packed:
        names = archive.namelist()
        wanted = [
            name for name in names if "sheet" in name or "content" in name or "Strings" in name
        ] or names
        victim = rng.choice(wanted)
        for name in names:
            part = archive.read(name)
            packed.writestr(name, _mutated_bytes(rng, part) if name == victim and part else part)
    return out.getvalue()
