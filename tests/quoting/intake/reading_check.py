"""Compares what intake reads in a corpus sheet with what its JSON expects."""

from __future__ import annotations

import json
from collections import Counter
from pathlib import Path
from typing import Any

from quoting.core import Order, OrderLine
from quoting.intake.read_orders import read_orders
from tests.quoting.intake.small_shop import TODAY, small_shop

_TOLERANCE_MM = 0.002


def read_case(file: Path) -> Order:
    return read_orders(file, small_shop(), today=TODAY)


def differences(file: Path) -> list[str]:
    """Return every difference between the expected and the actual reading of one sheet."""
    expected = json.loads(file.with_name(file.name + ".json").read_text(encoding="utf-8"))
    order = read_case(file)
    found = _line_differences(expected["lines"], order)
    for name, blocking in (("asked", True), ("noted", False)):
        actual = sorted(question.id for question in order.questions if question.blocking is blocking)
        if actual != expected[name]:
            found.append(f"{name}: {actual} instead of {expected[name]}")
    counts = dict(Counter(str(row.state) for row in order.rows))
    if counts != expected["rows"]:
        found.append(f"rows: {counts} instead of {expected['rows']}")
    for name in ("customer", "metric"):
        if name in expected and getattr(order, name) != expected[name]:
            found.append(f"{name}: {getattr(order, name)} instead of {expected[name]}")
    return found


COSTLY = ("diameter_mm", "radius_mm", "large_mm", "small_mm", "basis", "thickness_mm", "material", "quantity",
          "length_mm", "height_mm", "angle_deg", "shape")  # fmt: skip


def silent_guesses(file: Path) -> list[str]:
    """Return the costly values that were taken without a question although the sheet does not say them.

    A line that should wait but was read, or a costly field read otherwise than a person reads it, is a guess.
    """
    expected = json.loads(file.with_name(file.name + ".json").read_text(encoding="utf-8"))
    found = _line_differences(expected["lines"], read_case(file))
    costly = [
        text for text in found if "without being expected" in text or any(name in text for name in COSTLY)
    ]
    return [text for text in costly if "is missing" not in text]


def _line_differences(expected: list[dict[str, Any]], order: Order) -> list[str]:
    lines = {line.id: line for line in order.lines}
    wanted = {line["id"] for line in expected}
    found = [f"line {key} was read without being expected" for key in lines if key not in wanted]
    for want in expected:
        line = lines.get(want["id"])
        if line is None:
            found.append(f"line {want['id']} is missing")
            continue
        for name, value in want.items():
            actual = _field(line, name)
            close = isinstance(value, float) and abs(float(actual) - value) <= _TOLERANCE_MM
            if actual != value and not close:
                found.append(f"line {want['id']}: {name} is {actual!r} instead of {value!r}")
    return found


def _field(line: OrderLine, name: str) -> Any:
    if name == "shape":
        return type(line.shape).__name__
    value = getattr(line.shape, name) if hasattr(line.shape, name) else getattr(line, name)
    if name == "due":
        return value.isoformat() if value else None
    if name in ("basis", "ends"):
        return None if value is None else str(value)
    return list(value) if isinstance(value, tuple) else value
