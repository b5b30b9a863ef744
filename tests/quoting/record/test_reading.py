"""A record read back: as it was written, or one message with the place in the file."""

from __future__ import annotations

import json
import tracemalloc
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from quoting.core import InputError, Place
from quoting.estimating import with_risk
from quoting.record import RunRecord, read_record, record_text
from quoting.record.reading import record_of
from quoting.recording import describe
from tests.quoting.books import factories

PLACE = Place("result.json")


def test_a_small_file_of_many_empty_things_takes_little_memory() -> None:
    """A hundred thousand empty lines are 300 kB; the list of what is wrong with each took 900 MB."""
    head = b'{"format":"rollwright result","version":2,"lines":['
    tracemalloc.start()
    with pytest.raises(InputError, match="more values neither"):
        record_of(head + b"{}," * 20_000 + b"{}]}", PLACE)
    assert tracemalloc.get_traced_memory()[1] < 20e6
    tracemalloc.stop()
    with pytest.raises(InputError, match="is far larger than any record"):
        record_of(head + b"{}," * 300_000 + b"{}]}", PLACE)


@pytest.fixture(scope="module")
def record() -> RunRecord:
    return describe(with_risk(factories.run()))


@pytest.fixture(scope="module")
def text(record: RunRecord) -> str:
    return record_text(record).decode()


def refused(text: str | bytes) -> str:
    with pytest.raises(InputError) as caught:
        record_of(text if isinstance(text, bytes) else text.encode(), PLACE)
    return str(caught.value)


def changed(text: str, change: Callable[[dict[str, Any]], object]) -> str:
    """Return the text of the record after a change to what it holds."""
    plain = json.loads(text)
    change(plain)
    return json.dumps(plain)


def test_what_is_written_is_read_back(record: RunRecord, text: str, tmp_path: Path) -> None:
    (tmp_path / "result.json").write_text(text, encoding="utf-8")
    assert read_record(tmp_path / "result.json") == record


def test_lines_have_no_keys_that_were_not_found_out(text: str) -> None:
    for line in json.loads(text)["lines"]:
        assert ("price" in line) == (line["state"] == "priced")
        assert "price" not in line or "blank" in line


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (
            lambda r: r["orders"][0]["total"].update(total="NaN"),
            'orders[0].total.total cannot be used - read "NaN"; an amount as text, such as "12.50" would do',
        ),
        (
            lambda r: r["lines"][0]["price"].update(unit=12.5),
            'lines[0].price.unit cannot be used - read "12.5"; an amount as text, such as "12.50" would do',
        ),
        (
            lambda r: r["lines"][0].pop("price"),
            "lines[0].price is missing; give the file as the run wrote it",
        ),
        (lambda r: r.pop("nest"), "nest is missing; give the file as the run wrote it"),
        (
            lambda r: r["lines"][0].update(thickness_mm=float("nan")),
            'lines[0].thickness_mm cannot be used - read "nan"; a finite number would do',
        ),
        (
            lambda r: r["lines"][0]["drivers"].update(setup_minutes=float("inf")),
            'lines[0].drivers.setup_minutes cannot be used - read "inf"; a finite number would do',
        ),
        (
            lambda r: r["lines"][0].update(quantity=int("9" * 400)),
            'lines[0].quantity cannot be used - read "a number of about 398 digits"; '
            "less than or equal to 1000000000000 would do",
        ),
        (
            lambda r: r["lines"][0]["shape"].update(diameter_mm="wide"),
            'lines[0].shape.diameter_mm cannot be used - read "wide"; a valid number would do',
        ),
        (
            lambda r: r["lines"][0]["shape"].update(kind="ring"),
            "lines[0].shape is of no known kind - read",
        ),
        (
            lambda r: r["lines"][0].update(due="2026-13-01"),
            'lines[0].due cannot be used - read "2026-13-01"; a valid date',
        ),
        (
            lambda r: r["lines"][0].update(due="9999-12-31"),
            'lines[0].due cannot be used - read "9999-12-31"; less than or equal to 2999-12-31 would do',
        ),
        (
            lambda r: r["made"].update(colour="green"),
            'made.colour is nothing that a record holds - read "green"; give the file as the run wrote it',
        ),
        (lambda r: r["lines"][0].update(rolls=[]), "lines[0].rolls cannot be used"),
        (lambda r: r.update(version=99), "has a newer version of the record than this program reads"),
        (lambda r: r.update(version="1"), "has no version of the record"),
        (lambda r: r.update(version=int("9" * 400)), "has a newer version"),
        (lambda r: r.update(format="another"), "is no record of a run"),
    ],
)
def test_a_wrong_value_is_told_with_its_path(
    text: str, change: Callable[[dict[str, Any]], object], message: str
) -> None:
    assert refused(changed(text, change)).startswith(f"result.json: {message}")


def test_several_wrong_values_are_counted_in_one_message(text: str) -> None:
    def spoil(record: dict[str, Any]) -> None:
        record["made"]["today"] = "soon"
        record["lines"][0].update(quantity=0, part=7)

    assert refused(changed(text, spoil)).startswith(
        'result.json: made.today cannot be used (2 more values neither) - read "soon"'
    )


@pytest.mark.parametrize("text", ["", "{", "[" * 100_000, '{"a":' * 100_000, "\x00", "9" * 10_000, "[]"])
def test_what_is_no_record_is_one_message(text: str) -> None:
    assert "give the result.json" in refused(text)


def test_bytes_that_are_no_text_are_one_message() -> None:
    assert "cannot be read as a record" in refused(b'{"format": "\xff\xfe"}')


@pytest.mark.parametrize("name", ["", "missing.json", "x" * 5000, "a\0b"])
def test_a_path_that_cannot_be_read_is_one_message(name: str, tmp_path: Path) -> None:
    with pytest.raises(InputError, match=r"give the result\.json"):
        read_record(tmp_path / name)
