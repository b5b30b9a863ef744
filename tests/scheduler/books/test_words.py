"""A job in the words of the floor."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from quoting.record import PassesRecord, SectorRecord
from scheduler.books.care import shared_cautions
from scheduler.books.job_words import blank_words, gap_words, passes_words
from scheduler.books.sheet_names import LONGEST, sheet_names
from scheduler.calendar import week_words
from scheduler.jobs.won_lines import RollChoice
from tests.scheduler.books.sample import LIGHT, at, flat, line, rolled, setting
from tests.scheduler.books.sample import sample_week as _week

MONDAY = date(2026, 11, 30)


def _job(*settings: PassesRecord) -> tuple[str, str]:
    won = line("L-1", LIGHT, choices=(RollChoice(LIGHT, 90.0, 0.0, settings),))
    setup = _week().slots[0].setup
    assert setup is not None
    slot = rolled(won, LIGHT, setup, at(0, "08:00"), at(0, "09:00"))
    return passes_words(slot, won, inch=True), gap_words(slot, won, inch=True)


def test_kinds_of_blank_rolled_alike_are_told_once() -> None:
    passes, gap = _job(setting(), replace(setting(), blank="L-1 b"))
    assert passes.count("Pass 1") == 1
    assert gap == "0.250"


def test_kinds_of_blank_rolled_differently_are_told_apart() -> None:
    passes, gap = _job(setting(), replace(setting(), blank="L-1 b", steps=(), pinch_gap_mm=9.525))
    assert passes.startswith("L-1 a:\nPre-bend A")
    assert "L-1 b:" in passes
    assert gap == "0.250\n0.375"


def test_without_slide_geometry_the_position_is_found_by_trial() -> None:
    steps = tuple(replace(step, readout_mm=None) for step in setting().steps)
    passes, _ = _job(replace(setting(), steps=steps))
    assert passes.startswith('Pre-bend A: by trial to R 11.85"')


def test_a_line_without_passes_says_so() -> None:
    assert _job() == ("No positions in the record: find them by trial, start bigger", "")


def test_a_cone_shows_its_sector() -> None:
    sector = SectorRecord(outer_radius_mm=1016.0, inner_radius_mm=508.0, angle_deg=161.04)
    won = line("L-1", LIGHT, blank=flat(sector=sector, pieces=2))
    assert blank_words(won, inch=True) == 'sector R 40" / 20", 161.0°\n4 blanks'


def test_names_that_collide_when_cut_are_numbered() -> None:
    keys = [
        ("Roll with a very long name number one", MONDAY),
        ("ROLL with a very long name number two", MONDAY),
    ]
    names = list(sheet_names(keys).values())
    assert names == ["Roll with a very long nam wk 49", "ROLL with a very long wk 49 (2)"]
    assert all(len(name) <= LONGEST for name in names)


def test_a_week_across_the_new_year_keeps_its_iso_number() -> None:
    assert week_words(date(2026, 12, 28)) == "Week 53, 28 Dec to 3 Jan 2027"


def test_one_job_shares_no_cautions() -> None:
    assert shared_cautions([("chock the ring",)]) == ()
    assert shared_cautions([("a", "b"), ("b", "c")]) == ("b",)


def test_a_cone_shows_its_tilt() -> None:
    passes, _ = _job(replace(setting(), tilt_mm_per_m=25.0))
    assert "Tilt 0.300 in a foot, small edge closer" in passes
