"""Where to drill: a part seen from the side one drills from, with the names, diameters and depths of its openings."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from planner.finding import Vec3
from planner.output.drawing.shapes import Drawing, Label, Point, Shape
from planner.output.line_drawing.scene import Body, DrawnFrame, Scene
from planner.output.line_drawing.view_grid import Floats, looking
from planner.output.tongue import ENGLISH, Tongue
from planner.output.words.shortened import short
from planner.plan import PlannedPart

RATIOS = (1, 2, 5, 10)
"""A part is drawn at its size where it fits, else smaller by one of these (common practice)."""
HIGH_MM = 110.0
"""A sketch is no higher."""
LABEL_MM = 3.2
LINE_MM = 5.0
"""From one label to the next below it."""
LETTER_SHARE = 0.56
"""Mean width of a letter over its size."""
NAME_N = 40
"""Letters of a part's name in a caption, which must fit one line of the page."""
RIM_MM, TICK_MM = 4.0, 1.6
SAME_PLACE_MM = 1.0
"""Rings that lie nearer are one behind the other."""
FINE_MM = 0.04
GRID_PX = 600
SAME_WAY = 0.999


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A mouth to show: where it is as drawn, the axis of the tool, its diameter at size and what to write beside it."""

    id: str
    centre_mm: Vec3
    axis: Vec3
    diameter_mm: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillView:
    """One sketch, the openings on it by name, and how many times smaller than the part it is."""

    part: str
    ids: tuple[str, ...]
    drawing: Drawing
    ratio: int


def openings_of(part: PlannedPart, texts: Mapping[str, str], tongue: Tongue = ENGLISH) -> list[Opening]:
    """Return the bores of a part that are named in ``texts``, each with its text, and its depth where it is blind."""
    factor = part.scale_percent[0] / 100.0
    found = []
    for bore in part.survey.bores:
        if bore.id in texts:
            mm = tongue.amount(f"{bore.depth_mm * factor:.1f} mm")
            deep = tongue.say("through") if bore.through else tongue.say("{mm} deep", mm=mm)
            found.append(
                Opening(
                    id=bore.id,
                    centre_mm=bore.centre_mm,
                    axis=bore.axis,
                    diameter_mm=bore.drawn_diameter_mm * factor,
                    text=tongue.say(
                        "{bore}: {work}, {depth}", bore=tongue.kept(bore.id), work=texts[bore.id], depth=deep
                    ),
                )
            )
    return found


def drill_views(
    part: PlannedPart, openings: Sequence[Opening], wide_mm: float, tongue: Tongue = ENGLISH
) -> tuple[DrillView, ...]:
    """Return as few sketches of a part at size as show every opening from a side that its tool comes from."""
    solid = part.sized
    body = Body(solid=solid, turn=np.eye(3), shift_mm=np.zeros(3))
    left = list(openings)
    found = []
    while left:
        first = _way(part, left[0])
        tries = []
        for way in (-first, first):  # looking down on the drawn part first
            scene = Scene({part.part.name: body}, looking(way), GRID_PX)
            along = [one for one in left if abs(float(_way(part, one) @ way)) > SAME_WAY]
            open_here = [one for one in along if _open(scene, part, one)]
            tries.append((len(open_here), scene, open_here))
            if len(open_here) == len(along):
                break  # from the other side no more can be seen
        count, scene, shown = max(tries, key=lambda tried: tried[0])
        if not count:  # no side is free, as where a bore lies deep inside: shown all the same, from its own axis
            scene, shown = tries[0][1], [left[0]]
        found.append(_sketch(part, scene, shown, wide_mm, tongue))
        left = [one for one in left if one not in shown]
    return tuple(found)


def _side(part: PlannedPart) -> Floats:
    """Return what takes drawn coordinates to those of the part at size, as factors of x, y and z."""
    found: Floats = np.array(part.scale_percent) / 100.0 * np.array([-1.0 if part.mirrored else 1.0, 1.0, 1.0])
    return found


def _way(part: PlannedPart, one: Opening) -> Floats:
    """Return the unit vector of an opening's axis at size, of its two senses the one along its largest coordinate."""
    way = np.asarray(one.axis) * _side(part)
    way = way / np.linalg.norm(way)
    leading = way[int(np.argmax(np.abs(way).round(3)))]
    found: Floats = way if leading > 0 else -way
    return found


def _flat(scene: Scene, part: PlannedPart, one: Opening) -> Floats:
    """Return an opening's centre in the view, in mm."""
    found: Floats = scene.view.flat(np.array([np.asarray(one.centre_mm) * _side(part)]))[0]
    return found


def _open(scene: Scene, part: PlannedPart, one: Opening) -> bool:
    """Return whether nothing of the part stands before the middle of an opening in a view."""
    flat = _flat(scene, part, one)
    x, y = np.rint(scene.grid.px(flat[None])[0, :2]).astype(int)
    near = scene.nearest([part.part.name])
    return bool(near[y, x] >= flat[2] - 0.01)


def _sketch(part: PlannedPart, scene: Scene, shown: Collection[Opening], wide_mm: float, tongue: Tongue) -> DrillView:
    """Return one sketch: the part's edges that are seen, every opening ringed and named, the texts beside or below."""
    name = part.part.name
    low, high = scene.box_of([name])
    words_mm = max(len(one.text) for one in shown) * LABEL_MM * LETTER_SHARE
    size = high - low + 2 * RIM_MM
    beside = bool(size[0] + words_mm <= wide_mm and size[1] <= HIGH_MM)
    ratio = next((r for r in RATIOS if size[0] / r <= wide_mm and size[1] / r <= HIGH_MM), RATIOS[-1])
    rim = RIM_MM * ratio
    frame = DrawnFrame(
        low_mm=(float(low[0]) - rim, float(low[1]) - rim),
        high_mm=(float(high[0]) + rim, float(high[1]) + rim),
        ratio=1.0 / ratio,
    )
    edges = scene.lines([name], scene.nearest([name]), frame, FINE_MM)
    wide, tall = frame.size_mm
    marks = [(frame.at(_flat(scene, part, one)), one.diameter_mm / ratio / 2, one) for one in shown]
    words_high = LINE_MM * len(marks)
    below = 0.0 if beside else words_high
    high_mm = max(tall, words_high + 1.0) if beside else tall + below
    told = tongue.say("true size") if ratio == 1 else tongue.kept(f"1 : {ratio}")
    whose = tongue.kept(short(name, NAME_N))
    caption = tongue.say("{part}, from the side that the tool comes from, {scale}", part=whose, scale=told)
    shapes = _drawn(edges, marks)
    labels = _names(marks, wide)
    top = high_mm - LINE_MM if beside else below - LINE_MM
    labels += [
        Label(
            at=(wide if beside else 0.0, top - LINE_MM * index + 1.2), text=one.text, size_mm=LABEL_MM, anchor="start"
        )
        for index, (_, _, one) in enumerate(marks)
    ]
    caption_mm = len(caption) * LABEL_MM * LETTER_SHARE
    lifted = [replace(shape, rings=_raised(shape.rings, below)) for shape in shapes]
    labels = _lifted(labels, len(labels) - len(marks), below)
    labels.append(Label(at=(0.0, round(high_mm + 1.2, 2)), text=caption, size_mm=LABEL_MM, anchor="start"))
    about = f"{caption}: " + "; ".join(one.text for _, _, one in marks)
    drawing = Drawing(
        width_mm=round(min(max(wide + words_mm if beside else wide, words_mm, caption_mm), wide_mm), 2),
        height_mm=round(high_mm + LINE_MM, 2),
        about=about,
        shapes=tuple(lifted),
        labels=tuple(labels),
        true_size=True,
    )
    return DrillView(part=name, ids=tuple(one.id for _, _, one in marks), drawing=drawing, ratio=ratio)


def _drawn(edges: Shape | None, marks: Sequence[tuple[Point, float, Opening]]) -> list[Shape]:
    """Return the part's edges, and a ring and a cross for every opening."""
    shapes = [replace(edges, stroke_mm=0.25)] if edges else []
    return shapes + [shape for at, radius, _ in marks for shape in (_ring(at, radius), _cross(at, radius + TICK_MM))]


def _lifted(labels: Sequence[Label], names_n: int, by_mm: float) -> list[Label]:
    """Return labels with the first so many, those on the part, moved up with it."""
    return [
        replace(label, at=(label.at[0], round(label.at[1] + by_mm, 2))) if index < names_n else label
        for index, label in enumerate(labels)
    ]


def _raised(rings: tuple[tuple[Point, ...], ...], by_mm: float) -> tuple[tuple[Point, ...], ...]:
    """Return rings moved up."""
    return tuple(tuple((x, round(y + by_mm, 2)) for x, y in ring) for ring in rings) if by_mm else rings


def _names(marks: Sequence[tuple[Point, float, Opening]], wide_mm: float) -> list[Label]:
    """Return the name beside every ring; openings that lie behind each other share a label."""
    groups: list[list[tuple[Point, float, Opening]]] = []
    for mark in marks:
        group = next((one for one in groups if math.dist(one[0][0], mark[0]) < SAME_PLACE_MM), None)
        if group is None:
            groups.append([mark])
        else:
            group.append(mark)
    found = []
    for group in groups:
        (x, y), radius, _ = group[0]
        text = ", ".join(one.id for _, _, one in group)
        long = len(text) * LABEL_MM * LETTER_SHARE
        off = radius * 0.8 + 0.5
        left = x + off if x + off + long <= wide_mm else x - off - long
        found.append(Label(at=(round(left, 2), round(y + off, 2)), text=text, size_mm=LABEL_MM, anchor="start"))
    return found


def _ring(at: Point, radius_mm: float) -> Shape:
    """Return a bold ring round an opening."""
    turns = [2 * math.pi * k / 36 for k in range(36)]
    ring = tuple((round(at[0] + radius_mm * math.cos(t), 2), round(at[1] + radius_mm * math.sin(t), 2)) for t in turns)
    return Shape(rings=(ring,), stroke_mm=0.7)


def _cross(at: Point, reach_mm: float) -> Shape:
    """Return the lines that mark an opening's middle."""
    (x, y), r = at, reach_mm
    return Shape(rings=(((x - r, y), (x + r, y)), ((x, y - r), (x, y + r))), closed=False, stroke_mm=0.15)
