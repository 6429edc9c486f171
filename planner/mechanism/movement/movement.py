"""A device's movement: its mechanism, asked at any size for ranges, cords, forces and play."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, fields, replace
from functools import cached_property

from planner.assembly import Claim, claims_of
from planner.finding import Vec3
from planner.job import Job
from planner.mechanism.cord.path.cord_ways import CordWay, cord_ways
from planner.mechanism.cord.path.next_way import Known
from planner.mechanism.cord_effects.cord_line import cord_line
from planner.mechanism.cord_effects.cord_moves import CordMoves, cord_moves
from planner.mechanism.cord_effects.cord_on_joint import StrungCord, strung_cords
from planner.mechanism.cord_effects.tip_loads import CopyLoads, tip_loads, tips, untold_by_cords
from planner.mechanism.cord_effects.tip_moves import joint_play, rooms_of, tip_of
from planner.mechanism.joints.moving_joint import MovingJoint
from planner.mechanism.mechanism import Mechanism, mechanism_of
from planner.mechanism.movement.mirrored_notes import mirrored_notes
from planner.mechanism.movement.move_records import JointMove, Moved, Tip
from planner.mechanism.movement.padding_bodies import padding_bodies
from planner.mechanism.play.face_room import FaceRoom
from planner.mechanism.range.cord_bodies import cord_bodies
from planner.mechanism.range.device_bodies import Body
from planner.mechanism.range.free_range import ranges_of
from planner.mechanism.range.joint_range import JointRange, Ranges, Together, at_size
from planner.mesh import Solid
from planner.phrases import listed
from planner.scale import Scale
from planner.survey import Survey

SMALL, LARGE = 0.4, 2.5
"""Sizes (factors) between which hardware may come to be in the way, or no longer be."""
PULLS = ("use", "drive", "settings", "material", "materials")
"""What of a job turns nothing another way, and yet changes pulls: loads, what pulls, and what parts weigh."""
PLAYS = ("works", "notes")
"""What of a job changes neither: work on a bore changes play alone."""
SAME_DEG = 0.02
"""Two ends this near to each other are one, in degrees or mm: a stop is found to this."""


@dataclass(frozen=True, kw_only=True, eq=False)  # no slots: its cords are found once
class Movement:
    """What ``at`` needs: the job, its solids and surveys as drawn, and the mechanism that they make."""

    job: Job
    solids: Mapping[str, Solid]
    surveys: Mapping[str, Survey]
    claims: Sequence[Claim]
    downs: Mapping[str, Vec3]
    mechanism: Mechanism
    known: dict[float, Moved] = field(default_factory=dict)
    """Answers that were given before, by scale."""
    turned: dict[tuple[float, str, bool, bool], Ranges] = field(default_factory=dict)
    """Ranges found before, by scale, the joint asked for (empty: all), whether they are firm, and whether with gaps."""
    padded: dict[tuple[str, str, float], JointRange] = field(default_factory=dict)
    """Ranges with padding on any side, by joint, padded part and scale."""
    pulls: dict[float, CordMoves] = field(default_factory=dict)
    bodies: dict[str | float, tuple[Body, ...]] = field(default_factory=dict)
    """What cords did before, by scale; bodies made before, by copy and scale."""
    beside: dict[float, tuple[Body, ...]] = field(default_factory=dict)
    """Cords and padding as bodies, by scale: every joint asks for the same ones."""
    tipped: dict[float, Tip | None] = field(default_factory=dict)
    """What the tip did before, by scale."""

    def __getstate__(self) -> dict[str, object]:
        """Return what is kept of it elsewhere: solids of the modeller are made again, they cannot be written."""
        return {**vars(self), "bodies": {}, "beside": {}}

    def at(self, s: float) -> Moved:
        """Return what the mechanism does at a scale (a factor)."""
        if s not in self.known:
            self.known[s] = self._at(s)
        return self.known[s]

    def cords_at(self, s: float) -> CordMoves:
        """Return what every cord does at a scale, and what its pull does to pins and guides."""
        if s not in self.pulls:
            self.pulls[s] = cord_moves(self.job, self.solids, self.strung, s)
        return self.pulls[s]

    def tip_loads(self, load_n: float) -> tuple[CopyLoads, ...]:
        """Return what a load at the tip may do to every copy that its cord reaches, in the copy's mesh, as drawn."""
        return tip_loads(self.job, self.solids, self.mechanism.frames, self.strung, load_n)

    def untold_links(self, load_n: float) -> dict[str, str]:
        """Return the copies of closed loops whose pins may press them harder than is known, each with why."""
        return untold_by_cords(self.job, self.solids, self.mechanism, self.strung, load_n)

    def tips(self, load_n: float) -> CopyLoads:
        """Return a load at the tip of every copy that a cord drives, in its mesh, as drawn."""
        return tips(self.job, self.mechanism.frames, self.strung, load_n)

    def tip_at(self, s: float) -> Tip | None:
        """Return what play and knots do at the tip at a scale; None where no tip is known."""
        if s not in self.tipped:
            device = (self.job, self.surveys, self.claims, self.mechanism)
            self.tipped[s] = tip_of(*device, self.strung, self.downs, s, self.rooms)
        return self.tipped[s]

    def after(self, job: Job, downs: Mapping[str, Vec3]) -> Movement | None:
        """Return the movement of the same meshes in a changed job; None where nothing moves any more.

        A change keeps what does not hang on it: another grip turns nothing anew, nor does a drilled bore.
        """
        changed = {one.name for one in fields(Job) if getattr(job, one.name) != getattr(self.job, one.name)}
        if changed - {*PULLS, *PLAYS}:
            return movement_of(job, self.solids, self.surveys, claims_of(job, self.surveys).claims, downs)
        pulls = {} if changed & {*PULLS} else self.pulls
        found = replace(self, job=job, downs=downs, known={}, tipped={}, pulls=pulls)
        for name in ("ways", "strung", "rooms"):
            if name in vars(self):
                vars(found)[name] = vars(self)[name]
        return found

    def _at(self, s: float) -> Moved:
        """Ask for everything at a scale."""
        found = self._ranges(s)
        placed = self.mechanism.placed
        cords = self.cords_at(s)
        joints = tuple(
            replace(_joint(joint, found, s), play_mm=self._play_mm(joint, s)) for joint in self.mechanism.joints
        )
        return Moved(
            scale_percent=Scale.of_factor(s).percent,
            joints=(*joints, *_unsolved(self.mechanism)),
            cords=cords.cords,
            pins=cords.pins,
            tip=self.tip_at(s),
            unplaced=tuple((copy, placed.why.get(copy, "nothing says where it stands")) for copy in placed.unplaced),
            notes=(*self.mechanism.notes, *self.mirrored, *padding_bodies(self.job, self.solids, self.mechanism, s)[1]),
        )

    def _play_mm(self, joint: MovingJoint, s: float) -> tuple[float, float] | None:
        """Return a joint's own play at a scale, at worst and on nine of ten printers; None off the way to the tip."""
        if joint.name not in self.rooms:
            return None
        device = (self.job, self.surveys, self.claims, self.mechanism)
        found = joint_play(*device, joint, self.downs, s, self.rooms[joint.name])
        return None if found is None else (found.worst_mm, found.p90_mm)

    def range_at(self, name: str, s: float) -> JointRange:
        """Return how far one joint goes at a scale; what slides in mm at that size."""
        return at_size(self.mechanism.joint(name), self._ranges(s, name).of(name), s)

    def firm_range_at(self, name: str, s: float) -> JointRange:
        """Return how far one joint goes at a scale where what is soft gives way, without hardware that is a guess."""
        return at_size(self.mechanism.joint(name), self._ranges(s, name, firm=True).of(name), s)

    @property
    def together(self) -> tuple[tuple[Together, ...], tuple[Together, ...]]:
        """Joints that reach what they need one by one and meet when they go together: at the smallest size, at any."""
        return self._ranges_at(SMALL).together, self._ranges_at(LARGE, gaps=False).together

    def _ranges(self, s: float, name: str = "", *, firm: bool = False) -> Ranges:
        """Return the ranges at a scale: those of the smallest size where the largest has the same, too.

        Parts grow alike, so ranges change with size only where hardware is in the way, and then in one direction: what
        keeps its size takes less room the larger the device is.
        """
        small = self._ranges_at(SMALL, asked := name if firm else "", firm=firm, gaps=not firm)
        large = self._ranges_at(LARGE, asked, firm=firm, gaps=False)
        if SMALL <= s <= LARGE and _alike(small, large, name):
            return small
        return self._ranges_at(s, name, firm=firm, gaps=not name)

    def _ranges_at(self, s: float, name: str = "", *, firm: bool = False, gaps: bool = True) -> Ranges:
        """Return the ranges at a scale, of all joints or of one that is asked for, turned and met there.

        Between the smallest and the largest size, only what lies between the ends at those is gone over.
        """
        had = [(s, "", firm, True), (s, name, firm, gaps), *([] if gaps else [(s, "", firm, False)])]
        known = next((self.turned[one] for one in had if one in self.turned), None)
        if known is None:
            asked = name if firm else ""
            ends = ((SMALL, not firm), (LARGE, False)) if SMALL < s < LARGE else ()
            between = tuple(self._ranges_at(end, asked, firm=firm, gaps=gap) for end, gap in ends)
            if not firm and s not in self.beside:
                padding = padding_bodies(self.job, self.solids, self.mechanism, s)[0]
                self.beside[s] = (*cord_bodies(self.ways, self.mechanism, s), *padding)
            known = self.turned[s, name, firm, gaps] = ranges_of(
                self.job,
                self.solids,
                self.mechanism,
                factor=s,
                soft=() if firm else self.beside[s],
                only=name,
                at_once=s == SMALL and not firm,  # hardware is in the way most in a small device
                sure=firm,
                gaps=gaps,
                between=(between[0], between[1]) if between else None,
                known=self.bodies,
            )
        return known

    def lines_at(self, values: Mapping[str, float], s: float) -> dict[str, tuple[Vec3, ...]]:
        """Return the line of every cord by its name, at size with joints at given values."""
        frames = self.mechanism.frames_at(values)
        strung = {name: one for name, one in self.strung.items() if isinstance(one, StrungCord)}
        return {name: cord_line(one.stops, frames, s, one.cord.diameter_mm) for name, one in strung.items()}

    @cached_property
    def mirrored(self) -> tuple[str, ...]:
        """What must be kept in mind where the device is printed mirrored."""
        return mirrored_notes(self.job, self.solids)

    @cached_property
    def rooms(self) -> Mapping[str, FaceRoom]:
        """The room beside each joint on the way to the tip, by its name."""
        return rooms_of(self.job, self.solids, self.mechanism, self.strung)

    @cached_property
    def ways(self) -> Mapping[str, CordWay]:
        """The ways of all cords, by their names."""
        job, claims = self.job, tuple(self.claims)
        frames = self.mechanism.frames
        return cord_ways(Known(job=job, solids=self.solids, surveys=self.surveys, claims=claims, frames=frames))

    @cached_property
    def strung(self) -> Mapping[str, StrungCord | str]:
        """Every cord that has a path, by its name: on its joint, or the sentence why it is on none."""
        small = self._ranges_at(SMALL)
        free = {joint.name: small.of(joint.name).free_deg for joint in self.mechanism.joints}
        known = (self.job, self.solids, self.surveys, self.claims, self.mechanism, free, self.ways)
        found: dict[str, StrungCord | str] = dict(strung_cords(*known))
        for cord in self.job.cords:
            if cord.pulls and cord.name not in found:
                found[cord.name] = f"the path of {cord.name} is not stated: write its path"
        return found


def _alike(small: Ranges, large: Ranges, name: str = "") -> bool:
    """Return whether all ranges, or that of one joint, are the same at two sizes."""
    ends = zip(small.joints, large.joints, strict=True)
    return all(
        (a is None) == (b is None) and (a is None or b is None or abs(a - b) < SAME_DEG)
        for one, other in ends
        if name in ("", one.joint)
        for a, b in zip(one.free_deg, other.free_deg, strict=True)
    )


def movement_of(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Sequence[Claim],
    downs: Mapping[str, Vec3],
) -> Movement | None:
    """Return the movement of a device; None where nothing moves."""
    mechanism = mechanism_of(job, solids, surveys, claims)
    if mechanism is None:
        return None
    return Movement(job=job, solids=solids, surveys=surveys, claims=claims, downs=downs, mechanism=mechanism)


def _joint(joint: MovingJoint, ranges: Ranges, factor: float) -> JointMove:
    """Return one joint with its range; unknown where the drawn place or a mesh that may be in the way is."""
    found, grows = at_size(joint, ranges.of(joint.name), factor), factor if joint.kind == "slides" else 1.0
    unknown = ""
    if not joint.zero_known:
        unknown = "the drawn angle between its parts is not known: give one of them a [[place]]"
    elif ranges.untried:
        unknown = f"what is in the way is not known: the mesh of {listed(ranges.untried)} has faults"
    return JointMove(
        name=joint.name,
        parts=joint.parts,
        kind=joint.kind,
        axis=joint.axis,
        at_mm=joint.at_mm,
        free_deg=found.free_deg,
        stops=found.stops,
        needs_deg=None if joint.needs_deg is None else (joint.needs_deg[0] * grows, joint.needs_deg[1] * grows),
        rest_deg=(joint.rest_deg or 0.0) * grows,
        least_gap=found.least_gap,
        follows=found.follows,
        sunk=found.sunk,
        turns_too=joint.about is not None,
        unknown=unknown,
    )


def _unsolved(mechanism: Mechanism) -> list[JointMove]:
    """Return joints that are stated to move and could not be told: each is a hold."""
    return [
        JointMove(
            name=sentence.split(":")[0],
            parts=("", ""),
            kind="turns",
            axis=(0.0, 0.0, 1.0),
            at_mm=(0.0, 0.0, 0.0),
            free_deg=(None, None),
            stops=(),
            needs_deg=(0.0, 0.0),
            unknown=sentence,
        )
        for sentence in mechanism.unsolved
    ]
