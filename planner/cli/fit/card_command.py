"""``fitwright card``: the card that is laid beside a limb when a photo measures it."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JsonOption, PaperChoice, PaperOption, QuietOption


def card(
    out: Annotated[Path, typer.Option("-o", "--out", metavar="PDF", help="File to write.")] = Path("card.pdf"),
    paper: PaperOption = PaperChoice.a4,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Write a card with marks and a ruler, one page of PDF, to be laid beside a limb in a photo.

    Examples: `fitwright card -o card.pdf`, `fitwright card --paper letter`
    """
    from planner.output import SIZES, Out, card_pdf
    from planner.whole_file import whole

    with whole(out) as aside:
        aside.write_bytes(card_pdf(SIZES[paper.value]))
    told = Out(json_path=json, quiet=quiet)
    told.emit({"schema": "fitwright/card/1", "card": str(out)})
    told.console.print(f"Card: {out}", markup=False, soft_wrap=True)
    told.console.print("Print it at 100 %, glue it to something flat, and lay it beside the limb, at mid-height.")
    told.console.print("Then: fitwright photo IMAGE --points X1,Y1,X2,Y2", markup=False)
