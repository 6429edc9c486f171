"""A print told at the desk of one job without a ledger: a line more in the print log beside the job."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping
from typing import Any

from planner.calibrate import Print, append_print, lost_pieces, read_log
from planner.desk.events.chapter_events import ChapterEvents
from planner.desk.work_folder import DeskFolder
from planner.errors import CommandError, nearest
from planner.job import read_failure_rules
from planner.phrases import listed

Json = dict[str, Any]
LOG = "print-log.csv"
MINUTES_MOST, GRAMS_MOST = 60.0 * 24.0 * 30.0, 1e5
"""No plate runs for longer than a month, and no spool holds more."""
SHOWN_N = 5
"""So many lines of the log are shown, the newest first."""
FIELDS = ("plate", "outcome", "ran_min", "grams", "cause", "lost", "again")


class PrintLogDesk:
    """The print log of a desk's folder.

    Raises
    ------
    CommandError, ProfileError
        From every method, in one sentence, where it cannot be done; then nothing is written.
    """

    def __init__(self, folder: DeskFolder) -> None:
        self.folder = folder

    def state(self) -> Json:
        """Return the plates, the causes that are known, and the newest lines; nothing where a ledger keeps them."""
        if not self.folder.has_plan() or ChapterEvents(self.folder).there():
            return {"plates": [], "causes": [], "lines": []}
        log = self.folder.path / LOG
        lines = [_line(one) for one in read_log(log)] if log.is_file() else []
        causes = [{"cause": name, "about": rule.about} for name, rule in read_failure_rules().items()]
        return {"plates": _plates(self._plan()), "causes": causes, "lines": lines[: -SHOWN_N - 1 : -1]}

    def tell(self, fields: Mapping[str, Any]) -> Json:
        """Write one line; return what it says, what was lost, and the state after it.

        ``fields``: ``plate`` (its number), ``outcome`` (done, failed), ``ran_min`` and ``grams`` where known, ``cause``
        and ``lost`` of a failed one (``jaw:1``; empty: all of it), and ``again`` for a plate that is logged as done.
        """
        for key in fields:
            if key not in FIELDS:
                raise CommandError(where=key[:40], wrong="there is no such field", todo=nearest(key, FIELDS))
        if ChapterEvents(self.folder).there():
            raise CommandError(where="print log", wrong="this folder's chapter has a ledger", todo="tell it there")
        plan = self._plan()
        one = _print_of(plan, fields)
        log = self.folder.path / LOG
        with self.folder.alone():
            before = read_log(log) if log.is_file() else ()
            if fields.get("again") is not True and any(it.plate == one.plate and not it.failed for it in before):
                raise CommandError(where=one.plate, wrong="it is logged as done", todo="tick that it was printed again")
            append_print(log, one)
        lost = listed(f"{part} × {n}" for part, n in one.lost)
        words = f"Kept in {LOG}: {_line(one)}."
        return {"words": words + (f" To print again: {lost}." if lost else ""), "state": self.state()}

    def _plan(self) -> Json:
        """Return the plan as it was written."""
        found: Json = json.loads(self.folder.of_plan("plan.json").read_text(encoding="utf-8"))
        return found


def _plates(plan: Json) -> list[Json]:
    """Return what the form shows of each plate."""
    return [
        {
            "number": row["number"],
            "hours": row["duration_s"] / 3600.0,
            "grams": row["mass_g"],
            "pieces": listed(f"{part} × {n}" for part, n in _counted(row).items()),
        }
        for row in plan["plates"]
    ]


def _counted(row: Json) -> Counter[str]:
    """Return how many of each part lie on a plate."""
    return Counter(str(one["part"]) for one in row["placements"])


def _print_of(plan: Json, fields: Mapping[str, Any]) -> Print:
    """Return the line that a form's fields tell of a plate of the plan."""
    number, outcome = fields.get("plate"), fields.get("outcome")
    row = next((row for row in plan["plates"] if row["number"] == number and not isinstance(number, bool)), None)
    if row is None:
        todo = f"name one of {listed(str(one['number']) for one in plan['plates'])}"
        raise CommandError(where="plate", wrong=f"the plan has no plate {str(number)[:20]!r}", todo=todo)
    if outcome not in ("done", "failed"):
        raise CommandError(where="outcome", wrong=f"{str(outcome)[:20]!r} cannot be", todo="say done or failed")
    ran_h = _amount("minutes that it ran", fields.get("ran_min"), MINUTES_MOST)
    ran_h = None if ran_h is None else ran_h / 60.0
    grams, failed, on = _amount("grams", fields.get("grams"), GRAMS_MOST), outcome == "failed", _counted(row)
    return Print(
        plate=f"{plan['job']}, plate {number}",
        planned_h=row["duration_s"] / 3600.0,
        real_h=None if failed else ran_h,
        planned_g=row["mass_g"],
        real_g=grams,
        failed=failed,
        cause=_cause(fields.get("cause")) if failed else "",
        failed_at_h=ran_h if failed else None,
        pieces_n=float(on.total()),
        on=tuple(on.items()),
        lost=_lost(fields.get("lost"), on) if failed else (),
    )


def _cause(told: object) -> str:
    """Return what was seen, one of the causes that are known."""
    causes = read_failure_rules()
    if told not in causes:
        raise CommandError(where="cause", wrong=f"{str(told)[:40]!r} is not known", todo=nearest(str(told), causes))
    return str(told)


def _lost(told: object, on: Counter[str]) -> tuple[tuple[str, int], ...]:
    """Return the pieces that are lost; all of a plate where nobody names any."""
    if told in (None, ""):
        return tuple(on.items())
    lost = lost_pieces(str(told)[:500], "lost pieces")
    for part, n in lost:
        if n > on[part]:
            todo = f"it holds {listed(f'{name} × {count}' for name, count in on.items())}"
            raise CommandError(where="lost pieces", wrong=f"{part} × {n} are not on this plate", todo=todo)
    return lost


def _amount(called: str, told: object, most: float) -> float | None:
    """Return a number of 0 or more; None where the field is empty."""
    if told in (None, ""):
        return None
    try:
        found = float(str(told).replace(",", "."))
    except ValueError:
        found = float("nan")
    if isinstance(told, bool) or not 0.0 <= found <= most:
        raise CommandError(where=called, wrong=f"'{str(told)[:40]}' cannot be", todo="write a number, such as 95")
    return found


def _line(one: Print) -> str:
    """Return a line of the log in words."""
    told = [one.plate, f"failed ({one.cause or 'no cause told'})" if one.failed else "done"]
    ran_h = one.failed_at_h if one.failed else one.real_h
    if ran_h is not None:
        told.append(f"{ran_h:.1f} h" + ("" if one.planned_h is None else f" of {one.planned_h:.1f} h planned"))
    if one.real_g is not None:
        told.append(f"{one.real_g:.0f} g" + ("" if one.planned_g is None else f", {one.planned_g:.0f} g planned"))
    return ", ".join(told)
