"""Stock sizes: those in which screws, posts, pins and webbing are sold."""

from __future__ import annotations

from dataclasses import dataclass

from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class StockSize:
    """One stock size of one kind of hardware."""

    label: str
    """Its name: M3, #8, 5 mm."""
    diameter_mm: Sourced
    """Outside diameter of the shank or thread."""
    root_mm: Sourced | None = None
    """Root of the thread."""
    pitch_mm: Sourced | None = None
    """Pitch of the thread, or of a toothed belt."""
    bores_mm: tuple[Sourced, ...] = ()
    """Usual bores, fine first: ISO 273 for machine screws."""
    nut_flats_mm: Sourced | None = None
    """Its nut, across flats."""
    nut_height_mm: Sourced | None = None
    """Height of that nut."""
    locking_height_mm: Sourced | None = None
    """Height of its locking nut."""
    washer_mm: Sourced | None = None
    """Outside diameter of its washer."""
    washer_thick_mm: Sourced | None = None
    """Thickness of that washer."""
    head_mm: Sourced | None = None
    """Diameter of its head: of either end of a binding post, of a wood screw's countersunk head."""
    head_high_mm: Sourced | None = None
    """Height of that head."""
    outside_mm: Sourced | None = None
    """Outside diameter, of a bearing or an insert."""
    width_mm: Sourced | None = None
    """Width of a bearing; length of an insert."""
    longest_mm: Sourced | None = None
    """Longest that the standard lists for this size."""
    lengths_mm: tuple[float, ...]
    """Stock lengths, shared by all sizes of a file; widths of a belt."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareTables:
    """Stock sizes by kind, smallest first, and stock webbing widths."""

    machine_screws: tuple[StockSize, ...]
    wood_screws: tuple[StockSize, ...]
    dowel_pins: tuple[StockSize, ...]
    binding_posts: tuple[StockSize, ...]
    inserts: tuple[StockSize, ...]
    bearings: tuple[StockSize, ...]
    belts: tuple[StockSize, ...]
    webbing_mm: tuple[float, ...]
    """Widest first: 50, 38, 25, 20, 15."""
    prices: dict[str, float]
    """Price of one piece by kind, of one metre of cord or webbing, of 0.01 m² of padding; examples."""
    prices_source: str

    def sizes(self, kind: str) -> tuple[StockSize, ...]:
        """Return the stock sizes of a hardware kind, smallest first; those of nuts and washers are their screws'."""
        return {
            "machine-screw": self.machine_screws,
            "wood-screw": self.wood_screws,
            "dowel-pin": self.dowel_pins,
            "binding-post": self.binding_posts,
            "nut": self.machine_screws,
            "washer": self.machine_screws,
            "insert": self.inserts,
            "bearing": self.bearings,
            "belt": self.belts,
        }.get(kind, ())
