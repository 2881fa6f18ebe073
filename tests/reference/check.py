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
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import jsonschema

import bad_sizes
import bundles
import canonical
import compare
import figures
import forecasts
import known_values
import make_random
import mutations
import pages
import propagation
import reference
import seals
import self_checks
from dice import Dice

Json = dict[str, Any]

ROOT = Path(__file__).resolve().parents[2]
SCHEMA = ROOT / "crates" / "card" / "card.schema.json"
DEMO = ROOT / "demo-data"

#: Random cards scored both ways.
CARDS = 210
#: Those of them that are told apart from altered ones, and cut in halves and merged.
HANDLED = 110
#: The first seed of these cards.
FIRST_SEED = 1
#: Those of them whose page is read.
PAGES = 14
#: Of how many cards the page is written once more by ``check``, edited and not: drawing takes its time.
CHECKED_PAGES = 7
#: Small cards worked over and over for what must hold of any scoring.
SELF_CHECKED = 60
#: Random readings forecast both ways.
FORECASTS = 150
#: Cards spoiled in each way.
SPOILED_EACH = 3
#: Entries of one card that the schema is tried on: the validator is slow.
MOST_VALIDATED = 400
#: The largest card that is spoiled, in bytes: the validator is slow.
MOST_SPOILED_BYTES = 30_000
#: Random cards with something measured that must be among them.
AT_LEAST_MEASURED = 150
#: Commands that run at once.
AT_ONCE = 2
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


def side_by_side(
    cards: list[Card], check: Callable[[Card], list[str]]
) -> Iterator[tuple[str, list[str]]]:
    """The problems that a check finds with each card; it waits for commands, so some run at once."""

    def one(card: Card) -> list[str]:
        return guarded(lambda: check(card))

    with ThreadPoolExecutor(AT_ONCE) as pool:
        for card, problems in zip(cards, pool.map(one, cards), strict=True):
            yield card.name, problems


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


def thinned(document: Json) -> Json:
    """A card with some of its entries, where it has many: every so manyth, so that all kinds stay."""
    entries = document["entries"]
    step = 1 + len(entries) // MOST_VALIDATED
    return {**document, "entries": entries[::step]}


def schema_accepts(cards: list[Card]) -> Group:
    """The schema takes every card."""
    group = Group("schema: cards accepted")
    judge = validator()
    for card in cards:
        errors = [
            f"{error.json_path}: {error.message[:200]}"
            for error in judge.iter_errors(thinned(card.document))
        ]
        group.count(card.name, errors)
    return group.done()


def spoiled(cards: list[Card], table: dict[str, mutations.Mutation]) -> Iterator[tuple[str, Json]]:
    """Small cards spoiled in every way of a table."""
    small = [c.document for c in cards if c.path.stat().st_size <= MOST_SPOILED_BYTES]

    def clone(document: Json) -> Json:
        copied: Json = json.loads(json.dumps(document))
        return copied

    yield from mutations.all_mutated(small, SPOILED_EACH, clone, table)


def schema_refuses(cards: list[Card]) -> Group:
    """The schema refuses every spoiled card."""
    group = Group("schema: spoiled cards refused")
    judge = validator()
    for what, card in spoiled(cards, mutations.MUTATIONS | bad_sizes.BY_SCHEMA):
        group.count(what, ["accepted"] if judge.is_valid(card) else [])
    return group.done()


def command_refuses(cards: list[Card], folder: Path) -> Group:
    """``check`` refuses every card whose sizes are spoiled, those that the schema takes too."""
    group = Group("check: spoiled sizes refused")
    judge = validator()
    path = folder / "spoiled.card.json"
    for table, seen in ((bad_sizes.BY_SCHEMA, False), (bad_sizes.BY_COMMAND, True)):
        for what, card in spoiled(cards, table):
            path.write_bytes(canonical.card_bytes(card))
            problems = []
            if run("check", path).returncode == 0:
                problems.append("accepted")
            if seen and not judge.is_valid(canonical.load(path.read_bytes())):
                problems.append("the schema refuses it too")
            group.count(what, problems)
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


#: What ``score`` said of each card.
Answers = dict[str, Json]


def scores_agree(name: str, cards: list[Card], answers: Answers) -> Group:
    """``score`` gives what the reference gives; its answers are kept."""
    group = Group(name)

    def check(card: Card) -> list[str]:
        answers[card.name] = command_score(card.path)
        return list(compare.differences(reference.score(card.document), answers[card.name]))

    for what, problems in side_by_side(cards, check):
        group.count(what, problems)
    return group.done()


def budgets_agree(cards: list[Card], answers: Answers) -> Group:
    """Every u of what was measured is that of the package `uncertainties`."""
    group = Group("score: budgets of sizes against uncertainties")
    measured = [card for card in cards if answers.get(card.name, {}).get("measurements")]
    for card in measured:

        def check(card: Card = card) -> list[str]:
            return list(propagation.differences(card.document, answers[card.name]))

        group.count(card.name, guarded(check))
    few = f"only {len(measured)} cards have anything measured"
    group.count("cards", [few] if len(measured) < AT_LEAST_MEASURED else [])
    return group.done()


def digests_agree(cards: list[Card], folder: Path) -> Group:
    """``check`` finds the digest that was computed here, and finds an altered card out."""
    group = Group("digest: intact and altered cards told apart")

    def check(card: Card) -> list[str]:
        problems = []
        if canonical.card_bytes(card.document) != card.path.read_bytes():
            problems.append("the file is not in the canonical form, or its digest is another")
        intact = run("check", card.path)
        if intact.returncode != 0:
            problems.append(f"check: status {intact.returncode}: {intact.stderr.strip()[:300]}")
        altered = folder / f"altered-{card.name}"
        plan = {**card.document["plan"], "name": card.document["plan"]["name"] + "."}
        altered.write_text(canonical.canonical({**card.document, "plan": plan}), "utf-8")
        if run("check", altered).returncode == 0:
            problems.append("check: an altered card passes")
        altered.unlink()
        return problems

    for what, problems in side_by_side(cards, check):
        group.count(what, problems)
    return group.done()


def merges_give_back(cards: list[Card], folder: Path) -> Group:
    """``merge`` of two halves, either way round, gives the bytes of the whole.

    An entry goes into one half or both; a change of plan into both, as whoever rated under it had
    it.
    """
    group = Group("merge: two halves give the whole")
    numbers = {card.name: number for number, card in enumerate(cards)}

    def check(card: Card) -> list[str]:
        dice = Dice(0x48, numbers[card.name])
        halves: list[list[Json]] = [[], []]
        for entry in card.document["entries"]:
            side = 2 if entry["body"]["kind"] == "plan" else dice.whole(0, 2)
            for half in (0, 1):
                if side in (half, 2):
                    halves[half].append(entry)
        files = []
        for half, entries in enumerate(halves):
            files.append(folder / f"half-{half}-{card.name}")
            files[-1].write_bytes(canonical.card_bytes({**card.document, "entries": entries}))
        problems = []
        for a, b in ((0, 1), (1, 0)):
            out = folder / f"merged-{card.name}"
            done = run("merge", files[a], files[b], "-o", out)
            if done.returncode != 0:
                problems.append(f"status {done.returncode}: {done.stderr.strip()[:300]}")
            elif out.read_bytes() != card.path.read_bytes():
                problems.append(f"halves {a} and {b} do not give the whole")
            out.unlink(missing_ok=True)
        return problems

    for what, problems in side_by_side(cards, check):
        group.count(what, problems)
    return group.done()


def pages_agree(cards: list[Card], answers: Answers, folder: Path) -> Group:
    """``report`` writes a page that another parser takes, that says what ``score`` says, and that ``check`` finds
    whole until somebody edits it."""
    group = Group("report: pages of cards")
    checked = {card.name for card in cards[:CHECKED_PAGES]}
    languages = {card.name: ("en", "es")[number % 2] for number, card in enumerate(cards)}

    def check(card: Card) -> list[str]:
        out = folder / f"{card.name}.card.html"
        language = languages[card.name]
        done = run("report", card.path, "-o", out, "--language", language)
        if done.returncode != 0:
            return [f"report: status {done.returncode}: {done.stderr.strip()[:300]}"]
        page = out.read_text(encoding="utf-8")
        answer = answers[card.name]
        problems = list(pages.differences(page, card.path.read_bytes(), answer, language))
        if card.name not in checked:
            out.unlink()
            return problems
        whole = run("check", out)
        if whole.returncode != 0:
            problems.append(f"check: status {whole.returncode}: {whole.stderr.strip()[:300]}")
        out.write_text(page.replace("<h2>", "<h2>.", 1), encoding="utf-8")
        if run("check", out).returncode == 0:
            problems.append("check: an edited page passes")
        out.unlink()
        return problems

    for what, problems in side_by_side(cards, check):
        group.count(what, problems)
    return group.done()


# --------------------------------------------------------------------------- statistics


def bundles_agree(card: Card, folder: Path) -> Group:
    """Archives of a card and its photos, made by ``zipfile`` and read by it."""
    group = Group("archives: a card with its photos")
    group.count(card.name, list(bundles.differences(run, card.path, folder)))
    return group.done()


def seals_agree(card: Card, folder: Path) -> Group:
    """Seals made and looked into by ``cryptography``."""
    group = Group("seals: a sealed card")
    group.count(card.name, list(seals.differences(run, card.path, folder)))
    return group.done()


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
        answers: Answers = {}
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
            command_refuses(drawn, folder),
            scores_agree("score: demo cards", demo, answers),
            scores_agree("score: random cards", drawn, answers),
            budgets_agree(drawn, answers),
            digests_agree(demo + drawn[:HANDLED], folder),
            merges_give_back(demo + drawn[:HANDLED], folder),
            pages_agree(demo + drawn[:PAGES], answers, folder),
            bundles_agree(demo[0], folder),
            seals_agree(demo[0], folder),
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
