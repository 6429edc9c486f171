"""Finite elements on the flat parts: ``python -m tests.strength.places.by_elements [NAME ...]`` keeps what they find.

Each takes 12 to 94 s of processor time, so that the test reads what is kept; a raised ``ELEMENTS_VERSION`` asks for it anew.
"""

from __future__ import annotations

import sys
import tomllib
from pathlib import Path

from planner.strength.elements.case_forces import presses_of
from planner.strength.elements.one_mesh import Stuff
from planner.strength.elements.refined_elements import ELEMENTS_VERSION, Solved, solved
from planner.strength.elements.stiffness import Moduli
from planner.strength.loads.entering import entering
from planner.survey import survey
from tests.strength.places.twelve_parts import LINE_MM, PARTS, POISSON, STUFF

FOUND = Path(__file__).parents[2] / "data" / "strength" / "flat.toml"


def by_elements(name: str) -> Solved:
    """Return what elements find of a part that is as stiff in all directions, as the fine flat mesh takes it."""
    solid = PARTS[name].solid(name)
    surveyed = survey(solid)
    stuff = Stuff(
        strengths=STUFF.strengths,
        normal=STUFF.normal,
        side_mm=STUFF.side_mm,
        level_mm=STUFF.level_mm,
        infill_share=STUFF.infill_share,
        moduli=Moduli(along_mpa=2000.0, across_mpa=2000.0, poisson_ratio=POISSON),
    )
    return solved(solid, stuff, [presses_of(entering(PARTS[name].case(), surveyed), surveyed)], LINE_MM)


def main(names: list[str]) -> None:
    """Solve parts, and keep what was found."""
    rows = tomllib.loads(FOUND.read_text(encoding="utf-8")) if FOUND.exists() else {}
    for name in names or PARTS:
        one = by_elements(name)
        rows[name] = {
            "elements_version": ELEMENTS_VERSION,
            "weakest_mm": [round(value, 1) for value in one.weakest_mm],
            "ties_mm": [[round(value, 1) for value in at[:2]] for at in one.ties_mm],
            "share_percent": round(one.share_percent, 1),
            "converged_percent": round(one.converged_percent, 1),
            "stands": one.stands,
            "unknowns_n": one.unknowns_n,
            "meshes_n": one.meshes_n,
            "hides": round(one.hides_ratio, 2),
            "seconds": round(one.seconds),
        }
        told = "\n".join(
            f'["{each}"]\n' + "".join(f"{key} = {str(value).lower()}\n" for key, value in row.items())
            for each, row in rows.items()
        )
        head = "# Where elements find the flat parts weakest: written by tests.strength.places.by_elements.\n"
        FOUND.write_text(head + told, encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
