"""What goes between this process and the one that reads: plain JSON, never pickled objects."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import asdict
from datetime import date, datetime, time, timedelta
from typing import Any

from quoting.core import InputError, Place
from quoting.tables.limits import Limits
from quoting.tables.sheet import CellError, FormulaBook, FormulaSheet, Sheet

_KINDS: dict[str, Callable[[Any], Any]] = {
    "~moment": datetime.fromisoformat,
    "~day": date.fromisoformat,
    "~time": time.fromisoformat,
    "~span": lambda seconds: timedelta(seconds=seconds),
    "~error": CellError,
}


def packed(answer: Mapping[str, Any]) -> bytes:
    """Return an answer as JSON; dates and error cells are marked by their kind."""
    text = json.dumps(
        answer, default=_marked, check_circular=False, ensure_ascii=False, separators=(",", ":")
    )
    return text.encode("utf-8", "surrogatepass")


def _marked(value: object) -> dict[str, Any]:
    match value:
        case datetime():
            return {"~moment": value.isoformat()}
        case date():
            return {"~day": value.isoformat()}
        case time():
            return {"~time": value.isoformat()}
        case timedelta():
            return {"~span": value.total_seconds()}
        case CellError():
            return {"~error": value.text}
    return {"~error": str(value)[:80]}


def unpacked(data: bytes) -> dict[str, Any]:
    """Return the answer that `packed` wrote. Raises ValueError, TypeError when it is none."""
    answer = json.loads(data.decode("utf-8", "surrogatepass"), object_hook=_restored)
    if not isinstance(answer, dict):
        raise TypeError("no answer")
    return answer


def _restored(found: dict[str, Any]) -> Any:
    if len(found) == 1:
        ((kind, value),) = found.items()
        if kind in _KINDS:
            return _KINDS[kind](value)
    return found


def sheet_data(sheet: Sheet) -> dict[str, Any]:
    """Return a sheet as plain data."""
    return {
        "file": sheet.file,
        "name": sheet.name,
        "rows": sheet.rows,
        "hidden": sheet.hidden,
        "hidden_rows": sorted(sheet.hidden_rows),
        "hidden_columns": sorted(sheet.hidden_columns),
        "merged": sheet.merged,
        "shown": [[*at, text] for at, text in sheet.shown.items()],
        "struck": sorted(sheet.struck),
        "asides": sheet.asides,
        "source": sheet.source,
        "unsure": sorted(sheet.unsure),
        "heads": sheet.heads,
        "comments": [[*at, text] for at, text in sheet.comments.items()],
        "boxes": sheet.boxes,
    }


def sheet_of(data: Mapping[str, Any]) -> Sheet:
    """Return the sheet of plain data."""
    return Sheet(
        file=data["file"],
        name=data["name"],
        rows=data["rows"],
        hidden=data["hidden"],
        hidden_rows=frozenset(data["hidden_rows"]),
        hidden_columns=frozenset(data["hidden_columns"]),
        merged=tuple((top, left, bottom, right) for top, left, bottom, right in data["merged"]),
        shown={(row, column): text for row, column, text in data["shown"]},
        struck=frozenset((row, column) for row, column in data["struck"]),
        asides=tuple(data["asides"]),
        source=str(data["source"]),
        unsure=frozenset(data["unsure"]),
        heads=bool(data["heads"]),
        comments={(row, column): text for row, column, text in data["comments"]},
        boxes=tuple(data["boxes"]),
    )


def formulas_data(book: FormulaBook) -> dict[str, Any]:
    """Return a workbook with formulas as plain data."""
    return {
        "file": book.file,
        "names": book.names,
        "sheets": {
            name: [sheet.height, sheet.values, [[*at, text] for at, text in sheet.formulas.items()]]
            for name, sheet in book.sheets.items()
        },
    }


def formulas_of(data: Mapping[str, Any]) -> FormulaBook:
    """Return the workbook with formulas of plain data."""
    sheets = {
        name: FormulaSheet(height, values, {(row, column): text for row, column, text in formulas})
        for name, (height, values, formulas) in data["sheets"].items()
    }
    return FormulaBook(data["file"], sheets, data["names"])


def limits_data(limits: Limits) -> dict[str, int]:
    """Return limits as plain data."""
    return asdict(limits)


def refusal_data(error: InputError) -> dict[str, Any]:
    """Return a refusal as plain data."""
    return {
        "problem": error.problem,
        "place": asdict(error.place) if error.place else None,
        "read": error.read,
        "would_do": error.would_do,
    }


def refusal_of(data: Mapping[str, Any]) -> InputError:
    """Return the refusal of plain data."""
    place = Place(**data["place"]) if data["place"] else None
    return InputError(data["problem"], place=place, read=data["read"], would_do=data["would_do"])
