"""Every version of the record that ever went out can still be read, and a change of it cannot go unseen."""

from __future__ import annotations

import json
from dataclasses import dataclass, replace
from pathlib import Path

import jsonschema
import pytest
from pydantic import TypeAdapter

from quoting.core import InputError, Place
from quoting.record import (
    VERSION,
    PricedLineRecord,
    PriceRecord,
    RunRecord,
    find_line,
    owners_figures,
    read_record,
    why_lines,
)
from quoting.record.reading import record_of
from quoting.recording import describe, unpack
from scheduler.jobs import won_lines
from tests.data.records.make import (
    NOTE,
    RAISE,
    SCHEMA,
    fingerprint,
    golden,
    released,
    schema_text,
    versions,
    what_to_do,
)

EVERY = range(1, VERSION + 1)


def _read(version: int) -> RunRecord:
    return read_record(golden(version))


def test_every_version_has_a_golden_file() -> None:
    assert [str(version) for version in EVERY] == list(versions())
    assert all(json.loads(golden(version).read_text("utf-8"))["version"] == version for version in EVERY)


def test_the_version_rises_when_what_a_released_record_holds_changes() -> None:
    entry = versions()[str(VERSION)]
    assert what_to_do(entry["fingerprint"], fingerprint(), out=released(entry["since"])) == ""


@pytest.mark.parametrize(
    ("noted", "now", "out", "told"),
    [
        ("abc", "abd", True, RAISE),
        ("", "abc", True, NOTE),
        ("abc", "abc", True, ""),
        ("", "abd", False, ""),
    ],
)
def test_only_a_version_that_is_not_out_may_change(noted: str, now: str, out: bool, told: str) -> None:
    assert what_to_do(noted, now, out=out) == told


def test_a_field_more_is_another_fingerprint(monkeypatch: pytest.MonkeyPatch) -> None:
    @dataclass(frozen=True)
    class Longer(RunRecord):
        colour: str = ""

    before = fingerprint()
    monkeypatch.setattr("tests.data.records.make.record_adapter", lambda: TypeAdapter(Longer))
    assert fingerprint() != before


def test_the_shipped_schema_is_that_of_the_classes() -> None:
    assert SCHEMA.read_text("utf-8") == schema_text(), "run python -m tests.data.records.make"


def test_another_program_finds_the_newest_golden_file_as_the_schema_says() -> None:
    schema = json.loads(SCHEMA.read_text("utf-8"))
    record = json.loads(golden(VERSION).read_text("utf-8"))
    jsonschema.Draft202012Validator(schema).validate(record)
    record["lines"][0]["price"]["unit"] = "NaN"
    assert not jsonschema.Draft202012Validator(schema).is_valid(record)


@pytest.mark.parametrize("version", EVERY)
def test_a_golden_file_answers_every_reader(version: int) -> None:
    record = _read(version)
    line = find_line(record, "10")
    assert len(why_lines(record, line)) == 10
    assert [line.state for line in record.lines] == ["priced", "question", "no-quote"]
    assert owners_figures([record]).total.lines == 1
    assert [line.number for line in won_lines(record)] == ["10"]
    assert record.schedule is not None
    assert {operation.kind for operation in record.schedule.operations} == {"cut", "roll"}


@pytest.mark.parametrize("version", EVERY)
def test_the_estimate_in_a_golden_file_has_its_prices_and_plates(version: int) -> None:
    record = _read(version)
    again = describe(unpack(record.archive, Place("result.json")))
    assert _prices(again) == _prices(record)
    assert (again.orders, again.nest) == (record.orders, record.nest)


def test_the_estimate_in_a_record_of_today_says_all_that_the_record_says() -> None:
    record = _read(VERSION)
    again = describe(unpack(record.archive, Place("result.json")))
    assert again == replace(record, archive="", schedule=None)


def _prices(record: RunRecord) -> list[tuple[str, PriceRecord]]:
    return [(line.id, line.price) for line in record.lines if isinstance(line, PricedLineRecord)]


def test_a_record_of_version_1_is_checked_as_well() -> None:
    plain = json.loads(golden(1).read_text("utf-8"))
    plain["lines"][0]["quantity"] = int("9" * 400)
    plain["lines"][0]["thickness_mm"] = float("nan")
    with pytest.raises(InputError, match=r"lines\[0\]\.quantity cannot be used \(1 more value neither\)"):
        record_of(json.dumps(plain).encode(), Place("result.json"))


def test_golden_files_are_small() -> None:
    assert all(golden(version).stat().st_size < 60_000 for version in EVERY)


def test_the_schema_is_shipped_with_the_package() -> None:
    settings = (Path(__file__).resolve().parents[3] / "pyproject.toml").read_text("utf-8")
    assert '"*.json"' in settings
