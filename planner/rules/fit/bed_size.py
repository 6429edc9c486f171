"""The bed: a part must lie on it in its pose, turned to fit best, inside the margins."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from planner.digits import percent_or_less, told_apart
from planner.finding import Evidence, Finding, Vec3, Verdict
from planner.job import PRINTER_ASKED, PRINTER_QUESTION, Bed, Printer, fit_printers
from planner.pose import bed_room
from planner.rules.fit.part_case import PartCase
from planner.rules.rule import LAST_DIGITS, Rule, positive


@dataclass(frozen=True, slots=True, kw_only=True)
class BedOver:
    """``bed.over``: outline turned to fit best and height, against the bed less margins.

    ``flat_most`` and ``tall_most`` are the largest scales that the outline and the height allow. ``flat_open`` is
    where it is sure that the outline does not fit: more than ``flat_most`` only where zones or notches of the bed
    leave it open whether it may lie past them. ``own`` is the same for the printers before, where this bed is that of
    another one, ``printer``, that takes more.
    """

    part: str
    flat_most: float
    flat_open: float
    turn_deg: float
    tall_most: float
    height_mm: float
    bed: Bed
    other_pose: str
    printer: str = ""
    own: BedOver | None = None
    guessed: str = ""
    """The printer that is taken because nobody stated one; empty where one is stated."""
    rule: str = "bed.over"
    feature: str = "bed"

    @property
    def most(self) -> float:
        """The largest scale that fits."""
        return min(self.flat_most, self.tall_most)

    def at(self, s: float) -> Finding:
        """Judge the part's size at a scale; measured is the share of the usable bed it takes, in percent."""
        if self.own is not None and _takes(s, self.own.most):
            return self.own.at(s)
        verdict = Verdict.GO if _takes(s, self.most) else Verdict.NO_GO
        if verdict == Verdict.NO_GO and _takes(s, min(self.flat_open, self.tall_most)):
            verdict = Verdict.HOLD
        binding = "height" if self.tall_most < self.flat_most else "outline"
        turned = "" if binding == "height" else "turned to fit best, "
        room = _room(self.bed) if turned else f"{self.bed.height_mm:g} mm of height"
        share, _ = told_apart(100.0 * s / self.most, 100.0, 1)
        told = f"{turned}its {binding} takes {share} % of the {room}"
        told += f" of {self.printer}: it is too large for the job's own printer" if self.own is not None else ""
        remedy = f"use a larger bed{self.other_pose}"
        remedy += f"; in this pose the part by itself fits up to {percent_or_less(100.0 * self.most)} %"
        if verdict == Verdict.HOLD:
            told += "; whether it fits beside the zones that stay clear is not judged here"
            remedy += "; or plan the job and lift this hold where the part lies on a plate"
        asked = self.guessed if verdict == Verdict.NO_GO else ""
        if asked:
            verdict = Verdict.HOLD
            told += f" of {asked}, and nobody has stated the printer"
            remedy = f"if it is printed on {asked}: {remedy}. State the printer first"
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=verdict,
            measured=100.0 * s / self.most,
            limit=100.0,
            unit="%",
            why=told,
            remedy="" if verdict == Verdict.GO else remedy,
            source="geometry: rotating calipers on the convex hull",
            caution=f"print it on {self.printer}; check judges its bores by the job's own printer, plan by this one"
            if self.own is not None and verdict == Verdict.GO
            else "",
            evidence=Evidence.GUESSED if asked else Evidence.MEASURED,
            question=PRINTER_QUESTION if asked else "",
            question_id=PRINTER_ASKED if asked else "",
        )

    def turns(self) -> tuple[float, ...]:
        """Return the largest scale that fits, and where it is sure that none larger does."""
        turns = positive(self.most, min(self.flat_open, self.tall_most))
        return turns if self.own is None else (*self.own.turns(), *turns)


def _takes(s: float, most: float) -> bool:
    """Return whether a bed takes a scale, where ``most`` is the largest."""
    return s <= most + LAST_DIGITS


def bed_rules(case: PartCase) -> list[Rule]:
    """Bind the rule to a part, for all printers that may run its plates."""
    poses = tuple(pose.down for pose in case.sized.poses)
    found = bed_over_any(case.part.name, case.sized.hull_mm, case.down, poses, fit_printers(case.job))
    return [replace(found, guessed=case.job.printer.name) if "printer" in case.job.guessed_keys else found]


def bed_over(part: str, hull_mm: NDArray[np.float64], down: Vec3, poses: tuple[Vec3, ...], bed: Bed) -> BedOver:
    """Bind the rule for one part in its pose; ``poses`` are the others, to name one that fits better."""
    room = bed_room(hull_mm, down, bed)
    best = max((bed_room(hull_mm, pose, bed).most for pose in poses), default=0.0)
    other = (
        f", or lay it another way (there it fits by itself up to {percent_or_less(100.0 * best)} %)"
        if best > 1.001 * room.most
        else ""
    )
    return BedOver(
        part=part,
        flat_most=room.flat_most,
        flat_open=room.flat_open,
        turn_deg=room.turn_deg,
        tall_most=room.tall_most,
        height_mm=room.height_mm,
        bed=bed,
        other_pose=other,
    )


def bed_over_any(
    part: str, hull_mm: NDArray[np.float64], down: Vec3, poses: tuple[Vec3, ...], printers: Sequence[Printer]
) -> BedOver:
    """Bind the rule for one part on several printers: the first whose bed takes it governs, the own before all."""
    found = bed_over(part, hull_mm, down, poses, printers[0].bed)
    for printer in printers[1:]:
        more = bed_over(part, hull_mm, down, poses, printer.bed)
        if more.most > found.most:
            found = replace(more, printer=printer.name, own=found)
    return found


def _room(bed: Bed) -> str:
    """Name the room of a bed."""
    width, depth = bed.usable_mm
    names = {
        "rectangle": f"{width:g} x {depth:g} mm bed",
        "circle": f"{width:g} mm round bed",
        "polygon": f"bed of {len(bed.outline_mm)} corners",
    }
    return names[bed.shape] + (" outside its zones" if bed.zones_mm else "")
