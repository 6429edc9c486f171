"""Records of plates: what lies where, on which bed, with which settings, and when it runs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from planner.layers import Amount


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """One copy on a plate.

    ``x_mm, y_mm`` is the centre of the outline's bounding box, from the bed's front left corner, after
    turning counter-clockwise by ``turn_deg`` from the chosen pose.
    """

    part: str
    copy: int
    x_mm: float
    y_mm: float
    turn_deg: float


def counted(placements: Iterable[Placement]) -> dict[str, int]:
    """Return how many copies of every part there are, in the order in which parts come first."""
    return dict(Counter(placement.part for placement in placements))


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """What a maker sets by hand for a plate; parts of different groups never share one."""

    material: str
    colour: str
    support: bool
    brim_mm: float
    layer_height_mm: float | None = None
    """Where its parts have a layer height of their own; None: that of the settings."""

    @property
    def by_hand(self) -> str:
        """What is set for a plate besides material and colour, in words.

        >>> Group(material="petg", colour="any", support=True, brim_mm=0.0, layer_height_mm=0.12).by_hand
        'support on, brim none, layers 0.12 mm'
        """
        brim = f"{self.brim_mm:g} mm" if self.brim_mm else "none"
        layers = "" if self.layer_height_mm is None else f", layers {self.layer_height_mm:g} mm"
        return f"support {'on' if self.support else 'off'}, brim {brim}{layers}"

    @property
    def sort_key(self) -> tuple[str, str, bool, float, float]:
        """A fixed order of groups."""
        return self.material, self.colour, self.support, self.brim_mm, self.layer_height_mm or 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Plate:
    """One print run: a bed full of copies, proved free of overlap."""

    number: int
    group: Group
    placements: tuple[Placement, ...]
    duration_s: Amount
    """Heat-up included, plate change not."""
    kinds_s: dict[str, float]
    """What that time is made of: kinds of line, waiting, heating."""
    mass_g: Amount | None
    """None where a mesh on it is unsound; ``withheld`` says why."""
    height_mm: float
    fill: float
    """Outline area over usable bed area."""
    file: str
    """Path of its 3MF, relative to the plan's folder; an STL of the same name lies beside it."""
    withheld: str = ""
    printer: str = ""
    """The printer whose bed the placements count on, and whose hours these are."""
    joint: str = ""
    """The joint that its pieces make, printed before all others to try the fit; empty for other plates."""
    in_turn: bool = False
    """Whether its copies are printed one after another, in the order of the placements."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A plate on a printer at a time; start and end None with a reason where no time was found."""

    plate: int
    printer: str
    start: datetime | None
    end: datetime | None
    reason: str = ""
