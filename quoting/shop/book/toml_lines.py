"""Which line of a TOML file a key stands on: the standard parser does not tell, and a person needs it."""

from __future__ import annotations

import re

_TABLE = re.compile(r"^\s*(\[\[?)\s*([^\[\]]+?)\s*\]")
_KEY = re.compile(r"^\s*(?:\"([^\"]+)\"|'([^']+)'|([A-Za-z0-9_-]+))\s*=")


def line_numbers(text: str) -> dict[tuple[str, str], int]:
    """Return the 1-based line of each (table path, key); the table's own header has the key "".

    Arrays of tables are numbered from 1: the second `[[roll]]` is `roll[2]`.

    >>> line_numbers("[[roll]]\\nname = 'A'\\n[[roll]]\\nname = 'B'")[("roll[2]", "name")]
    4
    """
    lines: dict[tuple[str, str], int] = {}
    counts: dict[str, int] = {}
    table = ""
    for number, line in enumerate(text.splitlines(), start=1):
        if header := _TABLE.match(line):
            table = _path(header.group(2), header.group(1) == "[[", counts)
            lines.setdefault((table, ""), number)
        elif key := _KEY.match(line):
            name = next(part for part in key.groups() if part is not None)
            lines.setdefault((table, name), number)
    return lines


def _path(header: str, is_array: bool, counts: dict[str, int]) -> str:
    path = ""
    parts = [part.strip().strip("\"'") for part in header.split(".")]
    for position, part in enumerate(parts, start=1):
        path = f"{path}.{part}" if path else part
        if is_array and position == len(parts):
            counts[path] = counts.get(path, 0) + 1
        if path in counts:
            path = f"{path}[{counts[path]}]"
    return path
