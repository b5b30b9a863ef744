"""Page breaks: a line of a quote is never cut in two, and the headings come again on the next page."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from quoting.books import write_quote
from quoting.books.look import row_heights
from quoting.books.look.row_heights import lines_needed
from tests.quoting.books import factories
from tests.quoting.books.package import book


def test_a_long_quote_breaks_before_a_line_and_repeats_its_headings(tmp_path: Path) -> None:
    run = factories.run()
    order = run.orders[0]
    many = tuple(
        replace(
            result,
            line=replace(
                result.line,
                id=f"{result.line.id}-{copy}",
                number=f"{result.line.number}.{copy}",
                place=replace(result.line.place, row=100 * copy + (result.line.place.row or 0)),
            ),
        )
        for copy in range(12)
        for result in order.lines
    )
    write_quote(run, replace(order, lines=many), tmp_path / "q.xlsx", number="Q")
    sheet = book(tmp_path / "q.xlsx")["Quote"]
    breaks = [int(found.id) for found in sheet.row_breaks.brk]
    assert len(breaks) >= 3
    headed = [sheet.cell(row + 1, 1).value == "Line" for row in breaks]
    opening = [sheet.cell(row + 1, 1).value for row in breaks]
    assert headed[0]
    assert headed[1]
    assert all(value for value in opening), "a page opens with a heading or a block, never inside a line"


def test_a_text_that_does_not_fit_takes_more_lines() -> None:
    text = "both ends pre-bent, a short flat stays at each end"
    counts = [lines_needed(text, room, 10) for room in (400, 200, 100, 50)]
    assert counts == sorted(counts)
    assert counts[0] == 1
    assert counts[-1] > 4
    assert lines_needed("W" * 200, 100, 10) > 15


@given(
    text=st.text(st.sampled_from("@Wil- \n板%mé"), max_size=40), room=st.floats(1, 400), bold=st.booleans()
)
def test_a_text_that_surely_fits_has_the_lines_that_measuring_it_gives(
    text: str, room: float, bold: bool
) -> None:
    measured = sum(row_heights._wrapped(line, max(1.0, room / 10.3), bold=bold) for line in text.split("\n"))
    assert lines_needed(text, room, 10, bold=bold) == measured
