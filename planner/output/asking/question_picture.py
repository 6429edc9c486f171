"""The picture of a question: the parts that it is about, their bores or slots ringed and named."""

from __future__ import annotations

import io
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw, ImageFont

from planner.assembly import Doubt
from planner.finding import Vec3
from planner.mesh import Solid
from planner.output.drawing.part_picture import PartView, part_view
from planner.survey import Survey
from planner.whole_file import whole

TILE_PX = (360, 270)
LABEL_PX = 24
PARTS_MOST, ACROSS_MOST = 6, 3
RING_PX, RIM_PX = 7, 4
PAPER, INK, RING = (255, 255, 255), (40, 40, 40), (200, 40, 30)
SLOT = "slot "
"""How the features of slots are called, before their number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mouth:
    """An opening: the middle of it, its unit axis, how deep it is and how wide."""

    at_mm: Vec3
    axis: Vec3
    depth_mm: float
    wide_mm: float

    def ring_px(self, view: PartView) -> tuple[float, float, float]:
        """Return the middle and radius of a ring about the end of it that looks to who sees the picture."""
        ahead = np.asarray(self.axis)
        toward = 1.0 if float(ahead @ np.cross(view.right, view.up)) >= 0.0 else -1.0
        x, y, z = (float(one) for one in np.asarray(self.at_mm) + toward * self.depth_mm / 2.0 * ahead)
        return *view.at_px((x, y, z)), max(RING_PX, self.wide_mm / 2.0 * view.px_per_mm + RIM_PX)


class QuestionPictures:
    """Pictures for the questions of one device; each part is drawn once."""

    def __init__(self, solids: Mapping[str, Solid], surveys: Mapping[str, Survey]) -> None:
        self.solids, self.surveys = solids, surveys
        self._views: dict[str, PartView] = {}

    @cached_property
    def _type(self) -> ImageFont.ImageFont | ImageFont.FreeTypeFont:
        """The face that labels are set in."""
        return ImageFont.load_default(14)

    def written(self, doubt: Doubt, folder: Path) -> Path:
        """Write the picture of one question into a folder; return its path."""
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / f"{doubt.id}.png"
        with whole(path) as aside:
            aside.write_bytes(self.png(doubt))
        return path

    def png(self, doubt: Doubt) -> bytes:
        """Return the picture of one question: at most six parts, those with the most of what it asks about first."""
        places: dict[str, list[Mouth]] = {}
        for part, feature in doubt.features if any(part for part, _ in doubt.features) else self._all():
            places.setdefault(part, []).extend(self._places(part, feature))
        parts = sorted(places, key=lambda part: -len(places[part]))
        shown = parts[:PARTS_MOST]
        across = min(ACROSS_MOST, len(shown))
        down = -(-len(shown) // across)
        sheet = Image.new("RGB", (across * TILE_PX[0], down * (TILE_PX[1] + LABEL_PX)), PAPER)
        for k, part in enumerate(shown):
            at = (k % across * TILE_PX[0], k // across * (TILE_PX[1] + LABEL_PX))
            more = (
                f", and {len(parts) - len(shown)} more parts" if k == len(shown) - 1 and len(parts) > len(shown) else ""
            )
            self._tile(sheet, at, part, places[part], more)
        file = io.BytesIO()
        sheet.save(file, "PNG", optimize=True)
        return file.getvalue()

    def _tile(self, sheet: Image.Image, at: tuple[int, int], part: str, places: list[Mouth], more: str) -> None:
        """Draw one part with rings about its places, and its name below."""
        view = self._view(part)
        with Image.open(io.BytesIO(view.png)) as drawn:
            sheet.paste(drawn, at, drawn)
        pen = ImageDraw.Draw(sheet)
        for place in places:
            x, y, r = place.ring_px(view)
            box = (at[0] + x - r, at[1] + y - r, at[0] + x + r, at[1] + y + r)
            pen.ellipse(box, outline=RING, width=2)
        pen.text((at[0] + 8, at[1] + TILE_PX[1] + 3), part + more, fill=INK, font=self._type)

    def _all(self) -> list[tuple[str, str]]:
        """Return every part as a whole, largest first: what a question about the whole device is about."""
        ordered = sorted(self.surveys.items(), key=lambda one: -max(one[1].size_mm))
        return [(name, "") for name, _ in ordered]

    def _view(self, part: str) -> PartView:
        """Return the view of a part, drawn once."""
        if part not in self._views:
            self._views[part] = part_view(self.solids[part], *TILE_PX)
        return self._views[part]

    def _places(self, part: str, feature: str) -> list[Mouth]:
        """Return where a feature is; nowhere for a part as a whole."""
        survey = self.surveys[part]
        if feature.startswith(SLOT):
            slot = survey.slots[int(feature.removeprefix(SLOT)) - 1]
            return [Mouth(at_mm=slot.at_mm, axis=slot.deep_axis, depth_mm=slot.depth_mm, wide_mm=slot.length_mm)]
        return [
            Mouth(at_mm=bore.centre_mm, axis=bore.axis, depth_mm=bore.depth_mm, wide_mm=bore.diameter_mm)
            for bore in (*survey.bores, *survey.possible_bores)
            if bore.id == feature
        ]
