"""One machine, weighted tardiness, set-ups that depend on the sequence: four published instances.

Cicirello, V. A. (2003), weighted tardiness scheduling with sequence-dependent setups: a benchmark library;
kept in `tests/data/published/setups` with licence and source. Least weighted tardiness of 41 and 61: Tanaka,
S. & Araki, M. (2013), "An exact algorithm for the single-machine total weighted tardiness problem with
sequence-dependent setup times", Computers & Operations Research 40, 344-352 (values from memory).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from scheduler.sequence import Tables, Timed, tables
from scheduler.sequence.rules.dispatch import apparent_tardiness_cost, date_order, in_order
from scheduler.sequence.search import one_row_search
from scheduler.sequence.stop import Stop
from scheduler.sequence.timing.tables import TICKS
from tests.benchmarks.instances import KEPT_DATA, read_reference, read_setups

FOLDER = KEPT_DATA / "setups"
LEAST = {41: 69_102, 61: 75_916}


def weighted_tardiness(path: Path, order: list[int]) -> int:
    """Return it from the file itself: nothing of the scheduler's reading or timing is used."""
    blocks: dict[str, list[list[str]]] = {}
    for line in path.read_text().splitlines():
        if line.strip() and not line.strip()[0].isdigit() and not line.startswith("-"):
            rows = blocks.setdefault(line.split(":")[0].strip(), [])
        elif line.strip():
            rows.append(line.split())
    minutes, weights, dues = (
        [int(row[0]) for row in blocks[head]] for head in ("Process Times", "Weights", "Duedates")
    )
    setup = {(int(i), int(j)): int(s) for i, j, s in blocks["Setup Times"]}
    now, last, late = 0, -1, 0
    for job in order:
        now += setup[last, job] + minutes[job]
        late += weights[job] * max(0, now - dues[job])
        last = job
    return late


def searched(number: int, iterations: int) -> tuple[Tables, Timed, Path]:
    path = FOLDER / f"wt_sds_{number}.instance"
    t = tables(read_setups(path))
    return t, one_row_search(t, apparent_tardiness_cost(t), Stop(iterations=iterations), 0).best, path


@pytest.mark.parametrize("number", [17, 41, 61, 81])
def test_a_short_search_beats_both_hand_rules_and_its_value_holds(number: int) -> None:
    t, best, path = searched(number, iterations=100)
    order = sorted(range(len(best.start)), key=lambda job: best.start[job])
    assert weighted_tardiness(path, order) == best.total / TICKS
    assert best.total < apparent_tardiness_cost(t).total
    assert best.total < in_order(t, date_order(t)).total


@pytest.mark.parametrize("number", LEAST)
def test_it_comes_near_the_least_that_was_proven_and_never_below(number: int) -> None:
    _, best, _ = searched(number, iterations=300)
    assert LEAST[number] <= best.total / TICKS <= 1.02 * LEAST[number]


def test_the_reference_values_are_no_less_than_what_was_proven() -> None:
    reference = read_reference(FOLDER)
    assert {number: reference[f"wt_sds_{number}.instance"] for number in LEAST} == LEAST
    assert {path.name for path in FOLDER.glob("*.instance")} == set(reference)


def test_licence_and_source_stand_beside_the_data() -> None:
    for folder in KEPT_DATA.iterdir():
        assert "# " in (folder / "SOURCE.md").read_text(encoding="utf-8")
    assert "MIT License" in (FOLDER / "LICENSE").read_text(encoding="utf-8")
