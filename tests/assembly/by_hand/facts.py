"""Facts of a survey that guesses by form rest on, small enough to lie beside the tests: written here, read back here.

``python -m tests.assembly.by_hand.facts FOLDER FILE`` measures the meshes of a folder and writes their facts.
"""

from __future__ import annotations

import dataclasses
import json
import sys
from pathlib import Path
from typing import Any

import numpy as np

from planner.job import Job, Part, job_of_folder, read_printer
from planner.mesh import read_solid
from planner.survey import Bore, Channel, Pose, Slot, Survey, survey
from planner.survey.survey import Walls

DIRECTIONS_N = 150
"""The convex hull is kept where it is extreme in so many directions: its volume is then a few percent less."""


def facts_of(found: Survey) -> dict[str, Any]:
    """Return what guesses by form look at, rounded."""
    flat = min(found.poses, key=lambda pose: pose.height_mm)
    kept = {
        "size_mm": found.size_mm,
        "volume_mm3": found.volume_mm3,
        "area_mm2": found.area_mm2,
        "triangles_n": found.triangles_n,
        "hull_mm": _extreme(found.hull_mm).tolist(),
        "usual_wall_mm": _usual(found),
        "flat": {"down": flat.down, "height_mm": flat.height_mm},
        "bores": [dataclasses.asdict(bore) for bore in found.bores],
        "slots": [dataclasses.asdict(slot) for slot in found.slots],
        "channels_n": len(found.channels),
    }
    rounded: dict[str, Any] = json.loads(json.dumps(kept), parse_float=lambda text: round(float(text), 3))
    return rounded


def survey_of(name: str, facts: dict[str, Any]) -> Survey:
    """Return a survey with those facts in it, and nothing else."""
    pose = Pose(contact_mm2=1.0, tip_deg=45.0, overhang_mm2=0.0, neck_mm2=0.0, **_tuples(facts["flat"]))
    wall = facts["usual_wall_mm"]
    n = 1 if wall else 0
    walls = Walls(
        least=None,
        least_clear=None,
        places=(),
        run_outs=(),
        thickness_mm=np.full(n, wall),
        area_mm2=np.ones(n),
        feather_n=0,
        of_face_mm=np.zeros(0, np.float32),
    )
    channel = Channel(diameter_mm=2.0, length_mm=20.0, bends_deg=90.0, line_mm=(), at_mm=(0.0, 0.0, 0.0))
    return Survey(
        name=name,
        sha256="",
        triangles_n=facts["triangles_n"],
        bodies_n=1,
        healed=(),
        faults=(),
        unit="mm",
        unit_doubt="",
        size_mm=tuple(facts["size_mm"]),
        volume_mm3=facts["volume_mm3"],
        area_mm2=facts["area_mm2"],
        hull_mm=np.array(facts["hull_mm"]),
        walls=walls,
        bores=tuple(Bore(**_tuples(bore)) for bore in facts["bores"]),
        possible_bores=(),
        slots=tuple(Slot(**_tuples(slot)) for slot in facts["slots"]),
        channels=(channel,) * facts["channels_n"],
        handles_n=None,
        poses=(pose,),
    )


def device(file: Path) -> tuple[Job, dict[str, Survey]]:
    """Return the job that a folder of these parts would make, and its surveys."""
    facts = json.loads(file.read_text(encoding="utf-8"))
    surveys = {name: survey_of(name, one) for name, one in facts.items()}
    folder = file.parent
    job = job_of_folder(folder.parent / "bores", printer=read_printer("bench-220", folder))
    parts = tuple(Part(name=name, mesh=folder / f"{name}.stl", guessed=("count", "handed")) for name in surveys)
    return dataclasses.replace(job, parts=parts), surveys


def _tuples(facts: dict[str, Any]) -> dict[str, Any]:
    """Return facts with lists as the tuples that records hold."""
    return {key: tuple(value) if isinstance(value, list) else value for key, value in facts.items()}


def _extreme(points: np.ndarray[Any, Any]) -> np.ndarray[Any, Any]:
    """Return the points that are extreme in evenly spread directions (a Fibonacci sphere), and along the axes."""
    k = np.arange(DIRECTIONS_N)
    z = 1 - (2 * k + 1) / DIRECTIONS_N
    turn = np.pi * (1 + 5**0.5) * k
    ways = np.column_stack([np.sqrt(1 - z * z) * np.cos(turn), np.sqrt(1 - z * z) * np.sin(turn), z])
    picked: np.ndarray[Any, Any] = points[
        np.unique(np.argmax(points @ np.vstack([ways, np.eye(3), -np.eye(3)]).T, axis=0))
    ]
    return picked


def _usual(found: Survey) -> float:
    """Return the wall that half of the surface is thinner than."""
    from planner.assembly.doubts.duty_form import usual_wall_mm

    return usual_wall_mm(found)


if __name__ == "__main__":
    meshes = sorted(path for path in Path(sys.argv[1]).iterdir() if path.suffix in (".stl", ".3mf"))
    told = {path.stem: facts_of(survey(read_solid(path, name=path.stem))) for path in meshes}
    lines = ",\n".join(
        f" {json.dumps(name)}: {json.dumps(facts, separators=(',', ':'))}" for name, facts in told.items()
    )
    Path(sys.argv[2]).write_text("{\n" + lines + "\n}\n", encoding="utf-8")
