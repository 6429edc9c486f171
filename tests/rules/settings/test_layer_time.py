"""The least layer time is judged on the layers that there are."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.job import Job
from tests.conftest import MakeJob
from tests.rules.asked import asked
from tests.rules.settings.conftest import TEXT
from tests.shapes import Manifold, cuboid, cylinder, solid_of

GO, WORK = Verdict.GO, Verdict.GO_WITH_WORK
PIN = solid_of(cylinder(4, 20, 48))
TIP = solid_of(Manifold.cube((40, 30, 10)) + cylinder(4, 0.4, 48).translate((20, 15, 10)))


@pytest.mark.parametrize(("least_s", "verdict", "word"), [(3.0, WORK, False), (5.0, GO, False), (60.0, GO, True)])
def test_small_layers_need_time_and_no_more(make_job: MakeJob, least_s: float, verdict: Verdict, word: bool) -> None:
    """A pin's layers take 1 to 2 s: 3 s are too few, 5 s do, 60 s are a wait that serves nothing."""
    (found,) = asked(make_job(TEXT, a=PIN), "layer.cool", solid=PIN, least_layer_s=least_s)

    assert (found.verdict, bool(found.caution)) == (verdict, word)


@pytest.mark.parametrize("least_s", [0.0, 3.0, 18.0])
def test_a_time_that_never_acts_is_never_wrong(block: Job, least_s: float) -> None:
    """No layer of the block takes less than 18 s."""
    (found,) = asked(block, "layer.cool", solid=cuboid(40, 30, 10), least_layer_s=least_s)

    assert (found.verdict, found.caution) == (GO, "")


def test_two_short_layers_at_a_tip_harm_nothing(make_job: MakeJob) -> None:
    """A stud of two layers on a block; three would count."""
    (found,) = asked(make_job(TEXT, a=TIP), "layer.cool", solid=TIP, least_layer_s=3.0)

    assert found.verdict is GO


def test_without_layers_the_setting_itself_is_judged(block: Job) -> None:
    """Nobody knows the layers, so that 3 s are too few for whatever may be small."""
    assert asked(block, "layer.cool", least_layer_s=3.0)[0].verdict is WORK


def test_a_part_alone_waits(make_job: MakeJob) -> None:
    """100 layers of a pin with 8 s each take longer to cool than to lay: print it with others."""
    (found,) = asked(make_job(TEXT, a=PIN), "layer.wait", solid=PIN)

    assert found.caution
    assert not asked(make_job(TEXT, a=PIN), "layer.wait", solid=PIN, least_layer_s=0.0)[0].caution
