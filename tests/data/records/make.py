"""Make what follows from the record's classes again: its JSON Schema, its fingerprint, its golden file.

`python -m tests.data.records.make` after every change of a class of the record or of the estimate in it. It
refuses when the version of the record was released: raise `VERSION` in `quoting/record/upgrading.py` first,
and say there which fields are new.
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

from quoting.record import VERSION
from quoting.record.reading import record_adapter
from quoting.recording.archive import archive_adapter
from quoting.shop import write_starter
from scheduler.commands import main

ROOT = Path(__file__).resolve().parents[3]
FOLDER = Path(__file__).resolve().parent
SCHEMA = ROOT / "quoting" / "record" / "schema" / "result.schema.json"
VERSIONS = FOLDER / "versions.json"

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


def released(version: int) -> bool:
    """Return whether a version of the record went out with a release, by the change log."""
    since = versions()[str(version)]["since"]
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


def make() -> None:
    """Write all three files of today's version."""
    known = versions()
    newest = re.search(r"^## (\S+), not released yet", (ROOT / "CHANGELOG.md").read_text("utf-8"), re.M)
    entry = known.setdefault(str(VERSION), {"since": newest[1] if newest else "", "fingerprint": ""})
    if entry["fingerprint"] != fingerprint() and entry["fingerprint"] and released(VERSION):
        raise SystemExit(
            f"version {VERSION} of the record was released: raise VERSION in quoting/record/upgrading.py"
        )
    entry["fingerprint"] = fingerprint()
    VERSIONS.write_text(json.dumps(known, indent=1) + "\n", encoding="utf-8")
    SCHEMA.write_text(schema_text(), encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder:
        text = (run_order(Path(folder)) / "result.json").read_text("utf-8")
    golden(VERSION).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    make()
