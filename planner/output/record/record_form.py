"""The record as a form, ``record.toml``: written once, filled in by people, never overwritten after that."""

from __future__ import annotations

import hashlib
import json

from planner.output.record.record import Record

MARK = "# form "
HEAD = """\
# Record of one device. Fill in the empty quotes; then run: fitwright release JOB
# Codes and roles only: no names, and nothing about health.
# Write dates without quotes: 2026-12-05. Keep the next line: it shows whether anybody has filled this in.
"""
LIFTS = """
# --- approved exceptions: remove the # and fill in ------------------------------
# An item is what "fitwright release" lists, such as "trial: load" or "lot: petg green".
# [[override]]
# item = ""
# role = ""
# reason = ""
"""


def form_text(record: Record) -> str:
    """Return the form as TOML text; its mark is the SHA-256 of all that stands below the mark."""
    body = _body(record)
    return f"{HEAD}{MARK}{hashlib.sha256(body.encode()).hexdigest()}\n{body}"


def untouched(text: str) -> bool:
    """Return whether a form is as the program wrote it.

    Anything else counts as filled in: a changed letter, a lost mark, a file of another kind.
    """
    lines = text.replace("\r\n", "\n").split("\n")
    for index, line in enumerate(lines):
        if line.startswith(MARK):
            body = "\n".join(lines[index + 1 :])
            return "".join(f"{one}\n" for one in lines[:index]) == HEAD and line == (
                MARK + hashlib.sha256(body.encode()).hexdigest()
            )
    return False


def _text(value: str) -> str:
    """Return a TOML basic string; JSON escapes are a subset of TOML's."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _body(record: Record) -> str:
    """Return everything below the mark."""
    of = record.of
    made = (
        f"job = {_text(of.job)}\nrecipient = {_text(of.recipient)}\nscale_percent = {of.scale_percent!r}\n"
        f"side = {_text(of.side)}\nprinter = {_text(of.printer)}\nmaterial = {_text(of.material)}\n"
        f"parts_sha256 = {_text(of.parts_sha256)}\n"
        f"settings_sha256 = {_text(of.settings_sha256)}\npaper = {_text(of.paper)}\n"
        f"language = {_text(of.language or 'en')}\n"
    )
    blocks = ["\n[of]                        # written by the program: which device this is\n" + made]
    blocks.append("\n[role]                      # who did it, by role: maker, second maker, chapter lead\n")
    blocks += [f"{role} = {_text(who)}\n" for role, who in record.roles]
    blocks += [
        f"\n[[measure]]                 # as measured today\nname = {_text(one.name)}\n"
        f"recipient_mm = {one.recipient_mm if one.recipient_mm is not None else _text('')}\n"
        f"taken = {one.taken.isoformat() if one.taken else _text('')}\n"
        for one in record.measures
    ]
    on = record.tested_on.isoformat() if record.tested_on else _text("")
    blocks.append(f"\n[test]\non = {on}                     # the day of the last test\n")
    blocks += [
        f"\n[[test.trial]]\ntrial = {_text(one.trial)}\n"
        f"result = {_text(one.result)}                 # pass or fail\n"
        f"reading = {_text(one.reading)}\nremark = {_text(one.remark)}\n"
        for one in record.trials
    ]
    blocks += [
        f"\n[[lot]]\nof = {_text(one.of)}\nlot = {_text(one.lot)}          # from the pack, or where and when bought\n"
        for one in record.lots
    ]
    return "".join(blocks) + LIFTS
