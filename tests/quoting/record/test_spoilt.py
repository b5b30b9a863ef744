"""One thing wrong in a record: it is refused in one message, or every reader can make do with it."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from quoting.core import InputError, Place
from quoting.record import VERSION, RunRecord, owners_figures, what_if_lines, why_lines
from quoting.record.reading import record_of
from quoting.recording import unpack
from quoting.shop import load_shop
from scheduler.jobs import plates_to_cut, won_lines
from tests.data.records.make import golden
from tests.data.records.spoilt import spoilt_records

_SHOP = load_shop(Path(__file__).resolve().parents[3] / "demo_orders" / "shop")


def _read_by_all(record: RunRecord, unpacked: set[str]) -> None:
    """Read a record by all that read one; an archive that is as it was before needs no second unpacking."""
    for line in record.lines:
        assert why_lines(record, line)
        what_if_lines(line)
    found = owners_figures([record])
    assert found.total.margin.is_finite()
    assert math.isfinite(found.total.an_hour)
    plates_to_cut(record, won_lines(record), _SHOP, record.made.today, record.made.today)
    if record.archive and record.archive not in unpacked:
        unpack(record.archive, Place("result.json"))
        unpacked.add(record.archive)


@pytest.mark.parametrize("version", range(1, VERSION + 1))
@pytest.mark.parametrize("seed", range(3))
def test_a_spoilt_record_is_one_message_or_can_be_used(version: int, seed: int) -> None:
    text = golden(version).read_text("utf-8")
    messages, unpacked = {}, set[str]()
    for done, data in spoilt_records(text, 250, seed):
        try:
            _read_by_all(record_of(data, Place("result.json")), unpacked)
        except InputError as error:
            messages[done] = str(error)
    assert len(messages) > 50
    assert [done for done, said in messages.items() if "\n" in said or len(said) > 600] == []
