"""Axes that bores of two copies share as they stand, where no hardware is named that goes through."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planner.assembly import axes_of, coaxial
from planner.finding import Vec3
from planner.job import part_of
from planner.mechanism.places.axis_fits import moved
from planner.mechanism.places.frame import Frame
from planner.survey import Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class BareAxis:
    """One axis, in the sense of the second copy's bore, with a point of it and the bores of both copies on it."""

    axis: Vec3
    centre_mm: Vec3
    bores: tuple[tuple[str, str], ...]


def bare_axes(pair: tuple[str, str], surveys: Mapping[str, Survey], frames: Mapping[str, Frame]) -> list[BareAxis]:
    """Return every axis on which both copies have a bore."""
    stands, moves = ([moved(bore, frames[copy]) for bore in surveys[part_of(copy)].bores] for copy in pair)
    found = []
    for axis in axes_of(moves):
        met = [bore for bore in stands if coaxial(axis.bores[0], bore)]
        if met:
            first = axis.bores[0]
            names = (*((pair[0], bore.id) for bore in met), *((pair[1], bore.id) for bore in axis.bores))
            found.append(BareAxis(axis=first.axis, centre_mm=first.centre_mm, bores=names))
    return found
