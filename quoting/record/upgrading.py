"""A record of an earlier version as today's version writes it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

VERSION = 2
"""Rises with every change of what a record holds; a test sees to that once a version went out."""

NEW_FIELDS: Mapping[int, Mapping[str, Mapping[str, Any]]] = {
    2: {
        "override": {"work": []},
        "drop_credit": {"bench_minutes": 0, "weld_minutes": 0, "consumables": "0"},
        "blank_width_mm": {"exact": True},
        "processing_margin": {"bench": "0", "welding": "0", "filler": "0"},
    }
}
"""By version: what it holds that the one before did not, with the value that leaves the meaning as it was.

The fields are added beside a key that marks their class, in the record and in the estimate in its archive. A
field of the estimate that has a default in its class needs no entry.
"""


def of_today(plain: dict[str, Any], version: int) -> dict[str, Any]:
    """Return a record, or an archive, of this version with the keys that later versions have added."""
    for later in range(version + 1, VERSION + 1):
        plain = _filled(plain, NEW_FIELDS.get(later, {}))
    return {**plain, "version": VERSION}


def _filled(value: Any, new: Mapping[str, Mapping[str, Any]]) -> Any:
    if isinstance(value, list):
        return [_filled(item, new) for item in value]
    if not isinstance(value, dict):
        return value
    held = {key: _filled(item, new) for key, item in value.items()}
    for marker in new.keys() & held.keys():
        held = {**new[marker], **held}
    return held
