"""Middle times of calls on the book in a folder, in microseconds, a line each. Run by the bench of the facade."""

import statistics
import sys
import time

import sward

folder, times = sys.argv[1], int(sys.argv[2])
told = sward.DeviceTold(folder=folder, zone="America/New_York", boot_count=1, languages="en")
clock = sward.PracticeClock(1_781_524_800_000 + 800 * 3 * 3_600_000, -240)


def middle(call, times):
    took = []
    for _ in range(times):
        began = time.perf_counter()
        call()
        took.append((time.perf_counter() - began) * 1e6)
    return statistics.median(took)


def open_and_shut():
    began = time.perf_counter()
    book = sward.Swardbook.practise(told, clock)
    took = (time.perf_counter() - began) * 1e6
    book.shut()
    return took


print("open", statistics.median(open_and_shut() for _ in range(11)))
book = sward.Swardbook.practise(told, clock)
for name in ("version", "keep_offs_to_watch", "yards"):
    print(name, middle(getattr(book, name), times))
book.shut()
