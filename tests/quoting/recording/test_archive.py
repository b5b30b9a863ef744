"""An estimate packed into text and read back is the same estimate."""

from __future__ import annotations

import base64
import json
import zlib
from dataclasses import replace

import pytest

from quoting.core import InputError
from quoting.estimating import with_risk
from quoting.recording import unpack
from quoting.recording.archive import pack
from tests.quoting.books import factories


def test_a_run_comes_back_as_it_was() -> None:
    run = with_risk(factories.run())
    assert unpack(pack(run)) == run


def test_the_same_estimate_gives_the_same_text() -> None:
    assert pack(factories.run()) == pack(replace(factories.run()))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "not base64 at all",
        base64.b64encode(b"not compressed").decode(),
        base64.b64encode(zlib.compress(b'{"a": 1}')).decode(),
        base64.b64encode(zlib.compress(json.dumps([1, 2]).encode())).decode(),
    ],
)
def test_what_is_no_estimate_is_one_message(text: str) -> None:
    with pytest.raises(InputError, match="make the record again"):
        unpack(text)
