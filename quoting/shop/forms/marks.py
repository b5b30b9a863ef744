"""Which settings a book still has as the program's examples, and which it calls its own."""

from __future__ import annotations

from quoting.shop.forms.look import WORKED_OUT
from quoting.shop.forms.schema import comments_of, setting_of


def worked_out_in_text(text: str) -> frozenset[str]:
    """Return the settings of a text form whose comment says that they were worked out from others."""
    found = set()
    for table, key, comment, left_out in comments_of(text):
        if left_out or not comment.endswith(f"; {WORKED_OUT}"):
            continue
        if setting := setting_of(table, key):
            found.add(f"{table}.{setting.key}")
    return frozenset(found)


def own_in_text(text: str) -> frozenset[str]:
    """Return the settings of a text form whose comment no longer says that they are examples.

    >>> own_in_text("[rates]\\noperator_per_hour = 42.00  # as our books say")
    frozenset({'rates.operator_per_hour'})
    """
    found = set()
    for table, key, comment, left_out in comments_of(text):
        setting = setting_of(table, key)
        marked = setting is not None and "example" in setting.sentence
        if setting and marked and comment and "example" not in comment and not left_out:
            found.add(f"{table}.{setting.key}")
    return frozenset(found)
