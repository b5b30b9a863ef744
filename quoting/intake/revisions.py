"""Compares an order with the lines quoted before: a part whose drawing changed is asked about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from quoting.parts import Choice, Order, OrderLine, Question


def with_revision_questions(order: Order, earlier: Mapping[str, str]) -> Order:
    """Return the order with a question for each part number whose revision differs from the last sheet's.

    `earlier` maps part numbers to the revision last seen. The questions do not keep a line waiting.
    """
    asked = [_question(line, earlier[line.part_no]) for line in order.lines if _changed(line, earlier)]
    return replace(order, questions=(*order.questions, *asked))


def revisions_of(order: Order) -> dict[str, str]:
    """Return part number -> revision of the lines that give both, to keep for the next sheet."""
    return {line.part_no: line.drawn_revision for line in order.lines if line.part_no and line.drawn_revision}


def _changed(line: OrderLine, earlier: Mapping[str, str]) -> bool:
    before = earlier.get(line.part_no, "")
    return bool(line.part_no and line.drawn_revision and before) and before != line.drawn_revision


def _question(line: OrderLine, before: str) -> Question:
    return Question(
        f"{line.id}/revision",
        line.id,
        line.place,
        line.drawn_revision,
        f"Part {line.part_no} was revision {before} before, now {line.drawn_revision}: what changed?",
        (Choice(f"revision {line.drawn_revision}"), Choice(f"revision {before}")),
        blocking=False,
        assumed=f"drawing revision {line.drawn_revision}",
    )
