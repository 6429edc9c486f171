"""``fitwright photo``: a length or a limb's width from a photo with the card in it."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JsonOption, QuietOption


def photo(
    image: Annotated[Path, typer.Argument(metavar="IMAGE", help="A photo, JPEG or PNG, with the whole card in it.")],
    points: Annotated[
        str, typer.Option("--points", metavar="X1,Y1,X2,Y2", help="Two points, in pixels from the upper left.")
    ],
    is_round: Annotated[bool, typer.Option("--round", help="They are the two edges of a round limb.")] = False,
    height: Annotated[
        float, typer.Option("--height", metavar="MM", help="How high they, or its middle, lie above the card.")
    ] = 0.0,
    height_off: Annotated[
        float, typer.Option("--height-off", metavar="MM", help="How far that height may be off.")
    ] = 10.0,
    ruler: Annotated[float, typer.Option("--ruler", metavar="MM", help="What the card's ruler measures.")] = 100.0,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Measure between two points of a photo, with the range that the true length lies in; nothing of it is kept.

    Lay the card (`fitwright card`) beside the limb at the height of its middle, and take the photo from a metre off.
    Both points lie near the card's height. A limb's edges need `--round`: a camera sees past its middle, the more so
    the more it looks from the side. Exit code 1: the range is too wide to choose a size by, take the photo again.

    Examples: `fitwright photo arm.jpg --points 812,1430,1506,1442`,
    `fitwright photo arm.jpg --points 812,1430,1506,1442 --round --height 5 --json -`
    """
    from planner.errors import CommandError
    from planner.output import Out, photo_again, photo_json, photo_lines, show_lines
    from planner.photo import (
        ABOVE_MOST_MM,
        ABOVE_OFF_MOST_MM,
        RULER_LEAST_MM,
        RULER_MOST_MM,
        find_card,
        fitted_camera,
        measured,
        points_px,
        read_photo,
    )

    if not RULER_LEAST_MM <= ruler <= RULER_MOST_MM:
        raise CommandError(where=f"--ruler {ruler:g}", wrong="no printer is so far off", todo="give 80 to 120 mm")
    if not (abs(height) <= ABOVE_MOST_MM and 0.0 <= height_off <= ABOVE_OFF_MOST_MM):
        raise CommandError(where="--height, --height-off", wrong="a card lies within 300 mm", todo="give mm")
    taken = read_photo(image)
    size_px = (taken.grey.shape[1], taken.grey.shape[0])
    pair = points_px(points, size_px)
    found = find_card(taken.grey)
    fitted = fitted_camera(found, size_px, taken.focal_35_mm)
    length = measured(fitted, pair, height, height_off, ruler, is_round=is_round)
    out = Out(json_path=json, quiet=quiet)
    out.emit(photo_json(length, found.marks_n, is_round=is_round))
    again = photo_again(length)
    off_mm = math.ceil(10.0 * max(length.high_mm - length.value_mm, length.value_mm - length.low_mm)) / 10.0
    said = f'In the job: recipient_mm = {length.value_mm:.1f}, off_mm = {off_mm:.1f}, how = "photo".'
    show_lines(out.console, [*photo_lines(length, found.marks_n, is_round=is_round), *([] if again else [said])])
    raise typer.Exit(1 if again else 0)
