"""Which crates a library is made of, by the names that stand in it: `nm -S --demangle LIBRARY | python3 sizes.py`.

Names of generic code belong to the crate that wrote it, not to the one that made use of it; what has no name is not
counted."""

import re
import sys
from collections import Counter

CRATE = re.compile(r"^(?:<|&|\*|mut |const |dyn |\(|\[)*([a-z][a-z0-9_]*)(?:\[[0-9a-f]+\])?::")
SHOWN = 22

sizes = Counter()
for line in sys.stdin:
    parts = line.rstrip("\n").split(" ", 3)
    if len(parts) < 4 or parts[2] in "uUwW":
        continue
    try:
        size = int(parts[1], 16)
    except ValueError:
        continue
    found = CRATE.match(parts[3])
    sizes[found.group(1) if found else "C (SQLite, and what the system brings)"] += size

whole = sum(sizes.values())
for crate, size in sizes.most_common(SHOWN):
    print(f"{size:10d} {100 * size / whole:5.1f} %  {crate}")
rest = whole - sum(size for _, size in sizes.most_common(SHOWN))
print(f"{rest:10d} {100 * rest / whole:5.1f} %  {max(0, len(sizes) - SHOWN)} more")
print(f"{whole:10d} with names")
