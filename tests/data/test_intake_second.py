"""Grading a reading of a customer's sheet: what is fine, and what each kind of slip is called."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.benchmarks.intake_second import Grade, Graded, ReadRow, ReadSheet, Told, grade, tally
from tests.data.sheet_doubts import SHEET_DOUBTS
from tests.data.sheet_model import ID, MEAN, OD, Expect, Line, Part, Row, Want
from tests.data.sheet_parts import any_of, arc, ask, cone, cyl, ignore, line, line_or_ask, p, r, sheet
from tests.data.sheet_writer import corpus

SHELL = cyl(600, ID, 10, 1000, 2, "S235JR")


def graded(want: Want | Line, *reads: ReadRow, texts: tuple[str, ...] = ()) -> Graded:
    """Return the grade of a part in row 2."""
    one = sheet("try", "csv", "en", "", r("Item"), p(want, "a part"))
    (result,) = grade(one, ReadSheet(reads, texts))
    return result


def priced(line: Line, *texts: str) -> ReadRow:
    return ReadRow(2, Told.PRICED, line, texts)


def asked(*texts: str) -> ReadRow:
    return ReadRow(2, Told.ASKED, None, texts)


def test_the_same_shell_on_another_basis_is_fine() -> None:
    assert graded(SHELL, priced(replace(SHELL, d=610, basis=MEAN))).grade is Grade.FINE
    assert graded(SHELL, priced(replace(SHELL, d=620, basis=OD))).grade is Grade.FINE


@pytest.mark.parametrize(
    "slip",
    [
        replace(SHELL, basis=OD),
        replace(SHELL, t=12),
        replace(SHELL, length=100),
        replace(SHELL, n=1),
        replace(SHELL, mat="S355J2"),
        arc(300, ID, 180, 10, 1000, 2, "S235JR"),
    ],
)
def test_a_slip_is_silent_unless_it_is_mentioned(slip: Line) -> None:
    silent = graded(SHELL, priced(slip))
    assert silent.grade is Grade.SILENT
    mention = "shape, thickness, length, quantity, material and inside diameter: please check"
    assert graded(SHELL, priced(slip, mention)).grade is Grade.WRONG_SAID


def test_a_mention_of_something_else_does_not_help() -> None:
    assert graded(SHELL, priced(replace(SHELL, t=12), "the quantity was in words")).grade is Grade.SILENT


def test_a_question_about_a_clear_line_is_needless() -> None:
    assert graded(SHELL, asked("Inside or outside?")).grade is Grade.NEEDLESS


def test_a_row_without_a_word_is_missed() -> None:
    assert graded(SHELL).grade is Grade.MISSED
    assert graded(SHELL, ReadRow(2, Told.IGNORED, None, ("a note",))).grade is Grade.MISSED


def test_a_doubt_must_be_asked_and_be_the_right_one() -> None:
    doubtful = ask("no ID or OD", "basis")
    assert graded(doubtful, asked("Is 600 the inside or the outside diameter?")).grade is Grade.FINE
    assert graded(doubtful, asked("Which grade?")).grade is Grade.BAD_MESSAGE
    assert graded(doubtful, asked()).grade is Grade.BAD_MESSAGE
    assert graded(doubtful, priced(SHELL)).grade is Grade.SILENT
    assert graded(doubtful, priced(SHELL, "inside assumed")).grade is Grade.WRONG_SAID
    assert graded(doubtful, priced(SHELL), texts=("inside assumed",)).grade is Grade.WRONG_SAID


def test_a_word_begins_where_it_is_looked_for() -> None:
    assert graded(ask("no ID or OD", "basis"), asked("The grid is void.")).grade is Grade.BAD_MESSAGE
    assert graded(ask("no ID or OD", "basis"), asked("An odd idea?")).grade is Grade.BAD_MESSAGE


def test_a_question_about_the_whole_file_counts_for_its_rows() -> None:
    times = ask("for 3 tanks", "quantity")
    assert graded(times, asked(), texts=("Is the quantity for one tank?",)).grade is Grade.FINE


def test_a_total_must_not_be_priced() -> None:
    assert graded(ignore("a total")).grade is Grade.FINE
    assert graded(ignore("a total"), ReadRow(2, Told.IGNORED)).grade is Grade.FINE
    assert graded(ignore("a total"), asked("Which size?")).grade is Grade.NEEDLESS
    assert graded(ignore("a total"), priced(SHELL)).grade is Grade.SILENT


def test_a_priced_heading_is_an_error_of_its_own() -> None:
    one = sheet("try", "csv", "en", "", r("Item"), p(SHELL, "a part"))
    read = ReadSheet((priced(SHELL), ReadRow(1, Told.PRICED, SHELL)))
    assert tally(grade(one, read)) == {
        Grade.FINE: 1,
        Grade.NEEDLESS: 0,
        Grade.MISSED: 0,
        Grade.WRONG_SAID: 0,
        Grade.SILENT: 1,
        Grade.BAD_MESSAGE: 0,
    }


def test_a_row_of_two_lines_needs_both_in_any_order() -> None:
    long, short = replace(SHELL, length=2000), replace(SHELL, length=1500, n=1)
    assert graded(line(long, short), priced(short), priced(long)).grade is Grade.FINE
    assert graded(line(long, short), priced(long)).grade is Grade.SILENT


def test_either_reading_will_do() -> None:
    halves = arc(300, ID, 180, 10, 1000, 4, "S235JR")
    assert graded(any_of(SHELL, halves), priced(halves)).grade is Grade.FINE
    either = line_or_ask("who supplies it", SHELL, doubts=("free issue",))
    assert graded(either, priced(SHELL)).grade is Grade.FINE
    assert graded(either, asked("Is the plate free issue?")).grade is Grade.FINE
    assert graded(either, asked("What day?")).grade is Grade.BAD_MESSAGE


def test_what_must_be_said_may_also_be_asked() -> None:
    urgent = replace(SHELL, say=("date",))
    assert graded(urgent, priced(SHELL)).grade is Grade.SILENT
    assert graded(urgent, priced(SHELL, "No date is given.")).grade is Grade.FINE
    assert graded(urgent, asked("By what date?")).grade is Grade.FINE
    assert graded(urgent, asked("Inside or outside?")).grade is Grade.NEEDLESS


def test_no_plate_roll_work_may_be_left_out_with_a_reason() -> None:
    ring = ask("angle ring", "not rolled", or_left_out=True)
    assert graded(ring, ReadRow(2, Told.IGNORED, None, ("no plate work",))).grade is Grade.FINE
    assert graded(ring, ReadRow(2, Told.IGNORED)).grade is Grade.MISSED
    assert (
        graded(ring, ReadRow(2, Told.DECLINED, None, ("An angle is not rolled here.",))).grade is Grade.FINE
    )


def test_parts_side_by_side_are_told_by_column_or_number() -> None:
    wide = cone(800, 400, ID, 500, 6)
    parts = (Part(line(SHELL), 1, 5, 2, "A"), Part(line(wide), 1, 5, 3, "B"))
    one = sheet("try", "csv", "en", "", *(Row(()) for _ in range(5)), parts=parts)
    by_column = ReadSheet((ReadRow(1, Told.PRICED, wide, column=3), ReadRow(1, Told.PRICED, SHELL, column=2)))
    by_number = ReadSheet(
        (ReadRow(4, Told.PRICED, wide, number="B"), ReadRow(4, Told.PRICED, SHELL, number="A"))
    )
    assert [row.grade for row in grade(one, by_column)] == [Grade.FINE, Grade.FINE]
    assert [row.grade for row in grade(one, by_number)] == [Grade.FINE, Grade.FINE]


def test_a_refused_file_misses_its_lines_unless_that_was_right() -> None:
    one = sheet("try", "txt", "en", "", p(SHELL, "a part"), p(ignore("a total"), "total"))
    assert [row.grade for row in grade(one, ReadSheet(refused="no sheet in it"))] == [
        Grade.MISSED,
        Grade.FINE,
    ]
    may = replace(one, may_refuse=True)
    assert [row.grade for row in grade(may, ReadSheet(refused="no sheet in it"))] == [Grade.FINE, Grade.FINE]
    assert [row.grade for row in grade(may, ReadSheet(refused=" "))] == [Grade.BAD_MESSAGE] * 2


def test_every_doubt_of_the_corpora_is_known() -> None:
    for name in ("second_corpus", "unseen_corpus"):
        wants = [part.want for one in corpus(name) for part in one.parts()]
        named = {doubt for want in wants for doubt in want.doubts}
        said = {doubt for want in wants for reading in want.readings for one in reading for doubt in one.say}
        assert named | said <= SHEET_DOUBTS.keys()


def test_a_reading_as_a_careful_estimator_gives_it_is_all_fine() -> None:
    for one in (*corpus("second_corpus"), *corpus("unseen_corpus")):
        graded = grade(one, ReadSheet(tuple(row for part in one.parts() for row in careful(part))))
        assert {row.grade for row in graded} == {Grade.FINE}, one.name


def careful(part: Part) -> list[ReadRow]:
    """Return what a reader gives that reads this part as is stated beside it."""
    place = ReadRow(part.first, Told.IGNORED, tab=part.tab, column=part.column, number=part.number)
    want = part.want
    if want.kind is Expect.IGNORE:
        return [replace(place, texts=("a total",))]
    if want.kind is Expect.ASK:
        question = SHEET_DOUBTS[want.doubts[0]][0] if want.doubts else "What is wanted?"
        return [replace(place, told=Told.ASKED, texts=(question,))]
    texts = tuple(SHEET_DOUBTS[doubt][0] for one in want.readings[0] for doubt in one.say)
    return [
        replace(place, told=Told.PRICED, line=replace(one, mat=one.mat.split("|")[0]), texts=texts)
        for one in want.readings[0]
    ]
