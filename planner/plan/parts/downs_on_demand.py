"""Which drawn direction of a part faces the bed, found for those parts that somebody asks it of."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from planner.assembly import claims_of
from planner.finding import Vec3
from planner.job import Job, part_of
from planner.mechanism import Movement
from planner.mesh import Solid
from planner.plan.parts.posed_parts import poses_of, stronger_poses
from planner.pose import share_that_turns
from planner.strength import screened, shares_about, with_elements
from planner.survey import Survey


@dataclass(frozen=True, kw_only=True, eq=False)
class DownsOnDemand(Mapping[str, Vec3]):
    """The downs of the poses that a whole plan would choose: a part's own load counts, which takes seconds to put on.

    Of all that is told about movement, play alone hangs on poses: those of the parts on the way to a tip.
    """

    job: Job
    solids: Mapping[str, Solid]
    surveys: Mapping[str, Survey]
    factor: float
    movements: list[Movement | None] = field(default_factory=list)
    """What puts known loads on parts: set once it is known, before any pose is asked for."""
    _known: dict[str, Vec3] = field(default_factory=dict)

    @property
    def moving(self) -> Movement | None:
        """How the device moves; None where nothing does."""
        return self.movements[0] if self.movements else None

    def __getitem__(self, name: str) -> Vec3:
        """Return the drawn direction of a part that faces the bed; all that will be asked for are found at once."""
        if name not in self.solids:
            raise KeyError(name)
        if name not in self._known:
            self._find({name, *self._on_the_way()} - self._known.keys())
        return self._known[name]

    def __iter__(self) -> Iterator[str]:
        """Go through the names of all parts."""
        return iter(self.solids)

    def __len__(self) -> int:
        """Count the parts."""
        return len(self.solids)

    def _on_the_way(self) -> set[str]:
        """Return the parts whose bores guide a joint on the way to a tip."""
        if self.moving is None:
            return set()
        rooms = self.moving.rooms
        return {part_of(copy) for one in self.moving.mechanism.joints if one.name in rooms for copy, _ in one.bores}

    def _find(self, names: set[str]) -> None:
        """Choose poses by shape, and once more by load where a first look does not tell that it changes nothing."""
        poses = poses_of(self.job, self.solids, self.surveys, names)
        downs = {name: pose.down for name, pose in poses.items()}
        claims = claims_of(self.job, self.surveys).claims if self.moving is None else self.moving.claims
        known = self.job, self.solids, self.surveys, claims, self.moving, downs
        half = self.job.limits.strength_share.value
        turns = {name: share_that_turns(pose, half) for name, pose in poses.items()}
        open_ones = {name for name, share in turns.items() if share < math.inf}
        about = shares_about(*known, open_ones, self.factor) if open_ones else {}
        open_ones -= {name for name, share in about.items() if share < turns[name]}
        screens = screened(*known, open_ones) if open_ones else ()
        screens = with_elements(self.job, screens, self.solids, self.surveys, self.factor)
        again = stronger_poses(self.job, self.solids, self.surveys, poses, screens, self.factor)
        self._known.update({name: pose.down for name, pose in again.items()})
