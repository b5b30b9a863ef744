"""Archives of version 1: values by their position alone, now given their names.

`version_1.json` says what version 1 wrote: every class with its fields in order, and what each field holds:
a class by its name, `X*` several of it, `{X}` several of it under texts, `X|Y` one of these with its name
before it, nothing for plain values. It never changes, whatever becomes of the classes.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any


def named(plain: Any, kind: str = "Estimate") -> Any:
    """Return a value of version 1 with names for positions.

    Raises ValueError or LookupError for what version 1 did not write.
    """
    if plain is None or not kind:
        return plain
    if kind.endswith("*"):
        return [named(item, kind[:-1]) for item in plain]
    if kind.startswith("{"):
        return {key: named(item, kind[1:-1]) for key, item in plain.items()}
    if "|" in kind:
        name, inside = plain
        if name not in kind.split("|"):
            raise ValueError(f"{name} instead of {kind}")
        return named(inside, name)
    held = _classes()[kind]
    return {field: named(item, held[field]) for field, item in zip(held, plain, strict=True)}


@cache
def _classes() -> Mapping[str, Mapping[str, str]]:
    found: Mapping[str, Mapping[str, str]] = json.loads(
        files("quoting.recording").joinpath("version_1.json").read_text("utf-8")
    )
    return found
