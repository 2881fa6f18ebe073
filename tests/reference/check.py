"""Differential checks: the native command against a second scoring, schema, canonical form and libraries.

Run as ``python3 tests/reference/check.py`` with the variables ``RINGLAND_BIN`` (the native command) and
``RINGLAND_FIGURES`` (the program `figures` of the package `suite`) naming what is checked. Prints a line for each
group of checks, the first differences of each, and last ``N passed, N failed``. Each card counts
once in each group, however many nodes it has.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import jsonschema

import canonical
import compare
import figures
import forecasts
import known_values
import make_random
import mutations
import reference
import self_checks
from dice import Dice

Json = dict[str, Any]

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = ROOT / "crates" / "card" / "card.schema.json"
DEMO = ROOT / "demo-data"

#: Random cards scored both ways.
CARDS = 200
#: The first seed of these cards.
FIRST_SEED = 1
#: Small cards worked over and over for what must hold of any scoring.
SELF_CHECKED = 60
#: Random readings forecast both ways.
FORECASTS = 150
#: Cards spoiled in each way.
SPOILED_EACH = 3
#: The largest card that is spoiled, in bytes: the validator is slow.
MOST_SPOILED_BYTES = 30_000
#: Failed checks printed for each group.
SHOWN = 5


@dataclass
class Card:
    """A card file and what is in it."""

    path: Path
    document: Json = field(repr=False)

    @property
    def name(self) -> str:
        """What to call it in a message."""
        return self.path.name


@dataclass
class Group:
    """A group of checks: counts them and prints what failed first."""

    name: str
    passed: int = 0
    failed: int = 0

    def count(self, what: str, problems: list[str]) -> None:
        """Counts one check, failed if there are problems; prints the first few that fail."""
        if not problems:
            self.passed += 1
            return
        self.failed += 1
        if self.failed <= SHOWN:
            more = f" (and {len(problems) - 1} more)" if len(problems) > 1 else ""
            print(f"    {what}: {problems[0]}{more}")

    def done(self) -> Group:
        """Prints the group's line."""
        print(f"{self.name}: {self.passed} of {self.passed + self.failed}", flush=True)
        return self


class CommandError(Exception):
    """The native command failed or printed what is no result."""


def run(*arguments: str | Path) -> subprocess.CompletedProcess[str]:
    """Runs the native command."""
    command = os.environ.get("RINGLAND_BIN")
    if not command:
        raise CommandError("RINGLAND_BIN does not name the native command")
    return subprocess.run(
        [command, *map(str, arguments)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        timeout=120,
        check=False,
    )


def guarded(check: Callable[[], list[str]]) -> list[str]:
    """The problems that a check finds; that it could not be made is one."""
    try:
        return check()
    except (CommandError, OSError, subprocess.SubprocessError, KeyError, ValueError) as error:
        return [f"{type(error).__name__}: {error}"]


# --------------------------------------------------------------------------- the reference itself


def known(name: str, checks: Iterable[known_values.Known]) -> Group:
    """Values from outside the project or worked by hand, each with its source."""
    group = Group(name)
    for source, got, expected, tolerance in checks:
        same = known_values.agrees(got, expected, tolerance)
        group.count(source, [] if same else [f"expected {expected!r}, got {got!r}"])
    return group.done()


def known_single() -> Iterator[known_values.Known]:
    """Known values of single functions."""
    for make in known_values.SINGLE:
        yield from make()


def known_cards(score: known_values.Scorer) -> Iterator[known_values.Known]:
    """Known values of whole cards; a card that cannot be scored fails one check."""
    for make in known_values.CARDS:
        try:
            yield from make(score)
        except (CommandError, OSError, subprocess.SubprocessError, KeyError, ValueError) as error:
            yield make.__name__, f"{type(error).__name__}: {error}", "a result", 0


def holds(name: str, check: Callable[[int, Json], Iterator[str]]) -> Group:
    """A property tried on small random cards."""
    group = Group(name)
    for seed, card in self_checks.small_cards(1000, SELF_CHECKED):
        group.count(f"card of seed {seed}", list(check(seed, card)))
    return group.done()


# --------------------------------------------------------------------------- the schema


def validator() -> jsonschema.Draft202012Validator:
    """A validator for the published schema, which checks formats too."""
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    checker = jsonschema.Draft202012Validator.FORMAT_CHECKER
    for name in ("date-time", "uuid"):
        if name not in checker.checkers:
            raise RuntimeError(f"this validator does not check the format {name}")
    return jsonschema.Draft202012Validator(schema, format_checker=checker)


def schema_accepts(cards: list[Card]) -> Group:
    """The schema takes every card."""
    group = Group("schema: cards accepted")
    judge = validator()
    for card in cards:
        errors = [
            f"{error.json_path}: {error.message[:200]}"
            for error in judge.iter_errors(card.document)
        ]
        group.count(card.name, errors)
    return group.done()


def schema_refuses(cards: list[Card]) -> Group:
    """The schema refuses every spoiled card."""
    group = Group("schema: spoiled cards refused")
    judge = validator()
    small = [c.document for c in cards if c.path.stat().st_size <= MOST_SPOILED_BYTES]

    def clone(document: Json) -> Json:
        copied: Json = json.loads(json.dumps(document))
        return copied

    for what, spoiled in mutations.all_mutated(small, SPOILED_EACH, clone):
        group.count(what, ["accepted"] if judge.is_valid(spoiled) else [])
    return group.done()


# --------------------------------------------------------------------------- the native command


def command_score(path: Path) -> Json:
    """What ``score`` says of a card file."""
    done = run("score", path, "--json")
    if done.returncode != 0:
        raise CommandError(f"score: status {done.returncode}: {done.stderr.strip()[:300]}")
    result: Json = json.loads(done.stdout)
    return result


def command_scorer(folder: Path) -> known_values.Scorer:
    """Scores cards that are not in a file yet."""

    def score(document: Json) -> Json:
        path = folder / "by-hand.card.json"
        path.write_bytes(canonical.card_bytes(document))
        return command_score(path)

    return score


def scores_agree(name: str, cards: list[Card]) -> Group:
    """``score`` gives what the reference gives."""
    group = Group(name)
    for card in cards:

        def check(card: Card = card) -> list[str]:
            got = command_score(card.path)
            return list(compare.differences(reference.score(card.document), got))

        group.count(card.name, guarded(check))
    return group.done()


def digests_agree(cards: list[Card], folder: Path) -> Group:
    """``check`` finds the digest that was computed here, and finds an altered card out."""
    group = Group("digest: intact and altered cards told apart")
    for card in cards:

        def check(card: Card = card) -> list[str]:
            problems = []
            if canonical.card_bytes(card.document) != card.path.read_bytes():
                problems.append("the file is not in the canonical form, or its digest is another")
            intact = run("check", card.path)
            if intact.returncode != 0:
                problems.append(f"check: status {intact.returncode}: {intact.stderr.strip()[:300]}")
            altered = folder / "altered.card.json"
            plan = {**card.document["plan"], "name": card.document["plan"]["name"] + "."}
            altered.write_text(canonical.canonical({**card.document, "plan": plan}), "utf-8")
            if run("check", altered).returncode == 0:
                problems.append("check: an altered card passes")
            return problems

        group.count(card.name, guarded(check))
    return group.done()


def merges_give_back(cards: list[Card], folder: Path) -> Group:
    """``merge`` of two halves, either way round, gives the bytes of the whole.

    An entry goes into one half or both; a change of plan into both, as whoever rated under it had
    it.
    """
    group = Group("merge: two halves give the whole")
    for number, card in enumerate(cards):

        def check(number: int = number, card: Card = card) -> list[str]:
            dice = Dice(0x48, number)
            halves: list[list[Json]] = [[], []]
            for entry in card.document["entries"]:
                side = 2 if entry["body"]["kind"] == "plan" else dice.whole(0, 2)
                for half in (0, 1):
                    if side in (half, 2):
                        halves[half].append(entry)
            files = []
            for half, entries in enumerate(halves):
                files.append(folder / f"half-{half}.card.json")
                files[-1].write_bytes(canonical.card_bytes({**card.document, "entries": entries}))
            problems = []
            for a, b in ((0, 1), (1, 0)):
                out = folder / "merged.card.json"
                out.unlink(missing_ok=True)
                done = run("merge", files[a], files[b], "-o", out)
                if done.returncode != 0:
                    problems.append(f"status {done.returncode}: {done.stderr.strip()[:300]}")
                elif out.read_bytes() != card.path.read_bytes():
                    problems.append(f"halves {a} and {b} do not give the whole")
            return problems

        group.count(card.name, guarded(check))
    return group.done()


# --------------------------------------------------------------------------- statistics


def forecasts_agree(folder: Path) -> Group:
    """``forecast`` of random readings is as statsmodels and scipy have it."""
    group = Group("forecast: random readings")
    table = folder / "readings.csv"
    for seed in range(FORECASTS):

        def check(seed: int = seed) -> list[str]:
            case = forecasts.random_case(seed)
            table.write_text(case.table(), encoding="utf-8")
            done = run("forecast", table, *case.arguments())
            if done.returncode != 0:
                return [f"status {done.returncode}: {done.stderr.strip()[:300]}"]
            return list(forecasts.differences(case, json.loads(done.stdout)))

        group.count(f"readings of seed {seed}", guarded(check))
    return group.done()


def figures_agree() -> Iterator[Group]:
    """Single figures are as other libraries have them."""
    for name, count, make, check in figures.KINDS:
        group = Group(f"figures: {name}")
        questions = figures.asked(make, count)
        for number, (asked, got) in enumerate(
            zip(questions, figures.answers(questions), strict=True)
        ):

            def held(asked: Json = asked, got: Json = got) -> list[str]:
                return [got["error"]] if "error" in got else list(check(asked, got))

            group.count(f"question {number}", guarded(held))
        yield group.done()


# --------------------------------------------------------------------------- all


def demo_cards(folder: Path) -> list[Card]:
    """The demo cards, copied to a folder: all groups then see the same bytes."""
    paths = [Path(shutil.copy(path, folder)) for path in sorted(DEMO.glob("*.card.json"))]
    return [Card(path, canonical.load(path.read_bytes())) for path in paths]


def random_cards(folder: Path, plans: list[Json]) -> list[Card]:
    """The random cards, written to a folder."""
    cards = []
    for seed in range(FIRST_SEED, FIRST_SEED + CARDS):
        path = folder / f"random-{seed:04d}.card.json"
        path.write_bytes(canonical.card_bytes(make_random.random_card(seed, plans)))
        cards.append(Card(path, canonical.load(path.read_bytes())))
    return cards


def main() -> int:
    """Runs every group; 1 if any check failed."""
    folder = Path(tempfile.mkdtemp(prefix="ringland-reference-"))
    try:
        demo = demo_cards(folder)
        drawn = random_cards(folder, [card.document["plan"] for card in demo])
        groups = [
            known("reference: known values of single functions", known_single()),
            known("reference: worked examples", known_cards(reference.score)),
            known("reference: canonical form, examples of RFC 8785", known_values.rfc_8785()),
            holds("reference: u by derivatives and covariance", self_checks.derivative),
            holds("reference: bounds hold whatever is seen", self_checks.filling),
            holds("reference: order of entries does not matter", self_checks.shuffling),
            schema_accepts(demo + drawn),
            schema_refuses(drawn),
            known("score: worked examples", known_cards(command_scorer(folder))),
            scores_agree("score: demo cards", demo),
            scores_agree("score: random cards", drawn),
            digests_agree(demo + drawn, folder),
            merges_give_back(demo + drawn, folder),
            forecasts_agree(folder),
            *figures_agree(),
        ]
    finally:
        shutil.rmtree(folder)
    failed = sum(group.failed for group in groups)
    print(f"{sum(group.passed for group in groups)} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
