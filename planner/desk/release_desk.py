"""Release on the desk: the record of the plan is judged, and the hand-over sheet stamped, as by the command."""

from __future__ import annotations

from planner.desk.work_folder import DeskFolder
from planner.job import with_changes
from planner.output import RECORD, read_record, release, release_json, write_release
from planner.plan import make_plan, prepare

Json = dict[str, object]


def released(folder: DeskFolder) -> Json:
    """Judge the record of the plan in the folder, against the job as it stands today; stamp the sheet either way.

    Raises
    ------
    CommandError, RecordError, JobError
        Where no plan was written, or the record or the job cannot be read.
    """
    path = folder.of_plan(f"bench/{RECORD}")
    record, today = read_record(path), folder.day()
    job = with_changes(folder.job(), percent=record.of.scale_percent, language=record.of.language)
    made = make_plan(prepare(job, today))
    judged = release(made, record, today)
    sheet = write_release(made, path.parent, judged, record.of.paper)
    said = ("Released by override." if judged.answered else "Released.") if judged.released else "Not released."
    missing = len(judged.missing)
    todo = f" {missing} {'item is' if missing == 1 else 'items are'} missing in {path.relative_to(folder.path)}."
    return release_json(made, judged, path, sheet) | {"words": said + (todo if missing else "")}
