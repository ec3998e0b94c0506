"""Asking the rules, and telling how far an answer is from another library's.

What is asked lies in the files of the subjects; which of them are run, in `compare.py`.
"""

import json
import math
import random
import subprocess
from collections.abc import Callable, Iterator

# A question in JSON, and what must be true of its answer: a check gives nothing where they agree,
# and else in words how they differ.
Check = Callable[[dict], str | None]
Questions = Iterator[tuple[dict, Check]]
Comparison = Callable[[random.Random, int], Questions]

# So many differences of one comparison are told; more only repeat it.
TOLD = 3


class Rules:
    """The rules, as the program that answers by line."""

    def __init__(self, program: str) -> None:
        self.program = program

    def ask(self, questions: list[dict]) -> list[dict]:
        """One answer for each question."""
        lines = "".join(json.dumps(question) + "\n" for question in questions)
        ended = subprocess.run(
            [self.program], input=lines, capture_output=True, text=True, check=False
        )
        answers = [json.loads(line) for line in ended.stdout.splitlines()]
        if ended.returncode != 0 or len(answers) != len(questions):
            raise RuntimeError(
                f"{len(answers)} answers to {len(questions)} questions: {ended.stderr.strip()}"
            )
        return answers


def differences(rules: Rules, comparison: Comparison, rng: random.Random, cases: int) -> list[str]:
    """What one comparison finds: nothing where all answers agree."""
    asked = list(comparison(rng, cases))
    answers = rules.ask([question for question, _ in asked])
    found = []
    for (question, check), answer in zip(asked, answers, strict=True):
        why = check(answer)
        if why is not None:
            found.append(f"{why}\n    asked  {json.dumps(question)}\n    answer {json.dumps(answer)}")
    if not asked:
        found.append("nothing was asked")
    if len(found) > TOLD:
        found[TOLD:] = [f"and {len(found) - TOLD} more of {len(asked)}"]
    return found


def near(what: str, answer: dict, expected: float, share: float, least: float = 0.0) -> str | None:
    """How a number differs by more than a share of it, and more than `least`."""
    found = answer.get(what)
    if not isinstance(found, int | float):
        return f"{what} is not answered, where {expected} is expected"
    off = abs(found - expected)
    if math.isfinite(found) and off <= share * abs(expected) + least:
        return None
    return f"{what} is {found}, where {expected} is expected: {off:.3g} off"


def first(*told: str | None) -> str | None:
    """The first difference of several checks of one answer."""
    return next((why for why in told if why is not None), None)


def refused(answer: dict) -> str | None:
    """The name of the refusal, the innermost where one stands within another."""
    error = answer.get("refused")
    while error and "inner" in error:
        error = error["inner"]
    return error and error["error"]
