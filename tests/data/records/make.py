"""Make what follows from the record's classes again: its JSON Schema, its golden file, at a release its
fingerprint.

`python -m tests.data.records.make` after every change of a class of the record. The golden file of today's
version stays as long as it can still be read. At a release (the change log no longer calls it not released)
the fingerprint of the record and the estimate in it is noted; from then on this refuses a change of either:
raise `VERSION` in `quoting/record/upgrading.py` first, and say there which fields are new.
"""

from __future__ import annotations

import json
import re
import tempfile
from hashlib import sha256
from pathlib import Path
from typing import Any

import openpyxl
from click.testing import CliRunner

from quoting.core import InputError, Place
from quoting.record import VERSION, read_record
from quoting.record.reading import record_adapter
from quoting.recording import unpack
from quoting.recording.archive import archive_adapter
from quoting.shop import write_starter
from scheduler.commands import main

ROOT = Path(__file__).resolve().parents[3]
FOLDER = Path(__file__).resolve().parent
SCHEMA = ROOT / "quoting" / "record" / "schema" / "result.schema.json"
VERSIONS = FOLDER / "versions.json"

RAISE = "the record's version went out with other contents: raise VERSION in quoting/record/upgrading.py"
NOTE = "the record's version goes out: run python -m tests.data.records.make, which notes its fingerprint"

ORDER = (
    ("Example Tank Works (invented)",),
    ("Line", "Qty", "Description", "Thickness", "Material", "ID", "Length", "Required"),
    ("10", 3, "Cylinder, rolled and tacked", '3/8"', "A36", '30" ID', '48"', "2026-12-14"),
    ("20", 1, "Cylinder", None, "A36", '30" ID', '48"', "2026-12-14"),
    ("30", 1, "Cylinder", '1/2"', "A36", '11" ID', '96"', None),
)
"""One line that is priced, one with a question, one that cannot be done."""


def golden(version: int) -> Path:
    """Return the golden file of a version."""
    return FOLDER / f"version-{version}.json"


def schema_text() -> str:
    """Return the JSON Schema of today's record as it is shipped."""
    schema = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **_without(record_adapter().json_schema(), {"title"}),
        "title": f"result.json, version {VERSION}",
    }
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"


def fingerprint() -> str:
    """Return a short text that changes with the fields and kinds of the record and its archive, not words."""
    both = [
        _without(adapter.json_schema(), {"title", "description"})
        for adapter in (record_adapter(), archive_adapter())
    ]
    return sha256(json.dumps(both, sort_keys=True).encode()).hexdigest()[:16]


def released(since: str) -> bool:
    """Return whether a release of the program is out, by the change log."""
    return f"## {since}, not released yet" not in (ROOT / "CHANGELOG.md").read_text("utf-8")


def versions() -> dict[str, dict[str, str]]:
    """Return what is known of every version: the release it came with, and its fingerprint."""
    found: dict[str, dict[str, str]] = json.loads(VERSIONS.read_text("utf-8"))
    return found


def _without(schema: Any, words: set[str]) -> Any:
    """Return a schema without these words on its parts; a field may well be called so, and stays."""
    if isinstance(schema, dict):
        return {
            key: _without(value, words)
            for key, value in schema.items()
            if key not in words or not isinstance(value, str)
        }
    return [_without(item, words) for item in schema] if isinstance(schema, list) else schema


def run_order(folder: Path) -> Path:
    """Quote and schedule the small order with a starter shop in a folder; return where the results are."""
    sheet, shop, out = (folder / name for name in ("one-line.xlsx", "shop", "out"))
    book = openpyxl.Workbook()
    for row in ORDER:
        book.worksheets[0].append(row)
    book.save(sheet)
    write_starter(shop)
    how = ("--today", "2026-11-30", "--effort", "quick", "--sensitivities", "--no-ledger")
    result = CliRunner().invoke(main, ["run", str(sheet), "--shop", str(shop), "--out", str(out), *how])
    assert result.exit_code == 1, result.output
    return out


def what_to_do(noted: str, now: str, *, out: bool) -> str:
    """Return what to do about a version: its fingerprint as noted and now, whether it went out; or nothing.

    >>> what_to_do("", "abc", out=False), what_to_do("abc", "abc", out=True)
    ('', '')
    """
    if not out or noted == now:
        return ""
    return RAISE if noted else NOTE


def _outdated(path: Path) -> bool:
    """Return whether a golden file is missing or cannot be read any more."""
    if not path.exists():
        return True
    try:
        unpack(read_record(path).archive, Place(str(path)))
    except InputError:
        return True
    return False


def make() -> None:
    """Write what today's version needs."""
    known = versions()
    newest = re.search(r"^## (\S+), not released yet", (ROOT / "CHANGELOG.md").read_text("utf-8"), re.M)
    entry = known.setdefault(str(VERSION), {"since": newest[1] if newest else "", "fingerprint": ""})
    to_do = what_to_do(entry["fingerprint"], fingerprint(), out=released(entry["since"]))
    if to_do == RAISE:
        raise SystemExit(RAISE)
    if to_do == NOTE:
        entry["fingerprint"] = fingerprint()
    VERSIONS.write_text(json.dumps(known, indent=1) + "\n", encoding="utf-8")
    SCHEMA.write_text(schema_text(), encoding="utf-8")
    if _outdated(golden(VERSION)):
        with tempfile.TemporaryDirectory() as folder:
            text = (run_order(Path(folder)) / "result.json").read_text("utf-8")
        golden(VERSION).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    make()
