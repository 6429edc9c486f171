"""What is shown of a loaded part: shares on its faces, its weakest places and section, and how it bends."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from planner.cache import kept, key_of
from planner.finding import Finding
from planner.output.strength_view.bend_fit import BendFit, bend_fit, exaggeration
from planner.output.strength_view.face_values import PAINT_VERSION, Painted, painted
from planner.output.words.strength_words import bend_words, colour_words, load_words
from planner.plan import Plan, PlannedPart, strengths
from planner.scale import Scale
from planner.strength import (
    BEAM_VERSION,
    FIELD_VERSION,
    LOADED,
    Bend,
    LoadedField,
    Screened,
    loaded_field,
    own_factor,
    weakest_section,
)

Floats = NDArray[np.float64]
PLACES_N = 3
APART_SHARE = 0.2
"""Weakest places that are told apart lie so far from each other, as a share of the part's size."""
WORTH_SHARE = 0.3
"""A further place is told from this share of the weakest place's own."""


@dataclass(frozen=True, kw_only=True, eq=False)  # no slots: what it shows is made once, and only where asked for
class LoadedPart:
    """One loaded part as the report shows it; all lengths as it stands on the bed."""

    part: PlannedPart
    one: Screened
    finding: Finding
    others: tuple[tuple[Screened, Finding], ...]
    """The same part under loads that are less hard."""
    field: LoadedField | None

    @property
    def name(self) -> str:
        """The part's name."""
        return self.part.part.name

    @property
    def unknown(self) -> str:
        """Why there is no figure; empty where there is one."""
        return self.one.unknown or "" if self.finding.measured is None else ""

    @cached_property
    def paint(self) -> Painted | None:
        """Shares on its faces; None where they are not known. Kept: no day, price or plate changes them."""
        field = self.field
        if field is None:
            return None
        # Cut up as drawn, where the shares are known: halves of sides stay halves on the bed. A mirrored part goes
        # through its corners the other way round, as its mesh on the page does.
        corners_mm, answer = self.part.solid.vertices_mm[self.part.posed.faces], field.answer
        told_by = (field.stuff, field.ways) if answer is None else (answer.skin_mm, answer.skin_share_percent)
        key = key_of("paint", PAINT_VERSION, FIELD_VERSION, BEAM_VERSION, corners_mm, field.factor, told_by)
        return kept("pictures", key, Painted, lambda: painted(corners_mm, field.shares_percent))

    @cached_property
    def places(self) -> tuple[tuple[float, Floats], ...]:
        """The weakest places, each with its share in percent: the one that counts first, then others far from it."""
        if self.finding.measured is None or self.finding.at_mm is None:
            return ()
        found = [(self.finding.measured, np.array(self.finding.at_mm))]
        if self.paint is not None:
            size = float(np.linalg.norm(self.part.solid.size_mm))
            middles, values = self.paint.middles_mm, np.nan_to_num(self.paint.values_percent)
            while len(found) < PLACES_N:
                far = np.min([np.linalg.norm(middles - at, axis=1) for _, at in found], axis=0) > APART_SHARE * size
                left = np.where(far, values, 0.0)
                if left.max(initial=0.0) < WORTH_SHARE * self.finding.measured:
                    break
                found.append((min(float(left.max()), self.finding.measured), middles[int(left.argmax())]))
        return tuple((percent, self.part.on_bed(at[None])[0]) for percent, at in found)

    @cached_property
    def section(self) -> tuple[Floats, ...]:
        """Outlines of the weakest section by beam formulas."""
        if self.one.weakest is None:
            return ()
        return tuple(self.part.on_bed(ring) for ring in weakest_section(self.one.weakest, self.part.solid))

    @property
    def section_percent(self) -> float | None:
        """The share of the weakest section by beam formulas alone."""
        if self.finding.measured is None:
            return None
        return self.finding.measured / (1.0 if self.one.elements is None else self.one.elements.ratio)

    @property
    def area_mm2(self) -> float:
        """Of the weakest section, at size."""
        area_mm2 = 0.0 if self.one.weakest is None else self.one.weakest.area_mm2
        x, y, z = (percent / 100.0 for percent in self.part.scale_percent)
        return float(area_mm2 * (x * y * z) ** (2.0 / 3.0))

    @property
    def said(self) -> str:
        """Under which loads it takes which share, the hardest first, and how that was found."""
        rows = [(self.one, self.finding), *self.others]
        told = [
            f"{finding.measured:.0f} % under {load_words(one)}" for one, finding in rows if finding.measured is not None
        ]
        by = self.one.elements
        how = "finite elements" if by is not None and by.ratio > 1.0 else "beam formulas"
        return f"{'; '.join(told)}; by {how}" if told else ""

    @property
    def colours_said(self) -> str:
        """What its colours rest on; empty where it has none."""
        if self.field is None:
            return ""
        others = [one for one, finding in self.others if finding.measured is not None]
        return colour_words(self.field.method, self.one, others)

    @property
    def bend_said(self) -> str:
        """How far it bends, in words."""
        return bend_words(self.name, self.bend)

    @property
    def bend(self) -> Bend | None:
        """How it bends; None where elements were not asked."""
        return None if self.field is None else self.field.bend

    @cached_property
    def fit(self) -> BendFit | None:
        """Its bend as it stands on the bed."""
        return None if self.bend is None else bend_fit(self.part, self.bend)

    @property
    def exaggerated(self) -> float:
        """How many times too large its bend is drawn at most."""
        return 1.0 if self.bend is None else exaggeration(float(max(self.part.posed.size_mm)), self.bend.most_mm)


def loaded_parts(plan: Plan) -> tuple[LoadedPart, ...]:
    """Return the parts that a load is put on, weakest first, those without a figure last; made once a stage."""
    return plan.stage.sized.ready.once("loaded parts", lambda: _loaded(plan))


def _loaded(plan: Plan) -> tuple[LoadedPart, ...]:
    """Return them."""
    ready = plan.stage.sized.ready
    factor = Scale(plan.scale_percent).factor
    of: dict[str, list[tuple[Screened, Finding]]] = {}
    for one, finding in strengths(ready, factor):
        of.setdefault(one.part, []).append((one, finding))
    parts = {part.part.name: part for part in plan.parts}
    found = []
    for name, rows in of.items():
        if name not in parts:
            continue
        rows.sort(key=lambda row: -(row[1].measured or 0.0))
        (one, finding), *others = rows
        solid, survey = ready.solids[name], ready.surveys[name]
        field = loaded_field(one, solid, survey, own_factor(plan.job, name) or factor)
        found.append(LoadedPart(part=parts[name], one=one, finding=finding, others=tuple(others), field=field))
    return tuple(sorted(found, key=lambda each: -(each.finding.measured or 0.0)))


def unloaded_words(plan: Plan, loaded: Sequence[LoadedPart]) -> str:
    """Say why nothing is shown; empty where a part is loaded."""
    if loaded:
        return ""
    if any(part.part.judged_duty in LOADED for part in plan.parts):
        return "No loaded part could be read, so nothing is known of its strength."
    return "By their duties no part carries load, so none was screened."
