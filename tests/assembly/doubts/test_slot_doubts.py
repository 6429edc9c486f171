"""Strap slots by form, against a table written by hand before."""

from __future__ import annotations

import pytest

from planner.assembly.doubts.slot_doubts import slot_groups
from tests.assembly.by_hand.truths import scene, told


@pytest.mark.parametrize("name", ["heron", "linkage"])
def test_webbing_is_proposed_for_strap_slots_alone(name: str) -> None:
    """The Heron's slots of 26 mm take webbing of 25; its vents, its forks and the linkage's windows take none."""
    job, surveys = scene(name)
    proposed = [group.size_mm for group in slot_groups(job, surveys) if group.answers[0].name.endswith("strap")]

    assert proposed == told(name)["slots"]["strap"]
    assert not set(proposed) & set(told(name)["slots"]["none"])
