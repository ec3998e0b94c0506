"""Practice books through the facade, as a program in Python has them: on a folder of their own, with a
clock that stands still. Names and products are invented."""

import tempfile
import unittest
from pathlib import Path

import sward

NOON = 1_781_524_800_000  # 2026-06-15 12:00 UTC
HOUR = 3_600_000
MINUTE = 60_000

RATE = "2.5 lb/1000 ft2"
LABEL = {
    "product": "Granule Nought",
    "registration": "00000-0",
    "method": "foliar_spray",
    "rate_most": RATE,
    "wind_most": "10 mph",
    "keep_off_until_dry": "yes",
    "keep_off_wait": "4 h",
}
READ_BACK = ("rate_most", "wind_most", "keep_off_until_dry", "keep_off_wait")


def typed(fields):
    return [sward.Typed(field=field, text=text) for field, text in fields.items()]


def starting(label, rate, acknowledged, against=None):
    return sward.Start(
        label=label, rate=rate, sections=[], acknowledged=acknowledged, against=against,
        equipment=None, lot=None, gear=None,
    )


def person(name):
    return sward.PersonTold(name=name, licence="")


class Phone:
    """A phone with a practice book in a folder that goes with it."""

    def __init__(self, languages="en", clock=None):
        self.folder = tempfile.TemporaryDirectory(prefix="sward-")
        self.clock = clock or sward.PracticeClock(NOON, -240)
        self.languages = languages
        self.book = self.open()

    def told(self):
        return sward.DeviceTold(
            folder=str(Path(self.folder.name) / "book"),
            zone="America/New_York",
            boot_count=1,
            languages=self.languages,
        )

    def open(self):
        return sward.Swardbook.practise(self.told(), self.clock)

    def file(self, name):
        return str(Path(self.folder.name) / name)

    def end(self):
        self.book.shut()
        self.folder.cleanup()

    def label(self, **other):
        fields = LABEL | other
        label = self.book.add_label(typed(fields))
        self.book.read_back(label, typed({k: fields[k] for k in READ_BACK}), None)
        return label

    def wind(self, visit, *speeds, gust=None):
        now = self.clock.utc_ms()
        readings = [
            sward.WindReading(
                at_utc_ms=now - (len(speeds) - n) * 30_000,
                wind=speed,
                gust=gust,
                from_degrees=270,
                height="5 ft",
            )
            for n, speed in enumerate(speeds)
        ]
        self.book.measure_wind(visit, readings)

    def treated(self, label, against=None):
        """A visit that was started, loaded and finished; its keep-off."""
        yard = self.book.add_yard("Corner lot", "1 Test Lane", "America/New_York")
        self.book.add_rectangle(yard, "front", "60 ft", "25 ft")
        visit = self.book.open_visit(yard, "chinch bug")
        ready = self.book.check_ready(visit, label, RATE)
        unknown = [f.check for f in ready.findings if f.verdict == sward.Verdict.UNKNOWN]
        keep_offs = self.book.start_treating(visit, starting(label, RATE, acknowledged=unknown, against=against))
        self.book.record_load(visit, [], "3 lb", None, self.clock.utc_ms())
        self.book.finish_treating(visit, "")
        return visit, keep_offs[0]


class WithPhones(unittest.TestCase):
    """Tests whose phones end with them."""

    def phone(self, **how):
        phone = Phone(**how)
        self.addCleanup(phone.end)
        return phone

    def founded(self, **how):
        phone = self.phone(**how)
        phone.book.found_crew("Practice crew", person("Núria Sample"), True)
        return phone

    def joined(self, lead):
        """A second phone that the lead admitted, and that holds what the lead held."""
        phone = self.phone()
        phone.book.ask_to_join(person("Tomás Sample"), True)
        shown = phone.book.write_join_request(phone.file("ask.swreq"))
        request = lead.book.read_join_request(phone.file("ask.swreq"))
        assert request.check_digits == shown
        lead.book.admit(phone.file("ask.swreq"), sward.Role.APPLICATOR)
        self.swap(lead, phone)
        return phone

    def swap(self, giver, taker):
        name = f"swap-{self.id()}-{giver.clock.utc_ms()}-{len(list(Path(giver.folder.name).iterdir()))}.swlock"
        made = giver.book.make_locked_file(giver.file(name))
        taken = taker.book.take_locked_file(giver.file(name))
        return made, taken
