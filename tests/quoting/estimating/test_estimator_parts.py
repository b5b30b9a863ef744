"""The estimator's 20 usual and 15 edge parts: priced, flagged, asked or refused as a careful one would."""

from __future__ import annotations

from tests.benchmarks.estimator_parts import EDGE, USUAL, verdicts

DIFFERENT = {
    "6": "flagged",  # a gentle segment of 1/4 in springs further than two parts that were to be flagged
    "17": "asked",  # which plate, and when it comes
    "E5": "flagged",  # 12 ft across and 1 in thick: priced in four pieces, and said so
}
"""What is not as it was expected before the first run, and what is right instead."""


def test_all_are_right_and_all_but_three_as_expected_before() -> None:
    assert (len(USUAL), len(EDGE)) == (20, 15)
    found = verdicts()
    assert [one.part.name for one in found if not one.right] == []
    assert {one.part.name: one.got for one in found if not one.as_wanted} == DIFFERENT
    assert {one.part.name for one in found if one.part.fault} == set(DIFFERENT)
    for one in found:
        assert bool(one.price) == (one.got in ("priced", "flagged")), one
        assert one.said or one.got == "priced", one
