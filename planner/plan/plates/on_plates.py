"""On plates: every copy of every part on a proved plate."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

from planner.plan.parts.planned_parts import with_other_ways
from planner.plan.plates.packed_plates import packed_plates
from planner.plan.prepare import Progress
from planner.plan.stages import Laid, Sized


def on_plates(sized: Sized, progress: Progress) -> Laid:
    """Pack all copies of the sized parts.

    The search leaves a core free; meanwhile the next best pose of every part is estimated.
    """
    progress("packing plates", 0.6)
    with ThreadPoolExecutor(1) as aside:
        packing = aside.submit(packed_plates, sized.ready.job, sized.material, sized.parts)
        parts = with_other_ways(sized.ready, sized.parts, sized.material)
        packed, missing = packing.result()
    return Laid(sized=replace(sized, parts=parts), packed=packed, missing=missing)
