"""Which bore belongs to which hardware: by the drawn diameter stated, or by the nearest that would serve."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache

from planner.assembly.bore_ends import SAME_SIZE_MM, ends_of
from planner.assembly.pilot_in_part import in_part
from planner.assembly.shared_bores import Contest, Shares, shared_out
from planner.assembly.slot_claim import SlotClaim, slots_by_width, slots_on_axis, wide_slot
from planner.finding import Finding, Guess, Verdict
from planner.job import BoreEnds, Fit, Hardware, Job, Limits
from planner.phrases import listed
from planner.survey import Bore, Slot, Survey

USUAL_FIT: dict[str, Fit] = {
    "binding-post": "turning",
    "dowel-pin": "held",
    "machine-screw": "sliding",
    "wood-screw": "pilot",
    "insert": "held",
    "bearing": "held",
}
"""Taken where the job states no fit; common practice, no source."""
SEATS = ("nut", "washer")
NO_BORE = (*SEATS, "belt")
KEPT_N = 64
"""So many answers are kept in memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """One bore of one part, claimed by one piece of hardware.

    ``or_else`` names the pieces of the same size that may go there instead: what the bore must be is known then, what
    is stacked on it is not.
    """

    part: str
    bore: Bore
    hardware: Hardware
    fit: Fit
    or_else: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Claims:
    """All claims of a job, what was missing, and what was guessed."""

    claims: tuple[Claim, ...]
    missing: tuple[Finding, ...]
    guesses: tuple[Guess, ...]
    asked: frozenset[tuple[str, str]] = frozenset()
    """Part and bore of what a finding in ``missing`` asks about and no claim names."""
    slots: tuple[SlotClaim, ...] = ()
    """What slides in a slot instead of a bore."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Asked:
    """A job with its surveys, which is another's equal where all that claims hang on is the same."""

    job: Job
    surveys: Mapping[str, Survey]

    @property
    def hangs_on(self) -> tuple[object, ...]:
        """All that is read of the job."""
        job = self.job
        counts = [(part.name, part.count) for part in job.parts]
        strapped = [strap.part for strap in job.straps]
        return job.hardware, counts, strapped, job.printer.undersize.upright_mm.value, job.limits, job.tables

    def __hash__(self) -> int:
        """Return a number that equals have in common."""
        stated = ((one.name, one.bore_mm, one.fit, one.count) for one in self.job.hardware)
        return hash((*stated, *(id(survey) for survey in self.surveys.values())))

    def __eq__(self, other: object) -> bool:
        """Return whether claims are the same: solids are surveyed once, so a survey is its own."""
        if not isinstance(other, _Asked) or self.surveys.keys() != other.surveys.keys():
            return False
        same = all(one is other.surveys[name] for name, one in self.surveys.items())
        return same and self.hangs_on == other.hangs_on


def claims_of(job: Job, surveys: Mapping[str, Survey]) -> Claims:
    """Match every piece of hardware that needs a bore with the bores of the parts it joins."""
    return _claims_of(_Asked(job=job, surveys=dict(surveys)))


@lru_cache(maxsize=KEPT_N)
def _claims_of(those: _Asked) -> Claims:
    """Match them: a remedy that is tried, or an answer, asks again about hardware that it leaves alone."""
    job, surveys = those.job, those.surveys
    wanted: dict[tuple[int, str], tuple[Bore, ...]] = {}
    fits: dict[tuple[int, str], Fit] = {}
    missing: list[Finding] = []
    guesses: list[Guess] = []
    for item, hardware in enumerate(job.hardware):
        if hardware.kind in NO_BORE:
            continue
        fit = hardware.fit or USUAL_FIT[hardware.kind]
        if hardware.fit is None:
            guesses.append(Guess(what=f"fit of {hardware.name}", value=fit, why=f"usual for a {hardware.kind}"))
        for part in hardware.joins:
            there = in_part(hardware, part)
            fits[item, part] = there.fit or fit
            bores, guess = matching(surveys[part], there, fits[item, part], job)
            wanted[item, part] = bores
            guesses += [guess] if guess else []
    slots = []
    for item, part, claim in list(slots_on_axis(job, surveys, wanted)):
        wanted[item, part] = ()
        slots.append(claim)
    slotted = {(claim.hardware.name, claim.part) for claim in slots}
    shares = shared_out(job, wanted)
    claims, asked, holds = _claims(job, shares, fits)
    for item, hardware in enumerate(job.hardware):
        for part in hardware.joins:
            if shares.taken.get((item, part), (None,)) or (hardware.name, part) in slotted:
                continue
            if any(part in one.joins and _ends_in(hardware, one) for one in job.hardware):
                continue
            by_width = slots_by_width(job, surveys[part], in_part(hardware, part))
            slots += [by_width] if by_width else []
            missing += [] if by_width else [_missing(in_part(hardware, part), part, surveys[part])]
    guesses += [
        Guess(what=f"{what} of {part}", value=job.hardware[item].name, why=why)
        for part, item, what, why in shares.reasons
    ]
    return Claims(
        claims=claims,
        missing=(*missing, *holds),
        guesses=tuple(dict.fromkeys(guesses)),
        asked=frozenset(asked),
        slots=tuple(slots),
    )


def _ends_in(hardware: Hardware, other: Hardware) -> bool:
    """Return whether a piece sits in another one, so that it needs no bore of its own there: a screw in an insert."""
    alike = abs(hardware.diameter_mm - other.diameter_mm) <= SAME_SIZE_MM
    return alike and hardware.kind == "machine-screw" and other.kind == "insert" and hardware.pilot_mm is None


def _claims(
    job: Job, shares: Shares, fits: Mapping[tuple[int, str], Fit]
) -> tuple[tuple[Claim, ...], set[tuple[str, str]], list[Finding]]:
    """Return one claim a bore, the bores that none names, and a question for each contest.

    Where all pieces that contend for a bore need the same one, the first stands for them.
    """
    claims: list[Claim] = []
    asked: set[tuple[str, str]] = set()
    open_to = {(c.part, bore.id): c.items for c in shares.contests for bore in c.bores}
    claimed: set[tuple[str, str]] = set()
    for (item, part), bores in shares.taken.items():
        hardware = job.hardware[item]
        for bore in bores:
            items = open_to.get((part, bore.id), (item,))
            if (
                len(items) > 1
                and len({(job.hardware[i].kind, job.hardware[i].diameter_mm, fits[i, part]) for i in items}) > 1
            ):
                asked.add((part, bore.id))
            elif (part, bore.id) not in claimed:
                claimed.add((part, bore.id))
                others = tuple(job.hardware[i].name for i in items if i != item)
                claims.append(Claim(part=part, bore=bore, hardware=hardware, fit=fits[item, part], or_else=others))
    return tuple(claims), asked, [_contest(job, contest) for contest in shares.contests]


def _contest(job: Job, contest: Contest) -> Finding:
    """Ask which piece of hardware goes where."""
    named = [job.hardware[item].name for item in contest.items]
    names, ids = listed(named, "or"), listed(bore.id for bore in contest.bores)
    size = contest.bores[0].drawn_diameter_mm
    return Finding(
        rule="bore.shared",
        part=contest.part,
        feature=f"bores of {size:.2f} mm",
        verdict=Verdict.HOLD,
        measured=float(len(contest.bores)),
        unit="bores",
        at_mm=contest.bores[0].centre_mm,
        why=f"{ids} of {contest.part}, {size:.2f} mm, may take {names}: neither axes nor stated numbers tell which",
        remedy="state the parts that each joins and how many there are, or give each its own bore_mm",
        source="job file against the survey of the meshes",
        question=f"Which bores of {contest.part} take {named[0]}, and which {listed(named[1:])}?",
    )


def matching(survey: Survey, hardware: Hardware, fit: Fit, job: Job) -> tuple[tuple[Bore, ...], Guess | None]:
    """Return the bores of one part that a piece of hardware goes through, and the guess that was needed."""
    if hardware.bore_mm is not None:
        return bores_near(survey, hardware.bore_mm, job.limits, hardware.bores), None
    ends = ends_of(hardware, fit, job.limits, job.tables)
    if ends is None or not survey.bores:
        return (), None
    middle = (ends[0] + ends[1]) / 2 + job.printer.undersize.upright_mm.value
    nearest = min(survey.bores, key=lambda bore: abs(bore.named_mm - middle))
    if abs(nearest.named_mm - middle) > 0.25 * middle:
        return (), None
    guess = Guess(
        what=f"bore of {hardware.name} in {survey.name}",
        value=f"{nearest.named_mm:.2f} mm",
        why="bore_mm is not stated; nearest to what the hardware needs",
    )
    return bores_near(survey, nearest.named_mm, job.limits, hardware.bores), guess


def bores_near(survey: Survey, drawn_mm: float, limits: Limits, ends: BoreEnds | None = None) -> tuple[Bore, ...]:
    """Return the bores whose drawn diameter lies within the matching share (4 %) of one stated."""
    return tuple(bore for bore in survey.bores if _meant(bore, ends) and same_size(bore, [drawn_mm], limits))


def stays_open(job: Job, part: str, bore: Bore, *, stated: bool = False) -> bool:
    """Return whether the job says that nothing goes through a bore; where ``stated``, no guess of that kind counts."""
    open_ones = (one for one in job.left_open if part in one.parts and not (stated and one.guessed))
    return any(_meant(bore, one.bores) and same_size(bore, [one.bore_mm], job.limits) for one in open_ones)


def _meant(bore: Bore, ends: BoreEnds | None) -> bool:
    """Return whether through or blind bores, or both, are meant, and a bore is one of them."""
    return ends is None or bore.through is (ends == "through")


def same_size(bore: Bore, drawn_mm: Iterable[float | None], limits: Limits) -> bool:
    """Return whether a bore's drawn diameter lies within the matching share (4 %) of one of those stated."""
    share = limits.bore_match_percent.value / 100.0
    return any(mm is not None and abs(bore.named_mm - mm) <= share * mm + 1e-9 for mm in drawn_mm)


def _missing(hardware: Hardware, part: str, survey: Survey) -> Finding:
    """Say that a part has no bore for its hardware, and what it has instead: other bores, or a slot that takes it."""
    wanted = hardware.bore_mm or hardware.diameter_mm
    slot = wide_slot(survey, hardware)
    if slot is not None:
        return _in_slot(hardware, part, slot)
    have = [bore.drawn_diameter_mm for bore in survey.bores + survey.possible_bores]
    near = min(have, key=lambda d: abs(d - wanted), default=None)
    told = f"its nearest is {near:.2f} mm, {100 * near / wanted:.1f} % of it" if near else "it has none"
    scaled = near is not None and 0.5 < near / wanted < 2.0
    return Finding(
        rule="bore.missing",
        part=part,
        feature=hardware.name,
        verdict=Verdict.HOLD,
        measured=near,
        limit=wanted,
        unit="mm",
        why=f"{hardware.name} needs a bore of {wanted:g} mm (within 4 %) in {part}: {told}",
        remedy="state the bore as drawn (bore_mm)"
        + (f", or is {part} drawn at another scale than the rest?" if scaled else ""),
        source="survey of the mesh",
        question=f"Is {part} drawn at the same size as the other parts, and which of its bores takes {hardware.name}?",
    )


def _in_slot(hardware: Hardware, part: str, slot: Slot) -> Finding:
    """Say that a slot would take the hardware as drawn: nothing shows that it is meant for it."""
    has = f"a slot {slot.width_mm:.2f} mm wide as drawn"
    return Finding(
        rule="bore.missing",
        part=part,
        feature=hardware.name,
        verdict=Verdict.HOLD,
        measured=slot.width_mm,
        limit=hardware.diameter_mm,
        unit="mm",
        why=f"{hardware.name} of {hardware.diameter_mm:g} mm has no bore in {part}, but {has}",
        remedy="draw the meshes in place, or state a [[place]] for each: the axis then shows whether it slides there",
        source="survey of the mesh",
        question=f"Does {hardware.name} slide in the slot of {part}?",
    )
