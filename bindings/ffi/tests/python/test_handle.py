"""Handles: shutting, calls after it and from many threads, who may open what, and what is told when a
book cannot be opened."""

import contextlib
import resource
import shutil
import sqlite3
import threading
import unittest
from pathlib import Path

import sward
from scene import WithPhones, person

THREADS = 64


def at_once(work):
    """Runs `work(n)` in many threads that begin together; what each came to."""
    begin = threading.Barrier(THREADS)
    came = [None] * THREADS

    def run(n):
        begin.wait()
        try:
            came[n] = work(n)
        except sward.SwardError as error:
            came[n] = error

    threads = [threading.Thread(target=run, args=(n,)) for n in range(THREADS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return came


class AShutBook(WithPhones):
    def test_every_call_after_it_says_so(self):
        phone = self.founded()
        phone.book.shut()
        phone.book.shut()
        self.assertFalse(phone.book.is_open())
        calls = [
            phone.book.crew, phone.book.version, phone.book.keep_offs_to_watch, phone.book.start_screens,
            phone.book.time, phone.book.walk, phone.book.yards, phone.book.swap_progress,
            lambda: phone.book.wait_for_change(0, 1), lambda: phone.book.make_locked_file("nowhere"),
        ]
        for call in calls:
            with self.assertRaises(sward.SwardError.Closed):
                call()
        again = phone.open()
        self.assertTrue(again.has_book(), "the lock was given back")
        again.shut()

    def test_shutting_stops_the_screens(self):
        phone = self.founded()
        first = phone.book.start_screens()
        phone.book.shut()
        phone.book = phone.open()
        self.assertNotEqual(phone.book.start_screens().entrance, first.entrance)


@contextlib.contextmanager
def no_room():
    """Lets no file of this process grow, as on a full disk."""
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1, usual[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)


class WithoutRoom(WithPhones):
    def test_what_finds_no_room_is_told_and_nothing_is_half_stored(self):
        phone = self.founded()
        yard = phone.book.add_yard("Corner lot", "", "America/New_York")
        before = phone.book.crew()
        with no_room():
            with self.assertRaises(sward.SwardError.Disk) as caught:
                phone.book.add_yard("Second lot", "", "America/New_York")
            with self.assertRaises(sward.SwardError.Disk):
                phone.book.open_visit(yard, "chinch bug")
            self.assertEqual([one.id for one in phone.book.yards()], [yard], "reading goes on")
        self.assertTrue(str(caught.exception))
        self.assertEqual(phone.book.crew(), before)
        self.assertTrue(phone.book.add_yard("Second lot", "", "America/New_York"), "there is room again")
        phone.book.shut()
        phone.book = phone.open()
        self.assertEqual(len(phone.book.yards()), 2)

    def test_a_locked_file_that_finds_no_room_is_told_and_none_is_left(self):
        lead = self.founded()
        self.joined(lead)
        path = lead.file("day.swlock")
        with no_room(), self.assertRaises(sward.SwardError.Disk):
            lead.book.make_locked_file(path)
        self.assertFalse(Path(path).exists())
        lead.book.make_locked_file(path)
        self.assertTrue(Path(path).exists())


class ManyThreads(WithPhones):
    def test_writes_and_reads_at_once_lose_nothing(self):
        phone = self.founded()
        before = phone.book.crew().entries

        def work(n):
            yard = phone.book.add_yard(f"Lot {n}", "", "UTC")
            phone.book.add_rectangle(yard, "front", "60 ft", "25 ft")
            return len(phone.book.sections(yard))

        self.assertEqual(at_once(work), [1] * THREADS)
        self.assertEqual(len(phone.book.yards()), THREADS)
        self.assertEqual(phone.book.crew().entries, before + 2 * THREADS)

    def test_shut_in_the_midst_each_call_is_done_or_told(self):
        phone = self.founded()

        def work(n):
            if n == THREADS // 2:
                phone.book.shut()
                return "shut"
            return phone.book.add_yard(f"Lot {n}", "", "UTC")

        came = at_once(work)
        closed = [c for c in came if isinstance(c, sward.SwardError)]
        self.assertTrue(all(isinstance(c, sward.SwardError.Closed) for c in closed), closed)
        added = {c for c in came if isinstance(c, str)} - {"shut"}
        phone.book = phone.open()
        self.assertEqual({y.id for y in phone.book.yards()}, added, "what was told as done is there")

    def test_calls_during_a_swap_are_answered(self):
        lead = self.founded()
        other = self.joined(lead)
        label = lead.label()
        for _ in range(6):
            lead.treated(label)
        file = lead.file("day.swlock")
        lead.book.make_locked_file(file)

        def work(n):
            if n == 0:
                return other.book.take_locked_file(file).new_entries
            if n % 2:
                return len(other.book.keep_offs_to_watch().keep_offs)
            other.book.add_yard(f"Lot {n}", "", "UTC")
            other.book.swap_progress()
            return 0

        came = at_once(work)
        self.assertEqual([c for c in came if isinstance(c, Exception)], [])
        self.assertGreater(came[0], 0)
        self.swap(other, lead)
        self.swap(lead, other)
        self.assertEqual(lead.book.crew().digest, other.book.crew().digest)


class Opening(WithPhones):
    def test_one_handle_writes_a_book_at_a_time(self):
        phone = self.founded()
        with self.assertRaises(sward.SwardError.Busy):
            phone.open()
        self.assertTrue(phone.book.is_open())

    def test_a_practice_clock_opens_no_real_book(self):
        phone = self.phone()
        with self.assertRaises(sward.SwardError.Refused):
            phone.book.found_crew("Real crew", person("Núria Sample"), False)
        phone.book.shut()
        real = sward.Swardbook.open(phone.told())
        real.found_crew("Real crew", person("Núria Sample"), False)
        self.assertFalse(real.time().proven, "nothing vouches for a clock at first")
        real.person_confirms_time()
        self.assertEqual(real.time().proof, sward.TimeProof.PERSON)
        real.shut()
        with self.assertRaises(sward.SwardError.Refused):
            phone.open()
        phone.book = sward.Swardbook.open(phone.told())
        self.assertTrue(phone.book.time().proven, "it has run on since")

    def test_where_no_book_is_that_is_told(self):
        phone = self.phone()
        self.assertFalse(phone.book.has_book())
        with self.assertRaises(sward.SwardError.NoBook) as caught:
            phone.book.yards()
        self.assertTrue(str(caught.exception))

    def test_a_newer_store_is_left_alone(self):
        phone = self.founded()
        phone.book.shut()
        folder = Path(phone.told().folder)
        store = folder / "book.sqlite"
        with sqlite3.connect(store) as db:
            db.execute("PRAGMA user_version = 9999")
        db.close()
        before = store.read_bytes()
        with self.assertRaises(sward.SwardError.Newer):
            phone.open()
        self.assertEqual(store.read_bytes(), before)

    def test_a_damaged_store_is_told_and_never_recreated(self):
        phone = self.founded()
        phone.book.shut()
        folder = Path(phone.told().folder)
        store = folder / "book.sqlite"
        for beside in folder.glob("book.sqlite-*"):
            beside.unlink()
        store.write_bytes(b"this is no store" * 1000)
        with self.assertRaises(sward.SwardError.Damaged):
            phone.open()
        self.assertEqual(store.read_bytes(), b"this is no store" * 1000)

    def test_what_is_wrong_is_said_in_the_devices_language(self):
        english, spanish = self.founded(languages="en-US"), self.founded(languages="es-US,en")
        said = []
        for phone in (english, spanish):
            with self.assertRaises(sward.SwardError.BadInput) as caught:
                phone.book.zone_changed("Nowhere/Town")
            said.append(str(caught.exception))
            said.append(phone.book.language())
        self.assertNotEqual(said[0], said[2])
        self.assertEqual((said[1], said[3]), ("en", "es"))

    def test_a_copied_book_begins_anew_and_keeps_what_it_had(self):
        phone = self.founded()
        phone.treated(phone.label())
        phone.book.shut()
        twin = self.phone(clock=phone.clock)
        twin.book.shut()
        shutil.copytree(phone.told().folder, twin.told().folder, dirs_exist_ok=True)
        phone.book, twin.book = phone.open(), twin.open()
        self.assertEqual(phone.book.crew().digest, twin.book.crew().digest)


if __name__ == "__main__":
    unittest.main()
