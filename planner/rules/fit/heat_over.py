"""``heat.over``: whether a material keeps its shape in the hottest place where the device is kept."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Finding, Verdict
from planner.job import Environment, Job, Material, read_environments


@dataclass(frozen=True, slots=True, kw_only=True)
class Heat:
    """The hottest that a device gets: the high end of a place's range, or what the job states."""

    hottest_c: float
    where: str
    source: str


def hottest(job: Job) -> Heat | None:
    """Return the hottest that the device gets; None where nothing is stated.

    A hazard counts at its high end: a place that may reach 76 °C is a place of 76 °C. A stated temperature stands
    before the places.
    """
    if job.use.hottest_c is not None:
        return Heat(hottest_c=job.use.hottest_c, where="as the job states", source="job file")
    places = [
        Heat(hottest_c=place.hottest_c.high, where=f"at most ({place.about})", source=place.hottest_c.source)
        for place in job.use.kept
    ]
    return max(places, key=lambda heat: heat.hottest_c, default=None)


def _cooler_than_kept(job: Job, service_c: float) -> Environment | None:
    """Return the hottest stated place that contradicts a stated temperature, where the two answers differ.

    A place that is never as cool as the job states cannot be meant by it.
    """
    stated_c = job.use.hottest_c
    if stated_c is None or stated_c > service_c:
        return None
    hotter = [one for one in job.use.kept if one.hottest_c.low > stated_c and one.hottest_c.high > service_c]
    return max(hotter, key=lambda one: one.hottest_c.high, default=None)


def too_hot(job: Job, material: Material) -> bool:
    """Return whether the device gets hotter than its material is used at."""
    heat = hottest(job)
    return heat is not None and heat.hottest_c > material.service_c.value


def heat_finding(job: Job, material: Material) -> Finding:
    """Judge a material by heat: no-go over its service temperature; where no place is stated, a caution."""
    heat, service = hottest(job), material.service_c
    uses = f"{material.name} can be used up to {service.value:g} °C"
    if heat is None:
        car = read_environments()["car"].hottest_c
        hot = car.high > service.value
        return Finding(
            rule="heat.over",
            part="",
            feature=material.name,
            verdict=Verdict.GO,
            limit=service.value,
            unit="C",
            why=f"{uses}; the job does not say where the device is kept",
            source=service.source,
            caution=f"A parked car reaches {car.high:g} °C ({car.source}): too hot for {material.name}." if hot else "",
            question="Where is the device kept, and how hot does it get there?" if hot else "",
        )
    over = heat.hottest_c > service.value
    cooler = _cooler_than_kept(job, service.value)
    if cooler is not None:
        return Finding(
            rule="heat.over",
            part="",
            feature=material.name,
            verdict=Verdict.HOLD,
            measured=heat.hottest_c,
            limit=service.value,
            unit="C",
            why=f"{uses}; the job states {heat.hottest_c:g} °C, but {cooler.about}, where it is kept, too, reaches "
            f"{cooler.hottest_c.low:g} to {cooler.hottest_c.high:g} °C",
            remedy="correct hottest_c, or take the place out of kept",
            source=f"material: {service.source}; place: {cooler.hottest_c.source}",
            question=f"Is the device kept there ({cooler.about}), and how hot does it get?",
        )
    decides = not over and heat.hottest_c > service.low
    return Finding(
        rule="heat.over",
        part="",
        feature=material.name,
        verdict=Verdict.NO_GO if over else Verdict.GO,
        measured=heat.hottest_c,
        limit=service.value,
        unit="C",
        why=f"{uses}; the device reaches {heat.hottest_c:g} °C {heat.where}",
        remedy="another material, or another place to keep it" if over else "",
        source=f"material: {service.source}; place: {heat.source}",
        caution=f"Grades of {material.name} differ: {service.low:g} to {service.high:g} °C. Keep it out of the sun. Or "
        f"test a spare part before use: put a weight on it, warm it to {heat.hottest_c:g} °C, and see whether it stays "
        "straight."
        if decides
        else "",
    )
