"""Which parts are drawn in place: meshes that share a frame, told by what joins them and by their not overlapping."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import networkx as nx
import numpy as np
from manifold3d import Manifold
from trimesh.geometry import align_vectors

from planner.assembly.bore_axes import coaxial
from planner.assembly.claim import Claim
from planner.assembly.pegs.pegs_in_bores import TIGHTER_MOST_MM
from planner.finding import Vec3
from planner.job import Job, Part
from planner.mesh import Solid
from planner.phrases import listed
from planner.survey import Bore

NEAR_MM = 1.0
"""Parts that a joint or a running gap ties are drawn in place where they come as near as this."""
APART_MM = 5.0
"""Parts that hardware ties, as far as a washer or a spacer may keep them apart."""
PAIR_N = 2
FILLED_SHARE, SIDES_N = 0.5, 48
"""A pin in its bore fills more of it than this: 0.7 of its diameter."""
TURNED_DEG, ROUND_SHARE = 37.0, 0.97
"""What shares so much with itself turned by this is round; a pin of eight sides is not."""
OVERLAP_SHARE = 0.005
"""Two bodies cannot be in one place: more of the smaller one inside the other, and they are not drawn in place."""


def drawn_in_place(job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim]) -> tuple[frozenset[str], ...]:
    """Return the groups of parts, two or more in each, whose meshes stand to each other as they do in the device.

    A part stands in one place only where there is one copy of it, and only at the job's own scale. Most parts are
    drawn round their own origin and overlap there: they are in no group, and nothing is claimed of them. What is
    printed as a pin ties all parts that it lies in as drawn; a press fit may be drawn tight.
    """
    single = {p.name for p in job.parts if p.count == 1 and _follows(p) and solids[p.name].manifold is not None}
    graph: nx.Graph[str] = nx.Graph()
    for one, other, most_mm in (*ties(job, claims), *rings(job, solids, claims)):
        if one in single and other in single and _beside(solids[one], solids[other], most_mm):
            graph.add_edge(one, other)
    pinned: dict[frozenset[str], float] = {}
    for pin, part, share in _pins(job, solids, claims):
        if pin in single and part in single and not _overlap(solids[pin], solids[part], share):
            graph.add_edge(pin, part)
            pinned[frozenset((pin, part))] = share
    groups = (frozenset(group) for group in nx.connected_components(graph))
    return tuple(
        group
        for group in groups
        if not any(
            _overlap(solids[a], solids[b], pinned.get(frozenset((a, b)), OVERLAP_SHARE))
            for a, b in combinations(sorted(group), 2)
        )
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnOverlap:
    """Two parts that something ties, and that stand in each other as drawn: how much they share, and where."""

    parts: tuple[str, str]
    mm3: float
    at_mm: Vec3

    @property
    def told(self) -> str:
        """The same in words."""
        where = ", ".join(f"{value:.1f}" for value in self.at_mm)
        return f"{listed(self.parts)} overlap by {self.mm3:.0f} mm³ as drawn (at [{where}])"


def overlap_as_drawn(
    job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim], names: Collection[str]
) -> DrawnOverlap | None:
    """Return the greatest overlap that keeps some parts, by their first copies, from counting as drawn in place.

    Of the parts that what joins them ties to these, as drawn on one axis or near: None where no two overlap.
    """
    whole = {p.name for p in job.parts if _follows(p) and solids[p.name].manifold is not None}
    graph: nx.Graph[str] = nx.Graph()
    graph.add_nodes_from(whole)
    for one, other, most_mm in (*ties(job, claims), *rings(job, solids, claims)):
        if one in whole and other in whole and near(solids[one], solids[other], most_mm):
            graph.add_edge(one, other)
    groups = [group for group in nx.connected_components(graph) if group & set(names)]
    pairs = [pair for group in groups for pair in combinations(sorted(group), 2)]
    found = [_drawn_overlap(*pair, solids) for pair in pairs if _overlap(solids[pair[0]], solids[pair[1]])]
    return max(found, key=lambda one: one.mm3, default=None)


def _drawn_overlap(one: str, other: str, solids: Mapping[str, Solid]) -> DrawnOverlap:
    """Return what two bodies share as drawn, in the middle of its greatest piece."""
    mine, theirs = solids[one].manifold, solids[other].manifold
    assert mine is not None
    assert theirs is not None
    shared = mine ^ theirs
    low_high = max(shared.decompose(), key=lambda piece: float(piece.volume())).bounding_box()
    x, y, z = ((low_high[k] + low_high[k + 3]) / 2.0 for k in range(3))
    return DrawnOverlap(parts=(one, other), mm3=float(shared.volume()), at_mm=(x, y, z))


def _follows(part: Part) -> bool:
    """Return whether a part is at the job's scale."""
    return part.scale_percent is None


def ties(job: Job, claims: Sequence[Claim]) -> Iterator[tuple[str, str, float]]:
    """Yield every two parts that something ties, and how near they must be then.

    Of two parts every bore of the one that has fewer must lie in line; of a chain of links, each to the next, one.
    """
    for hardware in job.hardware:
        mine = [claim for claim in claims if claim.hardware.name == hardware.name]
        enough = any if len(hardware.joins) > PAIR_N else all
        for one, other in combinations(hardware.joins, 2):
            few, many = sorted(([c.bore for c in mine if c.part == name] for name in (one, other)), key=len)
            if few and enough([any(coaxial(bore, each) for each in many) for bore in few]):
                yield one, other, APART_MM
    for pair in [*(joint.between for joint in job.joints), *(gap.between for gap in job.gaps)]:
        yield *pair, NEAR_MM


def rings(job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim]) -> Iterator[tuple[str, str, float]]:
    """Yield every part with a seat for a bearing, the part whose round shaft lies in it, and how far off that is."""
    for claim in (claim for claim in claims if claim.hardware.kind == "bearing"):
        hole = replace(claim.bore, diameter_mm=claim.hardware.diameter_mm)
        for part in job.parts:
            if part.name != claim.part and fills(solids[part.name].manifold, hole, round_only=True):
                yield claim.part, part.name, claim.bore.diameter_mm / 2


def _pins(job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim]) -> Iterator[tuple[str, str, float]]:
    """Yield every printed pin with each part that it lies in as drawn, and how much of it a press fit may take."""
    for hardware in job.hardware:
        pin = hardware.printed
        mine = [claim for claim in claims if pin and claim.hardware.name == hardware.name]
        for part in dict.fromkeys(claim.part for claim in mine):
            if any(fills(solids[pin].manifold, claim.bore) for claim in mine if claim.part == part):
                yield pin, part, 2.0 * TIGHTER_MOST_MM / hardware.diameter_mm


def fills(body: Manifold | None, bore: Bore, *, round_only: bool = False) -> bool:
    """Return whether a body, as drawn, fills half of a bore or more; where ``round_only``, as a round shaft does."""
    if body is None:
        return False
    turn = np.asarray(align_vectors(bore.axis, (0.0, 0.0, 1.0)))[:3, :3]  # type: ignore[no-untyped-call]
    frame = np.column_stack([turn, -turn @ np.asarray(bore.centre_mm)])
    r, long = bore.diameter_mm / 2, bore.depth_mm
    room = Manifold.cylinder(long, r, r, SIDES_N).translate((0.0, 0.0, -long / 2))
    inside = body.transform(frame) ^ room
    filled = float(inside.volume())
    if filled < FILLED_SHARE * float(room.volume()):
        return False
    return not round_only or float((inside ^ inside.rotate((0.0, 0.0, TURNED_DEG))).volume()) >= ROUND_SHARE * filled


def _beside(one: Solid, other: Solid, most_mm: float) -> bool:
    """Return whether two bodies come near and do not overlap."""
    return not _overlap(one, other) and near(one, other, most_mm)


def near(one: Solid, other: Solid, most_mm: float) -> bool:
    """Return whether two bodies come near, or stand in each other."""
    if one.manifold is None or other.manifold is None:
        return False
    return float(one.manifold.min_gap(other.manifold, most_mm + 1.0)) <= most_mm


def _overlap(one: Solid, other: Solid, most_share: float = OVERLAP_SHARE) -> bool:
    """Return whether more of the smaller body than a press fit takes lies in the other."""
    if one.manifold is None or other.manifold is None:
        return True
    shared = float((one.manifold ^ other.manifold).volume())
    return shared > most_share * min(float(one.manifold.volume()), float(other.manifold.volume()))
