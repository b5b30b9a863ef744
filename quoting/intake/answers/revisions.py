"""Compares an order with the parts of the customer's last sheet: what changed is asked about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from quoting.core import Choice, Draft, Order, Question, format_length
from quoting.intake import shapes

_COMPARED = (*shapes.SIZES, "basis", "angle", "shape", "material", "gauge")
_NAMES = {"large": "large diameter", "small": "small diameter", "basis": "inside or outside"}


@dataclass(frozen=True, slots=True)
class SeenPart:
    """A part as a sheet gave it: its drawing's revision and the field texts a price depends on."""

    revision: str = ""
    values: Mapping[str, str] = field(default_factory=dict)


def revisions_of(order: Order) -> dict[str, SeenPart]:
    """Return the parts of an order by part number, to keep for the next sheet.

    A number that stands on lines which differ is left out: it does not name one part.
    """
    found: dict[str, SeenPart] = {}
    twice: set[str] = set()
    for draft in order.drafts:
        number, seen = _seen(draft)
        if number and found.setdefault(number, seen) != seen:
            twice.add(number)
    return {number: seen for number, seen in found.items() if number not in twice}


def with_revision_questions(order: Order, earlier: Mapping[str, SeenPart]) -> Order:
    """Return the order with a question for each part that the last sheet gave otherwise.

    `earlier` holds the parts of the last sheets by part number. The questions keep no line waiting: the new
    sheet holds until the customer says otherwise.
    """
    parts = revisions_of(order)
    asked = []
    for draft in order.drafts:
        number, now = _seen(draft)
        before = earlier.get(number)
        if before is not None and number in parts and (question := _question(order, draft, before, now)):
            asked.append(question)
    return replace(order, questions=(*order.questions, *asked))


def _seen(draft: Draft) -> tuple[str, SeenPart]:
    values = dict(draft.values)
    kept = {name: values[name] for name in _COMPARED if values.get(name)}
    number = values.get("part_no") or values.get("drawing", "")
    return number, SeenPart(values.get("drawn_revision", ""), kept)


def _question(order: Order, draft: Draft, before: SeenPart, now: SeenPart) -> Question | None:
    """Return what to ask about a part, if its revision or a size it had before is another one now."""
    changed = [
        f"{_NAMES.get(name, name.replace('_', ' '))} {_shown(old, name, order)} is now "
        f"{_shown(now.values[name], name, order)}"
        for name, old in before.values.items()
        if now.values.get(name, old) != old
    ]
    new_revision = bool(before.revision and now.revision and before.revision != now.revision)
    if not new_revision and not changed:
        return None
    number = _seen(draft)[0]
    what = "; ".join(changed)
    if new_revision:
        said = f" In the sheet {what}; anything else?" if changed else " The sheet gives the same sizes."
        text = f"Part {number} was revision {before.revision} before, now {now.revision}: what changed?{said}"
    else:
        revision = f" at revision {now.revision}" if now.revision else ""
        text = f"Part {number} differs from your last sheet{revision}: {what}. Is the new one right?"
    return Question(
        f"{draft.id}/revision",
        draft.id,
        draft.place,
        now.revision,
        text,
        (Choice("as the new sheet says", (("revision_ok", "yes"),)),),
        blocking=False,
        assumed=f"as the new sheet says{f', drawing revision {now.revision}' if now.revision else ''}",
    )


def _shown(value: str, name: str, order: Order) -> str:
    """Return a field's text for a question; lengths in the sheet's own system."""
    if name in shapes.SIZES and not value.endswith("u"):
        return format_length(float(value), inch=not order.metric)
    return value.removesuffix("u")
