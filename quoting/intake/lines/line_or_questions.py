"""From a settled record to its line or its questions, and the row's account."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from quoting.core import Choice, Draft, Ends, OrderLine, Question, SheetRow, State
from quoting.intake.asked_once import holds_up, is_shared, line_numbers
from quoting.intake.lines.order_line import KEPT, NotReadyError, line_of
from quoting.intake.row_record import Doubt, Record
from quoting.intake.shapes import SIZES, unit_missing
from quoting.intake.shop_view import thickness_of
from quoting.shop import Materials

COLUMN = "column_"
"""Begins the names of questions about a column, and of the cells that wait for their answers."""
WHOLE = "all"
"""Stands for the line in the ids of questions that are about the whole file."""
NOT_ROLLED = {
    "flat": "a flat plate, nothing to roll",
    "unsupported": "a shape that a plate roll does not make",
    "bought": "a part that is bought, nothing to roll",
}


_KEPT = {name: at for at, name in enumerate(KEPT)}
_NOT_COMPARED = frozenset(("number", "thickness", "gauge", "gauge_metal", "material_text", "due"))


@dataclass(frozen=True, slots=True)
class Assembled:
    """What one row became."""

    draft: Draft
    row: SheetRow
    line: OrderLine | None
    questions: tuple[Question, ...]
    unit_open: bool = False
    material_open: bool = False
    waits: tuple[str, ...] = ()


def draft_of(record: Record, line: str, number: str) -> Draft:
    """Return the record's values as a draft."""
    values = record.values
    kept = sorted(
        [(name, value) for name, value in values.items() if value and name in _KEPT],
        key=lambda one: _KEPT[one[0]],
    )
    others = sorted([name for name in values if name not in _KEPT])
    more = [name for name in others if name.startswith(COLUMN)]
    agreed = [name for name in others if name.endswith("_ok") or is_shared(name)]
    return Draft(
        line,
        number,
        record.place,
        (*kept, *((name, "yes") for name in agreed), *((name, values[name]) for name in more)),
        tuple(record.remarks),
        tuple(record.assumptions),
        tuple(record.readings),
    )


def record_of(draft: Draft) -> Record:
    """Return a draft as a record again, to settle it once more."""
    places = {reading.name: (reading.place, reading.text) for reading in reversed(draft.readings)}
    return Record(
        draft.place,
        dict(draft.values),
        {},
        list(draft.readings),
        list(draft.remarks),
        list(draft.assumptions),
        places,
    )


def assemble(
    record: Record,
    named: tuple[str, str],
    customer: str,
    materials: Materials,
    text: str,
    asked: Mapping[str, str],
) -> Assembled:
    """Return the line of a record without blocking doubts, else its questions.

    `named` are its id and the customer's number; `asked` is what questions asked once ask, by their names.
    """
    line, number = named
    draft = draft_of(record, line, number)
    shape = record.values.get("shape", "")
    if record.values.get("left_out"):
        row = SheetRow(record.place, State.NO_QUOTE, number, f"left out: {record.values['left_out']}", text)
        return Assembled(draft, row, None, ())
    if record.values.get("hidden") == "left out":
        row = SheetRow(record.place, State.IGNORED, number, "hidden, and left out by the customer", text)
        return Assembled(draft, row, None, ())
    if record.values.get("duplicate") == "once":
        return Assembled(draft, SheetRow(record.place, State.IGNORED, number, "typed twice", text), None, ())
    if shape in NOT_ROLLED and "shape" not in record.doubts:
        return Assembled(
            draft, SheetRow(record.place, State.NO_QUOTE, number, NOT_ROLLED[shape], text), None, ()
        )
    unit_open = unit_missing(record.values)
    material_open = not record.values.get("material") and bool(record.values.get("no_material_column"))
    questions = [doubt.question(line) for doubt in record.doubts.values()]
    reasons = [question.told for question in questions if question.blocking]
    if unit_open:
        reasons.append("Are the sizes in inches or millimetres?")
    if material_open:
        reasons.append("Which material and grade?")
    waits = waiting(record.values)
    reasons += [asked.get(name) or _waits_for(name) for name in waits if holds_up(name)]
    built: OrderLine | None = None
    if not reasons:
        try:
            built = line_of(draft, customer, materials)
        except NotReadyError as error:
            check = f"Please check this line: {error.reason}."
            questions.append(Question(f"{line}/line", line, record.place, text, check))
            reasons.append(check)
    state = State.PRICED if built else State.QUESTION
    row = SheetRow(record.place, state, number, "read" if built else " ".join(reasons), text)
    return Assembled(draft, row, built, tuple(questions), unit_open, material_open, waits)


def _waits_for(name: str) -> str:
    if name.startswith(COLUMN):
        return f"What does column {name.removeprefix(COLUMN).rstrip('0123456789').upper()} hold?"
    return f"A note of the sheet is about all lines: {name.removesuffix('_ok').replace('_', ' ')}."


def waiting(values: Mapping[str, str]) -> tuple[str, ...]:
    """Return the questions about all lines that a line still waits for."""
    return tuple(name for name in values.get("waits", "").split(",") if name and not values.get(name))


def ask_duplicate(
    record: Record, number: str, seen: dict[tuple[tuple[str, str], ...], str], materials: Materials
) -> None:
    """Ask about a line that says the same as an earlier one."""
    values = record.values
    if values.get("duplicate") or any(doubt.blocking for doubt in record.doubts.values()):
        return
    if any(is_shared(name) and holds_up(name) for name in waiting(values)):
        return
    thickness = str(thickness_of(values, materials) or values.get("thickness", ""))
    written = {name: value for name, value in values.items() if name not in _NOT_COMPARED}
    if any(sign.isalpha() for sign in values.get("number", "")):
        written["mark"] = values["number"]  # R1 and R2 are two parts, lines 1 and 2 may be one typed twice
    said = " | ".join(record.remarks)
    same = tuple(sorted({**written, "thickness": thickness, "remarks": said}.items()))
    if same in seen:
        choices = (
            Choice("yes, both", (("duplicate", "both"),)),
            Choice("no, only once", (("duplicate", "once"),)),
        )
        asked = f"Line {number} (row {record.place.row}) says the same as line {seen[same]}; are both wanted?"
        record.doubt(Doubt("duplicate", record.place, "", asked, choices))
    else:
        seen[same] = f"{number} (row {record.place.row})"


def whole_file_questions(
    parts: Iterable[Assembled],
    prefix: str,
    default_ends: Ends,
    grades: tuple[str, ...],
    noted: Sequence[Question] = (),
) -> tuple[Question, ...]:
    """Return the questions asked once for all lines: unit, material, ends, and what notes of the sheet raise.

    `noted` are the questions of the notes, by their ids; each is asked for the lines that wait for it.
    """
    parts = list(parts)
    questions = []
    for question in noted:
        name = question.id.rpartition("/")[2]
        concerned = [part for part in parts if name in part.waits]
        if concerned or not question.blocking:
            questions.append(question)
    unitless = [part for part in parts if part.unit_open]
    if unitless:
        questions.append(_unit_question(unitless, prefix))
    if bare := [part for part in parts if part.material_open]:
        choices = tuple(Choice(key, (("material", key),)) for key in grades[:8])
        asked = f"{_numbers(bare)}: no material is given; which material and grade?"
        questions.append(Question(f"{prefix}{WHOLE}/material", "", bare[0].row.place, "", asked, choices))
    silent = [part for part in parts if part.line is not None and part.line.ends is None]
    if silent:
        numbers = _numbers(silent)
        others = (ends for ends in Ends if ends is not default_ends)
        questions.append(
            Question(
                f"{prefix}{WHOLE}/ends",
                "",
                silent[0].row.place.at(),
                "",
                f"{numbers}: nothing is said about the ends; may we quote them as {default_ends}?",
                tuple(Choice(str(ends), (("ends", str(ends)),)) for ends in (default_ends, *others)),
                blocking=False,
                assumed=f"ends: {default_ends}",
            )
        )
    return tuple(questions)


def _numbers(parts: Sequence[Assembled]) -> str:
    return line_numbers([part.draft.number for part in parts])


def _unit_question(parts: list[Assembled], prefix: str) -> Question:
    values = dict(parts[0].draft.values)
    sizes = ((name, values.get(name, "")) for name in SIZES)
    shown = ", ".join(f"{name} {text[:-1]}" for name, text in sizes if text.endswith("u"))
    return Question(
        f"{prefix}{WHOLE}/unit",
        "",
        parts[0].row.place,
        shown,
        f"{_numbers(parts)}: are the sizes ({shown}) in inches or millimetres?",
        (Choice("inches", (("unit", "in"),)), Choice("millimetres", (("unit", "mm"),))),
    )


def doubt_of(question: Question) -> Doubt:
    """Return a question as a doubt again."""
    return Doubt(
        question.id.rpartition("/")[2],
        question.place,
        question.read,
        question.text,
        question.choices,
        question.blocking,
        question.assumed,
        question.for_shop,
        question.refused,
    )
