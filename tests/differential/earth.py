"""Polygons on the earth against GeographicLib's own Python."""

import math
import random

from geographiclib.geodesic import Geodesic

from asking import Questions, first, near

EARTH = Geodesic.WGS84

# How far two areas of one lawn may be apart, in square metres, and round a pole, where they are
# worked out as what is left of a hemisphere.
LAWN_M2 = 1e-3
POLE_M2 = 0.2


def around(rng: random.Random, lat: float, lon: float, radius_m: float) -> list[list[float]]:
    """Corners round a middle point, at most `radius_m` away; their sides do not cross."""
    azimuths = sorted(rng.uniform(0, 360) for _ in range(rng.randint(3, 16)))
    # Within a half circle the ring would not enclose the middle, and could cross itself.
    azimuths = [azimuths[0] + 360 * i / len(azimuths) for i in range(len(azimuths))]
    corners = []
    for azimuth in azimuths:
        there = EARTH.Direct(lat, lon, azimuth, radius_m * rng.uniform(0.3, 1.0))
        corners.append([there["lat2"], there["lon2"]])
    if rng.random() < 0.5:
        corners.reverse()
    return corners


def measured(corners: list[list[float]]) -> tuple[float, float]:
    """GeographicLib's perimeter and area."""
    polygon = EARTH.Polygon()
    for lat, lon in corners:
        polygon.AddPoint(lat, lon)
    _, perimeter_m, area_m2 = polygon.Compute(False, True)
    return perimeter_m, abs(area_m2)


def somewhere(rng: random.Random) -> tuple[float, float]:
    """A place, as likely on every part of the earth; now and then a pole or the date line."""
    lat = math.degrees(math.asin(rng.uniform(-1, 1)))
    lon = rng.uniform(-180, 180)
    match rng.randrange(10):
        case 0:
            return rng.choice([-90.0, 90.0]), lon
        case 1:
            return lat, rng.choice([-180.0, 180.0])
        case _:
            return lat, lon


def polygons(rng: random.Random, cases: int) -> Questions:
    """From a bed to a continent, anywhere."""
    for _ in range(cases // 2):
        radius_m = 10 ** rng.uniform(0.5, 6.3)
        lat, lon = somewhere(rng)
        corners = around(rng, lat, lon, radius_m)
        perimeter_m, area_m2 = measured(corners)
        off_m2 = (POLE_M2 if abs(lat) > 89 else LAWN_M2) + 1e-6 * radius_m
        yield (
            {"ask": "geodesic", "corners": corners},
            lambda answer, p=perimeter_m, a=area_m2, off_m2=off_m2: first(
                near("perimeter_m", answer, p, 1e-12, 1e-7),
                near("area_m2", answer, a, 0, off_m2),
            ),
        )


def walks(rng: random.Random, cases: int) -> Questions:
    """Walks round lawns. Near the poles and the date line they are refused; polygons are not."""
    for _ in range(cases // 2):
        lat, lon = rng.uniform(-80, 80), rng.uniform(-179, 179)
        corners = around(rng, lat, lon, rng.uniform(30, 400))
        fixes = [
            {
                "lat_1e9": round(lat * 1e9),
                "lon_1e9": round(lon * 1e9),
                "accuracy_mm": rng.choice([None, rng.randint(10, 20_000)]),
                "at_unix_ms": None,
            }
            for lat, lon in corners
        ]
        rounded = [[fix["lat_1e9"] / 1e9, fix["lon_1e9"] / 1e9] for fix in fixes]
        perimeter_m, area_m2 = measured(rounded)
        yield (
            {"ask": "shape", "shape": {"walk": {"fixes": fixes}}},
            lambda answer, p=perimeter_m, a=area_m2: first(
                near("area_m2", answer, a, 0, LAWN_M2),
                # Corners less than a metre off the line between others are smoothed away.
                near("perimeter_m", answer, p, 0.01),
            ),
        )
