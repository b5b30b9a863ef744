"""Text made of a typed record and back: by names, each value checked, one message for what cannot be used."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, TypeVar

from pydantic import TypeAdapter, ValidationError
from pydantic_core import SchemaValidator

from quoting.core import InputError, Place

_LONGEST = 60
_TAGS = {"cylinder", "arc", "cone"}
_Kind = TypeVar("_Kind")


def adapter_of(kind: type[_Kind]) -> TypeAdapter[_Kind]:
    """Return what reads and writes values of a class, and of a long list notes the first wrong item only.

    A list of a hundred thousand empty items is 300 kB, and what is wrong with each of them 900 MB.
    """
    adapter = TypeAdapter(kind)
    schema = adapter.core_schema
    _fail_fast(schema, set())
    adapter.validator = SchemaValidator(schema)
    return adapter


def _fail_fast(schema: Any, seen: set[int]) -> None:
    if id(schema) in seen or not isinstance(schema, (dict, list, tuple)):
        return
    seen.add(id(schema))
    if isinstance(schema, dict):
        if schema.get("type") in ("list", "tuple", "set", "frozenset"):
            schema["fail_fast"] = True
        for part in schema.values():
            _fail_fast(part, seen)
    else:
        for part in schema:
            _fail_fast(part, seen)


def refusal(error: ValidationError, place: Place, *, inside: str = "") -> InputError:
    """Return the one message for a record with wrong values: the first of them, and how many more.

    `inside` is the key of the record that the values stand under, when it is not the whole of it.
    """
    found = error.errors(include_url=False)
    first = found[0]
    kind, path = first["type"], path_words((inside, *first["loc"]) if inside else first["loc"])
    wanted = str(first["ctx"]["error"]) if kind == "value_error" else first["msg"]
    read, would_do = _shown(first["input"]), f"{_plain(wanted)} would do"
    if kind == "missing":
        problem, read, would_do = f"{path} is missing", "", "give the file as the run wrote it"
    elif kind.startswith("unexpected"):
        problem, would_do = f"{path} is nothing that a record holds", "give the file as the run wrote it"
    elif kind.startswith("union_tag"):
        problem, would_do = f"{path} is of no known kind", f"{first['ctx'].get('expected_tags')} would do"
    else:
        problem = f"{path} cannot be used"
    more = len(found) - 1
    if more:
        problem += f" ({more} more value{'s' if more > 1 else ''} neither)"
    return InputError(problem, place=place, read=read, would_do=would_do)


def path_words(path: Sequence[str | int]) -> str:
    """Return where in the file a value stands.

    >>> path_words(("lines", 3, "<priced>", "price", "unit"))
    'lines[3].price.unit'
    """
    words = ""
    before: str | int = ""
    for step in path:
        if isinstance(step, int):
            words += f"[{step}]"
        elif not (step.startswith("<") or (before == "shape" and step in _TAGS)):
            words += f".{step}" if words else step
        before = step
    return words or "the whole record"


def _plain(wanted: str) -> str:
    """Return what the library wants as it reads in the middle of a sentence."""
    text = wanted.removeprefix("Value error, ").removeprefix("Input should be ")
    return text[:1].lower() + text[1:]


def _shown(value: Any) -> str:
    # A number of thousands of digits cannot even be written out.
    if isinstance(value, int) and not isinstance(value, bool) and value.bit_length() > _LONGEST * 4:
        return f"a number of about {value.bit_length() * 3 // 10} digits"
    text = value if isinstance(value, str) else repr(value)
    text = text if text.isprintable() else repr(text)
    return text if len(text) <= _LONGEST else f"{text[:_LONGEST]}..."
