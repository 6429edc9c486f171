"""The words that a program may use, and what each does: two tables by the number of the word.

What G words mean is ISO 6983's and RS-274's; the M words are those of desktop printers (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray


def _table(words: Mapping[int, Sequence[float]], times: int) -> NDArray[np.int8]:
    """Return what every word does, by its number times a factor; 0 for a word that is not known."""
    table = np.zeros(1000, dtype=np.int8)
    for does, numbers in words.items():
        table[[round(times * number) for number in numbers]] = does
    return table


(G_UNKNOWN, G_MOVE, G_DWELL, G_PLANE, G_INCH, G_MM, G_DISTANCE, G_PLACE, G_HOME, G_MODAL, G_OTHER) = range(11)
G_WORDS = _table(
    {
        G_MOVE: (0, 1, 2, 3),
        G_DWELL: (4,),
        G_PLANE: (17, 18, 19),
        G_INCH: (20,),
        G_MM: (21,),
        G_DISTANCE: (90, 91),
        G_PLACE: (92, 92.1),
        G_HOME: (28,),
        G_MODAL: (40, 43, 49, 50, 53, 54, 55, 56, 57, 58, 59, 61, 64, 80, 90.1, 91.1, 94, 97, 98, 99),
        G_OTHER: (10, 11, 12, 26, 27, 29, 30, 31, 32, 33, 34, 35, 38, 60, 76, 92.2, 92.3),
    },
    10,
)
"""What a G word does, by ten times its number. ``G_MODAL`` may stand beside a move; ``G_OTHER`` takes its letters."""

(M_UNKNOWN, M_QUIET, M_E_MODE, M_NOZZLE, M_BED, M_FAN, M_FAN_OFF, M_VOLUME, M_ACC, M_FEED, M_FLOW) = range(11)
M_WORDS = _table(
    {
        M_QUIET: (0, 1, 2, 6, 17, 18, 30, 73, 75, 77, 84, 105, 110, 114, 115, 117, 118, 201, 203, 205, 300, 400, 900),
        M_E_MODE: (82, 83),
        M_NOZZLE: (104, 109),
        M_BED: (140, 190),
        M_FAN: (106,),
        M_FAN_OFF: (107,),
        M_VOLUME: (200,),
        M_ACC: (204,),
        M_FEED: (220,),
        M_FLOW: (221,),
    },
    1,
)
"""What an M word does, by its number; ``M_QUIET`` words change nothing that is measured here."""
