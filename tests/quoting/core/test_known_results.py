"""What was worked out before comes from the user's cache, and only when nothing it depends on has changed."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path
from typing import TypeVar

import pytest

from quoting.core import (
    forget_the_oldest,
    known_results,
    one_by_one,
    remembered,
    remembered_soon,
    remembering,
)
from quoting.core.known_results import NOT_KEPT

T = TypeVar("T")
R = TypeVar("R")
worked: list[tuple[int, int]] = []


def tripled(number: int, *, more: int = 0) -> int:
    worked.append((number, more))
    return 3 * number + more


@pytest.fixture(autouse=True)
def cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv(NOT_KEPT)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr("platformdirs.user_cache_path", lambda name, **_: tmp_path / name)
    worked.clear()
    return tmp_path / "rollwright" / "results"


def kept(cache: Path) -> list[Path]:
    return [path for path in cache.rglob("*") if path.is_file()]


def test_only_what_is_not_known_is_worked_out_and_all_comes_in_order(cache: Path) -> None:
    assert list(remembering(one_by_one)(tripled, [1, 2])) == [3, 6]
    assert list(remembering(one_by_one)(tripled, [2, 4, 1, 4])) == [6, 12, 3, 12]
    assert worked == [(1, 0), (2, 0), (4, 0), (4, 0)]
    assert len(kept(cache)) == 3


def test_what_is_held_fast_counts_as_what_is_given(cache: Path) -> None:
    assert [remembered(partial(tripled, more=more), 1) for more in (1, 2, 1)] == [4, 5, 4]
    assert worked == [(1, 1), (1, 2)]


def test_what_is_asked_for_soon_is_begun_at_once_unless_it_is_known(cache: Path) -> None:
    begun: list[int] = []

    def share_out(function: Callable[[T], R], things: Sequence[T], /) -> Iterator[R]:
        begun.append(len(things))
        return map(function, things)

    wait = remembered_soon(tripled, 1, share_out)
    assert begun == [1]
    assert [wait(), remembered_soon(tripled, 1, share_out)(), remembered(tripled, 1)] == [3, 3, 3]
    assert (begun, worked, len(kept(cache))) == ([1], [(1, 0)], 1)


def test_another_program_works_everything_out_anew(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    remembered(tripled, 1)
    monkeypatch.setattr(known_results, "_program", lambda _package: b"one line of it is another")
    assert remembered(tripled, 1) == 3
    assert worked == [(1, 0), (1, 0)]


def test_the_program_is_every_file_of_it(
    cache: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def digest() -> bytes:
        known_results._program.cache_clear()
        return known_results._program("own")

    for room in ("quoting/core", "own/deep"):
        (tmp_path / "code" / room).mkdir(parents=True)
    monkeypatch.setattr(known_results, "__file__", str(tmp_path / "code/quoting/core/known_results.py"))
    seen = {digest()}
    for name in ("quoting/shop.toml", "own/deep/a.py", "quoting/core/b.json"):
        (tmp_path / "code" / name).write_text("1")
        seen.add(digest())
        (tmp_path / "code" / name).write_text("2")
        seen.add(digest())
    known_results._program.cache_clear()
    assert len(seen) == 7


@pytest.mark.parametrize("spoilt", [b"", b"no result", None])
def test_a_spoilt_result_is_worked_out_anew(cache: Path, spoilt: bytes | None) -> None:
    remembered(tripled, 1)
    (file,) = kept(cache)
    file.write_bytes(file.read_bytes()[:-1] if spoilt is None else spoilt)
    assert [remembered(tripled, 1), remembered(tripled, 1)] == [3, 3]
    assert worked == [(1, 0), (1, 0)]


@pytest.mark.skipif(os.name != "posix", reason="rights of others are told by the system's own bits there")
def test_a_folder_that_others_may_write_to_is_neither_read_nor_written(cache: Path) -> None:
    remembered(tripled, 1)
    cache.chmod(0o777)
    assert remembered(tripled, 1) == 3
    assert worked == [(1, 0), (1, 0)]


def test_nothing_is_kept_when_that_is_asked(cache: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(NOT_KEPT, "1")
    assert [remembered(tripled, 1), remembered(tripled, 1)] == [3, 3]
    assert len(worked) == 2
    assert not cache.exists()


def test_what_was_used_longest_ago_goes_when_there_is_too_much(
    cache: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for number in range(4):
        remembered(tripled, number)
    files = {path.stat().st_size for path in kept(cache)}
    for age, number in enumerate((2, 0, 3, 1)):
        before = {path: path.stat().st_mtime_ns for path in kept(cache)}
        remembered(tripled, number)
        (used,) = (path for path, when in before.items() if path.stat().st_mtime_ns != when)
        os.utime(used, (1_000_000 + age, 1_000_000 + age))
    forget_the_oldest()
    assert len(kept(cache)) == 4
    monkeypatch.setattr(known_results, "_MOST_BYTES", 3 * max(files))
    monkeypatch.setattr(known_results, "_LESS_BYTES", 2 * max(files))
    forget_the_oldest()
    worked.clear()
    assert [remembered(tripled, number) for number in (3, 1, 2)] == [9, 3, 6]
    assert worked == [(2, 0)]
