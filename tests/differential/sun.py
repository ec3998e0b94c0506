"""The sun against PyEphem, which goes by VSOP87, and Astral, which goes by NOAA's formulas."""

import datetime
import math
import random
from datetime import UTC, timedelta

import astral
import astral.sun
import ephem

from asking import Questions, first, near

FIRST_DAY = datetime.date(2020, 1, 1)
DAYS = 4_018

# Almanacs' sunrise: the sun's centre 50 minutes of arc below the horizon.
RISE_DEG = -50 / 60
TWILIGHT_DEG = -6.0

# Each leaves out small motions of the earth that the other has: ten times the 0.0001 degrees by
# which they differed in thousands of days.
HEIGHT_DEG = 0.001

# The same in time, where the sun climbs least steeply up to LAT_MOST_DEG: 0.15 s were found.
RISE_S = 1.5
LAT_MOST_DEG = 60.0

# NOAA gives its short formulas a minute; 36 s were found, at 60 degrees in June.
NOAA_S = 60.0

# Air lifts the sun by 0.06 degrees at this height and less above it; the two formulas for that
# differed by 0.0016.
POSITION_DEG = 0.003
HIGH_DEG = 15.0


def moment_ms(date: ephem.Date) -> float:
    """A moment of PyEphem's in milliseconds since 1970 UTC."""
    return (float(date) - float(ephem.Date("1970/1/1"))) * 86_400_000


def moment_of(at_utc_ms: float) -> ephem.Date:
    """The other way round."""
    return ephem.Date(float(ephem.Date("1970/1/1")) + at_utc_ms / 86_400_000)


def observer(lat: float, lon: float, horizon_deg: float = RISE_DEG) -> ephem.Observer:
    """Somebody without air, who sees the sun where it is."""
    there = ephem.Observer()
    there.lat, there.lon = math.radians(lat), math.radians(lon)
    there.pressure, there.elevation = 0, 0
    there.horizon = math.radians(horizon_deg)
    return there


class Day:
    """A day of a place's own clock, a few hours beside the sun's as clocks may be."""

    def __init__(self, rng: random.Random, lat: float, beside_h: int = 2) -> None:
        self.lat, self.lon = round(lat, 4), round(rng.uniform(-180, 180), 4)
        self.date = FIRST_DAY + timedelta(days=rng.randrange(DAYS))
        self.offset_h = max(-12, min(14, round(self.lon / 15) + rng.randint(-beside_h, beside_h)))
        midnight = datetime.datetime.combine(self.date, datetime.time(), UTC)
        self.from_ms = midnight.timestamp() * 1000 - self.offset_h * 3_600_000
        self.to_ms = self.from_ms + 86_400_000

    def question(self) -> dict:
        """The question for it."""
        # These names have the sign of the sailors: west is above zero.
        zone = f"Etc/GMT{-self.offset_h:+d}" if self.offset_h else "Etc/UTC"
        return {
            "ask": "sun-day",
            "lat": self.lat,
            "lon": self.lon,
            "date": self.date.isoformat(),
            "zone": zone,
        }

    def near_its_ends(self, at_ms: float) -> bool:
        """Whether a moment may fall on this day in one library and on the next in another."""
        return min(abs(at_ms - self.from_ms), abs(at_ms - self.to_ms)) < 120_000


def at_time(what: str, answer: dict, expected_ms: float, seconds: float) -> str | None:
    """How a time of day differs."""
    return near(what, answer, expected_ms, 0, seconds * 1000)


def rise_and_set(rng: random.Random, cases: int) -> Questions:
    """Where the sun rises and sets every day, with civil twilight."""
    for _ in range(cases):
        day = Day(rng, rng.uniform(-LAT_MOST_DEG, LAT_MOST_DEG))
        sun, there = ephem.Sun(), observer(day.lat, day.lon)
        there.date = moment_of(day.from_ms)
        rises = there.next_rising(sun, use_center=True)
        there.date = moment_of(day.to_ms)
        sets = there.previous_setting(sun, use_center=True)
        twilight = observer(day.lat, day.lon, TWILIGHT_DEG)
        twilight.date = rises
        dawn = twilight.previous_rising(sun, use_center=True)
        twilight.date = sets
        dusk = twilight.next_setting(sun, use_center=True)
        expected = {
            "first_light_utc_ms": moment_ms(dawn),
            "rises_utc_ms": moment_ms(rises),
            "sets_utc_ms": moment_ms(sets),
            "last_light_utc_ms": moment_ms(dusk),
        }
        if any(day.near_its_ends(expected[edge]) for edge in ("rises_utc_ms", "sets_utc_ms")):
            continue
        yield (
            day.question(),
            lambda answer, expected=expected: first(
                "the sun is said not to rise or set" if answer["all_day"] else None,
                *(at_time(what, answer, at_ms, RISE_S) for what, at_ms in expected.items()),
            ),
        )


def near_midnight_utc(at_ms: float) -> bool:
    """Whether a moment is within five minutes of it."""
    return (at_ms + 300_000) % 86_400_000 < 600_000


def rise_and_set_by_noaa(rng: random.Random, cases: int) -> Questions:
    """The same by other formulas."""
    for _ in range(cases):
        day = Day(rng, rng.uniform(-LAT_MOST_DEG, LAT_MOST_DEG), beside_h=0)
        there = astral.Observer(day.lat, day.lon, 0.0)
        zone = datetime.timezone(timedelta(hours=day.offset_h))
        try:
            rises, sets = (
                edge(there, day.date, zone).timestamp() * 1000
                for edge in (astral.sun.sunrise, astral.sun.sunset)
            )
        except ValueError:
            # Near midnight UTC, where Astral goes over from one day to the next, it may find none,
            continue
        # or one of the neighbouring day, minutes away.
        if any(near_midnight_utc(at_ms) or day.near_its_ends(at_ms) for at_ms in (rises, sets)):
            continue
        yield (
            day.question(),
            lambda answer, rises=rises, sets=sets: first(
                at_time("rises_utc_ms", answer, rises, NOAA_S),
                at_time("sets_utc_ms", answer, sets, NOAA_S),
            ),
        )


def near_the_poles(rng: random.Random, cases: int) -> Questions:
    """Where the sun may stay up or down. It may graze the horizon for hours, so that no time can be
    held against another: what is asked is that it stands on the horizon when it is said to."""
    for _ in range(cases // 5):
        day = Day(rng, rng.choice([-1, 1]) * rng.uniform(LAT_MOST_DEG, 90))
        yield day.question(), lambda answer, day=day: on_the_horizon(day, answer)


def on_the_horizon(day: Day, answer: dict) -> str | None:
    """What PyEphem's heights say against a day."""
    sun, there = ephem.Sun(), observer(day.lat, day.lon)

    def above_deg(at_ms: float) -> float:
        there.date = moment_of(at_ms)
        sun.compute(there)
        return math.degrees(sun.alt) - RISE_DEG

    for what, sign in (("rises_utc_ms", 1), ("sets_utc_ms", -1)):
        at_ms = answer[what]
        if at_ms is None:
            continue
        if not day.from_ms <= at_ms < day.to_ms:
            return f"{what} is on another day"
        if abs(above_deg(at_ms)) > HEIGHT_DEG:
            return f"{what} has the sun {above_deg(at_ms):.4f} degrees off the horizon"
        if sign * (above_deg(at_ms + 60_000) - above_deg(at_ms - 60_000)) < -HEIGHT_DEG / 100:
            return f"{what} has the sun moving the other way"
    steps = 288
    heights = [above_deg(day.from_ms + 86_400_000 * step / steps) for step in range(steps + 1)]
    up, down = max(heights) > HEIGHT_DEG, min(heights) < -HEIGHT_DEG
    said = answer["all_day"]
    if (said == "up" and down) or (said == "down" and up):
        return f"said to be {said} all day, between {min(heights):.3f} and {max(heights):.3f}"
    if said is None and answer["rises_utc_ms"] is None and answer["sets_utc_ms"] is None:
        return "neither rises nor sets, and is not said to stay"
    # What is clearly below and later clearly above has risen in between, and the other way round.
    clear = [height for height in heights if abs(height) > HEIGHT_DEG]
    turns = {before < after for before, after in zip(clear, clear[1:]) if before * after < 0}
    if True in turns and answer["rises_utc_ms"] is None:
        return "the sun rises, and is not said to"
    if False in turns and answer["sets_utc_ms"] is None:
        return "the sun sets, and is not said to"
    return None


def positions(rng: random.Random, cases: int) -> Questions:
    """Where the sun stands by day, well above the horizon, anywhere."""
    from_ms = datetime.datetime.combine(FIRST_DAY, datetime.time(), UTC).timestamp() * 1000
    for _ in range(cases):
        lat, lon = round(rng.uniform(-89, 89), 4), round(rng.uniform(-180, 180), 4)
        at_ms = round(from_ms + rng.uniform(0, DAYS) * 86_400_000)
        there, sun = observer(lat, lon), ephem.Sun()
        there.pressure, there.temp = 1013.25, 15
        there.date = moment_of(at_ms)
        sun.compute(there)
        height, azimuth = math.degrees(sun.alt), math.degrees(sun.az)
        # Straight overhead every direction is as good as another.
        if not HIGH_DEG < height < 89:
            continue
        yield (
            {"ask": "sun-position", "lat": lat, "lon": lon, "at_utc_ms": at_ms},
            lambda answer, height=height, azimuth=azimuth: first(
                near("elevation_deg", answer, height, 0, POSITION_DEG),
                near("zenith_deg", answer, 90 - height, 0, POSITION_DEG),
                turned(answer, azimuth, POSITION_DEG / math.cos(math.radians(height))),
            ),
        )


def turned(answer: dict, azimuth: float, most_deg: float) -> str | None:
    """How a direction differs, round north."""
    off = (answer["azimuth_deg"] - azimuth + 180) % 360 - 180
    return None if abs(off) <= most_deg else f"azimuth_deg is {off:.4f} degrees off {azimuth}"
