"""A rigid pin without friction in a strip: where it presses, and the stress beside it: ``python -m tests.strength.pin_contact``.

A ground for the pressure that lugs are loaded with, apart from the elements in the product: plane stress, half of a strip
by its symmetry, four-node elements (textbook) on rays from the bore. The pin is moved against the wall by one, and an
active set tells which nodes it touches: what pulls is let go, what would go through is taken in (Hertz 1882, Signorini
1933, from memory). ``loose`` is how much smaller the pin's radius is than the bore's, as a share of that move.

Beside it: Frocht and Hill's curve for a pin (1940; Roark's Formulas, table 17.1, from memory), times the pull over the net
section.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import sparse
from scipy.interpolate import CubicSpline
from scipy.sparse.linalg import splu

from planner.strength.elements.nodal_forces import arc_pressure

Floats = NDArray[np.float64]
POISSON = 0.38
ROUNDS_N = 60
GROWS = 1.06
"""Elements grow so much from ring to ring."""


def frocht_hill(share: float) -> float:
    """Return the factor of the net section's stress by d / W: 12.882 - 52.714 q + 89.762 q² - 51.667 q³."""
    return 12.882 - 52.714 * share + 89.762 * share**2 - 51.667 * share**3


@dataclass(frozen=True, kw_only=True, eq=False)
class Strip:
    """Half of a strip with a bore of radius 1, its ends twice and five times half its width away.

    Parameters
    ----------
    share
        Bore over width.
    phi
        Angles (n,) of the wall's nodes to the way in which the pin presses.
    size
        What of the wall belongs to each node.
    radial
        Nodes' shifts outward (m, m) under a unit push outward at each of the first m: those within 100 degrees.
    along
        Their shifts (n, 2, m) under the same pushes.
    """

    share: float
    phi: Floats
    size: Floats
    radial: Floats
    along: Floats

    def factor(self, push: Floats) -> float:
        """Return the greatest hoop stress at the wall over the net section's, under pushes (m,) on the wall."""
        pull = 2.0 * float((push * np.cos(self.phi[: len(push)])).sum())
        pressure = np.zeros(len(self.phi))
        pressure[: len(push)] = push / self.size[: len(push)]
        shift, turn = self.along @ push, np.pi - self.phi
        rise = CubicSpline(self.phi, shift)(self.phi, 1)
        strain = np.sin(turn) * rise[:, 0] - np.cos(turn) * rise[:, 1]
        hoop = strain - POISSON * pressure
        return float(hoop.max()) / (pull / (2.0 / self.share - 2.0))

    def pressed(self) -> Floats:
        """Return pushes by the pressure that elements are loaded with."""
        m = len(self.radial)
        return np.asarray(arc_pressure(np.cos(self.phi[:m])) * self.size[:m])

    def touched(self, loose: float) -> tuple[Floats, float]:
        """Return pushes of a pin, and the angle in degrees that its contact reaches."""
        wanted = np.cos(self.phi[: len(self.radial)]) - loose
        on = wanted > 0.0
        push = np.zeros(len(wanted))
        for _ in range(ROUNDS_N):
            place = np.flatnonzero(on)
            push = np.zeros(len(wanted))
            push[place] = np.linalg.solve(self.radial[np.ix_(place, place)], wanted[place])
            gap = self.radial @ push - wanted
            now = (on & (push > 0.0)) | (~on & (gap < -1e-12))
            if (now == on).all():
                return push, float(np.degrees(self.phi[: len(on)][on].max()))
            on = now
        raise AssertionError("the contact did not settle")


def strip(share: float, turns_n: int = 180, rings_n: int = 60) -> Strip:
    """Return the half strip, solved for unit pushes on its wall."""
    half = 1.0 / share
    turn = np.linspace(np.pi, 0.0, turns_n + 1)  # the pin presses towards the near end, at π
    c, s = np.cos(turn), np.sin(turn)
    far = np.minimum(half / np.maximum(s, 1e-12), np.where(c > 0.0, 5.0 * half, 2.0 * half) / np.maximum(abs(c), 1e-12))
    grown = (GROWS ** np.arange(rings_n + 1) - 1.0) / (GROWS**rings_n - 1.0)
    radius = 1.0 + (far[:, None] - 1.0) * grown
    nodes = np.stack([radius * c[:, None], radius * s[:, None]], axis=-1)
    number = np.arange(nodes.shape[0] * nodes.shape[1]).reshape(nodes.shape[:2])
    corners = np.stack([number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]], axis=-1).reshape(-1, 4)
    stiffness = _assembled(nodes.reshape(-1, 2), corners)
    held = np.zeros((number.size, 2), dtype=bool)
    held[np.concatenate([number[0], number[-1]]), 1] = True
    held[number[:, -1][np.abs(nodes[:, -1, 0] - 5.0 * half) < 1e-6], 0] = True
    free = ~held.ravel()
    m = int((turn > np.pi - np.radians(100.0)).sum())
    pushes = np.zeros((number.size, 2, m))
    for k in range(m):
        pushes[number[k, 0], :, k] = c[k], s[k]
    shifts = np.zeros((2 * number.size, m))
    shifts[free] = splu(stiffness[free][:, free].tocsc()).solve(pushes.reshape(-1, m)[free])
    along = shifts.reshape(-1, 2, m)[number[:, 0]]
    size = np.full(len(turn), np.pi / turns_n)
    size[[0, -1]] /= 2.0
    return Strip(
        share=share,
        phi=np.pi - turn,
        size=size,
        radial=c[:m, None] * along[:m, 0] + s[:m, None] * along[:m, 1],
        along=along,
    )


def _assembled(nodes: Floats, corners: NDArray[np.int64]) -> sparse.csr_matrix:
    """Return the stiffness of four-node elements in plane stress, modulus and thickness 1."""
    stuff = np.array([[1.0, POISSON, 0.0], [POISSON, 1.0, 0.0], [0.0, 0.0, (1.0 - POISSON) / 2.0]]) / (1.0 - POISSON**2)
    own = np.zeros((len(corners), 8, 8))
    at = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]])
    for x, y in at / np.sqrt(3.0):
        slope = 0.25 * np.array([at[:, 0] * (1.0 + at[:, 1] * y), at[:, 1] * (1.0 + at[:, 0] * x)])
        grid = np.einsum("ka,eaj->ekj", slope, nodes[corners])
        rise = np.linalg.solve(grid, np.broadcast_to(slope, (len(corners), 2, 4)))
        strain = np.zeros((len(corners), 3, 8))
        strain[:, 0, 0::2], strain[:, 1, 1::2] = rise[:, 0], rise[:, 1]
        strain[:, 2, 0::2], strain[:, 2, 1::2] = rise[:, 1], rise[:, 0]
        own += np.linalg.det(grid)[:, None, None] * np.einsum("eia,ij,ejb->eab", strain, stuff, strain)
    unknown = np.stack([2 * corners, 2 * corners + 1], axis=-1).reshape(-1, 8)
    rows, columns = np.repeat(unknown, 8, axis=1).ravel(), np.tile(unknown, (1, 8)).ravel()
    return sparse.csr_matrix((own.ravel(), (rows, columns)), shape=(2 * len(nodes), 2 * len(nodes)))


def main(shares: Sequence[float] = (0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7)) -> None:
    """Print the factors by the curve, by the pressure of ours, and of pins that fill the bore or are loose."""
    for share in shares:
        one = strip(share)
        print(f"d / W {share:g}: {frocht_hill(share):.2f} by the curve, {one.factor(one.pressed()):.2f} by the arc")
        for loose in (0.0, 0.2, 0.5):
            push, reach_deg = one.touched(loose)
            print(f"  loose {loose:g}: {one.factor(push):.2f}, touching up to {reach_deg:.0f} degrees")


if __name__ == "__main__":
    main()
