"""The picture of a question: the parts that it is about, their bores or slots ringed and named."""

from __future__ import annotations

import io
from collections.abc import Mapping
from functools import cached_property
from pathlib import Path

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
RING_PX = 7
PAPER, INK, RING = (255, 255, 255), (40, 40, 40), (200, 40, 30)
SLOT = "slot "
"""How the features of slots are called, before their number."""


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
        places: dict[str, list[Vec3]] = {}
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

    def _tile(self, sheet: Image.Image, at: tuple[int, int], part: str, places: list[Vec3], more: str) -> None:
        """Draw one part with rings about its places, and its name below."""
        view = self._view(part)
        with Image.open(io.BytesIO(view.png)) as drawn:
            sheet.paste(drawn, at, drawn)
        pen = ImageDraw.Draw(sheet)
        for place in places:
            x, y = view.at_px(place)
            box = (at[0] + x - RING_PX, at[1] + y - RING_PX, at[0] + x + RING_PX, at[1] + y + RING_PX)
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

    def _places(self, part: str, feature: str) -> list[Vec3]:
        """Return where a feature is; nowhere for a part as a whole."""
        survey = self.surveys[part]
        if feature.startswith(SLOT):
            return [survey.slots[int(feature.removeprefix(SLOT)) - 1].at_mm]
        return [bore.centre_mm for bore in (*survey.bores, *survey.possible_bores) if bore.id == feature]
