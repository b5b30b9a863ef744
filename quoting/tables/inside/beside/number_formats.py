"""Units that a workbook's number formats write beside a number: the cell holds 6 and shows 6 mm."""

from __future__ import annotations

_LONGEST_CODE = 255
"""Characters of a number format; no spreadsheet program writes a longer one."""
_UNITS = {
    "mm": "mm", "cm": "cm", "m": "m", "in": "in", "in.": "in", "inch": "in", '"': "in", "”": "in", "''": "in",
    "ft": "ft", "'": "ft", "′": "ft", "’": "ft", "″": "in", "ga": "ga",
}  # fmt: skip


def unit_of_format(code: str) -> str:
    r"""Return the unit that a number format writes after the number, or nothing.

    >>> unit_of_format('0.00" mm"'), unit_of_format('# ?/?\\"'), unit_of_format("0.00")
    ('mm', 'in', '')
    """
    words: list[str] = []
    quoted = escaped = False
    for letter in code[:_LONGEST_CODE]:
        if escaped:
            words.append(letter)
            escaped = False
        elif letter == '"':
            quoted = not quoted
        elif quoted:
            words.append(letter)
        elif letter == "\\":
            escaped = True
        elif letter == ";":  # what follows is for numbers below zero
            break
    return _UNITS.get("".join(words).strip().lower(), "")
