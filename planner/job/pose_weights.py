"""What is weighed where a part's pose is chosen, from the shipped profile."""

from __future__ import annotations

from dataclasses import dataclass

from planner.errors import ProfileError
from planner.job.file.toml_file import read_toml
from planner.job.profiles.shipped import shipped
from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class PoseWeights:
    """Weights of a pose's cost, in minutes of printing; ``hands_min`` turns minutes of hands into them."""

    print_min: Sourced
    """One minute of printing."""
    gram_min: Sourced
    """One gram of plastic, support included."""
    hands_min: Sourced
    """One minute of work by hand."""
    support_off_min: Sourced
    """Minutes of hands to break the support off one copy."""
    support_off_min_cm2: Sourced
    """Minutes of hands more for every cm² that lay on support."""
    scar_min_cm2: Sourced
    """Minutes of hands more for every cm² of the skin side that lay on support."""
    scar_unknown_share: Sourced
    """Share of what lies on support that is taken for skin side where the job does not tell the side."""
    opening_min: Sourced
    """Minutes of hands to pick support out of one slot or wide bore."""
    channel_min: Sourced
    """Minutes of hands that support in one bent channel counts for."""
    drill_min: Sourced
    """Minutes of hands to drill one bore round that printed on its side."""
    no_drill_min: Sourced
    """Minutes of hands to file one that no drill at hand is wide enough for."""
    drill_most_mm: Sourced
    """The widest drill at hand."""
    neck_min: Sourced
    """A part that carries, whose smallest layer is next to nothing; less in proportion."""
    load_across_min: Sourced
    """A part that carries, whose joints stand above one another; less in proportion."""
    load_min: Sourced
    """A part whose own load takes half of its low strength, where that load is known; with the square of its share."""
    tall_load_min: Sourced
    """A part that carries, which stands on end; less in proportion."""
    tall_min: Sourced
    """Any other part that stands on end; less in proportion."""
    loss_hands_min: Sourced
    """Minutes of hands that a failed print costs."""
    small_foot_share: Sourced
    """Chance of losing a print that stands on next to nothing; less in proportion."""
    edge_foot_share: Sourced
    """Chance more where it has no flat face to stand on."""
    tip_share: Sourced
    """Chance more where it tips easily."""
    lift_share: Sourced
    """Chance more that corners lift, for a warp of 1 over 150 mm."""


def read_pose_weights() -> PoseWeights:
    """Read the shipped weights."""
    table = read_toml(shipped("profiles") / "pose.toml", ProfileError)
    found = PoseWeights(**{key: table.sourced(key, high=100_000.0) for key in PoseWeights.__dataclass_fields__})
    table.done()
    return found
