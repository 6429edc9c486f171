"""What holds each screw: a nut, an insert, or the thread that it cuts in a pilot; and how many nothing holds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import networkx as nx

from planner.assembly.bore_ends import SAME_SIZE_MM
from planner.assembly.claim import USUAL_FIT, Claim
from planner.assembly.doubts.spoken_bores import DOUBTFUL
from planner.finding import Evidence, Finding, Verdict
from planner.job import Hardware, Job

SCREWS = ("machine-screw", "wood-screw")
HOLDERS = ("nut", "insert")
LOCKED = (
    "secure its thread with a locking compound that does not attack the plastic, or run it through to a locking nut"
)
"""What keeps a screw from working loose where something turns on it; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewGrip:
    """One kind of screw, and what holds its pieces.

    ``by`` names the nuts and inserts of the job that it takes, ``loose_n`` are the pieces that nothing holds.
    """

    screw: Hardware
    by: tuple[Hardware, ...] = ()
    loose_n: int = 0

    @property
    def cuts_thread(self) -> bool:
        """Whether it cuts its own thread in the last part."""
        return cuts_thread(self.screw)

    @property
    def turns(self) -> bool:
        """Whether something turns on it, so that a plain nut would work loose."""
        return self.screw.turns

    @property
    def works_loose(self) -> bool:
        """Whether something turns on it, and an insert or a thread in the plastic holds it, which lock nothing."""
        return self.turns and not self.loose_n and (self.cuts_thread or any(one.kind == "insert" for one in self.by))


def cuts_thread(hardware: Hardware) -> bool:
    """Return whether a screw cuts its own thread: in a pilot in all its parts, or in the last one."""
    fit = hardware.fit or USUAL_FIT.get(hardware.kind)
    return hardware.pilot_mm is not None or "pilot" in (fit, *(one.fit for one in hardware.other_bores))


def screw_grips(job: Job) -> tuple[ScrewGrip, ...]:
    """Return every kind of screw with what holds it, in the job's order.

    Nuts and inserts of its thread in one of its parts are dealt out so that as many screws as possible have one: the
    greatest flow from screws to nuts (Ford and Fulkerson 1956).
    """
    screws = [(n, one) for n, one in enumerate(job.hardware) if one.kind in SCREWS]
    holders = [(n, one) for n, one in enumerate(job.hardware) if one.kind in HOLDERS]
    needy = [(n, one) for n, one in screws if not cuts_thread(one) and one.nut is None]
    flow = _dealt(needy, holders)
    found = []
    for n, screw in screws:
        by = tuple(holder for m, holder in holders if flow.get((n, m), 0) > 0)
        got = sum(flow.get((n, m), 0) for m, _ in holders)
        loose = screw.count - got if any(n == index for index, _ in needy) else 0
        found.append(ScrewGrip(screw=screw, by=by, loose_n=loose))
    return tuple(found)


def _dealt(
    screws: Sequence[tuple[int, Hardware]], holders: Sequence[tuple[int, Hardware]]
) -> dict[tuple[int, int], int]:
    """Return how many pieces of each holder go to each screw."""
    net: nx.DiGraph[str] = nx.DiGraph()
    net.add_nodes_from(("screws", "end"))
    for n, screw in screws:
        net.add_edge("screws", f"s{n}", capacity=screw.count)
        for m, holder in holders:
            alike = abs(screw.diameter_mm - holder.diameter_mm) <= SAME_SIZE_MM
            if alike and set(screw.joins) & set(holder.joins):
                net.add_edge(f"s{n}", f"h{m}", capacity=screw.count)
    for m, holder in holders:
        net.add_edge(f"h{m}", "end", capacity=holder.count)
    _, flow = nx.maximum_flow(net, "screws", "end")
    return {(n, m): int(flow.get(f"s{n}", {}).get(f"h{m}", 0)) for n, _ in screws for m, _ in holders}


def goes_with(job: Job) -> dict[str, tuple[str, ...]]:
    """Return the screws that each nut or insert of the job holds, by its name; none for one that holds nothing."""
    held = screw_grips(job)
    return {
        one.name: tuple(screw.screw.name for screw in held if any(holder is one for holder in screw.by))
        for one in job.hardware
        if one.kind in HOLDERS
    }


def go_together(job: Job, names: Sequence[str]) -> tuple[Hardware, ...]:
    """Return the hardware of a job that hangs together with some of it by size: screws, their nuts and washers."""
    graph: nx.Graph[int] = nx.Graph()
    graph.add_nodes_from(range(len(job.hardware)))
    for n, one in enumerate(job.hardware):
        for m, other in enumerate(job.hardware):
            alike = abs(one.diameter_mm - other.diameter_mm) <= SAME_SIZE_MM
            if (
                one.kind in SCREWS
                and other.kind in (*HOLDERS, "washer")
                and alike
                and set(one.joins) & set(other.joins)
            ):
                graph.add_edge(n, m)
    mine = [group for group in nx.connected_components(graph) if any(job.hardware[n].name in names for n in group)]
    kept = set[int]().union(*mine)
    return tuple(one for n, one in enumerate(job.hardware) if n in kept)


def unheld_findings(job: Job) -> list[Finding]:
    """Judge every kind of screw, ``screw.unheld``: a hold where nothing holds some of its pieces.

    Of screws that were only guessed from bores, one question asks for all.
    """
    held = screw_grips(job)
    guessed = [one for one in held if one.loose_n and (job.guessed or DOUBTFUL & set(one.screw.guessed))]
    asked = [_asked(guessed)] if guessed else []
    return [*(_judged(one) for one in held if one not in guessed), *asked]


def _judged(held: ScrewGrip) -> Finding:
    """Judge one kind of screw."""
    screw = held.screw
    found = Finding(
        rule="screw.unheld",
        part="",
        feature=screw.name,
        verdict=Verdict.GO,
        measured=float(screw.count - held.loose_n),
        limit=float(screw.count),
        unit="pieces",
        why=f"{screw.name} is held: {_how(held)}",
        source="job file",
        evidence=Evidence.STATED,
    )
    if held.loose_n:
        return replace(
            found,
            verdict=Verdict.HOLD,
            why=f"nothing holds {held.loose_n} of {screw.count} of {screw.name}: no nut, no insert, no pilot in its "
            "last part",
            remedy='state nut = "plain" for a free nut, name the nut in its pocket or the insert as [[hardware]], or '
            "state pilot_mm, the bore in the last part in which it cuts its thread",
            question=f"What holds {screw.name}: a nut, an insert, or a thread that it cuts in the last part?",
        )
    if held.works_loose and screw.guessed:  # nothing guessed orders work
        return replace(found, caution=f"Where something turns on {screw.name}, it works loose: {LOCKED}.")
    if held.works_loose:
        why = f"{found.why}, and something turns on it: it works loose there"
        return replace(found, verdict=Verdict.GO_WITH_WORK, why=why, remedy=LOCKED)
    return found


def _how(held: ScrewGrip) -> str:
    """Say what holds a screw."""
    if held.cuts_thread:
        return "it cuts its thread in the last part"
    if held.screw.nut is not None:
        return f"a {'locking' if held.turns else held.screw.nut} nut on the last part"
    return ", ".join(one.name for one in held.by)


def _asked(loose: Sequence[ScrewGrip]) -> Finding:
    """Ask once for all screws that were guessed from bores."""
    names = ", ".join(one.screw.name for one in loose)
    return Finding(
        rule="screw.unheld",
        part="",
        feature="screws",
        verdict=Verdict.HOLD,
        measured=0.0,
        limit=float(sum(one.screw.count for one in loose)),
        unit="pieces",
        why=f"if screws go through these bores, nothing says what holds them: {names}",
        remedy="if they are screws, say whether nuts, inserts or threads cut in the plastic hold them",
        source="survey of the meshes",
        question="What holds the screws: nuts, inserts, or threads that they cut in the plastic?",
    )


def blind_findings(job: Job, claims: Sequence[Claim]) -> list[Finding]:
    """Judge the bores of screws with a free nut and of posts, ``screw.unheld``: a hold where one is blind."""
    found = []
    for screw in job.hardware:
        post = screw.kind == "binding-post"
        if not post and screw.nut is None:
            continue
        for part in dict.fromkeys(screw.joins if post else screw.joins[-1:]):
            mine = [one for one in claims if one.hardware is screw and one.part == part and not one.or_else]
            blind = [one.bore.id for one in mine if not one.bore.through]
            if blind:
                found.append(_blind(screw.name, part, blind, "its other half" if post else "a nut"))
    return found


def _blind(name: str, part: str, bores: Sequence[str], what: str) -> Finding:
    """Hold one kind of hardware in the blind bores of one part."""
    listed = ", ".join(bores)
    return Finding(
        rule="screw.unheld",
        part=part,
        feature=f"{name} in blind bores",
        verdict=Verdict.HOLD,
        measured=float(len(bores)),
        limit=0.0,
        unit="bores",
        why=f"{part} closes {listed} behind, so {what} cannot go on {name} from behind",
        remedy="draw the bore through, or hold the screw by an insert, a nut in a pocket or a pilot that it cuts",
        source="survey of the mesh",
        question=f"How does {what} come onto {name} behind {listed} of {part}?",
    )
