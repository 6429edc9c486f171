"""The way of the next cord of a kind: through the next copies of the parts that have some, and mirrored in the others.

A job writes one way for all cords of a table. The others lie likewise: the distances between any two of their stops are
those of the first, as in a mirror or after a turn.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from planner.assembly import Claim
from planner.finding import Vec3
from planner.job import Cord, Job, PathPoint, copy_name, part_of
from planner.mechanism.cord.path.channel_lines import channel_lines
from planner.mechanism.cord.path.path_stop import LineStop, PathStop, PointStop, WrapStop
from planner.mechanism.cord.path.resolve_path import stop_of
from planner.mechanism.places.frame import Frame
from planner.mesh import Solid
from planner.survey import Survey

LIKE_MM, LIKE_SHARE = 1.0, 0.05
"""Distances between stops may differ by this, and by this share of the first way's: a part that is turned over brings
its middle to another height. Common practice, no source."""
SYMMETRIC_SHARE = 0.05
"""A part is its own mirror image where no more than this share of it lies outside."""
KEPT_MOST = 64
"""Ways that are followed from stop to stop, the likest first."""

Way = tuple[PathStop, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Known:
    """What is known of a device: the job, its parts as drawn, what lies in their bores, and where copies stand."""

    job: Job
    solids: Mapping[str, Solid]
    surveys: Mapping[str, Survey]
    claims: tuple[Claim, ...]
    frames: Mapping[str, Frame]


def next_ways(known: Known, cord: Cord, first: Way) -> list[Way | str]:
    """Return the ways of all cords of a table after its first, or for each the sentence why it is not found.

    A cord on whose way no part has another copy lies beside the first, and has no way of its own; so does an elastic
    from copy to copy of a part that has no more.
    """
    if cord.kind == "elastic" and not _has_more(known, first):
        return []
    ways: list[Way] = [first]
    found: list[Way | str] = []
    copies = [known.job.part(part_of(stop.copy)).count for stop in first if _repeats(known, stop)]
    for number in range(2, min(cord.count, max(copies, default=1)) + 1):
        way = _next(known, cord, ways, number)
        found.append(way)
        if not isinstance(way, str):
            ways.append(way)
    return found


def _has_more(known: Known, first: Way) -> bool:
    """Return whether a part on a way has copies that are not on it."""
    on_way = {stop.copy for stop in first}
    return any(
        known.job.part(part_of(stop.copy)).count > sum(part_of(copy) == part_of(stop.copy) for copy in on_way)
        for stop in first
    )


def _repeats(known: Known, stop: PathStop) -> bool:
    """Return whether a stop belongs to the first of several copies, and so stands for all of them."""
    return "#" not in stop.copy and known.job.part(stop.copy).count > 1


def _next(known: Known, cord: Cord, ways: Sequence[Way], number: int) -> Way | str:
    """Return the way that is most like the first and uses nothing of the others."""
    name, first = copy_name(cord.name, number), ways[0]
    cure = "give every cord a [[cord]] of its own, with its path and count = 1"
    kept: list[tuple[float, Way]] = [(0.0, ())]
    for place in range(len(first)):
        options = list(_options(known, cord, ways, place))
        if not options:
            away = copy_name(part_of(first[place].copy), number)
            return f"the way of {name} is not known: the place of {away} is not; {cure}"
        grown = [(_off(known, first, (*way, stop), off), (*way, stop)) for off, way in kept for stop in options]
        kept = sorted(grown, key=lambda one: one[0])[:KEPT_MOST]
    off, way = kept[0]
    if off > 1.0:
        return f"the way of {name} is not known: no other copies and features lie as those of the first do; {cure}"
    return way


def _off(known: Known, first: Way, way: Way, before: float) -> float:
    """Return how unlike a way is to the first as far as it goes: 1 where a distance differs by all that it may."""
    here, last = len(way) - 1, way[-1]
    off = [before]
    for k in range(here):
        mine, theirs = (math.dist(_middle(known, one[k]), _middle(known, one[here])) for one in (way, first))
        off.append(abs(mine - theirs) / max(LIKE_MM, LIKE_SHARE * theirs))
    mine, theirs = _long_mm(last), _long_mm(first[here])
    off.append(abs(mine - theirs) / max(LIKE_MM, LIKE_SHARE * theirs))
    return max(off)


def _middle(known: Known, stop: PathStop) -> Vec3:
    """Return the middle of a stop in the device's frame as drawn."""
    frame = known.frames[stop.copy]
    if isinstance(stop, PointStop):
        return frame.point(stop.at_mm)
    if isinstance(stop, WrapStop):
        return frame.point(stop.centre_mm)
    (a, b, c), (x, y, z) = (frame.point(stop.line_mm[k]) for k in (0, -1))
    return (a + x) / 2, (b + y) / 2, (c + z) / 2


def _long_mm(stop: PathStop) -> float:
    """Return how long a channel is from mouth to mouth, or how wide a wrap."""
    if isinstance(stop, LineStop):
        return math.dist(stop.line_mm[0], stop.line_mm[-1])
    return stop.drawn_mm + stop.bought_mm if isinstance(stop, WrapStop) else 0.0


def _options(known: Known, cord: Cord, ways: Sequence[Way], place: int) -> Iterator[PathStop]:
    """Yield what another cord may have at a place of its way instead of what the first has there."""
    stop = ways[0][place]
    if _repeats(known, stop):
        used = {way[place].copy for way in ways}
        for n in range(2, known.job.part(stop.copy).count + 1):
            copy = copy_name(stop.copy, n)
            if copy not in used and copy in known.frames:
                yield replace(stop, copy=copy)
        return
    own = list(_of_part(known, cord, stop))
    taken = [way[place] for way in ways] if isinstance(stop, LineStop) else []
    yield from [one for one in own if _place(one) not in [_place(each) for each in taken]] or [stop]
    if not isinstance(stop, LineStop):
        yield stop


def _place(stop: PathStop) -> tuple[Vec3, ...]:
    """Return where a stop lies in its mesh, whichever way it is run through."""
    if isinstance(stop, LineStop):
        return tuple(sorted((stop.line_mm[0], stop.line_mm[-1])))
    return (stop.at_mm if isinstance(stop, PointStop) else stop.centre_mm,)


def _of_part(known: Known, cord: Cord, stop: PathStop) -> Iterator[PathStop]:
    """Yield the other places of a part that a cord may pass as it passes one."""
    part = part_of(stop.copy)
    if isinstance(stop, PointStop):
        for named in known.job.points:
            if named.part == part and named.at_mm != stop.at_mm:
                yield PointStop(copy=stop.copy, at_mm=named.at_mm, said=f"{stop.copy}:{named.name}")
        yield from (replace(stop, at_mm=at) for at in _mirrored(known.solids[part], stop.at_mm))
    elif isinstance(stop, LineStop):
        for n, line in enumerate(channel_lines(known.job, cord, known.surveys[part], known.claims), start=1):
            yield replace(stop, line_mm=line.line_mm, bends_deg=line.bends_deg, said=f"{stop.copy}:ch{n}")
    else:
        for bore in known.surveys[part].bores:
            point = PathPoint(copy=stop.copy, feature=bore.id)
            other = stop_of(known.job, known.solids, known.surveys, known.claims, cord, point)
            if isinstance(other, WrapStop) and other.centre_mm != stop.centre_mm:
                yield other


def _mirrored(solid: Solid, at_mm: Vec3) -> Iterable[Vec3]:
    """Yield the mirror images of a point in the middle planes of its part that the part is symmetric about."""
    shape = solid.manifold
    if shape is None:
        return
    box = shape.bounding_box()
    for axis in range(3):
        way: list[float] = [float(axis == k) for k in range(3)]
        middle = (box[axis] + box[axis + 3]) / 2
        shift: list[float] = [2.0 * middle * one for one in way]
        other = shape.mirror((way[0], way[1], way[2])).translate((shift[0], shift[1], shift[2]))
        if (shape - other).volume() <= SYMMETRIC_SHARE * shape.volume():
            x, y, z = (2.0 * middle - v if k == axis else v for k, v in enumerate(at_mm))
            yield x, y, z
