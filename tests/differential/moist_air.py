"""Moist air against PsychroLib, which goes by ASHRAE's Handbook of Fundamentals."""

import random

import psychrolib

from asking import Questions, first, near

psychrolib.SetUnitSystem(psychrolib.SI)

SEA_LEVEL_PA = 101_325

# Magnus' formula and ASHRAE's differ by less than this from 0 to 50 °C.
DEW_POINT_C = 0.15

# How far Stull's formula may be from ASHRAE's wet bulb: in the air in which anybody treats a lawn,
# and in hot or parched air, to which he fitted it less closely.
STULL_C = 0.7
STULL_EXTREME_C = 1.25

# The limits of Delta T with their safe side, and how near to one the rules take the safe side: the
# dead-band of the drying finding.
DELTA_T_LIMITS_C = ((2, 1), (8, -1), (10, -1))
DEAD_BAND_C = 0.7


def dew_points(rng: random.Random, cases: int) -> Questions:
    """Dew points of warm air. Below freezing ASHRAE goes over to frost, which is another matter."""
    for _ in range(cases):
        celsius, percent = round(rng.uniform(0.1, 50), 1), round(rng.uniform(5, 99), 1)
        expected = psychrolib.GetTDewPointFromRelHum(celsius, percent / 100)
        if expected < 0:
            continue
        yield (
            question(celsius, percent),
            lambda answer, expected=expected: near("dew_point_c", answer, expected, 0, DEW_POINT_C),
        )


def wet_bulbs(rng: random.Random, cases: int) -> Questions:
    """Wet bulbs above freezing, and Delta T, which is the same the other way round."""
    for _ in range(cases):
        celsius, percent = round(rng.uniform(1, 50), 1), round(rng.uniform(5, 99), 1)
        expected = psychrolib.GetTWetBulbFromRelHum(celsius, percent / 100, SEA_LEVEL_PA)
        if expected < 0:
            continue
        off = STULL_C if celsius <= 35 and percent >= 15 else STULL_EXTREME_C
        yield (
            question(celsius, percent),
            lambda answer, celsius=celsius, expected=expected, off=off: first(
                near("wet_bulb_c", answer, expected, 0, off),
                near("delta_t_c", answer, celsius - answer["wet_bulb_c"], 0, 1e-9),
                across_a_limit(answer["delta_t_c"], celsius - expected),
            ),
        )


def across_a_limit(found: float, expected: float) -> str | None:
    """Where ASHRAE's Delta T is beyond a limit, Stull's is so too, or within the dead-band of it."""
    for limit, safe in DELTA_T_LIMITS_C:
        if safe * (expected - limit) < 0 and safe * (found - limit) > DEAD_BAND_C:
            return f"Delta T is {found}, more than the dead-band from {limit}, beyond which {expected} is"
    return None


def question(celsius: float, percent: float) -> dict:
    """The question for air."""
    return {"ask": "air", "temperature": f"{celsius} Cel", "humidity_percent": percent}
