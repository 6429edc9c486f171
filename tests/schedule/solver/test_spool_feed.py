"""Spools: as few ends in the middle of plates as any assignment has, never at night where a day will do."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest

from planner.schedule import Feed, Need, PrintRun, Reel, Shop, fed

DAY = 24 * 60
SHOP = Shop(change_min={"a": 10, "b": 10}, attended=tuple((d * DAY, d * DAY + 600) for d in range(9)), unattended=True)


def _run(plate: int, start: int, end: int, printer: str = "a") -> PrintRun:
    """Return a run with its bed cleared at once."""
    return PrintRun(plate=plate, printer=printer, start_min=start, end_min=end, clear_min=end, free_min=end + 10)


def _fed(grams: list[float], left: list[float], runs: list[PrintRun]) -> tuple[Feed, ...]:
    """Feed plates of one colour."""
    needs = [Need(plate=k, colour="green", grams=g) for k, g in enumerate(grams, 1)]
    reels = [Reel(name="ABCDE"[k], colour="any", left_g=g) for k, g in enumerate(left)]
    return fed(needs, reels, runs, SHOP)


def _most_whole(grams: list[float], left: list[float], runs: list[PrintRun]) -> int:
    """Return on how many plates no spool ends at best: every assignment tried."""
    best = 0
    for choice in product(range(len(left) + 1), repeat=len(grams)):
        held = [sum(g for g, c in zip(grams, choice, strict=True) if c == k) for k in range(len(left))]
        clash = any(
            choice[i] == choice[j] < len(left)
            and runs[i].start_min < runs[j].end_min
            and runs[j].start_min < runs[i].end_min
            for i in range(len(grams))
            for j in range(i)
        )
        if not clash and all(h <= has for h, has in zip(held, left, strict=True)):
            best = max(best, sum(c < len(left) for c in choice))
    return best


@pytest.mark.parametrize("seed", range(12))
def test_as_many_plates_as_can_be_are_fed_by_one_spool(seed: int) -> None:
    """Six plates on two printers at once, three spools: equal to the best of all assignments; grams add up."""
    rng = np.random.default_rng(seed)
    grams = [float(g) for g in rng.integers(50, 300, 6)]
    left = [float(g) for g in rng.integers(100, 500, 3)]
    runs = [_run(k + 1, (k // 2) * 200, (k // 2) * 200 + 150, "ab"[k % 2]) for k in range(6)]
    feeds = _fed(grams, left, runs)

    assert sum(len(feed.reels) == 1 and not feed.short_g and not feed.ends_min for feed in feeds) >= _most_whole(
        grams, left, runs
    )
    assert sum(grams) - sum(feed.short_g for feed in feeds) <= sum(left) + 1e-6


def test_an_end_in_the_middle_is_told_to_the_minute() -> None:
    """200 g in 500 min from spools of 80 and 150 g: the first ends after 2/5 (or 3/4) of it, while somebody is there."""
    (feed,) = _fed([200.0], [80.0, 150.0], [_run(1, 0, 500)])

    assert len(feed.reels) == 2
    assert feed.ends_min == (500 * feed.reels[0].left_g / 200.0,)
    assert not feed.unattended
    assert feed.short_g == 0


def test_a_spool_ends_while_somebody_is_there_where_any_order_allows_it() -> None:
    """A plate through the night from before noon: the small spool goes first, so that it ends by day."""
    (feed,) = _fed([200.0], [150.0, 60.0], [_run(1, 300, 300 + 800)])
    (night,) = _fed([200.0], [150.0, 149.0], [_run(1, 300, 300 + 800)])

    assert [reel.name for reel in feed.reels] == ["B", "A"]
    assert not feed.unattended
    assert night.unattended


def test_the_plate_that_runs_by_night_gets_the_whole_spool() -> None:
    """Two plates of 100 g, spools of 110, 60 and 60 g: the end falls into the plate that somebody watches."""
    feeds = _fed([100.0, 100.0], [60.0, 110.0, 60.0], [_run(1, 0, 300), _run(2, 590, 1300)])

    assert [len(feed.reels) for feed in feeds] == [2, 1]
    assert feeds[1].reels[0].name == "B"


def test_one_spool_never_feeds_two_printers_at_once_and_what_lacks_is_told() -> None:
    """Two plates at the same time and one large spool: the second has none; colours that do not suit are no help."""
    feeds = _fed([100.0, 100.0], [900.0], [_run(1, 0, 300), _run(2, 0, 300, "b")])
    (red,) = fed(
        [Need(plate=1, colour="red", grams=10.0)], [Reel(name="A", colour="green", left_g=99.0)], [_run(1, 0, 9)], SHOP
    )

    assert sorted(feed.short_g for feed in feeds) == [0.0, 100.0]
    assert (red.reels, red.short_g) == ((), 10.0)


def test_what_the_last_plan_hung_on_a_plate_stays_while_it_serves() -> None:
    """Four plates one after the other: kept on B and A in turn, though one spool would do; a new one takes what is left.

    Where B holds too little for one, the others keep theirs; where that leaves a plate in two halves, all is new.
    """
    runs = [_run(k, 150 * k, 150 * k + 100) for k in range(1, 5)]
    needs = [Need(plate=k, colour="green", grams=50.0, last=last) for k, last in enumerate(("B", "A", "B", ""), 1)]

    def fed_by(**left_g: float) -> list[str]:
        reels = [Reel(name=name, colour="any", left_g=grams) for name, grams in left_g.items()]
        return ["".join(reel.name for reel in feed.reels) for feed in fed(needs, reels, runs, SHOP)]

    assert fed_by(A=500.0, B=500.0)[:3] == ["B", "A", "B"]
    assert fed_by(A=500.0, B=60.0) == ["B", "A", "A", "A"]
    assert fed_by(A=60.0, B=150.0) == ["B", "A", "B", "B"]
    assert sorted(fed_by(A=100.0, B=100.0)) == ["A", "A", "B", "B"]
    assert fed_by(C=200.0) == ["C"] * 4


def test_too_little_filament_starves_as_few_devices_as_it_can() -> None:
    """Three devices of 300 g in three plates and 650 g: floor(650 / 300) = 2 are fed whole, not six plates of three."""
    needs = [Need(job=job, plate=plate, colour="green", grams=100.0) for plate in (1, 2, 3) for job in (0, 1, 2)]
    runs = [
        PrintRun(
            job=need.job,
            plate=need.plate,
            printer="a",
            start_min=200 * n,
            end_min=200 * n + 100,
            clear_min=200 * n + 100,
            free_min=200 * n + 110,
        )
        for n, need in enumerate(needs)
    ]
    for left in ([650.0], [350.0, 300.0]):
        feeds = fed(needs, [Reel(name="AB"[n], colour="any", left_g=each) for n, each in enumerate(left)], runs, SHOP)

        assert {feed.job for feed in feeds if feed.short_g} == {2}
        assert [feed.key for feed in feeds] == [need.key for need in needs]
        assert sum(feed.short_g for feed in feeds) >= sum(need.grams for need in needs) - sum(left)
