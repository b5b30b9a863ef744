"""Customers' names to names of files, one to one."""

from __future__ import annotations

import hashlib
import unicodedata

from quoting.core import InputError, safe_name


def plain_customer(name: str) -> str:
    """Return a customer's name on one line, without signs that cannot be seen.

    Raises InputError when nothing is left of it.

    >>> plain_customer(" Ridge\\n  Tank ")
    'Ridge Tank'
    """
    seen = "".join(" " if sign.isspace() else sign for sign in unicodedata.normalize("NFC", name))
    plain = " ".join("".join(sign for sign in seen if unicodedata.category(sign)[0] != "C").split())
    if not plain:
        raise InputError(
            "the customer's name is empty", read=name[:40], would_do="give it as --customer NAME"
        )
    return plain


def is_same_customer(one: str, other: str) -> bool:
    """Return whether two names mean one customer: they differ in capitals and blanks at most."""
    return _key(one) == _key(other)


def customer_stem(name: str) -> str:
    """Return the name of a customer's files without ending: what can be read of the name, and its hash.

    >>> customer_stem("Ridge Tank"), customer_stem("ridge  TANK") == customer_stem("Ridge Tank")
    ('ridge-tank-e893694c', True)
    >>> customer_stem("名前") == customer_stem("別の名前")
    False
    """
    return f"{safe_name(name)}-{hashlib.sha256(_key(name).encode('utf-8', 'replace')).hexdigest()[:8]}"


def _key(name: str) -> str:
    return " ".join(unicodedata.normalize("NFC", name).casefold().split())
