"""The reading process: takes a request a line, answers with its length and JSON, ends with its input."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place, limit_seconds, limit_this_process, shown_name
from quoting.tables.child.wire import formulas_data, packed, refusal_data, sheet_data
from quoting.tables.inside import read_any, read_formulas
from quoting.tables.limits import Limits
from quoting.tables.sheet import Sheet

_LARGE = 10_000_000
"""Bytes of an answer after which a new process reads the next file: this one's memory is spent."""


def main(memory_bytes: int) -> None:
    """Answer requests from standard input until it ends, or until a request has used up the memory."""
    limit_this_process(memory_bytes)
    answers = sys.stdout.buffer
    sys.stdout = sys.stderr
    for line in sys.stdin.buffer:
        answer, last = _answer(json.loads(line))
        answers.write(len(answer).to_bytes(8, "big") + bytes([last or len(answer) > _LARGE]))
        answers.write(answer)
        answers.flush()
        if last or len(answer) > _LARGE:
            return


def _answer(request: dict[str, Any]) -> tuple[bytes, bool]:
    """Return the answer to a request, and whether this process is spent."""
    file, limits = Path(request["path"]), Limits(**request["limits"])
    try:
        limit_seconds(limits.seconds_for(file.stat().st_size))
        return packed(_found(request, file, limits)), False
    except InputError as error:
        return packed({"refused": refusal_data(error)}), False
    except (MemoryError, RecursionError):
        spent = InputError(
            "cannot be read: it takes more memory than an order may",
            place=Place(shown_name(file)),
            would_do="send the order lines alone, in a new workbook",
        )
        return packed({"refused": refusal_data(spent)}), True
    except OSError as error:
        unread = InputError(
            "cannot be read", place=Place(shown_name(file)), read=error.strerror or str(error)
        )
        return packed({"refused": refusal_data(unread)}), False
    except BaseException as error:  # a compiled parser tells its own faults so, and they are no Exceptions
        if isinstance(error, (KeyboardInterrupt, SystemExit)):
            raise
        faulty = InputError(
            "cannot be read: it is damaged, or made as no program makes it",
            place=Place(shown_name(file)),
            would_do="open it in a spreadsheet program and save it as .xlsx",
        )
        return packed({"refused": refusal_data(faulty)}), True


def _found(request: dict[str, Any], file: Path, limits: Limits) -> dict[str, Any]:
    if request["what"] == "formulas":
        return {"book": formulas_data(read_formulas(file, request["sheets"], limits))}
    sheets = read_any(file, limits)
    _check_whole(sheets, file, limits)
    return {"sheets": [sheet_data(sheet) for sheet in sheets]}


def _check_whole(sheets: tuple[Sheet, ...], file: Path, limits: Limits) -> None:
    """Refuse what would fill the memory of the process that asked: a mail may hold many small sheets."""
    cells = sum(len(row) for sheet in sheets for row in sheet.rows)
    text = sum(len(cell) for sheet in sheets for row in sheet.rows for cell in row if type(cell) is str)
    if cells > limits.all_cells or text > limits.text:
        raise InputError(
            f"cannot be read: all sheets together hold more than {limits.all_cells:,} cells or"
            f" {limits.text:,} letters",
            place=Place(shown_name(file)),
            would_do="send the order lines alone, in a new workbook",
        )
