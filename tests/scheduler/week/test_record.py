"""The record of a schedule: plain values that JSON takes, money as text, moments in ISO form."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import TypeAdapter

from quoting.record import ScheduleRecord
from scheduler.week import schedule_record
from tests.scheduler.books.sample import LIGHT, sample_week


@pytest.fixture
def record() -> dict[str, Any]:
    schedule = schedule_record(sample_week())
    found: dict[str, Any] = TypeAdapter(ScheduleRecord).dump_python(schedule, mode="json")
    return found


def test_an_operation_carries_its_set_up_and_reason(record: dict[str, Any]) -> None:
    assert record["operations"][0] == {
        "id": "roll L-1",
        "kind": "roll",
        "machine": LIGHT,
        "line": "L-1",
        "customer": "Example Tank Works (invented)",
        "plate": None,
        "lot": None,
        "setup_start": "2026-11-30T07:42:00",
        "setup_end": "2026-11-30T08:00:00",
        "setup_minutes": 18,
        "setup_why": 'gap 3/8" -> 1/4", both ends; first-off',
        "setup_parts": [
            {"why": 'gap 3/8" -> 1/4", both ends', "minutes": 10.0},
            {"why": "first-off", "minutes": 8.0},
        ],
        "start": "2026-11-30T08:00:00",
        "run_minutes": 90,
        "end": "2026-11-30T09:30:00",
        "due": "2026-12-02",
    }


def test_a_cut_names_its_plate_and_no_line(record: dict[str, Any]) -> None:
    cut = next(operation for operation in record["operations"] if operation["kind"] == "cut")
    assert (cut["plate"], cut["line"], cut["setup_minutes"], cut["due"]) == ("P-L-1 #1", None, 0, None)


def test_money_is_text_and_the_parts_add_up(record: dict[str, Any]) -> None:
    assert record["objective"] == {
        "total": "116.5000",
        "setup": "60.0000",
        "lateness": "50.0000",
        "overtime": "6.5000",
        "wip": "0.0000",
        "running": "0.0000",
    }
    assert (record["bound"], record["proven"]) == ("100.0000", False)
    assert record["gap"] == pytest.approx(16.5 / 116.5, abs=1e-6)


def test_plain_orders_are_held_against_the_plan(record: dict[str, Any]) -> None:
    assert record["comparison"] == [
        {
            "order": "due-day order",
            "setup_minutes": 90,
            "lateness": "20.0000",
            "total": "110.0000",
            "saved_setup_minutes": 20,
            "saved_money": "-6.5000",
            "added_lateness": "30.0000",
            "lateness_per_saved_setup_minute": "1.5000",
        }
    ]


def test_overtime_late_loads_and_what_is_left_out(record: dict[str, Any]) -> None:
    assert record["overtime"] == [
        {"machine": LIGHT, "start": "2026-12-01T15:30:00", "end": "2026-12-01T17:30:00"}
    ]
    late = record["late"][0]
    assert (late["line"], late["finish"], late["days"], late["cost"]) == (
        "L-3",
        "2026-12-08T08:00:00",
        7,
        "50.0000",
    )
    assert record["loads"][0]["share"] == pytest.approx(0.079)
    assert record["unplanned"][0]["line"] == "L-9"
    assert record["notes"] == ["@a note that begins like a formula"]
