"""Several cores give what one gives, in the same order."""

from __future__ import annotations

from functools import partial

import pytest

from quoting.core import ahead, worked_ahead


@pytest.mark.parametrize("cores", [1, 2, 5])
def test_results_come_in_the_order_of_the_tasks(cores: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ahead, "cores", lambda: cores)
    assert list(worked_ahead([partial(divmod, k, 3) for k in range(7)])) == [divmod(k, 3) for k in range(7)]


def test_on_one_core_nothing_is_done_that_is_not_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ahead, "cores", lambda: 1)
    done: list[int] = []
    first = next(worked_ahead([partial(_note, done, k) for k in range(3)]))
    assert (first, done) == (0, [0])


def test_whoever_stops_asking_leaves_nobody_at_work(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ahead, "cores", lambda: 2)
    done: list[int] = []
    results = worked_ahead([partial(_note, done, k) for k in range(5)])
    next(results)
    results.close()
    assert sorted(done) == [0, 1]


@pytest.mark.parametrize("cores", [1, 2])
def test_what_a_task_raises_comes_up_where_its_result_is_asked_for(
    cores: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(ahead, "cores", lambda: cores)
    results = worked_ahead([partial(int, "7"), partial(int, "seven")])
    assert next(results) == 7
    with pytest.raises(ValueError, match="seven"):
        next(results)


def _note(done: list[int], number: int) -> int:
    done.append(number)
    return number
