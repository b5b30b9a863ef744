"""Learning from lot totals: few jobs move little, many find the truth, a wild figure has no say."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from quoting.hindsight import (
    SCRAP,
    SET_ASIDE,
    BookPlace,
    LearnRules,
    LotDone,
    bias_by_group,
    book_bands,
    learn,
    propose,
    rolling_by_setting,
    with_bands,
)
from quoting.labour import roll_minutes
from quoting.shop import Band, Shop, load_shop
from tests.quoting.hindsight.lots import ADJUST, FIRST_OFF, LOAD, SQUARE, TODAY, UNLOAD, lots
from tests.quoting.labour.test_minutes import shell, task_of

RULES = LearnRules(TODAY)
SLOW = {LOAD: 1.4, UNLOAD: 1.4, SQUARE: 0.8, ADJUST: 1.3, FIRST_OFF: 1.5}


@pytest.fixture(scope="module")
def shop() -> Shop:
    demo = Path(__file__).resolve().parents[3] / "demo_orders" / "shop"
    return replace(load_shop(demo), stock=())


def test_many_jobs_find_the_truth_and_two_move_little() -> None:
    many, two = learn(lots(400, SLOW), RULES), learn(lots(2, SLOW), RULES)
    for place, true in SLOW.items():
        assert many.of(place) == pytest.approx(true, abs=0.12), place
        assert abs(two.of(place) - 1) < 0.25
    assert many.scatter < 0.15


def test_a_job_that_takes_what_the_book_says_leaves_the_book_alone() -> None:
    learnt = learn(lots(30, {}, scatter=0.0), RULES)
    assert all(one.ratio.mean == pytest.approx(1.0, abs=1e-6) for one in learnt.settings)


def test_what_always_comes_together_moves_together() -> None:
    learnt = learn(lots(300, {LOAD: 2.0, UNLOAD: 1.0}), RULES)
    assert learnt.of(LOAD) == pytest.approx(learnt.of(UNLOAD), abs=1e-6)
    assert learnt.of(LOAD) == pytest.approx(1.5, abs=0.15)


def test_what_is_learnt_adds_up_to_what_was_taken_though_minutes_scatter_further_up_than_down() -> None:
    many = lots(400, SLOW, scatter=0.3)
    learnt = learn(many, RULES)
    used = [lot for lot, weight in zip(many, learnt.weights, strict=True) if weight >= SET_ASIDE]
    assert len(used) > 390
    assert sum(map(learnt.expected, used)) == pytest.approx(sum(lot.took for lot in used), rel=0.01)


def test_six_hundred_for_sixty_is_set_aside_and_poisons_nothing() -> None:
    plain = lots(20, SLOW)
    wild = [replace(plain[0], took=10 * plain[0].took), *plain[1:]]
    before, after = learn(plain[1:], RULES), learn(wild, RULES)
    assert after.weights[0] == 0
    for place in SLOW:
        assert after.of(place) == pytest.approx(before.of(place), abs=0.06)


def test_old_minutes_have_less_say_but_the_book_does_not_age() -> None:
    old, new = lots(60, {ADJUST: 2.0}, days_ago=730), lots(60, {ADJUST: 1.0}, seed=4)
    drifting = learn([*old, *new], LearnRules(TODAY, half_life_days=90))
    steady = learn([*old, *new], LearnRules(TODAY, half_life_days=36_500))
    assert drifting.of(ADJUST) == pytest.approx(1.0, abs=0.12)
    assert steady.of(ADJUST) > 1.3
    forgotten = learn(lots(60, {ADJUST: 2.0}, days_ago=36_000), LearnRules(TODAY, half_life_days=30))
    assert forgotten.of(ADJUST) == pytest.approx(1.0, abs=0.01)


def test_learning_twice_from_the_same_jobs_changes_nothing_more(shop: Shop) -> None:
    first = lots(60, SLOW)
    learnt = learn(first, RULES)
    again = [
        replace(lot, by_setting={place: one * learnt.of(place) for place, one in lot.by_setting.items()})
        for lot in first
    ]
    before = {one.place: 1 / one.ratio.mean for one in learnt.settings}
    twice = learn(again, LearnRules(TODAY, before=before))
    assert all(one.ratio.mean == pytest.approx(1.0, abs=0.002) for one in twice.settings)


def test_a_proposal_changes_what_the_jobs_carry_and_says_how_sure_it_is(shop: Shop) -> None:
    some = lots(40, SLOW)
    proposal = propose(some, learn(some, RULES), shop)
    adjust = next(change for change in proposal.changes if change.place == ADJUST)
    assert adjust.low < adjust.new.likely < adjust.high
    assert adjust.jobs == 40
    assert adjust.new.low < adjust.new.likely < adjust.new.high
    moved = with_bands(shop, proposal.bands)
    assert moved.labour.adjust_per_pass == adjust.new
    assert moved.labour.tack == shop.labour.tack, "no job says anything of tacking"
    few = lots(2, SLOW)
    assert propose(few, learn(few, RULES), shop).changes == ()


def test_spoiled_pieces_move_the_chance_of_scrap_and_one_spoiled_lot_does_not(shop: Shop) -> None:
    plain = [replace(lot, good=10) for lot in lots(40, {})]

    def chance(some: list[LotDone], book: Shop = shop, before: float | None = None) -> float | None:
        found = propose(some, learn(some, RULES), book, scrap_before=before).shares
        return next((one.new for one in found if one.name == SCRAP), None)

    assert shop.labour.scrap_chance == 0.01
    assert chance(plain) == pytest.approx((100 * 0.01 + 0) / 500)
    twenty = [replace(lot, good=9, scrap=1) if k < 20 else lot for k, lot in enumerate(plain)]
    assert chance(twenty) == pytest.approx((1 + 20) / 500)
    spoiled = [replace(plain[0], good=0, scrap=50), *twenty[1:]]
    assert chance(spoiled) == pytest.approx((1 + 20) / 491, abs=1e-4)
    taken = replace(shop, labour=replace(shop.labour, scrap_chance=0.042))
    assert chance(twenty, taken, before=0.01) is None, "learning twice from the same pieces changes nothing"
    assert chance(plain[:9]) is None
    assert chance(lots(40, {})) is None


def test_settings_add_up_to_the_minutes_of_the_labour_room(shop: Shop) -> None:
    one = replace(task_of(shell(), 7), passes_repeat=2, tack=True, trials=2, re_rolls=2)
    roll = shop.rolls[0].name
    one = replace(one, roll_speed_mm_min=shop.rolls[0].surface_speed_mm_min)
    parts = [rolling_by_setting([one], roll, shop, re_round=again) for again in (False, True)]
    whole = roll_minutes(one, shop.labour).total.likely
    assert sum(sum(part.values()) for part in parts) == pytest.approx(whole)
    assert BookPlace("labour", "re_round") in parts[1]


def test_every_place_of_the_book_can_be_changed(shop: Shop) -> None:
    bands = book_bands(shop)
    doubled = {place: Band(2 * one.low, 2 * one.likely, 2 * one.high) for place, one in bands.items()}
    assert book_bands(with_bands(shop, doubled)) == doubled


def test_minutes_beyond_the_book_are_split_by_step() -> None:
    some = lots(200, {ADJUST: 1.5, SQUARE: 0.8}, scatter=0.02)
    beyond = learn(some, RULES).beyond(some)
    took = sum(lot.took - lot.planned for lot in some)
    assert next(iter(beyond)) == ADJUST
    assert beyond[SQUARE] < 0
    assert sum(beyond.values()) == pytest.approx(took, rel=0.05)


def test_kinds_of_job_are_told_with_their_jobs() -> None:
    some = [replace(lot, shape="cone", crew="ann") for lot in lots(6, {ADJUST: 2.0, SQUARE: 2.0})]
    some += [replace(lot, shape="arc", crew="bo") for lot in lots(30, {}, seed=3)]
    found = {(one.by, one.group): one for one in bias_by_group(some, [1.0] * len(some))}
    cone, arc = found["shape", "cone"], found["shape", "arc"]
    assert (cone.jobs, arc.jobs) == (6, 30)
    assert 1.0 < cone.drawn < cone.seen
    assert arc.low < 1.0 < arc.high
    assert {by for by, _ in found} == {"kind of work", "shape", "who"}
