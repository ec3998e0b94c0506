"""Counts against SciPy's chi-square quantiles."""

import random

from scipy.stats import chi2

from asking import Questions, first, near


def intervals(rng: random.Random, cases: int) -> Questions:
    """The exact interval of a count (Garwood 1936), up to the most that is taken."""
    for case in range(cases):
        count = case if case < 40 else round(10 ** rng.uniform(0, 5))
        lower = float(chi2.ppf(0.025, 2 * count)) / 2 if count else 0.0
        upper = float(chi2.ppf(0.975, 2 * count + 2)) / 2
        yield (
            {"ask": "poisson", "count": count},
            lambda answer, lower=lower, upper=upper: first(
                near("lower", answer, lower, 1e-8, 1e-9), near("upper", answer, upper, 1e-8)
            ),
        )
