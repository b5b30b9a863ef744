"""The largest drops beside one piece or two are those that trying every layout finds."""

from __future__ import annotations

from itertools import combinations, product
from math import inf

from hypothesis import given, settings
from hypothesis import strategies as st

from quoting.nesting.bounds.few_boxes import DROP, DropSize, Side, most_of_drops
from quoting.nesting.plate import Box


def _apart(one: Box, two: Box) -> bool:
    return (
        one[0] + one[2] <= two[0]
        or two[0] + two[2] <= one[0]
        or one[1] + one[3] <= two[1]
        or two[1] + two[3] <= one[1]
    )


def _layouts(room: Side, pieces: list[list[Side]]) -> list[list[Box]]:
    """Return every way the pieces lie in the room without overlapping."""
    found: list[list[Box]] = [[]]
    for ways in pieces:
        places = [
            (x, y, w, h) for w, h in set(ways) for x in range(room[0] - w + 1) for y in range(room[1] - h + 1)
        ]
        found = [
            [*before, place]
            for before in found
            for place in places
            if all(_apart(place, one) for one in before)
        ]
    return found


def by_trying(room: Side, pieces: list[list[Side]], drops: int, size: DropSize) -> float | None:
    """Return the most that drops count for, of every layout on whole units; None where nothing fits."""
    free = [
        (x, y, w, h)
        for w, h in product(range(1, room[0] + 1), range(1, room[1] + 1))
        if size.worth(w, h) > 0
        for x in range(room[0] - w + 1)
        for y in range(room[1] - h + 1)
    ]
    best = -inf
    for layout in _layouts(room, pieces):
        best = max(best, 0.0)
        kept = [drop for drop in free if all(_apart(drop, one) for one in layout)]
        worths = [size.worth(*drop[2:]) for drop in kept]
        if drops and kept:
            best = max(best, *worths)
        if drops > 1:
            for one, two in combinations(range(len(kept)), 2):
                if worths[one] + worths[two] > best and _apart(kept[one], kept[two]):
                    best = worths[one] + worths[two]
    return None if best == -inf else best


sides = st.tuples(st.integers(1, 5), st.integers(1, 5))


@st.composite
def asked(draw: st.DrawFn) -> tuple[Side, list[list[Side]], int, DropSize]:
    room = draw(st.tuples(st.integers(2, 6), st.integers(2, 6)))
    pieces = []
    for _ in range(draw(st.integers(1, 2))):
        w, h = draw(sides)
        pieces.append([(w, h), (h, w)] if draw(st.booleans()) else [(w, h)])
    gap = draw(st.integers(0, 1))
    small = gap + draw(st.integers(1, 2))
    large = small + draw(st.integers(0, 2))
    cost = draw(st.sampled_from([0.0, 1.0, 2.5]))
    return room, pieces, draw(st.integers(0, 2)), DropSize(gap, small, large, cost)


@settings(max_examples=300)
@given(asked())
def test_no_layout_leaves_more_and_one_leaves_as_much(
    case: tuple[Side, list[list[Side]], int, DropSize],
) -> None:
    most = by_trying(*case)
    found = most_of_drops(*case)
    if found is None:
        assert most is None
        return
    value, layout = found
    assert value == most
    room, pieces, drops, size = case
    assert all(_apart(one, two) for (_, one), (_, two) in combinations(layout, 2))
    assert all(x >= 0 and y >= 0 and x + w <= room[0] and y + h <= room[1] for _, (x, y, w, h) in layout)
    lie = {number: box[2:] for number, box in layout if number != DROP}
    assert sorted(lie) == list(range(len(pieces)))
    assert all(lie[k] in ways for k, ways in enumerate(pieces))
    kept = [size.worth(*box[2:]) for number, box in layout if number == DROP]
    assert len(kept) <= drops
    assert sum(kept) == value


def _most(case: tuple[Side, list[list[Side]], int, DropSize]) -> float | None:
    found = most_of_drops(*case)
    return None if found is None else found[0]


def test_two_pieces_in_opposite_corners_leave_a_drop_in_each_other_corner() -> None:
    """No cut right across parts these four: each lies beside the next, round a middle that stays empty."""
    room, pieces = (7, 7), [[(4, 3)], [(4, 3)]]
    case = room, pieces, 2, DropSize(0, 3, 4, 0.0)
    assert _most(case) == by_trying(*case) == 24


def test_a_drop_that_reaches_over_the_wider_piece_since_the_other_would_be_too_low() -> None:
    room, pieces = (6, 7), [[(2, 4)], [(3, 1), (1, 3)]]
    case = room, pieces, 2, DropSize(0, 2, 5, 1.0)
    assert _most(case) == by_trying(*case) == 28
