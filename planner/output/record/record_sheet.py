"""The record as a paper: what stands in record.toml, with room for what does not yet."""

from __future__ import annotations

from planner.output.paper_files.page_size import PaperName
from planner.output.paper_files.sheet import Block, Card, Facts, Heading, Lines, Rows, Sheet, Words
from planner.output.record.record import Record, blank
from planner.output.record.release import Release
from planner.output.words.paper_words import percent
from planner.plan import Plan


def record_sheet(plan: Plan, judged: Release | None, paper: PaperName) -> Sheet:
    """Return the paper: an empty form before a release, what was recorded after it."""
    record = judged.record if judged else blank(plan, paper)
    blocks: list[Block] = [
        Words(text="The record is the file record.toml beside these papers. Use this page to take notes at the bench."),
        Facts(rows=_of(record)),
        Heading(text="Tests"),
        Rows(
            head=("test", "pass or fail", "reading", "remark"),
            rows=tuple((one.trial, one.result, one.reading, one.remark) for one in record.trials),
            shares=(2.6, 1.4, 1.6, 3.4),
            written=True,
        ),
        Heading(text="Lots"),
        Rows(
            head=("material", "lot, or where and when bought"),
            rows=tuple((one.of, one.lot) for one in record.lots),
            shares=(2.6, 6.4),
            written=True,
        ),
        Heading(text="Measures"),
        Rows(
            head=("measure", "at planning", "now", "day"),
            rows=_measures(plan, record, filled=judged is not None),
            shares=(3.4, 1.6, 1.6, 2.4),
            written=True,
            right=(1,),
        ),
        Heading(text="Roles"),
        Facts(rows=tuple((role.replace("_", " "), who, "") for role, who in record.roles)),
        *_overrides(plan, judged),
        Lines(labels=("record kept by (role)", "date")),
    ]
    return Sheet(name="record", title="Record", cards=(Card(title="Record", blocks=tuple(blocks)),))


def _of(record: Record) -> tuple[tuple[str, str, str], ...]:
    """Return what the record is of."""
    of = record.of
    return (
        ("device", of.job, f"for {of.recipient or 'no code stated'}"),
        ("size", percent(of.scale_percent), of.side or "no side stated"),
        ("printer", of.printer, of.material),
        ("meshes", of.parts_sha256[:16], "first 16 digits of the SHA-256 over all parts"),
        ("tested", record.tested_on.isoformat() if record.tested_on else "", ""),
    )


def _measures(plan: Plan, record: Record, *, filled: bool) -> tuple[tuple[str, ...], ...]:
    """Return each measure at planning and now; an empty form leaves now to be written."""
    now = {one.name: one for one in record.measures}
    rows = []
    for measure in plan.job.size.measures:
        one = now.get(measure.name) if filled else None
        value = f"{one.recipient_mm:g} mm" if one and one.recipient_mm is not None else ""
        day = one.taken.isoformat() if one and one.taken else ""
        rows.append((measure.name, f"{measure.recipient_mm:g} mm", value, day))
    return tuple(rows)


def _overrides(plan: Plan, judged: Release | None) -> list[Block]:
    """Return the overrides of job and record, each with role and reason."""
    rows = [(f"{o.rule} {o.part}".strip(), o.role, o.reason) for o in plan.job.overrides]
    rows += [(lift.item, lift.role, lift.reason) for lift in (judged.record.lifts if judged else ())]
    if not rows:
        return []
    table = Rows(head=("exception", "approved by", "reason"), rows=tuple(rows), shares=(2.6, 2.2, 4.2))
    return [Heading(text="Overrides"), table]
