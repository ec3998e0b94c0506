"""Shapes in the plane against Shapely, and round ones against SciPy's integrals."""

import math
import random

import numpy
from scipy.integrate import simpson, trapezoid
from scipy.special import ellipe
from shapely import Polygon

from asking import Questions, first, near, refused


def round_about(rng: random.Random, corners: int, most_m: float) -> list[tuple[float, float]]:
    """Corners in the order of their bearing from a middle point, in metres."""
    bearings = [2 * math.pi * (i + rng.uniform(0.1, 0.9)) / corners for i in range(corners)]
    return [
        (radius * math.cos(bearing), radius * math.sin(bearing))
        for bearing in bearings
        for radius in [most_m * rng.uniform(0.35, 1.0)]
    ]


def metres(length_m: float) -> str:
    """A length in the stored form."""
    return f"{length_m:.9f}"[:13] + " m"


def taped(rng: random.Random, corners: list[tuple[float, float]]) -> dict | None:
    """Corners as two tapes each find them; nothing where no two earlier ones see one well."""
    found = []
    for number, corner in enumerate(corners[2:], start=3):
        pairs = [(a, b) for a in range(1, number) for b in range(1, number) if a != b]
        rng.shuffle(pairs)
        pair = next((p for p in pairs if sees_well(corner, *(corners[i - 1] for i in p))), None)
        if pair is None:
            return None
        a, b = (corners[i - 1] for i in pair)
        found.append(
            {
                "from_a": pair[0],
                "tape_a": metres(math.dist(a, corner)),
                "from_b": pair[1],
                "tape_b": metres(math.dist(b, corner)),
                "side": "left" if across(a, b, corner) > 0 else "right",
            }
        )
    first_side = metres(math.dist(corners[0], corners[1]))
    return {"tape_polygon": {"first_side": first_side, "corners": found}}


def across(a, b, c) -> float:
    """Twice the area of a triangle: positive where `c` lies left of the line from `a` to `b`."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def sees_well(corner, a, b) -> bool:
    """Whether two tapes meet at a good angle, so that digits are kept from corner to corner."""
    return abs(across(corner, a, b)) > 0.35 * math.dist(corner, a) * math.dist(corner, b)


def by_tape(rng: random.Random, cases: int) -> Questions:
    """Corners by two tapes each."""
    for _ in range(cases):
        corners = round_about(rng, rng.randint(3, 10), rng.uniform(5, 200))
        shape = taped(rng, corners)
        if shape is None:
            continue
        lawn = Polygon(corners)
        yield (
            {"ask": "shape", "shape": shape},
            lambda answer, lawn=lawn: first(
                near("area_m2", answer, lawn.area, 1e-5),
                near("perimeter_m", answer, lawn.length, 1e-5),
            ),
        )


def drawn(corners: list[tuple[float, float]]) -> tuple[dict, Polygon]:
    """Corners on the grid of centimetres."""
    grid = [(round(100 * x), round(100 * y)) for x, y in corners]
    shape = {"drawn": {"corners": [{"east_cm": x, "north_cm": y} for x, y in grid]}}
    return shape, Polygon([(x / 100, y / 100) for x, y in grid])


def strips(rng: random.Random, cases: int) -> Questions:
    """What remains inside a strip along the edge of a lawn that bends in and out."""
    for _ in range(cases):
        shape, lawn = drawn(round_about(rng, rng.randint(3, 14), rng.uniform(8, 100)))
        width_m = round(rng.uniform(0.1, 12), 2)
        rest_m2 = lawn.buffer(-width_m, quad_segs=64).area
        yield (
            {"ask": "shape", "shape": shape, "strip": f"{width_m} m"},
            lambda answer, lawn=lawn, rest_m2=rest_m2: remains(answer, lawn, rest_m2),
        )


def remains(answer: dict, lawn: Polygon, rest_m2: float) -> str | None:
    """Whether what remains agrees; where next to nothing does, it may be refused."""
    # Arcs round corners bent in are drawn by sides, here as there.
    least = 5e-4 * lawn.area
    if refused(answer) == "strip-takes-all":
        return None if rest_m2 < 0.01 + least else f"refused, where {rest_m2} m² remain"
    return first(
        near("area_m2", answer, lawn.area, 1e-12),
        near("perimeter_m", answer, lawn.length, 1e-12),
        near("rest_m2", answer, rest_m2, 1e-3, least),
    )


def crossings(rng: random.Random, cases: int) -> Questions:
    """Corners in any order: refused where their sides cross, and only there."""
    for _ in range(cases):
        corners = [
            (rng.uniform(-50, 50), rng.uniform(-50, 50)) for _ in range(rng.randint(3, 7))
        ]
        shape, lawn = drawn(corners)
        yield (
            {"ask": "shape", "shape": shape},
            lambda answer, lawn=lawn: (
                near("area_m2", answer, lawn.area, 1e-12)
                if lawn.is_valid
                else None if refused(answer) == "sides-cross" else "not refused, though sides cross"
            ),
        )


def ovals(rng: random.Random, cases: int) -> Questions:
    """Ellipses, whose edge is an integral."""
    for _ in range(cases):
        length = round(rng.uniform(1, 900), 2)
        width = round(length * rng.uniform(0.01, 1.5) + 0.01, 2)
        a, b = max(length, width) / 2, min(length, width) / 2
        edge_m = 4 * a * float(ellipe(1 - (b / a) ** 2))
        yield (
            {"ask": "shape", "shape": {"oval": {"length": f"{length} m", "width": f"{width} m"}}},
            lambda answer, a=a, b=b, edge_m=edge_m: first(
                near("area_m2", answer, math.pi * a * b, 1e-12),
                near("perimeter_m", answer, edge_m, 1e-10),
            ),
        )


def offsets(rng: random.Random, cases: int) -> Questions:
    """Widths across a base line, by either rule."""
    for _ in range(cases):
        bent = rng.random() < 0.5
        count = 2 * rng.randint(1, 20) + 1 if bent else rng.randint(2, 40)
        widths = [round(rng.uniform(0, 60), 2) for _ in range(count)]
        widths[rng.randrange(count)] = 12.5
        spacing = round(rng.uniform(0.5, 20), 2)
        integral = simpson if bent else trapezoid
        area_m2 = float(integral(numpy.array(widths), dx=spacing))
        shape = {
            "offsets": {
                "spacing": f"{spacing} m",
                "offsets": [f"{width} m" for width in widths],
                "rule": "simpson" if bent else "trapezoid",
            }
        }
        yield (
            {"ask": "shape", "shape": shape},
            lambda answer, area_m2=area_m2: near("area_m2", answer, area_m2, 1e-12),
        )
