"""Numbers are given out once, line ids last, and the same inquiry counts once."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

from quoting.ledger.jobs import change_job, jobs_of, keep_jobs, promised, without_promised
from quoting.ledger.quotes import LOST, WON, decide, lines_of
from quoting.ledger.rack_now import RackNow, taken_out
from quoting.ledger.sheets import tags_of
from quoting.ledger.store import Store
from quoting.shop import Edge, Shop, StockPlate
from tests.quoting.ledger.weeks import MONDAY, never, quoted, record, sheet

LATER = MONDAY + timedelta(days=7)


def test_two_runs_on_one_day_have_numbers_of_their_own(store: Store) -> None:
    with store.writing("test") as ledger:
        first = quoted(ledger, "Tank Works", "Vessels")
    with store.writing("test") as ledger:
        second = quoted(ledger, "Fabricators", result="two")
    assert [one.words for one in (*first, *second)] == ["20261130-01", "20261130-02", "20261130-03"]


def test_line_ids_stay_when_a_sheet_is_added_in_front(store: Store) -> None:
    with store.writing("test") as ledger:
        quoted(ledger, "Vessels", "Tank Works")
        tags = tags_of(ledger, [sheet("Ducts"), sheet("Tank Works"), sheet("Vessels")], MONDAY, never)
    assert tags == ["C", "B", "A"]


def test_the_same_run_again_is_the_same_quote(store: Store) -> None:
    with store.writing("test") as ledger:
        quoted(ledger, "Vessels")
        again = quoted(ledger, "Vessels")
        lines = lines_of(ledger)
    assert (again[0].words, again[0].known, len(lines)) == ("20261130-01", True, 3)


def test_a_sheet_that_was_answered_goes_out_as_the_next_issue_of_its_number(store: Store) -> None:
    with store.writing("test") as ledger:
        quoted(ledger, "Vessels")
        again = quoted(ledger, "Vessels", result="two", content="one size corrected", today=LATER)
        lines = lines_of(ledger)
    assert again[0].words == "20261130-01 issue 2"
    assert {line.valid_until for line in lines} == {(LATER + timedelta(days=30)).isoformat()}


def test_an_order_that_comes_again_after_it_was_won_is_a_new_inquiry(store: Store) -> None:
    with store.writing("test") as ledger:
        quoted(ledger, "Vessels")
        decide(ledger, lines_of(ledger), WON, MONDAY)
        same_day = quoted(ledger, "Vessels", result="two")
        later = quoted(ledger, "Vessels", result="three", today=LATER)
        lines = lines_of(ledger)
    assert same_day[0].decided
    assert later[0].words == "20261207-01"
    assert {line.line for line in lines} == {"A-1", "A-2", "A-3", "B-1", "B-2", "B-3"}


def rack(digest: str, **counts: int) -> RackNow:
    plates = {
        name: StockPlate(name, "A36", 6.35, 1500.0, 3000.0, Edge.MILL, count, Decimal(100), row=2 + k)
        for k, (name, count) in enumerate(counts.items())
    }
    return RackNow(digest, "rack.xlsx", plates)


MONDAYS_RACK = rack("Monday", R1=2, R2=1)


def test_a_quote_runs_out(store: Store) -> None:
    with store.writing("test") as ledger:
        quoted(ledger, "Vessels")
        line = lines_of(ledger)[0]
    assert not line.expired(MONDAY + timedelta(days=30))
    assert line.expired(MONDAY + timedelta(days=31))


def test_plates_of_won_lines_are_promised_until_they_are_cut_or_dropped(store: Store) -> None:
    with store.writing("test") as ledger:
        quoted(ledger, "Vessels")
        lines = lines_of(ledger)
        decide(ledger, lines[:2], WON, MONDAY)
        decide(ledger, lines[2:], LOST, MONDAY, "price")
        assert promised(ledger, MONDAYS_RACK) == {}
        keep_jobs(ledger, record("job", [("A", "Vessels", 2)]), lines[:2], "PO 7", MONDAY.isoformat(), {})
        assert promised(ledger, MONDAYS_RACK) == {"R1": 1, "R2": 1}
        first, second = jobs_of(ledger)
        change_job(ledger, first, MONDAYS_RACK, state="cut")
        change_job(ledger, second, state="dropped")
        assert promised(ledger, MONDAYS_RACK) == {"R1": 1}, "the rack's file still lists it"
        assert promised(ledger, rack("with a plate more", R1=2, R2=1, R9=1)) == {"R1": 1}, "it lists it yet"
        assert promised(ledger, rack("with the cut plate out", R1=1, R2=1)) == {}
        assert [job.line for job in jobs_of(ledger)] == ["A-1"]


def test_a_rack_file_that_was_changed_elsewhere_is_told_by_row(store: Store) -> None:
    with store.writing("test") as ledger:
        quoted(ledger, "Vessels")
        lines = lines_of(ledger)
        decide(ledger, lines[:2], WON, MONDAY)
        keep_jobs(ledger, record("job", [("A", "Vessels", 2)]), lines[:2], "PO 7", MONDAY.isoformat(), {})
        for job in jobs_of(ledger):
            change_job(ledger, job, MONDAYS_RACK, state="cut")
        assert not taken_out(ledger, MONDAYS_RACK), "nobody has touched the file yet"
        (told,) = taken_out(ledger, rack("with a plate more", R1=2, R9=1))
        assert told.startswith("rack.xlsx, row 2: lists 2 of R1, by the ledger 1 are left")
        assert promised(ledger, rack("with a plate more", R1=2, R9=1)) == {"R1": 1}
        (told,) = taken_out(ledger, rack("one too many taken out", R9=1))
        assert told == "rack.xlsx: lists 0 of R1, by the ledger 1 are left: taken as it is written"
        assert promised(ledger, rack("bought anew", R1=2)) == {}, "what is out once stays out"


def test_promised_plates_are_not_in_the_rack_of_later_nests(shop: Shop) -> None:
    several = next(plate for plate in shop.stock if (plate.count or 0) > 1)
    single = next(plate for plate in shop.stock if plate.count == 1)
    free = without_promised(shop, {several.id: 1, single.id: 1})
    assert next(plate.count for plate in free.stock if plate.id == several.id) == (several.count or 0) - 1
    assert all(plate.id != single.id or plate.count is None for plate in free.stock)
