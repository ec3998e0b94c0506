"""The three uses of the facade, each for real: the wind before spraying, a keep-off from its start to
"it is dry", and the day's records of two phones by locked files. The screens over a real socket."""

import unittest
import urllib.error
import urllib.request
from pathlib import Path

import sward
from scene import HOUR, MINUTE, NOON, RATE, WithPhones, starting, typed


class TheWind(WithPhones):
    def verdict(self, *speeds, gust):
        phone = self.founded()
        label = phone.label()
        yard = phone.book.add_yard("Corner lot", "1 Test Lane", "America/New_York")
        phone.book.add_rectangle(yard, "front", "60 ft", "25 ft")
        visit = phone.book.open_visit(yard, "chinch bug")
        if speeds:
            phone.wind(visit, *speeds, gust=gust)
        ready = phone.book.check_ready(visit, label, RATE)
        wind = next(f for f in ready.findings if f.check == "wind")
        self.assertGreaterEqual(ready.verdict.value, wind.verdict.value, "a sum is its worst part")
        return wind

    def test_above_the_labels_limit_is_dont_treat(self):
        wind = self.verdict("9 mph", "11 mph", "12 mph", gust="14 mph")
        self.assertEqual(wind.verdict, sward.Verdict.DONT_TREAT)

    def test_below_it_no_limit_is_hit(self):
        wind = self.verdict("4 mph", "4 mph", "5 mph", "4 mph", "5 mph", gust="6 mph")
        self.assertEqual(wind.verdict, sward.Verdict.CLEAR, wind.reasons)

    def test_not_measured_is_not_known(self):
        self.assertEqual(self.verdict(gust=None).verdict, sward.Verdict.UNKNOWN)

    def test_a_number_without_its_unit_says_what_to_do(self):
        phone = self.founded()
        yard = phone.book.add_yard("Corner lot", "", "UTC")
        visit = phone.book.open_visit(yard, "")
        with self.assertRaises(sward.SwardError.BadInput) as caught:
            phone.wind(visit, "6")
        self.assertTrue(str(caught.exception))


class AKeepOff(WithPhones):
    def state(self, phone, visit, keep_off):
        return phone.book.keep_off(visit, keep_off)

    def looking(self):
        """A phone with a visit that is about to be started, and a label sheet to start with."""
        phone = self.founded()
        label = phone.label()
        yard = phone.book.add_yard("Corner lot", "", "UTC")
        phone.book.add_rectangle(yard, "front", "60 ft", "25 ft")
        return phone, phone.book.open_visit(yard, ""), label

    def test_from_the_start_to_it_is_dry(self):
        phone = self.founded()
        visit, keep_off = phone.treated(phone.label())
        watch = phone.book.keep_offs_to_watch()
        self.assertTrue(watch.proven)
        [running] = watch.keep_offs
        self.assertEqual((running.keep_off, running.yard, running.section), (keep_off, "Corner lot", "front"))
        self.assertEqual(running.method, sward.Method.FOLIAR_SPRAY)
        self.assertEqual(running.ring.at_device_utc_ms, NOON + 4 * HOUR)
        self.assertEqual(running.ring.what, sward.RingFor.LOOK)

        phone.clock.let_pass(4 * HOUR - 1)
        self.assertTrue(self.state(phone, visit, keep_off).keeps_off)
        phone.clock.let_pass(1)
        waiting = self.state(phone, visit, keep_off)
        self.assertTrue(waiting.state.is_WAITS_FOR_DRY() and waiting.keeps_off)
        self.assertIsNone(waiting.ring)

        phone.book.looked_dry(visit, [keep_off], phone.clock.utc_ms())
        ended = self.state(phone, visit, keep_off)
        self.assertTrue(ended.state.is_ENDED() and not ended.keeps_off)
        self.assertEqual(phone.book.keep_offs_to_watch().keep_offs, [])

    def test_a_look_before_the_last_application_is_refused_and_nothing_is_stored(self):
        phone = self.founded()
        visit, keep_off = phone.treated(phone.label())
        before = phone.book.crew().digest
        with self.assertRaises(sward.SwardError.Refused):
            phone.book.looked_dry(visit, [keep_off], NOON - MINUTE)
        self.assertEqual(phone.book.crew().digest, before)

    def test_after_a_new_start_of_the_device_the_time_is_uncertain_until_it_is_told(self):
        phone = self.founded()
        visit, keep_off = phone.treated(phone.label(keep_off_until_dry="no"))
        phone.clock.vouch(False)
        phone.clock.reboot()
        phone.clock.let_pass(9 * HOUR)
        uncertain = self.state(phone, visit, keep_off)
        self.assertTrue(uncertain.state.is_TIME_UNCERTAIN() and uncertain.keeps_off)
        self.assertEqual(uncertain.ring.what, sward.RingFor.CONFIRM_TIME)
        told = phone.book.time_told(
            sward.TimeSource.NETWORK, phone.clock.utc_ms(), phone.clock.since_boot_ms()
        )
        self.assertEqual(told, sward.TimeAnswer.CONFIRMED)
        self.assertTrue(self.state(phone, visit, keep_off).state.is_ENDED())

    def test_a_zone_moves_no_end(self):
        phone = self.founded()
        visit, keep_off = phone.treated(phone.label())
        before = self.state(phone, visit, keep_off)
        phone.book.zone_changed("Asia/Tokyo")
        self.assertEqual(self.state(phone, visit, keep_off), before)
        with self.assertRaises(sward.SwardError.BadInput):
            phone.book.zone_changed("Nowhere/Town")

    def test_a_start_names_what_is_not_acknowledged(self):
        phone, visit, label = self.looking()
        phone.book.check_ready(visit, label, RATE)
        with self.assertRaises(sward.SwardError.Refused):
            phone.book.start_treating(visit, starting(label, "2 lb/1000 ft2", acknowledged=[]))
        self.assertEqual(phone.book.keep_offs_to_watch().keep_offs, [])

    def test_a_rate_of_another_kind_than_the_labels_is_started_only_when_that_is_acknowledged(self):
        phone, visit, label = self.looking()
        ready = phone.book.check_ready(visit, label, RATE)
        unknown = [f.check for f in ready.findings if f.verdict == sward.Verdict.UNKNOWN and f.check != "rate"]
        start = starting(label, "2 fl oz/1000 ft2", acknowledged=unknown)
        with self.assertRaises(sward.SwardError.Refused):
            phone.book.start_treating(visit, start)
        start.acknowledged = [*unknown, "rate"]
        self.assertEqual(len(phone.book.start_treating(visit, start)), 1)

    def test_a_rate_above_the_labels_most_is_found_and_started_with_a_reason_only(self):
        phone, visit, label = self.looking()
        above = phone.book.check_ready(visit, label, "25 lb/1000 ft2")
        self.assertEqual(above.verdict, sward.Verdict.DONT_TREAT)
        self.assertIn("rate", [f.check for f in above.findings if f.verdict == sward.Verdict.DONT_TREAT])
        ready = phone.book.check_ready(visit, label, RATE)
        self.assertNotEqual(ready.verdict, sward.Verdict.DONT_TREAT)
        unknown = [f.check for f in ready.findings if f.verdict == sward.Verdict.UNKNOWN]
        slip = starting(label, "25 lb/1000 ft2", acknowledged=unknown)
        with self.assertRaises(sward.SwardError.Refused):
            phone.book.start_treating(visit, slip)
        slip.against = "spilled, and recorded as it was"
        self.assertEqual(len(phone.book.start_treating(visit, slip)), 1)

    def test_a_label_sheet_that_reads_back_otherwise_is_refused(self):
        phone = self.founded()
        label = phone.book.add_label(typed({"product": "Granule Nought", "method": "granule", "rate_most": "2 lb/1000 ft2"}))
        [field] = phone.book.to_read_back(label)
        self.assertEqual(field.field, "rate_most")
        with self.assertRaises(sward.SwardError.Refused):
            phone.book.read_back(label, typed({"rate_most": "20 lb/1000 ft2"}), None)
        self.assertFalse(phone.book.labels()[0].read_back)


class TheDaysRecords(WithPhones):
    def test_two_books_are_equal_after_swapping_by_files(self):
        lead = self.founded()
        other = self.joined(lead)
        lead.treated(lead.label())
        other.treated(other.label(product="Granule Two"))
        self.assertNotEqual(lead.book.crew().digest, other.book.crew().digest)
        _, taken = self.swap(lead, other)
        self.assertTrue(taken.maker_is_of_the_crew and taken.new_entries > 0)
        self.assertEqual(taken.refused, [])
        self.swap(other, lead)
        one, two = lead.book.crew(), other.book.crew()
        self.assertEqual((one.digest, one.entries), (two.digest, two.entries))
        keep_offs = [k.keep_off for k in lead.book.keep_offs_to_watch().keep_offs]
        self.assertEqual(len(keep_offs), 2)
        self.assertEqual(keep_offs, [k.keep_off for k in other.book.keep_offs_to_watch().keep_offs])
        _, again = self.swap(lead, other)
        self.assertEqual(again.new_entries, 0, "once more brings nothing and loses nothing")

    def test_a_file_that_was_altered_or_cut_is_told_and_nothing_changes(self):
        lead = self.founded()
        other = self.joined(lead)
        lead.treated(lead.label())
        whole = lead.file("whole.swlock")
        lead.book.make_locked_file(whole)
        data = Path(whole).read_bytes()
        before = other.book.crew()
        altered = bytearray(data)
        altered[-9] ^= 1  # one bit: any byte written over another may be the same byte
        for name, bad in (("cut", data[: len(data) // 2]), ("altered", altered), ("none", b"")):
            path = lead.file(name)
            Path(path).write_bytes(bad)
            with self.assertRaises((sward.SwardError.Damaged, sward.SwardError.Refused)):
                other.book.take_locked_file(path)
            self.assertEqual(other.book.crew(), before, name)
        self.assertIsNone(other.book.swap_progress())

    def test_another_crews_file_is_refused(self):
        one, two = self.founded(), self.founded()
        self.joined(one)
        one.book.make_locked_file(one.file("theirs.swlock"))
        with self.assertRaises(sward.SwardError.Refused):
            two.book.take_locked_file(one.file("theirs.swlock"))

    def test_no_file_is_overwritten_and_none_is_left_half_made(self):
        lead = self.founded()
        alone = lead.file("alone.swlock")
        with self.assertRaises(sward.SwardError):
            lead.book.make_locked_file(alone)  # nobody to lock it for
        self.assertFalse(Path(alone).exists())
        self.joined(lead)
        there = lead.file("there.swlock")
        Path(there).write_text("kept")
        with self.assertRaises(sward.SwardError.Disk):
            lead.book.make_locked_file(there)
        self.assertEqual(Path(there).read_text(), "kept")

    def test_what_cannot_be_read_is_told(self):
        lead = self.founded()
        with self.assertRaises(sward.SwardError.Disk):
            lead.book.take_locked_file(lead.file("not there"))
        with self.assertRaises(sward.SwardError):
            lead.book.take_locked_file(lead.folder.name)


class AWalk(WithPhones):
    def test_fixes_wait_for_the_page_that_measures(self):
        phone = self.founded()
        phone.book.begin_walk()
        for n in range(4):
            fix = sward.Fix(lat=40.0 + n / 10_000, lon=-84.0, accuracy_m=3.5, utc_ms=NOON + n)
            walk = phone.book.add_fix(fix)
        self.assertEqual((walk.recording, walk.fixes, walk.last_accuracy_m), (True, 4, 3.5))
        with self.assertRaises(sward.SwardError.BadInput):
            phone.book.add_fix(sward.Fix(lat=400.0, lon=0.0, accuracy_m=None, utc_ms=NOON))
        phone.book.end_walk()
        phone.book.add_fix(sward.Fix(lat=41.0, lon=-84.0, accuracy_m=None, utc_ms=NOON))
        self.assertEqual((phone.book.walk().recording, phone.book.walk().fixes), (False, 4))


class TheScreens(WithPhones):
    def status(self, address, **headers):
        try:
            with urllib.request.urlopen(urllib.request.Request(address, headers=headers)) as answer:
                return answer.status, answer.read().decode()
        except urllib.error.HTTPError as error:
            return error.code, ""

    def test_they_answer_whoever_comes_by_the_entrance_and_nobody_else(self):
        phone = self.founded()
        screens = phone.book.start_screens()
        self.assertEqual(phone.book.start_screens(), screens, "started once")
        front = f"http://127.0.0.1:{screens.port}/"
        self.assertEqual(self.status(front)[0], 403, "another program of this device")
        self.assertEqual(self.status(screens.entrance, Host="evil.invalid")[0], 403)
        with urllib.request.urlopen(screens.entrance) as answer:
            cookie = answer.headers["Set-Cookie"].split(";")[0]
        seen = phone.book.version()
        phone.treated(phone.label())
        self.assertGreater(phone.book.version(), seen)
        status, page = self.status(front, Cookie=cookie)
        self.assertEqual(status, 200)
        self.assertIn("Corner lot", page, "what the facade wrote is on the screen")
        phone.book.stop_screens()
        with self.assertRaises(OSError):
            self.status(front, Cookie=cookie)
        self.assertNotEqual(phone.book.start_screens().entrance, screens.entrance, "a new token")


if __name__ == "__main__":
    unittest.main()
