"""One mesh's measures in a terminal."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console
from rich.markup import escape
from rich.table import Table

from planner.finding import Vec3
from planner.phrases import numbers, plural
from planner.survey import Bore, Survey

LIMITS_MM = (0.45, 0.9, 1.35)


def show_mesh(console: Console, path: Path, found: Survey) -> None:
    """Print size, walls, bores and slots of one mesh."""
    x, y, z = found.size_mm
    bodies = plural(found.bodies_n, "body")
    console.print(f"[bold]{escape(path.name)}[/]  {found.triangles_n} triangles, {bodies}, read in {found.unit}")
    state = "closed" if found.sound else "NOT CLOSED"
    console.print(f"  size {x:.2f} x {y:.2f} x {z:.2f} mm, volume {found.volume_mm3:.1f} mm³, {state}")
    for healed in found.healed:
        console.print(f"  repaired: {healed}", markup=False)
    least = found.walls.least
    if least is None:
        console.print("  no wall was found: no two faces are opposite each other")
    else:
        at = numbers(least.at_mm)
        below = ", ".join(f"{found.walls.area_below_mm2(limit):.0f} mm² below {limit:g}" for limit in LIMITS_MM)
        console.print(f"  least wall {least.thickness_mm:.3f} mm at ({at}); {below}", markup=False)
    if found.bores or found.possible_bores:
        console.print(_bores((*found.bores, *found.possible_bores), len(found.bores)))
    for peg in found.pegs:
        cut = f", {peg.coverage_deg:.0f} degrees round" if peg.flats_n else ""
        console.print(
            f"  peg {peg.id} {peg.diameter_mm:.3f} mm, {peg.length_mm:.2f} mm long, axis {_axis(peg.axis)}{cut}"
        )
    for slot in found.slots:
        console.print(f"  slot {slot.width_mm:.2f} x {slot.length_mm:.2f} mm")
    if found.unrecognised_n:
        console.print(f"  {found.unrecognised_n} more through openings were not recognised")
    for channel in found.channels:
        phrase = (
            f"{channel.diameter_mm:.2f} mm inside, {channel.length_mm:.1f} mm long, bends {channel.bends_deg:.0f} deg"
        )
        console.print(f"  curved channel {phrase}")
    console.print()


def _bores(bores: tuple[Bore, ...], certain_n: int) -> Table:
    """Return the bores as a table; those after the certain ones are possible bores."""
    table = Table(box=None, padding=(0, 1, 0, 0))
    for title in ("bore", "inside", "drawn", "deep", "facets", "axis", "edge", ""):
        table.add_column(title, no_wrap=True)
    for index, bore in enumerate(bores):
        axis = _axis(bore.axis)
        edge = "-" if bore.edge_wall_mm is None else f"{bore.edge_wall_mm:.2f}"
        kind = "through" if bore.through else "blind"
        kind += f", {bore.step_of}'s step" if bore.step_of else ""
        kind += f", sunk {bore.countersink_mm:.1f}" if bore.countersink_mm else ""
        kind += f", grooved every {bore.groove_pitch_mm:.2f}: a thread?" if bore.groove_pitch_mm else ""
        table.add_row(
            bore.id,
            f"{bore.diameter_mm:.3f}",
            f"{bore.drawn_diameter_mm:.3f}",
            f"{bore.depth_mm:.2f}",
            str(bore.facets_n),
            axis,
            edge,
            kind if index < certain_n else f"possible, {bore.coverage_deg:.0f} deg",
        )
    return table


def _axis(axis: Vec3) -> str:
    """Return a direction: a drawn axis by its name, else three components."""
    for name, value in zip("xyz", axis, strict=True):
        if abs(value) > 0.9999:
            return name
    return " ".join(f"{round(value, 2) + 0.0:.2f}" for value in axis)
