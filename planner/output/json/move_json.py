"""What ``move`` answers, as plain JSON types: the words of the contract."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from planner.finding import Finding, worst
from planner.mechanism import CordMove, JointMove, Moved
from planner.output.json.plan_json import Json, finding_json


def move_json(moved: Moved, findings: Sequence[Finding]) -> Json:
    """Return joints, cords, pins and tip at size, and what the rules of movement say of them."""
    return {
        "schema": "fitwright/move/1",
        "scale_percent": moved.scale_percent,
        "verdict": worst(findings).value,
        "joints": [_joint(joint) for joint in moved.joints],
        "cords": [_cord(cord) for cord in moved.cords],
        "pins": [asdict(pin) for pin in moved.pins],
        "tip": None
        if moved.tip is None
        else {
            "wobble_mm": None if moved.tip.wobble_mm is None else moved.tip.wobble_mm[0],
            "wobble_p90_mm": None if moved.tip.wobble_mm is None else moved.tip.wobble_mm[1],
            "spread_mm": moved.tip.spread_mm,
            "knot": moved.tip.knot,
        },
        "unplaced": [{"copy": copy, "why": why} for copy, why in moved.unplaced],
        "notes": list(moved.notes),
        "findings": [finding_json(finding) for finding in findings],
    }


def _joint(joint: JointMove) -> Json:
    """Return one joint; a sliding one gives ``free_mm``."""
    slides = joint.kind == "slides"
    return {
        "name": joint.name,
        "parts": list(joint.parts),
        "kind": joint.kind,
        "turns_too": joint.turns_too,
        "axis_mm": list(joint.axis),
        "at_mm": list(joint.at_mm),
        "free_mm" if slides else "free_deg": list(joint.free_deg),
        "stops": [
            {
                "at_free_mm" if slides else "at_deg": stop.at_deg,
                "what": stop.what,
                "parts": list(stop.parts),
                "at_mm": None if stop.at_mm is None else list(stop.at_mm),
            }
            for stop in joint.stops
        ],
        "needs_deg": None if joint.needs_deg is None else list(joint.needs_deg),
        "rest_deg": joint.rest_deg,
        "play_mm": _pair(joint.play_mm, ("worst", "p90")),
        "unknown": joint.unknown,
    }


def _cord(cord: CordMove) -> Json:
    """Return one cord."""
    return {
        "name": cord.name,
        "joint": cord.joint,
        "begins": cord.begins,
        "travel_mm": cord.travel_mm,
        "has_mm": cord.has_mm,
        "usual_mm": _pair(cord.usual_mm, ("daily", "most")),
        "slack_mm": cord.slack_mm,
        "length_mm": _pair(cord.length_mm, ("open", "closed")),
        "arm_mm": _three(cord.arm_mm, ("low", "at_rest", "high")),
        "bends_deg": cord.bends_deg,
        "pull_n": _three(cord.pull_n, ("low", "expected", "high")),
        "grip_n": cord.grip_n,
        "grip_for_n": None
        if cord.grip_for_n is None
        else dict(zip(("pull", "low", "expected", "high", "hardest"), cord.grip_for_n, strict=True)),
        "friction": None if cord.friction is None else cord.friction[1],
        "friction_range": None if cord.friction is None else [cord.friction[0], cord.friction[2]],
        "return_n_mm": _pair(cord.back_n_mm, ("low", "expected")),
        "shared": "; ".join(filter(None, (cord.together, cord.shared))),
        "unknown": cord.unknown or cord.ways_unknown or cord.crosses or cord.pull_unknown or cord.return_unknown,
    }


def _pair(values: tuple[float, float] | None, names: tuple[str, str]) -> Json | None:
    """Return two numbers by their names."""
    return None if values is None else dict(zip(names, values, strict=True))


def _three(values: tuple[float, float, float] | None, names: tuple[str, str, str]) -> Json | None:
    """Return three numbers by their names."""
    return None if values is None else dict(zip(names, values, strict=True))
