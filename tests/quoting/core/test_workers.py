"""Several processes at one run's work: same results in the same order, and none of them outlives the run."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from functools import partial
from pathlib import Path

import pytest

from quoting.core import RangeError, beside, do_all, heaviest_first, made_ready, one_by_one, sharing_out
from quoting.core.workers import forks

needs_fork = pytest.mark.skipif(not forks(), reason="worker processes are forked on Linux only")


def _squared(number: int) -> int:
    time.sleep(0.002 * (7 - number % 7))  # the first begun is not the first done
    return number * number


def _refused(number: int) -> int:
    if number == 3:
        raise RangeError("number", number, "below 3")
    return number


@pytest.mark.parametrize("workers", [1, 2, 8])
def test_results_come_in_the_order_of_the_things(workers: int) -> None:
    things = list(range(20))
    with sharing_out(workers) as share_out:
        assert list(share_out(_squared, things)) == [number * number for number in things]
        assert heaviest_first(share_out, _squared, things, float) == [number * number for number in things]


@pytest.mark.parametrize("workers", [1, 2])
def test_an_error_in_a_worker_is_the_runs_own(workers: int) -> None:
    with (
        pytest.raises(RangeError, match="number = 3 is out of range: below 3"),
        sharing_out(workers) as share_out,
    ):
        list(share_out(_refused, range(6)))


@pytest.mark.parametrize("workers", [1, 2])
def test_jobs_that_cannot_be_sent_are_done(workers: int, tmp_path: Path) -> None:
    jobs = [lambda number=number: (tmp_path / f"{number}").write_text("") for number in range(5)]
    do_all(jobs, workers)  # type: ignore[arg-type]
    assert len(list(tmp_path.iterdir())) == 5


@pytest.mark.parametrize("workers", [1, 2])
def test_a_full_disk_in_a_worker_is_told_as_one(workers: int, tmp_path: Path) -> None:
    jobs = [partial((tmp_path / name).write_text, "") for name in ("a", "no such folder/b", "c")]
    with pytest.raises(FileNotFoundError) as told:
        do_all(jobs, workers)  # type: ignore[arg-type]
    assert told.value.filename == str(tmp_path / "no such folder/b")


def test_what_is_waited_for_is_told_the_heaviest_first() -> None:
    told: list[tuple[int, str]] = []
    found = heaviest_first(one_by_one, str.upper, ["a", "bcd", "ef"], len, lambda *words: told.append(words))
    assert found == ["A", "BCD", "EF"]
    assert told == [(1, "bcd"), (2, "ef"), (3, "a")]


_LONG_WORK = """
import os, signal, sys, time
from pathlib import Path
from quoting.core import sharing_out

signal.signal(signal.SIGINT, signal.default_int_handler)  # a shell's background job begins deaf to it

def begun(number):
    Path(sys.argv[1], str(os.getpid())).write_text("")
    time.sleep(60)

with sharing_out(2) as share_out:
    list(share_out(begun, [1, 2, 3]))
"""


@needs_fork
@pytest.mark.parametrize("end", [signal.SIGKILL, signal.SIGINT])
def test_no_worker_outlives_a_run_that_is_killed_or_stopped(end: signal.Signals, tmp_path: Path) -> None:
    script, seen = tmp_path / "work.py", tmp_path / "seen"
    seen.mkdir()
    script.write_text(_LONG_WORK)
    root = str(Path(__file__).resolve().parents[3])
    run = subprocess.Popen(
        [sys.executable, str(script), str(seen)],
        env={**os.environ, "PYTHONPATH": root},
        stderr=subprocess.DEVNULL,
    )
    _until(lambda: len(list(seen.iterdir())) >= 2)
    run.send_signal(end)
    assert run.wait(30) != 0
    workers = [int(path.name) for path in seen.iterdir()]
    _until(lambda: not any(Path(f"/proc/{worker}/cmdline").exists() and _runs(worker) for worker in workers))


def _runs(process: int) -> bool:
    """Return whether a process still works; one that has ended and was not asked for does not."""
    try:
        return " Z " not in Path(f"/proc/{process}/stat").read_text()
    except OSError:
        return False


def _until(true: object) -> None:
    for _ in range(600):
        if callable(true) and true():
            return
        time.sleep(0.05)
    raise AssertionError("waited half a minute in vain")


def _write(path: Path) -> None:
    path.write_text("done")


def _fail(path: Path) -> None:
    raise OSError("no room")


def test_what_is_done_beside_is_there_when_it_was_waited_for(tmp_path: Path) -> None:
    with beside(partial(_write, tmp_path / "a")) as wait:
        wait()
        assert (tmp_path / "a").read_text() == "done"


def test_what_fails_beside_stops_nobody(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    with beside(partial(_fail, tmp_path / "a")) as wait:
        wait()
    assert capfd.readouterr().err == ""


def _whose(thing: int) -> tuple[int, int]:
    return thing, os.getpid()


@pytest.mark.parametrize("workers", [1, 2])
def test_what_is_made_ready_works_one_thing_at_a_time_and_errors_are_raised_here(
    workers: int, tmp_path: Path
) -> None:
    with made_ready((tmp_path / "ready").touch, workers) as share_out:
        found = list(share_out(_whose, [4, 5]))
        assert [thing for thing, _ in found] == [4, 5]
        away = workers > 1 and forks()
        assert {process != os.getpid() for _, process in found} == {away}
        assert (tmp_path / "ready").exists() == away
        with pytest.raises(RangeError, match="below 3"):
            list(share_out(_refused, [2, 3]))
        assert next(share_out(_refused, [2])) == 2


def _wait_for(path: Path) -> None:
    while not path.exists():
        time.sleep(0.01)


@needs_fork
def test_what_is_made_ready_is_begun_at_once_and_sending_it_waits_for_nothing(tmp_path: Path) -> None:
    with made_ready(partial(_wait_for, tmp_path / "sent"), 2) as share_out:
        found = share_out(len, [b"x" * 1_000_000])
        (tmp_path / "sent").touch()
        begun = share_out(Path.touch, [tmp_path / "begun"])
        _wait_for(tmp_path / "begun")
        assert [*found, *begun] == [1_000_000, None]


@needs_fork
def test_copies_of_what_is_made_ready_take_turns_and_work_at_the_same_time(tmp_path: Path) -> None:
    with made_ready((tmp_path / "ready").touch, 2, copies=1) as share_out:
        waits = share_out(_wait_for, [tmp_path / "go"])
        ((_, one),) = share_out(_whose, [1])
        (tmp_path / "go").touch()
        assert list(waits) == [None]
        ((_, other),) = share_out(_whose, [2])
        assert len({one, other, os.getpid()}) == 3
        assert list(share_out(_gone, [3])) == [3]
        assert list(share_out(_whose, [4])) == [(4, other)]
    assert not Path(f"/proc/{one}").exists() or _ended(one)


def _ended(process: int) -> bool:
    for _ in range(500):
        try:
            state = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]
        except OSError:
            return True
        if state == "Z":
            return True
        time.sleep(0.01)
    return False


def _gone(thing: int) -> int:
    if multiprocessing.parent_process() is not None:
        os._exit(1)
    return thing


@needs_fork
def test_what_a_process_that_died_was_to_do_is_done_here() -> None:
    with made_ready(lambda: None, 2) as share_out:
        assert list(share_out(_gone, [1, 2])) == [1, 2]


@needs_fork
def test_what_fails_while_it_is_made_ready_is_made_when_it_is_needed(tmp_path: Path) -> None:
    with made_ready((tmp_path / "no such folder" / "ready").touch, 2) as share_out:
        assert list(share_out(_refused, [1])) == [1]


def _niceness(_: int) -> int:
    return os.nice(0)


@needs_fork
def test_patient_workers_let_others_go_first() -> None:
    with sharing_out(2, patient=True) as share_out:
        assert min(share_out(_niceness, [0, 1])) > os.nice(0)
    with sharing_out(2) as share_out:
        assert set(share_out(_niceness, [0, 1])) == {os.nice(0)}


@pytest.mark.parametrize("turns", [1, 32, 1000])
def test_thousands_of_small_things_keep_their_order(turns: int) -> None:
    with sharing_out(2, turns) as share_out:
        assert list(share_out(abs, range(-700, 0))) == list(range(700, 0, -1))
