"""Units against Pint, whose factors are worked out here as exact fractions."""

import random
from collections import defaultdict
from fractions import Fraction

import pint

from asking import Questions, Rules, first, near, refused

EXACT = pint.UnitRegistry(non_int_type=Fraction)
FLOATS = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)

# Pint's name for each code of the table. A code that is not here fails the comparison.
NAMES = {
    "m": "meter",
    "cm": "centimeter",
    "mm": "millimeter",
    "km": "kilometer",
    "[in_i]": "inch",
    "[ft_i]": "foot",
    "[yd_i]": "yard",
    "[mi_i]": "mile",
    "m2": "meter ** 2",
    "[in_i]2": "inch ** 2",
    "[ft_i]2": "foot ** 2",
    "[yd_i]2": "yard ** 2",
    "100.[ft_i]2": "100 * foot ** 2",
    "1000.[ft_i]2": "1000 * foot ** 2",
    "5000.[ft_i]2": "5000 * foot ** 2",
    "10000.[ft_i]2": "10000 * foot ** 2",
    "100.m2": "100 * meter ** 2",
    "43560.[ft_i]2": "43560 * foot ** 2",
    "har": "hectare",
    "kg": "kilogram",
    "g": "gram",
    "mg": "milligram",
    "[lb_av]": "pound",
    "[oz_av]": "ounce",
    "L": "liter",
    "mL": "milliliter",
    "m3": "meter ** 3",
    "100.L": "100 * liter",
    "[foz_us]": "fluid_ounce",
    "[tsp_us]": "teaspoon",
    "[tbs_us]": "tablespoon",
    "[cup_us]": "cup",
    "[pt_us]": "pint",
    "[qt_us]": "quart",
    "[gal_us]": "gallon",
    "100.[gal_us]": "100 * gallon",
    "s": "second",
    "min": "minute",
    "h": "hour",
    "d": "day",
    "wk": "week",
    "[kn_i]": "knot",
    "[psi]": "psi",
    "bar": "bar",
    "kPa": "kilopascal",
    "%": "1 / 100",
    "1": "1",
}
TEMPERATURES = {"Cel": "degree_Celsius", "[degF]": "degree_Fahrenheit", "K": "kelvin"}

# A converted amount has nine significant digits, twelve behind its point, and twelve in all.
SHARE = 6e-9
LEAST = 6e-13
MOST = 1e12


def expression(code: str) -> str:
    """A code, alone or per another, as Pint reads it."""
    over, _, under = code.partition("/")
    per = f" / ({NAMES[under.strip('()')]})" if under else ""
    return f"({NAMES[over]}){per}"


def factor(code: str) -> tuple[Fraction, tuple]:
    """The exact factor to base units, and what those are."""
    base = EXACT.Quantity(1, "") * EXACT.parse_expression(expression(code))
    base = base.to_base_units()
    return Fraction(base.magnitude), tuple(sorted(base.dimensionality.items()))


def amount(rng: random.Random) -> str:
    """A number as a label or a tape gives it."""
    decimals = rng.randint(0, 4)
    return f"{rng.uniform(0, 10 ** rng.randint(0, 5)):.{decimals}f}"


def every_pair(rules: Rules):
    """Makes the comparison of each unit with each other of its kind."""

    def compare(rng: random.Random, _cases: int) -> Questions:
        by_kind = defaultdict(list)
        for unit in rules.ask([{"ask": "units"}])[0]["units"]:
            by_kind[unit["kind"]].append(unit["code"])
        for kind, codes in by_kind.items():
            if kind == "temperature":
                continue
            factors = {code: factor(code) for code in codes}
            dimensions = {dimension for _, dimension in factors.values()}
            if len(dimensions) != 1:
                raise RuntimeError(f"Pint takes {kind} for {dimensions}")
            for source, (over, _) in factors.items():
                for target, (under, _) in factors.items():
                    given = amount(rng)
                    expected = float(Fraction(given) * over / under)
                    yield (
                        {"ask": "convert", "amount": f"{given} {source}", "unit": target},
                        lambda answer, expected=expected: same(answer, expected),
                    )

    return compare


def same(answer: dict, expected: float) -> str | None:
    """Whether a converted amount agrees; one too large or too small to write may be refused."""
    if refused(answer) == "out-of-range":
        may_be = expected >= MOST or 0 < expected < LEAST
        return None if may_be else f"refused, where {expected} is expected"
    number = answer.get("number")
    return near("number", {"number": number and float(number)}, expected, SHARE, LEAST)


def by_pint_itself(rules: Rules):
    """Makes a comparison in which Pint converts by its own means, not by the factors above."""

    def compare(rng: random.Random, cases: int) -> Questions:
        by_kind = defaultdict(list)
        for unit in rules.ask([{"ask": "units"}])[0]["units"]:
            if unit["kind"] not in ("temperature", "percent"):
                by_kind[unit["kind"]].append(unit["code"])
        kinds = list(by_kind.values())
        for _ in range(cases):
            source, target = rng.choices(rng.choice(kinds), k=2)
            given = amount(rng)
            over = FLOATS.parse_expression(expression(source))
            under = FLOATS.parse_expression(expression(target))
            expected = float((float(given) * over / under).to("dimensionless").magnitude)
            yield (
                {"ask": "convert", "amount": f"{given} {source}", "unit": target},
                lambda answer, expected=expected: same(answer, expected),
            )

    return compare


def temperatures(rng: random.Random, cases: int) -> Questions:
    """Degrees, whose zeros differ."""
    for _ in range(cases):
        source, target = rng.choices(list(TEMPERATURES), k=2)
        celsius = rng.uniform(-60, 60)
        given = FLOATS.Quantity(celsius, "degree_Celsius").to(TEMPERATURES[source])
        text = f"{given.magnitude:.3f}"
        expected = FLOATS.Quantity(float(text), TEMPERATURES[source]).to(TEMPERATURES[target])
        expected = float(expected.magnitude)
        yield (
            {"ask": "convert", "amount": f"{text} {source}", "unit": target},
            lambda answer, expected=expected: near(
                "number", {"number": float(answer.get("number", "nan"))}, expected, SHARE, 1e-9
            ),
        )


def never_across_kinds(rules: Rules):
    """Makes the comparison that no unit converts into one of another kind."""

    def compare(rng: random.Random, cases: int) -> Questions:
        units = rules.ask([{"ask": "units"}])[0]["units"]
        for _ in range(cases):
            source, target = rng.choices(units, k=2)
            if source["kind"] == target["kind"]:
                continue
            yield (
                {"ask": "convert", "amount": f"1 {source['code']}", "unit": target["code"]},
                lambda answer: first(
                    None if refused(answer) == "wrong-kind" else "converted across kinds"
                ),
            )

    return compare
