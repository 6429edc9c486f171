"""Thin walls at scale: judged by how far they reach, so that a blemish is not taken for a wall that carries."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.digits import equal_words, percent_or_more, told_apart
from planner.finding import Extent, Finding, Verdict
from planner.job import Limits
from planner.phrases import plural
from planner.rules.fit.walls.film_hinge import FILM_ENDS, SEE_FILM, film_turns, is_film
from planner.rules.fit.walls.lying_floor import LyingFloor
from planner.rules.rule import at_least, just_reaches, positive
from planner.sourced import Sourced
from planner.survey import Below, ThinPlace

SEE_LIP = "look at the drawing: where nothing pulls on it, lift the hold with [[override]]; else thicken it in the mesh"
LARGEST_PERCENT = 200.0
"""A size beyond this is no remedy for a thin wall."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ThinWallRule:
    """``wall.thin``: least inscribed distance between two sides of a wall, against 2 or 3 line widths, or layers.

    A thin place is only a blemish, and a caution, where both its extents below the limit stay under
    ``blemish_lines`` line widths and it takes less than ``blemish_share`` of the piece of section that holds it, away
    from bores. A lip, too, is short and away from bores (``lip_lines``, ``lip_share``), and one line thick at least: it
    prints, and whether it may be thin hangs on what it does, so that in a part that carries it is a hold. So is a strip
    that may be a film hinge. ``places``
    are as drawn, thinnest first, and never empty. ``floor`` is what a place needs that lies; None: poses do not count.
    """

    part: str
    duty: str
    duty_stated: bool
    places: tuple[ThinPlace, ...]
    line_width_mm: float
    lines: Sourced
    limits: Limits
    floor: LyingFloor | None = None
    rule: str = "wall.thin"
    feature: str = "wall"

    def at(self, s: float) -> Finding:
        """Judge the walls at a scale by the thinnest that is no blemish."""
        lines_mm = self.lines.value * self.line_width_mm
        thin = self._thin(s, lines_mm)
        large = [place for place in thin if not self._is_blemish(place, s, lines_mm)]
        walls = [place for place in large if not self._is_lip(place, s, lines_mm)]
        lips = [place for place in large if place not in walls]
        films = bool(walls) and all(self._is_film(place, s, lines_mm) for place in walls)
        asked = bool(lips) and not walls and self.lines.value > self.limits.wall_plain_lines.value
        place = (walls or lips or thin or list(self.places))[0]
        limit = self._limit(place, s, lines_mm)
        measured, extent = place.thickness_mm * s, self._extent(place, s, limit) if thin else None
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.HOLD if films or asked else Verdict.NO_GO if walls else Verdict.GO,
            measured=measured,
            limit=limit,
            unit="mm",
            at_mm=place.at_mm,
            why=self._why(s, place, extent, walls) + (equal_words(measured, limit) if walls or asked else ""),
            remedy=SEE_FILM if films else SEE_LIP if asked else self._remedy(s, walls, lines_mm),
            source=self.lines.source,
            caution="" if walls or asked or not thin else _caution(len(thin), len(lips)),
            question=f"Does anything pull or press on the thin lip of {self.part}, between {place.between}?"
            if asked
            else f"Is the thin strip of {self.part}, between {place.between}, a film hinge that is meant to bend?"
            if films
            else self._question(s, walls),
            extent=extent,
        )

    def line_that_fits_mm(self, s: float) -> float | None:
        """Return the width of which as many lines as are needed lie in every wall at a scale; None without one."""
        walls = [place.thickness_mm * s for place in self._walls(s)]
        return min(walls) / self.lines.value if walls else None

    def layer_that_fits_mm(self, s: float) -> float | None:
        """Return the layer height at which every wall holds its layers at a scale; None where lines are needed."""
        walls, lines_mm = self._walls(s), self.lines.value * self.line_width_mm
        if self.floor is None or not walls or not all(self.floor.holds(place, s, lines_mm) for place in walls):
            return None
        thinnest_mm = min(place.thickness_mm * s for place in walls)
        return thinnest_mm / self.floor.layers.value if at_least(thinnest_mm, self.floor.least.value) else None

    def _walls(self, s: float) -> list[ThinPlace]:
        """Return the places that are too thin at a scale, blemishes and lips left out."""
        lines_mm = self.lines.value * self.line_width_mm
        thin = self._thin(s, lines_mm)
        return [p for p in thin if not (self._is_blemish(p, s, lines_mm) or self._is_lip(p, s, lines_mm))]

    def _why(self, s: float, place: ThinPlace, extent: Extent | None, walls: list[ThinPlace]) -> str:
        """Say how thin the wall is, what it needs, and how far it reaches below that."""
        lines_mm = self.lines.value * self.line_width_mm
        measured, limit = place.thickness_mm * s, self._limit(place, s, lines_mm)
        reach = "" if extent is None else f"; {extent.area_mm2:.1f} mm² are thinner, over {extent.length_mm:.1f} mm"
        more = f"; {plural(len(walls) - 1, 'more such place')}" if len(walls) > 1 else ""
        has, needs = told_apart(measured, limit)
        duty = self.duty + ("" if self.duty_stated else " (guessed)")
        if self.floor and limit < lines_mm:
            layers = f"{self.floor.layers.value:g} layers of {self.floor.layer_height_mm:g} mm"
            return (
                f"thinnest wall {has} mm, between {place.between}; it lies flat, so duty {duty} needs {layers}, "
                f"{self.floor.least.value:g} mm at least ({needs} mm){reach}{more}"
            )
        return (
            f"thinnest wall {has} mm, between {place.between}; duty {duty} "
            f"needs {self.lines.value:g} lines of {self.line_width_mm:g} mm ({needs} mm){reach}{more}"
        )

    def _question(self, s: float, walls: list[ThinPlace]) -> str:
        """Ask for a duty that nobody stated, where another one takes the walls as they are; else nothing."""
        plain = self.limits.wall_plain_lines.value * self.line_width_mm
        if not walls or self.duty_stated:
            return ""
        left = self._thin(s, plain, plain=True)
        if not all(self._is_blemish(p, s, plain) or self._is_lip(p, s, plain) for p in left):
            return ""
        thin_mm = walls[0].thickness_mm * s
        return f"What is the duty of {self.part}? As shell or cover its wall of {thin_mm:.2f} mm would do."

    def _limit(self, place: ThinPlace, s: float, lines_mm: float, *, plain: bool = False) -> float:
        """Return how thick a place has to be: in lines; in layers where all of it that is too thin for lines lies."""
        lies = self.floor is not None and self.floor.holds(place, s, lines_mm)
        return self.floor.limit_mm(lines_mm, plain=plain) if lies and self.floor else lines_mm

    def _thin(self, s: float, lines_mm: float, *, plain: bool = False) -> list[ThinPlace]:
        """Return the places that are thinner than they have to be at a scale, the worst first."""
        found: list[ThinPlace] = []
        for place in self.places:
            if at_least(place.thickness_mm * s, lines_mm):
                break
            if not at_least(place.thickness_mm * s, self._limit(place, s, lines_mm, plain=plain)):
                found.append(place)
        return sorted(found, key=lambda place: place.thickness_mm / self._limit(place, s, lines_mm, plain=plain))

    def _remedy(self, s: float, walls: list[ThinPlace], lines_mm: float) -> str:
        """Return what makes the walls thick enough."""
        if not walls:
            return ""
        thick, limit = walls[0].thickness_mm, self._limit(walls[0], s, lines_mm)
        percent = 100 * limit / thick if thick > 0 else math.inf
        if percent > LARGEST_PERCENT:
            return f"thicken the wall between {walls[0].between} in the mesh"
        return (
            f"thicken the wall in the mesh, or use {'a finer nozzle' if limit >= lines_mm else 'thinner layers'}; "
            f"at a scale of {percent_or_more(percent)} % or more, this wall by itself is thick enough"
        )

    def _is_blemish(self, place: ThinPlace, s: float, limit: float) -> bool:
        """Return whether a thin place is only a blemish at a scale."""
        return self._is_small(place, s, limit, self._few[0])

    def _is_lip(self, place: ThinPlace, s: float, limit: float) -> bool:
        """Return whether a thin place is a lip at a scale: it prints, and it is small beside its part."""
        prints = at_least(place.thickness_mm * s, self.line_width_mm)
        return prints and self._is_small(place, s, limit, self._few[1])

    def _is_film(self, place: ThinPlace, s: float, lines_mm: float) -> bool:
        """Return whether a thin place may be a film hinge at a scale."""
        limit = self._limit(place, s, lines_mm)
        return is_film(place, below_at(place.below, limit / s), s, lines_mm, self.line_width_mm, self.floor)

    @property
    def _few(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """The most extent in mm and the most share of a blemish, and of a lip."""
        of = self.limits
        kinds = ((of.blemish_lines, of.blemish_share), (of.lip_lines, of.lip_share))
        one, other = ((lines.value * self.line_width_mm, share.value) for lines, share in kinds)
        return one, other

    def _is_small(self, place: ThinPlace, s: float, limit: float, most: tuple[float, float]) -> bool:
        """Return whether a thin place stays under an extent and a share, away from bores."""
        below = None if place.beside else below_at(place.below, limit / s)
        if below is None:
            return False
        most_mm, share = most
        return below.length_mm * s < most_mm and below.breadth_mm * s < most_mm and below.share < share

    def _extent(self, place: ThinPlace, s: float, limit: float) -> Extent | None:
        """Return how far a place reaches below a limit at a scale; None where that was not measured."""
        below = below_at(place.below, limit / s)
        return None if below is None else Extent(area_mm2=below.area_mm2 * s * s, length_mm=below.length_mm * s)

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which a place just holds its lines, or turns from a blemish into a lip, or a wall."""
        turns: list[float] = []
        for place in self.places:
            turns += [just_reaches(self.line_width_mm) / place.thickness_mm] if place.thickness_mm > 0 else []
        for lines, plain in {(self.lines.value, False), (self.limits.wall_plain_lines.value, True)}:
            limit = lines * self.line_width_mm
            floor_mm = self.floor.limit_mm(limit, plain=plain) if self.floor else limit
            for place in self.places:
                for thick, _ in place.ways if self.floor else ():
                    turns += [just_reaches(one) / thick for one in {limit, floor_mm}] if thick > 0 else []
                turns += [just_reaches(limit) / place.thickness_mm] if place.thickness_mm > 0 else []
                for most in () if place.beside else (*self._few, *FILM_ENDS):
                    turns += _small_turns(place.below, limit, most)
                    turns += _small_turns(place.below, floor_mm, most) if self.floor and floor_mm != limit else []
                turns += film_turns(place, self.line_width_mm, self.floor)
        return positive(*sorted(set(turns)))


def _small_turns(below: tuple[Below, ...], limit: float, most: tuple[float, float]) -> list[float]:
    """Return where extents and share of a place cross what a small one may have, between all its thicknesses.

    Between two thicknesses an extent is ``a + b limit / s`` as drawn, so ``a s + b limit`` at scale.
    """
    most_mm, share = most
    turns = [limit / entry.thickness_mm for entry in below]
    for low, high in zip((below[0], *below), below, strict=False) if below else ():
        for extent in ("length_mm", "breadth_mm"):
            a, b = _line(low, high, extent)
            turns += [(most_mm - b * limit) / a] if a != 0 else []
        a, b = _line(low, high, "share")
        turns += [b * limit / (share - a)] if share != a else []
    return turns


def _caution(thin_n: int, lips_n: int) -> str:
    """Say what becomes of small thin places and lips."""
    places = f"{plural(thin_n, 'small thin place')}, smaller than a few lines: "
    if lips_n:
        return f"{places}it prints one line thick there, and breaks off where something pulls on it."
    return f"{places}it prints rounded off or with a gap there, which does no harm."


def _line(low: Below, high: Below, name: str) -> tuple[float, float]:
    """Return an extent between two thicknesses as a + b times the thickness."""
    one, other = getattr(low, name), getattr(high, name)
    wide = high.thickness_mm - low.thickness_mm
    slope = (other - one) / wide if wide > 0 else 0.0
    return one - slope * low.thickness_mm, slope


def below_at(below: tuple[Below, ...], thickness_mm: float) -> Below | None:
    """Return the extents of a place below a thickness, straight between those measured; None beyond the last.

    Under the least thickness measured they are those of the least: rather too much than too little.
    """
    if not below:
        return None
    low = below[0]
    for high in below:
        if thickness_mm <= high.thickness_mm:
            values = {}
            for name in ("area_mm2", "length_mm", "breadth_mm", "share"):
                a, b = _line(low, high, name)
                values[name] = a + b * thickness_mm if b else a
            return Below(thickness_mm=thickness_mm, **values)
        low = high
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class WallRunOut:
    """``wall.run_out``: matter that ends in a sharp edge prints rounded off; on the side that lies on skin it is work.

    ``edges`` is how many there are, ``length_mm`` how long together, ``angle_deg`` the sharpest.
    """

    part: str
    edges_n: int
    length_mm: float
    angle_deg: float
    at_mm: tuple[float, float, float]
    on_skin: bool
    rule: str = "wall.run_out"
    feature: str = "wall"

    def at(self, s: float) -> Finding:
        """Say where the matter runs out, and order the edge to be rounded where it meets skin."""
        many = "1 edge thins" if self.edges_n == 1 else f"{self.edges_n} edges thin"
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=self.feature,
            verdict=Verdict.GO_WITH_WORK if self.on_skin else Verdict.GO,
            measured=self.length_mm * s,
            unit="mm",
            at_mm=self.at_mm,
            why=f"{many} out to nothing, {self.length_mm * s:.0f} mm in all, the sharpest {self.angle_deg:.0f} degrees"
            + (" on the side that lies on skin" if self.on_skin else ""),
            remedy="round the sharp edge until it holds no fibre of a cotton ball" if self.on_skin else "",
            source="geometry of the mesh",
            caution="" if self.on_skin else "It prints rounded and a line or two short: not a wall, not a fault.",
        )

    def turns(self) -> tuple[float, ...]:
        """Return nothing: an edge stays an edge."""
        return ()
