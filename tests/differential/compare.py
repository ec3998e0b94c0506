"""The rules against general-purpose libraries, in random cases.

    compare.py PROGRAM    PROGRAM is the example `rules-by-line` of the tests

SWARD_TEST_SEED repeats a run; SWARD_DIFFERENTIAL_CASES is the number of cases in each comparison.
The last line counts like a test runner's.
"""

import os
import random
import sys
import time

import counts
import earth
import moist_air
import plane
import sun
import units
from asking import Comparison, Rules, differences


def comparisons(rules: Rules) -> dict[str, Comparison]:
    """All there are, by name."""
    return {
        "every pair of units (Pint)": units.every_pair(rules),
        "units by Pint's own conversion (Pint)": units.by_pint_itself(rules),
        "no conversion across kinds (Pint)": units.never_across_kinds(rules),
        "temperatures (Pint)": units.temperatures,
        "polygons on the earth (GeographicLib)": earth.polygons,
        "walks (GeographicLib)": earth.walks,
        "corners by two tapes (Shapely)": plane.by_tape,
        "strips set back from the edge (Shapely)": plane.strips,
        "sides that cross (Shapely)": plane.crossings,
        "ovals (SciPy)": plane.ovals,
        "offsets (SciPy)": plane.offsets,
        "dew points (PsychroLib)": moist_air.dew_points,
        "wet bulbs (PsychroLib)": moist_air.wet_bulbs,
        "intervals of counts (SciPy)": counts.intervals,
        "sunrise and sunset (PyEphem)": sun.rise_and_set,
        "sunrise and sunset (Astral)": sun.rise_and_set_by_noaa,
        "polar days and nights (PyEphem)": sun.near_the_poles,
        "where the sun stands (PyEphem)": sun.positions,
    }


def main() -> int:
    """Runs all comparisons and tells what differs."""
    if len(sys.argv) != 2:
        print(__doc__, file=sys.stderr)
        return 2
    rules = Rules(sys.argv[1])
    seed = int(os.environ.get("SWARD_TEST_SEED") or random.randrange(2**63))
    cases = int(os.environ.get("SWARD_DIFFERENTIAL_CASES") or 1_000)
    print(f"seed {seed}, {cases} cases each")
    passed = failed = 0
    for name, comparison in comparisons(rules).items():
        start = time.monotonic()
        found = differences(rules, comparison, random.Random(f"{seed} {name}"), cases)
        took = time.monotonic() - start
        print(f"{'DIFFERS' if found else 'agrees '}  {name}  ({took:.1f} s)")
        for difference in found:
            print(f"  {difference}")
        passed, failed = passed + (not found), failed + bool(found)
    if failed:
        print(
            "the same cases again: "
            f"SWARD_TEST_SEED={seed} SWARD_DIFFERENTIAL_CASES={cases} and this command"
        )
    print(f"test result: {passed} passed; {failed} failed; 0 ignored")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
