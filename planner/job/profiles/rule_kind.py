"""What is known of every rule before it is asked: the rows of ``profiles/rules``, one table a rule.

A finding names its rule; whatever treats rules differently asks the rule's kind, never its name.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeVar, get_args

from planner.errors import ProfileError, nearest
from planner.job.file.table import Table
from planner.job.file.toml_file import read_toml
from planner.job.profiles.limits import own_limit
from planner.job.profiles.shipped import shipped
from planner.sourced import Sourced

Word = TypeVar("Word", bound=str)
Station = Literal["size", "fit", "print"]
Asks = Literal["printer", "material", "date", "layers", "layout", "calendar"]
Bench = Literal["", "drill", "change"]
MustBe = Literal["", "at least", "at most"]
Moves = Literal["", "to limit", "in proportion", "all down to limit", "in layers", "to a word"]
Gives = Literal[
    "",
    "wall left",
    "least wall",
    "channel",
    "webbing",
    "bed",
    "loose groups",
    "measures apart",
    "proof",
    "range",
    "travel",
    "pull",
    "return",
    "strength",
]
CureKind = Literal[
    "undo",
    "drill",
    "ream",
    "sand",
    "hardware",
    "webbing",
    "bush",
    "rebore",
    "pose",
    "settings",
    "material",
    "printer",
    "nozzle",
    "size",
    "keep",
    "split",
    "needs",
]
ChangedBy = Literal["limits", "job", "printer", "material", "override", "nobody"]
STATIONS: tuple[Station, ...] = get_args(Station)
ASKS: tuple[Asks, ...] = get_args(Asks)
BENCH: tuple[Bench, ...] = get_args(Bench)
MUST_BE: tuple[MustBe, ...] = get_args(MustBe)
MOVES: tuple[Moves, ...] = get_args(Moves)
GIVES: tuple[Gives, ...] = get_args(Gives)
CURES: tuple[CureKind, ...] = get_args(CureKind)
CHANGED_BY: tuple[ChangedBy, ...] = get_args(ChangedBy)
ANY_FEATURE = "any"


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleKind:
    """One rule, whatever it is asked about.

    Parameters
    ----------
    name
        Dotted name, such as ``"wall.thin"``; findings, overrides and JSON carry it.
    family
        Name of the file of its row: size, fit, settings, supplies, plates, dates, program.
    compares
        What it compares, in one line.
    station
        Station of the route card that shows its findings.
    asks
        What its answer hangs on beside the job and the meshes.
    limit, limit_keys, limits
        The limit: in words where it is no number of ours, the keys of ``profiles/limits``, and numbers of its own.
    source
        Where a limit in words comes from.
    remedy
        What usually helps.
    changed_by
        Who may change the limit, or lift a hold.
    bench
        ``drill`` or ``change`` where its work is done by hand on an opening of a printed part.
    must_be
        Whether what is measured on the print must be at least or at most the limit.
    coupon
        Whether a coupon's readings answer its question.
    rebore
        Whether a re-bored mesh meets it at any scale.
    recut
        Whether cutting its opening anew, or a boss laid round it then, may mend it.
    unchecked
        Whether it says that a feature was compared with nothing.
    undermines
        Whether its hold puts every other number in doubt.
    of_person
        Whether it judges how the size fits the person, not whether the device works.
    of_file
        Whether it judges a mesh file by itself, in whatever unit it was drawn.
    of_matter
        Whether it measures how much matter there is: where a mesh does not tell, its no-go is a hold. So says the rule
        about a file that has this flag as well.
    of_load
        Whether it judges what a load does to a part: to find that takes longer than all other rules together.
    of_job
        Whether it compares only what a person wrote with limits that have no range.
    doubt
        The question whose answer it waits for, where no rule can be asked under each answer: meshes would be measured
        again. Empty for most.
    dated
        Whether its caution is printed with the dates.
    late
        Whether it says that a date is missed, which holds nothing against the device itself.
    gives
        What others read off its findings; empty where nobody reads more than the verdict.
    cures
        Kinds of remedies that are tried for it, that of least effort first; ``undo`` takes stated work out of the job.
    moves, sets
        How the setting that cures it follows from a finding, and which setting that is, by feature.
    """

    name: str
    family: str
    compares: str
    station: Station
    asks: frozenset[Asks]
    limit: str
    limit_keys: tuple[str, ...]
    limits: Mapping[str, Sourced]
    source: str
    remedy: str
    changed_by: tuple[ChangedBy, ...]
    bench: Bench
    must_be: MustBe
    coupon: bool
    rebore: bool
    recut: bool
    unchecked: bool
    undermines: bool
    of_person: bool
    of_file: bool
    of_matter: bool
    of_load: bool
    of_job: bool
    doubt: str
    dated: bool
    late: bool
    gives: Gives
    cures: tuple[CureKind, ...]
    moves: Moves
    sets: Mapping[str, str]

    def setting_for(self, feature: str) -> str | None:
        """Return the setting that cures a finding about a feature; None where no setting does."""
        return self.sets.get(feature, self.sets.get(ANY_FEATURE))


@cache
def rule_kinds() -> Mapping[str, RuleKind]:
    """Read every rule's kind, by name, family after family."""
    kinds: dict[str, RuleKind] = {}
    for path in sorted((shipped("profiles") / "rules").glob("*.toml")):
        table = read_toml(path, ProfileError)
        station = table.word("station", STATIONS)
        for name in table.raw:
            if name != "station":
                if name in kinds:
                    table.refuse(name, f"it stands in {kinds[name].family}.toml as well", "take one of them out")
                kinds[name] = _kind(name, path.stem, station, table.table(name))
        table.done()
    return kinds


def kind_of(rule: str) -> RuleKind:
    """Return the kind of a rule.

    Raises
    ------
    ProfileError
        Where no row names the rule.
    """
    kinds = rule_kinds()
    if rule not in kinds:
        raise ProfileError(where=f"rule '{rule}'", wrong="no such rule is known", todo=nearest(rule, kinds))
    return kinds[rule]


def rule_limits(own: Table) -> dict[str, Mapping[str, Sourced]]:
    """Return the limits of every rule that has numbers of its own; ``own`` is a limits file that may replace some."""
    found: dict[str, Mapping[str, Sourced]] = {}
    for name, kind in rule_kinds().items():
        if kind.limits:
            row = own.table_or_empty(name)
            found[name] = {
                key: own_limit(row, key, usual) if row.has(key) else usual for key, usual in kind.limits.items()
            }
            row.done()
    return found


def _kind(name: str, family: str, station: Station, row: Table) -> RuleKind:
    """Read one row."""
    limits, sets = row.table_or_empty("limits"), row.table_or_empty("sets")
    kind = RuleKind(
        name=name,
        family=family,
        compares=row.text("compares"),
        station=station,
        asks=frozenset(_words(row, "asks", ASKS)),
        limit=row.text("limit", ""),
        limit_keys=row.texts("limit_keys"),
        limits={key: limits.sourced(key) for key in limits.raw},
        source=row.text("source", ""),
        remedy=row.text("remedy"),
        changed_by=tuple(_words(row, "changed_by", CHANGED_BY)),
        bench=row.word("bench", BENCH, ""),
        must_be=row.word("must_be", MUST_BE, ""),
        coupon=row.flag("coupon", default=False),
        rebore=row.flag("rebore", default=False),
        recut=row.flag("recut", default=False),
        unchecked=row.flag("unchecked", default=False),
        undermines=row.flag("undermines", default=False),
        of_person=row.flag("of_person", default=False),
        of_file=row.flag("of_file", default=False),
        of_matter=row.flag("of_matter", default=False),
        of_load=row.flag("of_load", default=False),
        of_job=row.flag("of_job", default=False),
        doubt=row.text("doubt", ""),
        dated=row.flag("dated", default=False),
        late=row.flag("late", default=False),
        gives=row.word("gives", GIVES, ""),
        cures=tuple(_words(row, "cures", CURES)),
        moves=row.word("moves", MOVES, ""),
        sets={feature: sets.text(feature) for feature in sets.raw},
    )
    row.done()
    return kind


def _words(row: Table, key: str, known: tuple[Word, ...]) -> list[Word]:
    """Return a list of words, each of them known."""
    found = []
    for text in row.texts(key):
        word = next((word for word in known if word == text), None)
        if word is None:
            row.refuse(key, f"'{text}' is not known", nearest(text, known))
        found.append(word)
    return found
