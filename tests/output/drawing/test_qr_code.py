"""Squares to scan: another library reads back what was drawn."""

from __future__ import annotations

import numpy as np
import zxingcpp

from planner.output.drawing.qr_code import QUIET_N, qr_code

PX = 4


def test_another_library_reads_the_id_back() -> None:
    """The drawn shapes as pixels, with their quiet ground, are read as the same text by zxing-cpp; a scratch across does no harm."""
    for text in ("R-07.3", "R-107.25", "H-1.1"):
        drawing = qr_code(text)
        side = round(drawing.height_mm) * PX
        picture = np.full((side, side), 255, dtype=np.uint8)
        for shape in drawing.shapes:
            (left, low), _, (right, high), _ = shape.rings[0]
            picture[side - round(high * PX) : side - round(low * PX), round(left * PX) : round(right * PX)] = 0

        assert picture[: QUIET_N * PX].min() == 255
        assert [found.text for found in zxingcpp.read_barcodes(picture)] == [text]

        worn = picture.copy()
        middle = side // 2
        worn[middle : middle + 4 * PX, middle : middle + 3 * PX] = 255
        assert [found.text for found in zxingcpp.read_barcodes(worn)] == [text]
