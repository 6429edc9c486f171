"""The steps of the assembly with a drawing of each, for the paper and the page."""

from __future__ import annotations

from dataclasses import dataclass

from planner.output.drawing.shapes import Drawing
from planner.output.line_drawing.copies_standing import Standing
from planner.output.line_drawing.step_pictures import Shown, step_pictures
from planner.output.papers.assembly_order import Step, order_of
from planner.output.tongue import ENGLISH, Tongue
from planner.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnStep:
    """A step with its number from 1 on, through all groups; ``drawing`` None where its parts have no known place."""

    number: int
    step: Step
    drawing: Drawing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnGroup:
    """A group's title and its steps."""

    title: str
    steps: tuple[DrawnStep, ...]


def drawn_steps(plan: Plan, standing: Standing, tongue: Tongue = ENGLISH) -> tuple[tuple[DrawnGroup, ...], str]:
    """Return all groups, and in words how to read the drawings, or why there are none."""
    groups = order_of(plan, tongue)
    every = [step for group in groups for step in group.steps]
    drawings = iter(
        step_pictures(plan, standing, [_shown(number, step, tongue) for number, step in enumerate(every, 1)])
    )
    number = 0
    found = []
    for group in groups:
        steps = []
        for step in group.steps:
            number += 1
            steps.append(DrawnStep(number=number, step=step, drawing=next(drawings)))
        found.append(DrawnGroup(title=group.title, steps=tuple(steps)))
    return tuple(found), _said(standing, tongue) if every else ""


def _shown(number: int, step: Step, tongue: Tongue) -> Shown:
    """Return what a step needs to be drawn."""
    about = tongue.say("step {n}: {parts}", n=str(number), parts=tongue.listed(step.parts))
    return Shown(name=step.name, parts=step.parts, there=step.there, about=about)


def _said(standing: Standing, tongue: Tongue) -> str:
    """Return how to read the drawings, and what is missing from them."""
    if standing.why:
        none = tongue.say("No drawings.")
        return f"{none} {standing.why}" if tongue.code == "en" else f"{none}{tongue.in_english(standing.why)}"
    key = tongue.say(
        "Dark: what the step adds, or the parts it works on. Arrows: a straight way in that is free. Dashed: behind "
        "something. Heads and nuts are drawn simply; straps, padding, and nuts in pockets are not drawn."
    )
    if not standing.missing:
        return key
    lost = tongue.listed(tongue.kept(copy) for copy, _ in standing.missing)
    return f"{key} {tongue.say('Not drawn, because nothing says where they stand: {parts}.', parts=lost)}"
