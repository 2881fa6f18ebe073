"""Ways to spoil a card that the published schema must refuse.

Each kind changes one thing in one place. A change reports False where the card has no such place,
and another card is drawn.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from dice import Dice
from make_random import places

Json = dict[str, Any]
#: Spoils a card in place; False if there is nothing to spoil.
Mutation = Callable[[Dice, Json], bool]
#: Where a mutation finds its objects.
Finder = Callable[[Json], list[Json]]


def set_to(find: Finder, member: str, *values: Any) -> Mutation:
    """Sets a member of one of the objects found to one of the values."""

    def mutate(dice: Dice, card: Json) -> bool:
        found = [thing for thing in find(card) if member in thing]
        if found:
            dice.pick(found)[member] = dice.pick(values)
        return bool(found)

    return mutate


def without(find: Finder, *members: str) -> Mutation:
    """Takes one of the members off one of the objects found."""

    def mutate(dice: Dice, card: Json) -> bool:
        member = dice.pick(members)
        found = [thing for thing in find(card) if member in thing]
        if found:
            del dice.pick(found)[member]
        return bool(found)

    return mutate


def with_more(find: Finder, member: str, value: Any) -> Mutation:
    """Puts a second member into an object that holds exactly one."""

    def mutate(dice: Dice, card: Json) -> bool:
        found = [thing for thing in find(card) if member not in thing]
        if found:
            dice.pick(found)[member] = value
        return bool(found)

    return mutate


def row(find: Callable[[Json], list[list[Any]]], *values: Any) -> Mutation:
    """Puts a value in place of the last of one of the lists found."""

    def mutate(dice: Dice, card: Json) -> bool:
        found = [rows for rows in find(card) if rows]
        if found:
            dice.pick(found)[-1] = dice.pick(values)
        return bool(found)

    return mutate


def longer(find: Callable[[Json], list[list[Any]]], value: Any) -> Mutation:
    """Puts a value behind one of the lists found."""

    def mutate(dice: Dice, card: Json) -> bool:
        found = find(card)
        if found:
            dice.pick(found).append(value)
        return bool(found)

    return mutate


# --------------------------------------------------------------------------- finders


def top(card: Json) -> list[Json]:
    """The card itself."""
    return [card]


def plan(card: Json) -> list[Json]:
    """The card's first plan."""
    return [card["plan"]]


def layout(card: Json) -> list[Json]:
    """The layout of that plan."""
    return [card["plan"]["layout"]]


def sections(card: Json) -> list[Json]:
    """Its sections."""
    return list(card["plan"]["sections"])


def parts(card: Json) -> list[Json]:
    """Its parts."""
    return [part for section in sections(card) for part in section["parts"]]


def all_places(card: Json) -> list[Json]:
    """Its places."""
    return [place for _, _, place in places(card["plan"])]


def positions(card: Json) -> list[Json]:
    """Its positions."""
    return [position for place in all_places(card) for position in place["positions"]]


def traits(card: Json) -> list[Json]:
    """Its characteristics."""
    return [trait for place in all_places(card) for trait in place["looks"]]


def u_reps(card: Json) -> list[Json]:
    """Its repeatabilities."""
    return [trait["u_rep"] for trait in traits(card)]


def scales(*methods: str) -> Finder:
    """Its scales of some methods."""
    return lambda card: [s for s in card["plan"]["scales"].values() if s["method"] in methods]


def rows_of(method: str, table: str) -> Finder:
    """The rows of the tables of a method."""
    return lambda card: [line for scale in scales(method)(card) for line in scale[table]]


def tables(method: str, table: str) -> Callable[[Json], list[list[Any]]]:
    """The tables of a method."""
    return lambda card: [scale[table] for scale in scales(method)(card)]


def points(card: Json) -> list[list[Any]]:
    """The breakpoints of extents."""
    return [point for table in tables("extent", "points")(card) for point in table]


def caps(card: Json) -> list[Json]:
    """Its cap rules."""
    return list(card["plan"].get("caps", []))


def triggers(name: str) -> Finder:
    """The triggers of a kind."""
    return lambda card: [rule["when"] for rule in caps(card) if name in rule["when"]]


def criteria(card: Json) -> list[Json]:
    """Its criteria."""
    return list(card["plan"].get("criteria", []))


def factors(card: Json) -> list[Json]:
    """Its location factors."""
    return [f for f in [card["plan"].get("location_factors", {})] if f]


def entries(card: Json) -> list[Json]:
    """The card's entries of the kinds that this version knows."""
    return [e for e in card["entries"] if e["body"]["kind"] in KINDS]


KINDS = (
    "fact",
    "rating",
    "measurement",
    "reading",
    "gauge",
    "sizes",
    "remark",
    "cause",
    "plan",
    "void",
)


def bodies(*kinds: str) -> Finder:
    """The bodies of some kinds."""
    return lambda card: [e["body"] for e in card["entries"] if e["body"]["kind"] in kinds]


def looks(*names: str) -> Finder:
    """The looks of some kinds; all if none is named."""

    def find(card: Json) -> list[Json]:
        found = [body["look"] for body in bodies("rating")(card)]
        return [look for look in found if not names or set(names) & set(look)]

    return find


def ats(card: Json) -> list[Json]:
    """Where ratings and measurements were made."""
    return [body["at"] for body in bodies("rating", "measurement")(card)]


def abouts(card: Json) -> list[Json]:
    """What remarks and causes are about."""
    return [body["about"] for body in bodies("remark", "cause")(card) if "about" in body]


def facts(*fields: str) -> Finder:
    """Facts of some fields."""
    return lambda card: [
        body["fact"]
        for body in bodies("fact")(card)
        if not fields or body["fact"]["field"] in fields
    ]


def area_looks(card: Json) -> list[Json]:
    """Looks at areas."""
    return [look["areas"] for look in looks("areas")(card)]


def stretches(card: Json) -> list[list[Any]]:
    """Painted stretches."""
    return [stretch for areas in area_looks(card) for stretch in areas.get("painted", [])]


def any_share(*values: Any) -> Mutation:
    """Sets one share of an area to one of the values."""

    def mutate(dice: Dice, card: Json) -> bool:
        found = [areas["shares"] for areas in area_looks(card) if areas["shares"]]
        if found:
            shares = dice.pick(found)
            shares[dice.pick(sorted(shares))] = dice.pick(values)
        return bool(found)

    return mutate


def any_factor(*values: Any) -> Mutation:
    """Sets one location factor to one of the values."""

    def mutate(dice: Dice, card: Json) -> bool:
        found = factors(card)
        if found:
            found[0][dice.pick(sorted(found[0]))] = dice.pick(values)
        return bool(found)

    return mutate


# --------------------------------------------------------------------------- the kinds

TEXT_FACTS = ("name", "fleet", "vehicle", "model", "serial", "site", "duty", "oil", "reason")
FIGURE_FACTS = (
    "distance_m",
    "running_time_s",
    "fuel_m3",
    "drain_distance_m",
    "drain_time_s",
    "sump_m3",
)
BAD_UUIDS = ("", "7", "not-a-uuid", "0198-zzzz", "{0198c5e0-0000-7000-8000-000000000000}")
BAD_TIMES = ("", "yesterday", "2026-13-01T00:00:00Z", "2026-02-30T00:00:00Z", "2026-05-01", 0)

MUTATIONS: dict[str, Mutation] = {
    "a member of the card is missing": without(top, "format", "version", "id", "plan", "entries"),
    "no digest": without(top, "digest"),
    "another format": set_to(top, "format", "card", "RINGLAND-CARD", 1, None),
    "version of the wrong type": set_to(top, "version", "1", 1.5, None),
    "version zero or negative": set_to(top, "version", 0, -1),
    "card id is no UUID": set_to(top, "id", *BAD_UUIDS),
    "card id of the wrong type": set_to(top, "id", 7, None, []),
    "plan of the wrong type": set_to(top, "plan", None, [], "full"),
    "entries of the wrong type": set_to(top, "entries", None, {}, "none"),
    "digest without its prefix": set_to(top, "digest", "0" * 64, "md5:" + "0" * 32),
    "digest too short": set_to(top, "digest", "sha256:" + "0" * 63, "sha256:"),
    "digest not in hexadecimal": set_to(top, "digest", "sha256:" + "g" * 64),
    "a member of the plan is missing": without(
        plan, "name", "version", "depth", "layout", "scales", "sections", "u_bias"
    ),
    "plan name of the wrong type": set_to(plan, "name", 7, None, []),
    "unknown depth": set_to(plan, "depth", "deep", "", 1),
    "u_bias negative": set_to(plan, "u_bias", -0.1, -1e9),
    "u_bias of the wrong type": set_to(plan, "u_bias", "0.25", None),
    "a member of the layout is missing": without(layout, "arrangement", "cylinders", "liner"),
    "no cylinders": set_to(layout, "cylinders", 0, -6),
    "too many cylinders": set_to(layout, "cylinders", 25, 300),
    "cylinders of the wrong type": set_to(layout, "cylinders", "6", 5.5, None),
    "too many valves": set_to(layout, "intake_valves", 4, 256),
    "no compression rings": set_to(layout, "compression_rings", 0, -1),
    "one main bearing": set_to(layout, "mains", 1, 0),
    "too many turbochargers": set_to(layout, "turbochargers", 5, 1000),
    "unknown arrangement": set_to(layout, "arrangement", "radial", "Inline"),
    "unknown camshaft": set_to(layout, "camshaft", "none", "OVERHEAD"),
    "brake lobes of the wrong type": set_to(layout, "brake_lobes", "yes", 1, None),
    "a member of a section is missing": without(sections, "id", "weight", "parts"),
    "section weight negative": set_to(sections, "weight", -1, -1e-9),
    "section weight of the wrong type": set_to(sections, "weight", "2", None),
    "section id of the wrong type": set_to(sections, "id", 3, None),
    "a member of a part is missing": without(parts, "id", "weight", "places"),
    "part weight negative": set_to(parts, "weight", -0.5),
    "a member of a place is missing": without(
        all_places, "id", "axis", "weight", "positions", "looks"
    ),
    "unknown axis": set_to(all_places, "axis", "row", ""),
    "place weight negative": set_to(all_places, "weight", -3),
    "a member of a position is missing": without(positions, "id", "column"),
    "position column of the wrong type": set_to(positions, "column", 2, None),
    "a member of a characteristic is missing": without(
        traits, "id", "scale", "weight", "regime", "u_rep"
    ),
    "characteristic weight negative": set_to(traits, "weight", -1),
    "unknown regime": set_to(traits, "regime", "dry", ""),
    "repeatability of an unknown unit": set_to(traits, "u_rep", {"degrees": 1}, {}, 0.5),
    "two repeatabilities": with_more(u_reps, "seconds", 1),
    "repeatability negative": set_to(traits, "u_rep", {"score": -0.1}, {"percent": -1}),
    "unknown scale method": set_to(
        scales("grade", "extent", "measured"), "method", "weighing", "", 1
    ),
    "scale without its method": without(
        scales("grade", "area", "merit_area", "extent", "count", "state", "measured"), "method"
    ),
    "a grade table of seven": longer(tables("grade", "scores"), 0),
    "a grade score above 10": set_to(scales("grade"), "scores", [11, 9, 7, 5, 2, 0]),
    "a grade score below 0": set_to(scales("grade"), "scores", [10, 9, 7, 5, 2, -1]),
    "a demerit factor out of range": set_to(rows_of("area", "levels"), "factor", 1.01, -0.1, 100),
    "a merit out of range": set_to(rows_of("merit_area", "levels"), "merit", 10.5, -1),
    "a level without an id": without(rows_of("area", "levels"), "id"),
    "an area scale without levels": without(scales("area", "merit_area"), "levels"),
    "levels empty": set_to(scales("area", "merit_area"), "levels", []),
    "one breakpoint": set_to(scales("extent", "count"), "points", [[0, 10]], []),
    "a breakpoint of three": longer(points, 1),
    "a breakpoint score out of range": row(points, 10.5, -0.5),
    "a breakpoint of the wrong type": row(tables("extent", "points"), "50", {"x": 1, "s": 2}, [1]),
    "a state score out of range": set_to(rows_of("state", "states"), "score", 12, -1),
    "a measured scale without a limit": without(scales("measured"), "limit", "as_new"),
    "a limit of the wrong type": set_to(scales("measured"), "limit", "0.1 mm", None),
    "a member of a cap rule is missing": without(
        caps, "id", "node", "cap", "within", "characteristic", "when"
    ),
    "a cap out of range": set_to(caps, "cap", 10.1, -1),
    "unknown trigger": set_to(caps, "when", {"feels_bad": 1}, {}, "always"),
    "a trigger at an unknown grade": set_to(
        triggers("grade_at_least"), "grade_at_least", "awful", 3
    ),
    "a trigger over no percentage": set_to(triggers("percent_over"), "percent_over", -1, 101, "5"),
    "a trigger over no count": set_to(triggers("count_over"), "count_over", -1, 1.5, "2"),
    "a trigger at a state of the wrong type": set_to(
        triggers("state_in"), "state_in", "broken", [1]
    ),
    "a location factor negative": any_factor(-1, -0.001),
    "a location factor of the wrong type": any_factor("2", None),
    "unknown trade figure": set_to(criteria, "figure", "shine", ""),
    "a criterion without a member": without(criteria, "anchor", "limit", "best", "weight"),
    "a member of an entry is missing": without(
        entries, "id", "device", "lamport", "time", "rater", "body"
    ),
    "entry id is no UUID": set_to(entries, "id", *BAD_UUIDS),
    "device is no UUID": set_to(entries, "device", *BAD_UUIDS),
    "superseded entry is no UUID": set_to(entries, "supersedes", *BAD_UUIDS),
    "counter negative": set_to(entries, "lamport", -1, -(2**40)),
    "counter too large": set_to(entries, "lamport", 2**53, 2**60),
    "counter of the wrong type": set_to(entries, "lamport", "1", 1.5, None),
    "time is no time stamp": set_to(entries, "time", *BAD_TIMES),
    "rater of the wrong type": set_to(entries, "rater", 1, None, ["Ana"]),
    "rater empty": set_to(entries, "rater", ""),
    "body of the wrong type": set_to(entries, "body", None, "rating", []),
    "body without its kind": without(bodies(*KINDS), "kind"),
    "kind of the wrong type": set_to(bodies(*KINDS), "kind", 1, None, ["rating"]),
    "a rating without a member": without(bodies("rating"), "at", "look"),
    "a measurement without a member": without(bodies("measurement"), "at", "value"),
    "a size of the wrong type": set_to(bodies("measurement"), "value", "0.13", None, [0.1]),
    "a place looked at without a member": without(ats, "position", "characteristic"),
    "a position of the wrong type": set_to(ats, "position", 3, None),
    "unknown look": set_to(bodies("rating"), "look", {"smell": "burnt"}, {}, "light"),
    "two looks in one": with_more(looks("grade", "state"), "percent", 5),
    "unknown grade": set_to(looks("grade"), "grade", "awful", "Light", "light to medium", ""),
    "grade of the wrong type": set_to(looks("grade"), "grade", 3, None),
    "percent out of range": set_to(looks("percent"), "percent", 100.5, -0.5, 1000),
    "percent of the wrong type": set_to(looks("percent"), "percent", "50", None),
    "count negative": set_to(looks("count"), "count", -1, -10_000),
    "count too large": set_to(looks("count"), "count", 10_001, 2**40),
    "count no whole number": set_to(looks("count"), "count", 1.5, "3"),
    "state of the wrong type": set_to(looks("state"), "state", 1, None),
    "unknown reason for not inspecting": set_to(
        looks("not_inspected"), "not_inspected", "lazy", "", None
    ),
    "a share out of range": any_share(100.5, -5),
    "a share of the wrong type": any_share("20", None),
    "an area look without shares": without(area_looks, "shares"),
    "sectors out of range": row(stretches, 37, 256, -1),
    "sectors of the wrong type": row(stretches, "12", 1.5, None),
    "a stretch of three": longer(stretches, 1),
    "a remark without words": without(bodies("remark"), "text"),
    "words of the wrong type": set_to(bodies("remark"), "text", 1, None, ["word"]),
    "a place spoken of without a position": without(abouts, "position"),
    "unknown cause": set_to(bodies("cause"), "cause", "bad_luck", "", None),
    "a cause without a member": without(bodies("cause"), "about", "cause"),
    "a fact without a member": without(facts(), "field", "value"),
    "unknown fact": set_to(facts(), "field", "colour", "", 1),
    "a text fact of the wrong type": set_to(facts(*TEXT_FACTS), "value", 1, None, ["x"]),
    "a figure fact of the wrong type": set_to(facts(*FIGURE_FACTS), "value", "10 km", None),
    "a change of plan without a plan": without(bodies("plan"), "plan"),
    "a change to no plan": set_to(bodies("plan"), "plan", None, {}, "short"),
    "a void without a member": without(bodies("void"), "entry", "reason"),
    "voided entry is no UUID": set_to(bodies("void"), "entry", *BAD_UUIDS),
}


def mutated(
    kind: str,
    number: int,
    cards: list[Json],
    clone: Callable[[Json], Json],
    table: dict[str, Mutation],
) -> Json:
    """A card spoiled in a kind's way; the cards are tried from a random one on."""
    dice = Dice(0x4D, *kind.encode("utf-8"), number)
    first = dice.whole(0, len(cards) - 1)
    for i in range(len(cards)):
        card = clone(cards[(first + i) % len(cards)])
        if table[kind](dice, card):
            return card
    raise LookupError(f"no card can be spoiled so: {kind}")


def all_mutated(
    cards: list[Json], each: int, clone: Callable[[Json], Json], table: dict[str, Mutation]
) -> Iterator[tuple[str, Json]]:
    """Every kind of a table so many times over."""
    for kind in table:
        for number in range(each):
            yield f"{kind} ({number})", mutated(kind, number, cards, clone, table)
