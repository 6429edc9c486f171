"""A mechanism at one size in a terminal: findings to act on, joints, travel, pull and play, in 80 columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.finding import Finding, worst
from planner.mechanism import CordMove, JointMove, Moved, stop_words
from planner.output.terminal.finding_list import entry
from planner.output.words.few_lines import wrapped
from planner.phrases import numbers

SAME_SHARE = 1e-3
"""Wobbles that differ by less than this share are the same."""


def move_lines(title: str, moved: Moved, findings: Sequence[Finding]) -> Iterator[str]:
    """Yield the lines of ``fitwright move``, each at most 80 columns wide."""
    yield from wrapped(title, first=f"{worst(findings).value.upper()}  ", rest="  ")
    for finding in findings:
        if not finding.verdict.passes or finding.caution:
            yield from entry(finding)
    yield ""
    yield "JOINTS  angles from the drawn place, by the right hand about the axis"
    for joint in moved.joints:
        yield from _wrapped(_joint(joint))
    if not moved.joints and not moved.unplaced:
        yield "  none: no two parts are joined so that one turns or slides"
    for cord in moved.cords:
        yield ""
        yield from _wrapped(_cord(cord))
    if moved.tip is not None:
        yield ""
        yield from _wrapped(_tip(moved))
    if moved.unplaced:
        yield ""
        yield "PLACE NOT KNOWN"
        yield from _wrapped(f"  {copy}: {why}" for copy, why in moved.unplaced)
    if moved.notes:
        yield ""
        yield "NOTES"
        yield from _wrapped(f"  {note}" for note in moved.notes)
    asked = dict.fromkeys(finding.question for finding in findings if finding.question)
    if asked:
        yield ""
        yield "TO BE ANSWERED OR MEASURED"
        yield from _wrapped(f"  {question}" for question in asked)


def _wrapped(lines: Iterator[str]) -> Iterator[str]:
    """Yield lines, those that are too long in several."""
    for line in lines:
        indent = " " * (len(line) - len(line.lstrip()))
        yield from wrapped(line.strip(), first=indent, rest=indent + "  ")


def _joint(joint: JointMove) -> Iterator[str]:
    """Yield what is known of one joint."""
    placed = f", axis [{numbers(joint.axis, 3)}] at [{numbers(joint.at_mm)}] mm" if any(joint.parts) else ""
    how = f"{joint.kind} and turns, a pin in a slot" if joint.turns_too else joint.kind
    yield f"  {joint.name}: {how}{placed}"
    if joint.unknown:
        yield f"    range not known: {joint.unknown.removeprefix(f'{joint.name}: ')}"
    elif joint.kind != "fixed":
        unit = joint.unit if joint.unit == "°" else " mm"
        low, high = ("no stop" if end is None else f"{end:.1f}{unit}" for end in joint.free_deg)
        needs = "" if joint.needs_deg is None else f"; needs {joint.needs_deg[0]:g} to {joint.needs_deg[1]:g}{unit}"
        yield f"    free {low} to {high}{needs}"
        if joint.follows:
            yield f"    it follows {joint.follows}, with which it starts and ends"
        for stop in () if joint.follows else joint.stops:
            place = "" if stop.at_mm is None else f", at [{numbers(stop.at_mm)}] mm"
            yield f"    at {stop.at_deg:.1f}{unit}: {stop_words(stop)}{place}"
    if joint.play_mm is not None:
        yield f"    play at its end {joint.play_mm[0]:.2f} mm at worst{_on_printers(*joint.play_mm, 2)}"


def _cord(cord: CordMove) -> Iterator[str]:
    """Yield what is known of one cord."""
    yield f"CORD  {cord.name}" + (f", drives {cord.joint}" if cord.joint else "")
    if cord.unknown:
        yield f"  not known: {cord.unknown}"
    if cord.travel_mm is not None:
        has = _not_measured(cord) if cord.has_mm is None else f"the body gives {cord.has_mm:.1f} mm"
        slack = f" and {cord.tied_mm:.1f} mm of slack as tied" if cord.tied_mm else ""
        yield f"  travel {cord.travel_mm:.1f} mm{slack}; {has}{_spare(cord)}"
    if cord.length_mm is not None:
        yield f"  length of its path {cord.length_mm[0]:.1f} mm open, {cord.length_mm[1]:.1f} mm closed"
    if cord.arm_mm is not None:
        low, rest, high = cord.arm_mm
        yield f"  moment arm {low:.1f} to {high:.1f} mm, {rest:.1f} mm at rest"
    if cord.pull_n is not None and cord.grip_n is not None:
        low, expected, high = cord.pull_n
        yield f"  pull {low:.0f} to {high:.0f} N, {expected:.0f} N expected, for {cord.grip_n:g} N at the tip"
        if cord.begins:
            yield f"  counted from {cord.begins}: friction between the body and there is not included"
    if cord.grip_for_n is not None:
        kept, least, expected, most, hardest = cord.grip_for_n
        yield (
            f"  a pull of {kept:.0f} N, which can be kept up, grips with {least:.1f} to {most:.1f} N, {expected:.1f} N "
            f"expected, at the angle where it grips least; with {hardest:.1f} N at most where it grips hardest"
        )
    for told in filter(None, (cord.together, cord.shared)):
        yield f"  {told}"
    if cord.shuts:
        yield f"  {cord.shuts}"
    for why in filter(None, (cord.ways_unknown, cord.crosses, cord.pull_unknown, cord.return_unknown)):
        yield f"  not known: {why}"
    if cord.friction is not None:
        bends = 0.0 if cord.bends_deg is None else cord.bends_deg
        yield f"  friction {cord.friction[0]:g} to {cord.friction[2]:g} over {bends:.0f}° of bends"
    if cord.back_words:
        yield f"  {cord.back_words}"


def _tip(moved: Moved) -> Iterator[str]:
    """Yield the play at the tip."""
    if moved.tip is None:
        return
    if moved.tip.wobble_mm is not None:
        worst_mm, usual_mm = moved.tip.wobble_mm
        yield f"TIP  wobbles {worst_mm:.1f} mm at worst{_on_printers(worst_mm, usual_mm, 1)}"
    if moved.tip.spread_mm is not None:
        told = f"; {moved.tip.knot}" if moved.tip.knot else ", less than a knot can be adjusted by"
        yield f"TIP  when one finger touches, the last is still {moved.tip.spread_mm:.1f} mm away{told}"


def _not_measured(cord: CordMove) -> str:
    """Say that what the body gives is not known, and what such a joint usually gives at the stated arm."""
    if cord.usual_mm is None:
        return "what the body gives is not known"
    daily, most = cord.usual_mm
    return f"what the body gives is not measured; usual are {daily:.0f} mm in daily work and {most:.0f} mm at most"


def _on_printers(worst_mm: float, usual_mm: float, digits: int) -> str:
    """Say what nine of ten printers stay below, and why where that is all of it."""
    if worst_mm > 0.0 and worst_mm - usual_mm < SAME_SHARE * worst_mm:
        return ", on any printer: its bores are drilled to size"
    return f", {usual_mm:.{digits}f} mm or less on 9 of 10 printers"


def _spare(cord: CordMove) -> str:
    """Say what slack the knot takes up; empty where none is left, or it is not known."""
    if cord.slack_mm is None or cord.slack_mm <= 0.0:
        return ""
    told = f", {cord.slack_mm:.1f} mm to spare"
    return (
        told
        if cord.together or cord.tied_mm
        else f"{told}: tie it taut, open and at rest, so that no travel goes into slack"
    )
