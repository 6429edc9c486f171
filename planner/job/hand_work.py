"""Work by hand on a printed part, as the job states it: on its bores, its pegs, or where it lies between faces."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

WorkKind = Literal["drill", "ream", "bush", "plug", "sand", "file"]
OUTSIDE: tuple[WorkKind, ...] = ("sand", "file")
"""Kinds that take off the outside of a part."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HandWork:
    """Work by hand on a printed part: what the rules of fit judge, and the drill list shows."""

    part: str
    """The printed part."""
    kind: WorkKind
    """drill, ream: a bore; bush: glue in one, bored to size; plug: glue in one and drill it; sand: pegs; file: flat."""
    to_mm: float
    """Diameter of the bore or peg after the work, or the width that is filed; it does not scale."""
    bores: tuple[str, ...] = ()
    """Its bores by their names, as inspect lists them: b1, b2; or drawn_mm."""
    drawn_mm: float | None = None
    """All bores, or pegs, of the part that are drawn at this size, within 4 %, instead of naming each."""
    depth_mm: float | None = None
    """How deep the drill's tip goes, for the depth stop of a blind bore; left out: to the bottom of the bore."""
    pegs: tuple[str, ...] = ()
    """For sand: its pegs by their names, as inspect lists them: p1, p2; or drawn_mm."""
    into: str = ""
    """For file: the part between whose faces it lies there, drawn_mm wide; for sand: only where its pegs lie in it."""

    @property
    def told(self) -> str:
        """What to do, as an order.

        >>> HandWork(part="jaw", kind="drill", to_mm=5.2, bores=("b1",)).told
        'drill to 5.2 mm'
        """
        stop = "" if self.depth_mm is None else f", depth stop at {self.depth_mm:.4g} mm"
        only = f" where it lies in {self.into}" if self.into else ""
        orders = {
            "drill": f"drill to {self.to_mm:.4g} mm",
            "ream": f"ream to {self.to_mm:.4g} mm",
            "bush": f"glue in a bush bored {self.to_mm:.4g} mm",
            "plug": f"glue in a plug and drill it {self.to_mm:.4g} mm",
            "sand": f"sand to {self.to_mm:.4g} mm{only}",
            "file": f"file to a width of {self.to_mm:.4g} mm",
        }
        return orders[self.kind] + stop

    @property
    def on_bores(self) -> bool:
        """Whether it is done in bores."""
        return self.kind not in OUTSIDE

    @property
    def fills(self) -> bool:
        """Whether something is glued in, so that the bore gets narrower."""
        return self.kind in ("bush", "plug")


@dataclass(frozen=True, slots=True, kw_only=True)
class HandMinutes:
    """How long hands take with this device, where somebody has timed it."""

    finish_min: float | None = None
    """Taking off support, drilling and reaming; left out: by the number of each."""
    assemble_min: float | None = None
    """Assembling, padding, straps and cords; left out: by the number of each."""
    test_min: float | None = None
    """Testing the function; left out: the usual time."""
