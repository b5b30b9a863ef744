"""A record read back from its file."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from quoting.core import InputError, Place

FORMAT = "rollwright result"
VERSION = 1


def read_record(path: Path) -> dict[str, Any]:
    """Return the record in a file; InputError when it is missing, no record, or of another version."""
    place = Place(str(path))
    give = "give the result.json that a quote run has written"
    try:
        record = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError) as error:
        raise InputError(
            "cannot be read as a record of a run", place=place, read=str(error)[:80], would_do=give
        ) from error
    if not isinstance(record, dict) or record.get("format") != FORMAT:
        raise InputError("is no record of a run", place=place, would_do=give)
    if record.get("version") != VERSION:
        raise InputError(
            f"has version {record.get('version')} of the record, this program reads {VERSION}",
            place=place,
            would_do="quote again with this version",
        )
    return record
