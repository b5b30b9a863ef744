"""Books come from the cache when all they are made of is the same, as the same bytes, and else never."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from decimal import Decimal
from functools import partial
from pathlib import Path
from types import MappingProxyType

import pytest

from quoting.books import OutputFolder
from quoting.commands import known_books as room
from quoting.commands import written_ahead
from quoting.commands.known_books import KnownBooks, known_books
from quoting.core import Basis, Cylinder, Place, known_results
from quoting.core.known_results import NOT_KEPT
from quoting.core.workers import forks

written: list[str] = []


def _write(value: object, rack: Path, path: Path) -> None:
    written.append(path.name)
    path.write_text(f"{value} {rack.read_text()}")


@pytest.fixture(autouse=True)
def rack(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv(NOT_KEPT)
    monkeypatch.setattr("platformdirs.user_cache_path", lambda name, **_: tmp_path / name)
    written.clear()
    path = tmp_path / "rack.csv"
    path.write_text("rack")
    return path


def _run(folder: Path, values: Mapping[str, object], rack: Path) -> KnownBooks:
    """Write a book for each value, as a run does."""
    own = {name: partial(_write, value, rack) for name, value in values.items()}
    known = known_books(own)
    paths = {name: folder / name for name in own}
    for name, write in known.writers(own).items():
        write(paths[name])
    known.keep(paths)
    return known


def test_the_same_books_are_not_written_again_and_are_the_same_bytes(tmp_path: Path, rack: Path) -> None:
    values = {"a": Place("a.xlsx", "Lines", 3), "b": (Decimal("1.5"), date(2026, 11, 30))}
    _run(tmp_path, values, rack)
    before = [(tmp_path / name).read_bytes() for name in values]
    known = _run(
        tmp_path, {"a": Place("a.xlsx", "Lines", 3), "b": (Decimal("1.5"), date(2026, 11, 30))}, rack
    )
    assert known.known is not None
    assert written == ["a", "b"]
    assert [(tmp_path / name).read_bytes() for name in values] == before


@pytest.mark.parametrize("other", [1.0, True, "1", Decimal(1), (1,), [1], None, {1}, {"a": 1}, -1, b"1"])
def test_what_is_made_of_anything_else_is_written_anew(tmp_path: Path, rack: Path, other: object) -> None:
    _run(tmp_path, {"a": 1}, rack)
    assert _run(tmp_path, {"a": other}, rack).known is None
    assert written == ["a", "a"]


def test_another_file_on_the_disk_another_name_or_another_program_is_another_book(
    tmp_path: Path, rack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _run(tmp_path, {"a": 1}, rack)
    rack.write_text("another rack")
    assert _run(tmp_path, {"a": 1}, rack).known is None
    assert _run(tmp_path, {"b": 1}, rack).known is None
    assert _run(tmp_path, {"b": 1}, rack).known is not None
    monkeypatch.setattr(known_results, "_program", lambda _package: b"one line of it is another")
    assert _run(tmp_path, {"b": 1}, rack).known is None


def test_a_mapping_and_a_set_are_told_by_what_they_hold(tmp_path: Path, rack: Path) -> None:
    _run(tmp_path, {"a": (MappingProxyType({"x": 1}), frozenset("abcdef"))}, rack)
    again = {"a": (MappingProxyType({"x": 1}), frozenset("fedcba"))}
    assert _run(tmp_path, again, rack).known is not None
    assert _run(tmp_path, {"a": (MappingProxyType({"x": 2}), frozenset("abcdef"))}, rack).known is None


def test_shared_and_equal_parts_are_the_same() -> None:
    part, twin = (Cylinder(float(400), Basis.INSIDE, 300.0) for _ in range(2))
    assert room._Digest().of((part, part)) == room._Digest().of((part, twin))


def test_what_cannot_be_seen_through_or_is_too_much_is_never_known(
    tmp_path: Path, rack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    hidden = 1

    def closure(path: Path) -> None:
        path.write_text(str(hidden))

    assert known_books({"a": closure}).place is None
    assert known_books({"a": partial(_write, object(), rack)}).place is None
    assert known_books({"a": partial(_write, 1, tmp_path / "missing")}).place is None
    monkeypatch.setattr(room, "MOST_VALUES", 3)
    assert known_books({"a": partial(_write, ((1,), (2,), (3,)), rack)}).place is None


def test_who_wants_everything_anew_gets_it(
    tmp_path: Path, rack: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _run(tmp_path, {"a": 1}, rack)
    monkeypatch.setenv(NOT_KEPT, "1")
    assert _run(tmp_path, {"a": 1}, rack).place is None
    assert written == ["a", "a"]


@pytest.mark.skipif(not forks(), reason="what is made ahead is inherited by a forked process")
def test_books_known_ahead_are_taken(tmp_path: Path, rack: Path) -> None:
    folder = OutputFolder(tmp_path / "out")
    own = {"a": partial(_write, 1, rack)}
    for _ in range(2):
        with folder.hold(), written_ahead(folder, own, workers=2) as taking:
            folder.write(taking(own))
            (tmp_path / "out" / "a").rename(tmp_path / "out" / "b")
        assert (tmp_path / "out" / "b").read_text() == "1 rack"
        (tmp_path / "out" / "b").unlink()
    assert known_books(own).known == {"a": b"1 rack"}
    assert written == []
