"""What phones may call, line by line: a change that nobody meant fails here. After one that was meant,
`python -m test_surface --renew` writes `surface.txt` anew; whoever reviews it sees what callers will."""

import inspect
import sys
import unittest
from enum import Enum
from pathlib import Path

import sward

COMMITTED = Path(__file__).parent.parent / "surface.txt"


def annotation(kind):
    return str(kind).removeprefix("<class '").removesuffix("'>").replace("typing.", "").replace("sward.", "")


def signature(of):
    parameters = inspect.signature(of).parameters.values()
    given = [f"{p.name}: {annotation(p.annotation)}" for p in parameters if p.name not in ("self", "cls")]
    gives = inspect.signature(of).return_annotation
    gives = "" if gives in (inspect.Signature.empty, None) else f" -> {annotation(gives)}"
    return f"({', '.join(given)}){gives}"


def lines_of(name, kind):
    if isinstance(kind, type) and issubclass(kind, Enum):
        yield f"enum {name}: {', '.join(member.name for member in kind)}"
        return
    if isinstance(kind, type) and issubclass(kind, Exception):
        variants = sorted(v for v, of in vars(kind).items() if isinstance(of, type) and not v.startswith("_"))
        yield f"error {name}: {', '.join(variants)}"
        return
    nested = {v: of for v, of in vars(kind).items() if isinstance(of, type) and not v.startswith("_")}
    if nested:
        for variant, of in sorted(nested.items()):
            yield f"choice {name}.{variant}{signature(of.__init__)}"
        return
    methods = {m: of for m, of in vars(kind).items() if not m.startswith("_") and callable(getattr(kind, m))}
    if not methods:
        yield f"record {name}{signature(kind.__init__)}"
        return
    if name in ("PracticeClock",):
        yield f"object {name}{signature(kind.__init__)}"
    for method, _ in sorted(methods.items()):
        yield f"object {name}.{method}{signature(getattr(kind, method))}"


def surface():
    lines = []
    for name in sorted(sward.__all__):
        kind = getattr(sward, name)
        if inspect.isfunction(kind):
            lines.append(f"function {name}{signature(kind)}")
        elif not name.endswith("Protocol") and name not in ("InternalError",):
            lines.extend(lines_of(name, kind))
    return "\n".join(lines) + "\n"


class TheSurface(unittest.TestCase):
    maxDiff = None

    def test_nothing_that_phones_call_changed_unnoticed(self):
        self.assertEqual(surface(), COMMITTED.read_text())

    def test_everything_that_phones_call_is_documented(self):
        for name in sward.__all__:
            kind = getattr(sward, name)
            if name.endswith("Protocol") or name == "InternalError":
                continue
            self.assertTrue((kind.__doc__ or "").strip(), name)
            for method, of in vars(kind).items() if isinstance(kind, type) else ():
                if inspect.isfunction(of) and not method.startswith(("_", "is_")):
                    self.assertTrue((of.__doc__ or "").strip(), f"{name}.{method}")


if __name__ == "__main__":
    if "--renew" in sys.argv:
        COMMITTED.write_text(surface())
    else:
        unittest.main()
