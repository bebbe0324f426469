"""The posterior of a row's parents, straight from its definition, with numpy and scipy.

    python tests/outside/parents_by_force.py > tests/data/parents.csv

The model in words: a seedling stays where the row's level + what its seed parent passes on + what its
pollen parent passes on + a standard normal is above 0; what parents pass on is normal with a deviation
s; before anything is seen the row's share is uniform on 0 to 1 and s uniform on 0 to 3.

Nothing of the program's method (expectation propagation over a grid of s) is used here:

- a row of one parent is summed over a grid of three numbers (share, s, the parent), mates without a
  name by Gauss and Hermite's rule;
- a larger row is drawn from the prior by a scrambled Sobol sequence, each draw weighed by the chance
  of what was decided. Its own error is told by how many draws the weights are worth.

trial_agrees.py uses `posterior` on the rows that `cargo test` writes.
"""

import sys

import numpy as np
import scipy
from scipy import stats
from scipy.special import ndtr, ndtri, roots_hermitenorm, roots_legendre

WIDEST = 3.0
LEVEL = 0.95
# Powers of two: for two parents, and for a row of many, whose weights are less even.
FEW, MANY = 19, 21
SEED = 20260820


def posterior(parents, decided):
    """A law for each parent by its place, the new parent's mean (its law too, at -1, where it was
    drawn), and how many draws they rest on, if any."""
    if parents == 1:
        return summed(decided)
    return drawn(parents, decided, FEW if parents < 4 else MANY)


class Law:
    """Values with weights: mean, mass below, quantiles."""

    def __init__(self, values, weights):
        order = np.argsort(values)
        self.values, weights = values[order], weights[order]
        self.below = np.cumsum(weights) / weights.sum()
        self.mean = (values * weights[np.argsort(order)]).sum() / weights.sum()

    def mass_below(self, value):
        at = np.searchsorted(self.values, value, side="right")
        return 0.0 if at == 0 else float(self.below[at - 1])

    def quantile(self, at):
        return float(self.values[np.searchsorted(self.below, at)])


def counted(decided):
    """Seedlings of the same parents that fared alike, with their number."""
    kinds = {}
    for one, other, stays in decided:
        pair = tuple(sorted((one, other), key=lambda at: -1 if at is None else at))
        kinds[pair, bool(stays)] = kinds.get((pair, bool(stays)), 0) + 1
    return kinds.items()


def summed(decided):
    """Over a grid."""
    share = (np.arange(50) + 0.5) / 50
    effect = np.linspace(-4.5, 4.5, 181)
    spreads, spread_weights = roots_legendre(24)
    mate, mate_weight = roots_hermitenorm(24)
    mate_weight = mate_weight / mate_weight.sum()
    values, fresh, weights = [], [], []
    for s, weight in zip((spreads + 1) * WIDEST / 2, spread_weights):
        level, passed = np.meshgrid(ndtri(share) * np.sqrt(1 + 2 * s * s), s * effect, indexing="ij")
        likelihood = weight * stats.norm.pdf(passed / s)
        for (pair, stays), count in counted(decided):
            merit = level + sum(passed for at in pair if at is not None)
            unnamed = pair.count(None)
            for _ in range(unnamed):
                merit = merit[..., None] + s * mate
            chance = ndtr(merit if stays else -merit)
            for _ in range(unnamed):
                chance = chance @ mate_weight
            likelihood = likelihood * chance**count
        with_mates = lambda merit: ndtr(merit[..., None] + s * mate) @ mate_weight
        values.append(with_mates(level + passed).ravel())
        # Of the new parent only the mean: its limits want a fourth number to be summed over.
        fresh.append(ndtr(level / np.sqrt(1 + 2 * s * s)).ravel())
        weights.append(likelihood.ravel())
    values, fresh, weights = (np.concatenate(one) for one in (values, fresh, weights))
    return {0: Law(values, weights)}, (fresh * weights).sum() / weights.sum(), None


def drawn(parents, decided, draws):
    """From the prior, each draw weighed by the likelihood."""
    uniform = stats.qmc.Sobol(parents + 3, scramble=True, seed=SEED)
    weights, values, fresh = [], [[] for _ in range(parents)], []
    for _ in range(2 ** max(draws - 18, 0)):
        u = np.clip(uniform.random(2 ** min(draws, 18)), 1e-12, 1 - 1e-12)
        s = u[:, 0] * WIDEST
        level = ndtri(u[:, 1]) * np.sqrt(1 + 2 * s * s)
        passed = ndtri(u[:, 2:]) * s[:, None]
        logs = np.zeros(len(s))
        for (pair, stays), count in counted(decided):
            merit = level + sum(passed[:, at] for at in pair if at is not None)
            merit = merit / np.sqrt(1 + pair.count(None) * s * s)
            logs += count * np.log(np.maximum(ndtr(merit if stays else -merit), 1e-300))
        weights.append(np.exp(logs))
        for place in range(parents):
            values[place].append(ndtr((level + passed[:, place]) / np.sqrt(1 + s * s)))
        fresh.append(ndtr((level + passed[:, -1]) / np.sqrt(1 + s * s)))
    weights = np.concatenate(weights)
    laws = {place: Law(np.concatenate(values[place]), weights) for place in range(parents)}
    laws[-1] = Law(np.concatenate(fresh), weights)
    worth = weights.sum() ** 2 / (weights**2).sum()
    return laws, laws[-1].mean, worth


# The crosses of a row of 46 decided seedlings: parents, kept, culled.
ROW = [
    (11, 0, 2, 2), (11, 10, 0, 2), (6, 7, 1, 2), (1, 10, 4, 1), (1, 9, 2, 1), (8, 9, 1, 2), (8, None, 0, 2),
    (0, 3, 1, 4), (0, 1, 2, 2), (4, 5, 0, 3), (10, None, 0, 2), (7, 0, 0, 2), (2, 3, 1, 2), (5, None, 1, 2),
    (None, None, 0, 2),
]


def cases():
    """Small rows of one and two parents, and the large one."""
    yield 1, [(0, None, True)] * 3 + [(0, None, False)] * 3
    yield 1, [(0, 0, True)] * 2 + [(0, 0, False)] * 3 + [(0, None, True)] * 2 + [(None, None, False)] * 2
    yield 2, [(0, 1, True)] * 5 + [(0, None, False)] * 2 + [(1, None, True), (1, 1, False)]
    yield 2, [(0, 1, False)] * 4 + [(0, 0, True)] * 3 + [(1, None, False)] * 6 + [(None, None, True)]
    yield 2, [(0, 1, False)] * 30 + [(0, None, True)] * 6
    whole = []
    for one, other, kept, culled in ROW:
        whole += [(one, other, True)] * kept + [(one, other, False)] * culled
    yield 12, whole


def main():
    print(f"# numpy {np.__version__}, scipy {scipy.__version__}, tests/outside/parents_by_force.py")
    print("# seedlings: seed parent x pollen parent, + stays or - culled; -1: the parent that is new to the row")
    print("seedlings,parents,parent,share,low,high")
    for parents, decided in cases():
        name = lambda at: "?" if at is None else str(at)
        row = " ".join(f"{name(one)}x{name(other)}{'+' if stays else '-'}" for one, other, stays in decided)
        laws, fresh, worth = posterior(parents, decided)
        if worth:
            print(f"worth {worth:.0f} draws", file=sys.stderr)
        tail = (1 - LEVEL) / 2
        for place, law in sorted(laws.items()):
            low, high = law.quantile(tail), law.quantile(1 - tail)
            print(f"{row},{parents},{place},{law.mean:.4f},{low:.4f},{high:.4f}")
        if -1 not in laws:
            print(f"{row},{parents},-1,{fresh:.4f},,")


if __name__ == "__main__":
    main()
