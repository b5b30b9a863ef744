"""An estimate packed into text and read back is the same estimate."""

from __future__ import annotations

import base64
import json
import resource
import subprocess
import sys
import zlib
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from itertools import product
from typing import Any

import numpy as np
import pytest

from quoting.core import Arc, Basis, Cone, Cylinder, InputError, Place, Shape, State
from quoting.estimating import Estimate, estimate, with_risk, with_sensitivities
from quoting.record import JsonRoom
from quoting.recording import archive, unpack
from quoting.recording.archive import pack
from quoting.shop import Shop
from tests.quoting.books import factories
from tests.quoting.lines import order, shell

PLACE = Place("result.json")


def repacked(change: Callable[[dict[str, Any]], object]) -> str:
    """Return an archive after a change to what it holds."""
    plain = json.loads(zlib.decompress(base64.b64decode(pack(factories.run()))))
    change(plain)
    return base64.b64encode(zlib.compress(json.dumps(plain).encode())).decode()


def refused(text: str) -> str:
    with pytest.raises(InputError) as caught:
        unpack(text, PLACE)
    return str(caught.value)


def test_a_run_comes_back_as_it_was() -> None:
    run = with_sensitivities(with_risk(factories.run()))
    assert unpack(pack(run), PLACE) == run


def test_the_same_estimate_gives_the_same_text() -> None:
    assert pack(factories.run()) == pack(replace(factories.run()))


def test_many_lines_come_back_as_few_do(monkeypatch: pytest.MonkeyPatch) -> None:
    run = with_sensitivities(with_risk(factories.run()))
    odd = replace(run, seed=np.int64(3))  # type: ignore[arg-type]
    few = [unpack(pack(one), PLACE) for one in (run, odd)]
    monkeypatch.setattr(archive, "FEW", 0)
    assert [unpack(pack(one), PLACE) for one in (run, odd)] == few == [run, odd]


def test_numbers_of_numpy_are_written_as_plain_numbers() -> None:
    def with_minutes(run: Estimate, minutes: Any, seed: Any) -> Estimate:
        first = run.orders[0]
        lines = (replace(first.lines[0], setup_minutes=minutes), *first.lines[1:])
        return replace(run, seed=seed, orders=(replace(first, lines=lines), *run.orders[1:]))

    run = factories.run()
    assert pack(with_minutes(run, np.float64(12.5), np.int64(7))) == pack(with_minutes(run, 12.5, 7))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "not base64 at all",
        "é",
        base64.b64encode(b"not compressed").decode(),
        base64.b64encode(zlib.compress(b'{"a": 1}')).decode(),
        base64.b64encode(zlib.compress(b"[1, 2]")).decode(),
        base64.b64encode(zlib.compress(b"[" * 100_000)).decode(),
        base64.b64encode(zlib.compress(b'{"version": 99, "estimate": {}}')).decode(),
        base64.b64encode(zlib.compress(b'{"version": "2", "estimate": {}}')).decode(),
        base64.b64encode(zlib.compress(b'{"version": [], "estimate": {}}')).decode(),
        pack(factories.run())[:-400],
    ],
)
def test_what_is_no_estimate_is_one_message(text: str) -> None:
    assert "make the record again" in refused(text)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        (
            lambda a: a["estimate"]["shop"]["rates"].pop("setup_hour"),
            "archive.estimate.shop.rates.setup_hour is missing",
        ),
        (
            lambda a: a["estimate"]["shop"]["rates"].update(setup_hour="NaN"),
            'archive.estimate.shop.rates.setup_hour cannot be used - read "NaN"; a finite number would do',
        ),
        (
            lambda a: a["estimate"]["shop"]["rates"].update(setup_hour="1e308"),
            "archive.estimate.shop.rates.setup_hour is too large",
        ),
        (
            lambda a: a["estimate"]["shop"]["rolls"][0].update(rate_per_hour=float("inf")),
            "archive.estimate.shop.rolls[0].rate_per_hour cannot be used",
        ),
        (
            lambda a: a["estimate"]["orders"][0]["order"]["lines"][0].update(quantity=-1),
            "archive.estimate.orders[0].order.lines[0] cannot be used",
        ),
        (
            lambda a: a["estimate"]["shop"].update(paper="A9"),
            'archive.estimate.shop.paper is no paper that is printed on - read "A9"',
        ),
        (
            lambda a: a["estimate"].update(colour="green"),
            "archive.estimate.colour is nothing that a record holds",
        ),
    ],
)
def test_a_wrong_value_is_told_with_its_path(
    change: Callable[[dict[str, Any]], object], message: str
) -> None:
    assert refused(repacked(change)).startswith(f"result.json: {message}")


def test_a_long_archive_is_first_read_by_a_process_of_its_own(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(archive, "SMALL", JsonRoom(0, 0, 0))
    run = factories.run()
    assert unpack(pack(run), PLACE) == run
    said = refused(repacked(lambda a: a["estimate"]["shop"]["rates"].pop("setup_hour")))
    assert said.startswith("result.json: archive.estimate.shop.rates.setup_hour is missing")


_ATTACK = """
import base64, resource, sys, zlib
from quoting.core import InputError, Place
from quoting.recording import unpack
plain = b'{"version":2,"estimate":{"orders":[' + b"[]," * 3_000_000 + b"[]]}}"
text = base64.b64encode(zlib.compress(plain, 1)).decode()
try:
    unpack(text, Place("result.json"))
except InputError as error:
    print(len(text), error)
# of itself the system tells what the process that began it had taken, where that was more
own = next(int(line.split()[1]) for line in open("/proc/self/status") if line.startswith("VmHWM"))
print((own + resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss) // 1024)
"""


@pytest.mark.skipif(sys.platform != "linux", reason="memory is counted as Linux counts it")
def test_a_crafted_archive_cannot_take_gigabytes() -> None:
    """Three million empty lists are 53 kB; to tell what is wrong with them took 1.8 GB."""
    said = subprocess.run(
        [sys.executable, "-c", _ATTACK], capture_output=True, text=True, check=True
    ).stdout.splitlines()
    assert "takes more memory or time than any record" in said[0]
    assert int(said[1]) < 700


def test_an_archive_that_says_nothing_of_its_length_is_unpacked_step_by_step() -> None:
    blanks = zlib.compressobj(9)
    packed = b"".join(blanks.compress(b" " * 1_000_000) for _ in range(400)) + blanks.flush()
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    assert "memory or time" in (said := refused(base64.b64encode(packed).decode())) or "far larger" in said
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < 60_000


_SIZES_MM = (8.0, 60.0, 133.0, 200.0, 900.0, 30_000.0)


def test_what_no_roll_can_do_at_all_is_read_back_too(shop: Shop) -> None:
    """A bend beyond any position of the slide asks for infinite travel; a record holds no such numbers."""
    shapes: list[Shape] = [Cylinder(size, Basis.INSIDE, 400.0) for size in _SIZES_MM]
    shapes += [Cone(size * 1.5, size, Basis.INSIDE, 300.0) for size in _SIZES_MM]
    shapes += [Arc(size / 2, Basis.INSIDE, 20, 400) for size in _SIZES_MM]
    lines = [
        shell(f"A-{index}", shape=shape, thickness_mm=thick, material=material)
        for index, (shape, (material, thick)) in enumerate(
            product(shapes, (("galvanized", 1.31064), ("A36", 25.4), ("304/304L", 3.175), ("AR400", 9.525)))
        )
    ]
    run = estimate([order(*lines)], shop, today=date(2026, 11, 30), effort="quick")
    assert {line.state for line in run.lines} == {State.PRICED, State.NO_QUOTE, State.QUESTION}
    assert unpack(pack(run), PLACE) == run
