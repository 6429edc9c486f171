"""A survey: everything that is measured on one mesh, once, at drawn size, in mm."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.finding import Vec3
from planner.survey.openings.inner_gap import InnerGap
from planner.survey.pegs.peg import Peg
from planner.survey.walls.run_out import RunOut

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallPoint:
    """Thickness at one place of the surface."""

    thickness_mm: float
    at_mm: Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class Below:
    """How far a thin place reaches below one thickness, all as drawn.

    Parameters
    ----------
    thickness_mm
        The limit below which it is thin.
    area_mm2
        Of the surface on both sides.
    length_mm, breadth_mm
        Extents along the place, and across it.
    share
        Of the part's section through the place that is thin, 0 to 1; the larger of both ways to cut it.
    """

    thickness_mm: float
    area_mm2: float
    length_mm: float
    breadth_mm: float
    share: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ThinPlace:
    """A place where a wall is thinner than about it.

    Parameters
    ----------
    between
        Both sides in words, such as ``"the upper face and bore b2"``.
    beside
        Bores that it lies beside.
    below
        Its extents at rising thicknesses; empty where they were not measured.
    ways
        The ways through it as drawn, unit vectors, each with the least thickness that way: a place may turn a corner.
    """

    thickness_mm: float
    at_mm: Vec3
    between: str
    beside: tuple[str, ...]
    below: tuple[Below, ...]
    ways: tuple[tuple[float, Vec3], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Walls:
    """Matter between opposed faces, or between a face and an edge or a corner that points inwards.

    Parameters
    ----------
    least
        Thinnest of all, webs at bores included; None where no faces are opposed.
    least_clear
        Thinnest away from bores (a web between a bore and an edge belongs to the bore).
    places
        Thin places away from bores, thinnest first.
    run_outs
        Sharp edges, where matter ends that is no wall.
    thickness_mm : (k,) float
        Of every sample, thinnest first.
    area_mm2 : (k,) float
        Surface that each sample stands for.
    of_face_mm : (m,) float
        Thinnest sample of every face, for the heat map; NaN where no face is opposed.
    feather_n
        Samples left out because the matter tapers to an edge there.
    """

    least: WallPoint | None
    least_clear: WallPoint | None
    places: tuple[ThinPlace, ...]
    run_outs: tuple[RunOut, ...]
    thickness_mm: Floats
    area_mm2: Floats
    feather_n: int
    of_face_mm: NDArray[np.float32]

    def area_below_mm2(self, limit_mm: float) -> float:
        """Return the surface whose wall is thinner than a limit."""
        return float(self.area_mm2[: int(np.searchsorted(self.thickness_mm, limit_mm))].sum())


@dataclass(frozen=True, slots=True, kw_only=True)
class Bore:
    """A cylinder cut into a part; a stepped bore is several, that name their first by ``step_of``.

    Parameters
    ----------
    id
        ``"b1"``, ``"b2"`` … in a fixed order within the part.
    diameter_mm
        Inscribed: between the flats of the mesh's facets.
    drawn_diameter_mm
        Through the vertices.
    axis
        Unit vector.
    centre_mm
        Middle of this cylinder's axis.
    through
        True where the whole stack is open at both ends.
    coverage_deg
        How far round the wall reaches.
    edge_wall_mm
        Least matter beside the bore, measured outward from the vertices; None where there is none.
    """

    id: str
    diameter_mm: float
    drawn_diameter_mm: float
    facets_n: int
    depth_mm: float
    axis: Vec3
    centre_mm: Vec3
    through: bool
    step_of: str | None
    coverage_deg: float
    edge_wall_mm: float | None
    edge_at_mm: Vec3 | None = None
    countersink_mm: float | None = None
    """Largest diameter of a cone at one of its mouths; None where there is none."""
    groove_pitch_mm: float | None = None
    """Step of the grooves in its wall, as of a drawn thread; None where the wall is plain."""
    was_mm: float | None = None
    """Drawn diameter in the mesh file, where it was put back to hardware size since."""

    @property
    def named_mm(self) -> float:
        """The drawn diameter by which a job names it: that of the mesh file."""
        return self.drawn_diameter_mm if self.was_mm is None else self.was_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """An opening longer than wide, through the part, about ``at_mm``.

    ``length_axis`` runs along it, ``deep_axis`` through the part, both unit vectors; ``depth_mm`` is how deep its
    long walls are.
    """

    width_mm: float
    length_mm: float
    at_mm: Vec3
    length_axis: Vec3
    deep_axis: Vec3
    depth_mm: float
    was_mm: float | None = None
    """Length in the mesh file, where it was cut longer since."""

    @property
    def named_mm(self) -> float:
        """The length by which a job names it: that of the mesh file."""
        return self.length_mm if self.was_mm is None else self.was_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Channel:
    """A tube that bends on its way through a part.

    Parameters
    ----------
    diameter_mm
        Inscribed, where it is narrowest.
    length_mm
        Along the centre line.
    bends_deg
        Sum of the centre line's turns.
    line_mm
        Points of the centre line, from one mouth to the other.
    """

    diameter_mm: float
    length_mm: float
    bends_deg: float
    line_mm: tuple[Vec3, ...]
    at_mm: Vec3
    was_mm: float | None = None
    """Diameter in the mesh file, where it was cut wider since."""

    @property
    def named_mm(self) -> float:
        """The diameter by which a job names it: that of the mesh file."""
        return self.diameter_mm if self.was_mm is None else self.was_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Pose:
    """A way to stand on the bed.

    Parameters
    ----------
    down
        Drawn direction that faces the bed, unit vector.
    height_mm
        Extent along it.
    contact_mm2
        Flat area on the bed.
    tip_deg
        Lean at which it tips over.
    overhang_mm2
        Area of downward faces that lean more than 45 degrees from vertical, off the bed.
    neck_mm2
        Least area of a layer between 15 and 85 % of the height: what holds the layers together where they are
        weakest; 0 where the mesh is not sound.
    """

    down: Vec3
    height_mm: float
    contact_mm2: float
    tip_deg: float
    overhang_mm2: float
    neck_mm2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """All measures of one solid at drawn size.

    ``hull_mm`` (h, 3) are the vertices of the convex hull: enough for extents in any pose.
    ``volume_mm3`` of an unsound mesh is only as good as its surface; ``faults`` says so.
    """

    name: str
    sha256: str
    triangles_n: int
    bodies_n: int
    healed: tuple[str, ...]
    faults: tuple[str, ...]
    unit: str
    unit_doubt: str
    size_mm: Vec3
    volume_mm3: float
    area_mm2: float
    hull_mm: Floats
    walls: Walls
    bores: tuple[Bore, ...]
    possible_bores: tuple[Bore, ...]
    slots: tuple[Slot, ...]
    channels: tuple[Channel, ...]
    """Curved ones; straight channels are bores."""
    handles_n: int | None
    """Openings through the part by its topology (genus), whatever their shape; None for an unsound mesh."""
    poses: tuple[Pose, ...]
    """Stable poses, largest contact first; never empty."""
    pegs: tuple[Peg, ...] = ()
    inner_gap: InnerGap | None = None
    """Between its bodies; None without one near by."""

    @property
    def unrecognised_n(self) -> int:
        """Openings through the part that are no bore, slot or channel found: a cross-check by topology."""
        through = [bore for bore in (*self.bores, *self.possible_bores) if bore.through and bore.step_of is None]
        return max(0, (self.handles_n or 0) - len(through) - len(self.slots) - len(self.channels))

    def stack_of(self, bore: Bore) -> tuple[Bore, ...]:
        """Return the steps that are cut into one stack with a bore, itself among them."""
        first = bore.step_of or bore.id
        return tuple(other for other in self.bores if first in (other.id, other.step_of))

    @property
    def sound(self) -> bool:
        """True where the mesh has no fault left."""
        return not self.faults
