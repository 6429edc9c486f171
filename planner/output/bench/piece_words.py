"""Pieces that are bought or cut, in words: their kind, their name, their size, in the language of a paper."""

from __future__ import annotations

from planner.output.tongue import ENGLISH, ENGLISH_BELOW, Tongue
from planner.supplies import Cut, HardwareLine

LOCKING = " locking"
"""The end of the size of a nut that does not work loose."""


def kind_words(kind: str, tongue: Tongue = ENGLISH) -> str:
    """Return a kind of hardware, or of what is cut, by the word that a job has for it; an unknown one as it is.

    >>> kind_words("wood-screw")
    'wood-screw'
    """
    say = tongue.say
    return {
        "binding-post": say("binding-post"),
        "dowel-pin": say("dowel-pin"),
        "machine-screw": say("machine-screw"),
        "wood-screw": say("wood-screw"),
        "nut": say("nut"),
        "washer": say("washer"),
        "insert": say("insert"),
        "bearing": say("bearing"),
        "belt": say("belt"),
        "bush": say("bush"),
        "braided": say("braided"),
        "elastic": say("elastic"),
        "webbing": say("webbing"),
        "padding": say("padding"),
    }.get(kind, kind)


def line_name(line: HardwareLine, tongue: Tongue = ENGLISH) -> str:
    """Return the name of a piece: the job's own, or what it is for."""
    if tongue.code == "en" or not line.goes_with:
        return tongue.kept(line.name)
    what = kind_words(line.kind, tongue)
    told = tongue.say("{what} for {piece}", what=what, piece=tongue.kept(line.goes_with))
    return f"{told}{ENGLISH_BELOW}{line.name}" if line.kind == "bush" else told  # in which part, and of which bores


def size_words(line: HardwareLine, tongue: Tongue = ENGLISH) -> str:
    """Return the size of a piece without its length."""
    if line.kind == "bush":
        return tongue.in_english(line.size)
    if line.size.endswith(LOCKING):
        return tongue.say("{size} locking", size=tongue.kept(line.size.removesuffix(LOCKING)))
    return tongue.kept(line.size)


def bought(line: HardwareLine, tongue: Tongue = ENGLISH) -> str:
    """Return the kind, size and length of a piece of hardware."""
    say = tongue.say
    if line.printed:
        return say("printed as {part}, nothing is bought", part=tongue.kept(line.printed))
    told = f"{kind_words(line.kind, tongue)} {size_words(line, tongue)}"
    if line.length_mm:
        told = say("{piece} × {long}", piece=told, long=tongue.amount(f"{line.length_mm:g} mm"))
    return say("{piece}, not {other}", piece=told, other=tongue.kept(line.instead_of)) if line.instead_of else told


def cut_name(cut: Cut, part: str, tongue: Tongue = ENGLISH) -> str:
    """Return the name of something cut: the job's own, or the part that padding is for."""
    return tongue.say("padding of {part}", part=tongue.kept(part)) if cut.kind == "padding" else tongue.kept(cut.name)


def cut_size(cut: Cut, tongue: Tongue = ENGLISH) -> str:
    """Return the size of something cut."""
    say, wide = tongue.say, tongue.amount(f"{cut.width_mm:g} mm")
    if cut.kind == "padding":
        if not cut.area_mm2:
            return say("{thick} thick", thick=wide)
        return say("{area}, {thick} thick", area=tongue.amount(f"{cut.area_mm2 / 100:.0f} cm²"), thick=wide)
    long = tongue.amount(f"{cut.length_mm:.0f} mm") if cut.length_mm else say("length not known")
    return say("{kind} {wide}, {long}", kind=kind_words(cut.kind, tongue), wide=wide, long=long)


def padded_part(cut: Cut) -> str:
    """Return the part that a piece of padding is for."""
    return cut.name.removeprefix("padding of ")
