"""A cord's path as a job writes it, turned into points, channels and wraps; or one sentence that says why not."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from planner.assembly import Claim
from planner.errors import nearest
from planner.job import Cord, Job, PathPoint, number_of, part_of
from planner.mechanism.cord.path.channel_lines import channel_lines
from planner.mechanism.cord.path.path_stop import LineStop, PathStop, PointStop, WrapStop
from planner.mechanism.cord.path.round_outside import seat_of
from planner.mesh import Solid
from planner.survey import Bore, Survey

CHANNEL = re.compile(r"ch([1-9][0-9]*)")
BORE = re.compile(r"b[1-9][0-9]*")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measured:
    """What is known of a job's parts."""

    job: Job
    cord: Cord
    solids: Mapping[str, Solid]
    surveys: Mapping[str, Survey]
    claims: tuple[Claim, ...]


def resolve_path(
    job: Job, solids: Mapping[str, Solid], surveys: Mapping[str, Survey], claims: Iterable[Claim], cord: Cord
) -> tuple[PathStop, ...] | str:
    """Return the stops of a cord's path, or one sentence why there are none.

    ``chN`` is the part's Nth channel (see :func:`channel_lines`), ``bN`` is gone round: the part's own round outside
    about that bore, such as a pulley's groove, else the hardware in it; any other word is a ``[[point]]`` of the part.
    A wrap named twice in a row is one that the cord crosses itself at.
    """
    if not cord.path:
        return f"the path of {cord.name} is not stated: write its path"
    known = _Measured(job=job, cord=cord, solids=solids, surveys=surveys, claims=tuple(claims))
    stops: list[PathStop] = []
    for point in cord.path:
        stop = _stop(known, point)
        if isinstance(stop, str):
            return f"the path of {cord.name} cannot be followed: {stop}"
        before = stops[-1] if stops else None
        if isinstance(stop, WrapStop) and stop == before:
            stops[-1] = replace(stop, loop=True)
        else:
            stops.append(stop)
    return tuple(stops)


def stop_of(
    job: Job,
    solids: Mapping[str, Solid],
    surveys: Mapping[str, Survey],
    claims: Iterable[Claim],
    cord: Cord,
    point: PathPoint,
) -> PathStop | str:
    """Return one place of a cord's path, or what is wrong with it."""
    return _stop(_Measured(job=job, cord=cord, solids=solids, surveys=surveys, claims=tuple(claims)), point)


def _stop(known: _Measured, point: PathPoint) -> PathStop | str:
    """Return one place of the path, or what is wrong with it."""
    part, names = part_of(point.copy), [one.name for one in known.job.parts]
    if part not in names or part not in known.surveys:
        return f"no part is called '{part}'; {nearest(part, names)}"
    if number_of(point.copy) > known.job.part(part).count:
        return f"{point.copy} is named, but the device has {known.job.part(part).count} of {part}"
    if point.at_mm is not None:
        return PointStop(copy=point.copy, at_mm=point.at_mm, said=f"{point.copy}:{list(point.at_mm)}")
    said = f"{point.copy}:{point.feature}"
    for named in known.job.points:
        if named.part == part and named.name == point.feature:
            return PointStop(copy=point.copy, at_mm=named.at_mm, said=said)
    channel = CHANNEL.fullmatch(point.feature)
    if channel:
        return _channel(known, point.copy, int(channel[1]), said)
    if BORE.fullmatch(point.feature):
        return _wrap(known, point.copy, point.feature, said)
    own = [one.name for one in known.job.points if one.part == part]
    bores = [bore.id for bore in known.surveys[part].bores]
    return f"{part} has no point or feature '{point.feature}'; {nearest(point.feature, [*own, *bores, 'ch1'])}"


def _channel(known: _Measured, copy: str, number: int, said: str) -> PathStop | str:
    """Return a channel of a copy."""
    survey = known.surveys[part_of(copy)]
    lines = channel_lines(known.job, known.cord, survey, known.claims)
    if number > len(lines):
        has = {0: "no channel", 1: "one channel"}.get(len(lines), f"{len(lines)} channels")
        return f"{survey.name} has {has} for a cord of {known.cord.diameter_mm:g} mm, and {said} is not among them"
    line = lines[number - 1]
    return LineStop(copy=copy, line_mm=line.line_mm, bends_deg=line.bends_deg, said=said)


def _wrap(known: _Measured, copy: str, bore_id: str, said: str) -> PathStop | str:
    """Return what a cord goes round at a bore of a copy."""
    part = part_of(copy)
    bores = known.surveys[part].bores
    bore = next((one for one in bores if one.id == bore_id), None)
    if bore is None:
        return f"{part} has no bore {bore_id}; {nearest(bore_id, [one.id for one in bores])}"
    claim = next((one for one in known.claims if one.part == part and one.bore.id == bore_id), None)
    seat = seat_of(known.solids[part], bore, known.cord.diameter_mm)
    if seat is not None:
        axle = claim.hardware.seated_mm / 2 if claim is not None and claim.fit == "turning" else None
        return WrapStop(
            copy=copy, axis=bore.axis, centre_mm=seat.centre_mm, drawn_mm=seat.radius_mm, axle_mm=axle, said=said
        )
    if claim is None:
        return f"nothing is known to lie in {bore_id} of {part}, and {part} is not round about it"
    return _post(copy, bore, claim.hardware.seated_mm / 2, said)


def _post(copy: str, bore: Bore, radius_mm: float, said: str) -> PathStop:
    """Return the hardware in a bore: smooth, so that the cord may slide along it."""
    return WrapStop(copy=copy, axis=bore.axis, centre_mm=bore.centre_mm, bought_mm=radius_mm, slides=True, said=said)
