"""Ways to spoil what is measured on a card: what the schema refuses, and what only the command can.

The schema sees one member at a time; that a limit lies where no new part measures, or that a station
is on the plan's grid, only the command can know. It must refuse either.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import measurements
from dice import Dice
from make_random import places
from mutations import (
    BAD_TIMES,
    BAD_UUIDS,
    Mutation,
    bodies,
    longer,
    plan,
    row,
    scales,
    set_to,
    traits,
    with_more,
    without,
)

Json = dict[str, Any]

#: No decimal numbers as they are typed.
NO_DECIMALS = ("1e3", ".5", "+1", "1,5", "", "100.", "-", "0x1", " 1", "1" * 18, 1.5, None, ["1"])
NO_UNITS = ("cm", "MM", "", "inch", "kg", None, 1)
NO_SPOTS: tuple[Any, ...] = ("", "top height", 3, [], "x" * 81)


def readings(card: Json) -> list[Json]:
    """Its readings."""
    return [body["reading"] for body in bodies("reading")(card)]


def spots(card: Json) -> list[Json]:
    """Where on a grid they were read."""
    return [reading["spot"] for reading in readings(card) if "spot" in reading]


def typed(card: Json) -> list[list[Any]]:
    """What was typed."""
    return [reading["values"] for reading in readings(card)]


def gauges(card: Json) -> list[Json]:
    """Its gauges."""
    return [body["gauge"] for body in bodies("gauge")(card)]


def sheets(card: Json) -> list[Json]:
    """Its size sheets."""
    return [body["sheet"] for body in bodies("sizes")(card)]


def sizes(card: Json) -> list[Json]:
    """The sizes in them."""
    return [size for sheet in sheets(card) for size in sheet["sizes"]]


def figures_of_sizes(*values: Any) -> Mutation:
    """Sets one of the figures of a size to one of the values."""

    def mutate(dice: Dice, card: Json) -> bool:
        found = [
            (size, name) for size in sizes(card) for name in measurements.SIZES if name in size
        ]
        if found:
            size, name = dice.pick(found)
            size[name] = dice.pick(values)
        return bool(found)

    return mutate


def grids(card: Json) -> list[list[Any]]:
    """The stations and axes of its gauged scales."""
    found = (scale.get(name) for scale in scales("gauged")(card) for name in ("stations", "axes"))
    return [ids for ids in found if ids]


def bodies_of_kinds(*members: str) -> Mutation:
    """Takes the member off a reading's, a gauge's or a sheet's body."""
    return without(bodies("reading", "gauge", "sizes"), *members)


#: What the schema refuses.
BY_SCHEMA: dict[str, Mutation] = {
    "a body without what it says": bodies_of_kinds("reading", "gauge", "sheet"),
    "a reading without a member": without(readings, "at", "unit", "values"),
    "a reading without figures": set_to(readings, "values", [], None, "1.0", {}),
    "a figure that is no decimal": row(typed, *NO_DECIMALS),
    "too many figures": set_to(readings, "values", ["1.0"] * 51),
    "a reading in an unknown unit": set_to(readings, "unit", *NO_UNITS),
    "a temperature out of range": set_to(readings, "part_c", 200.5, -61, "20", [20]),
    "as new of the wrong type": set_to(readings, "as_new", "yes", 1),
    "a gauge named by no UUID": set_to(readings, "gauge", *BAD_UUIDS),
    "a station or an axis that is no id": lambda dice, card: (
        set_to(spots, dice.pick(("station", "axis")), *NO_SPOTS)(dice, card)
        or set_to(readings, "spot", "top", [])(dice, card)
    ),
    "a spot of the wrong type": set_to(readings, "spot", "top", [], 1),
    "a gauge without a member": without(gauges, "id", "name", "unit", "resolution", "k"),
    "a gauge that is no UUID": set_to(gauges, "id", *BAD_UUIDS),
    "a gauge without a name": set_to(gauges, "name", "", None, 3, "x" * 201),
    "a gauge in an unknown unit": set_to(gauges, "unit", *NO_UNITS),
    "a step that is no decimal": set_to(gauges, "resolution", *NO_DECIMALS),
    "a U that is no decimal": set_to(gauges, "expanded", "1e-3", "small", 0.001, ""),
    "a coverage factor out of range": set_to(gauges, "k", 0.99, 10.5, -2, "2", None),
    "a gauge of an unknown material": set_to(gauges, "material", "brass", "", 1),
    "a calibration at no time": set_to(gauges, "calibrated", *BAD_TIMES),
    "a sheet without a member": without(sheets, "name", "source", "sizes"),
    "a sheet without a name": set_to(sheets, "name", "", None, 1),
    "sizes of the wrong type": set_to(sheets, "sizes", {}, None, "none"),
    "breaking in over out of range": set_to(sheets, "break_in_m", -1, 1e9 + 1, "far"),
    "a size without a member": without(sizes, "place", "characteristic", "unit"),
    "a size of no place": set_to(sizes, "place", "", 1, None, "liner bore"),
    "a size in an unknown unit": set_to(sizes, "unit", *NO_UNITS),
    "a size that is no decimal": figures_of_sizes("1e3", "", "1,5", 0.13, ["1"]),
    "a gauged scale without a member": without(scales("gauged"), "quantity", "wears", "makes"),
    "an unknown quantity": set_to(scales("gauged"), "quantity", "force", "", None),
    "an unknown way to wear": set_to(scales("gauged"), "wears", "both", "", None),
    "an unknown way to make a size": set_to(scales("gauged"), "makes", "mean", "", None),
    "a part of an unknown material": set_to(scales("gauged"), "material", "brass", "", 1),
    "too many stations": set_to(scales("gauged"), "stations", [f"s{n}" for n in range(25)]),
    "a grid of no ids": row(grids, "", "top height", 3, None),
    "a surface that is no id": set_to(traits, "same_surface", "", 3, [], "a b"),
}


# --------------------------------------------------------------------------- by the command alone


def one_plan(card: Json) -> bool:
    """Whether all was done under one plan: what another one lacks is kept and refused by none."""
    return not bodies("plan")(card)


def where(
    what: Callable[[Json, Json], bool], change: Callable[[Dice, Json, Json], None]
) -> Mutation:
    """Changes a reading on a scale on which that spoils it."""

    def mutate(dice: Dice, card: Json) -> bool:
        if not one_plan(card):
            return False
        on = {
            (position["id"], trait["id"]): card["plan"]["scales"][trait["scale"]]
            for section in card["plan"]["sections"]
            for part in section["parts"]
            for place in part["places"]
            for position in place["positions"]
            for trait in place["looks"]
        }
        read = [(reading, on[measurements.place_of(reading)]) for reading in readings(card)]
        found = [(reading, scale) for reading, scale in read if what(reading, scale)]
        if found:
            change(dice, *dice.pick(found))
        return bool(found)

    return mutate


def off_grid(dice: Dice, reading: Json, scale: Json) -> None:
    """A spot that the grid has not."""
    reading["spot"] = dice.pick(
        (
            {**reading.get("spot", {}), "station": "nowhere"},
            {**reading.get("spot", {}), "axis": "nowhere"},
        )
    )


def no_spot(dice: Dice, reading: Json, scale: Json) -> None:
    """No spot, where there is a grid."""
    reading.pop("spot", None)


def other_unit(dice: Dice, reading: Json, scale: Json) -> None:
    """A unit of the other quantity."""
    (other,) = set(measurements.READ_IN) - {scale["quantity"]}
    reading["unit"] = dice.pick(measurements.READ_IN[other])


def has_grid(reading: Json, scale: Json) -> bool:
    """Whether the scale has a grid."""
    return bool(scale.get("stations") or scale.get("axes"))


def always(reading: Json, scale: Json) -> bool:
    """On any scale."""
    return True


def elsewhere(member: str) -> Callable[[Dice, Json, Json], None]:
    """A position or a characteristic that the plan has not."""

    def change(dice: Dice, reading: Json, scale: Json) -> None:
        reading["at"][member] = "nowhere"

    return change


def of_range(name: str, make: Callable[[float, float], float]) -> Mutation:
    """Sets a figure of a size by the range that a new part lies in."""

    def mutate(dice: Dice, card: Json) -> bool:
        found = [size for size in sizes(card) if {"new_low", "new_high"} <= set(size)]
        if found:
            size = dice.pick(found)
            size[name] = f"{make(float(size['new_low']), float(size['new_high'])):.7f}"
        return bool(found)

    return mutate


def other_surface(dice: Dice, card: Json) -> bool:
    """Names as the surface of a size the size itself, another size, or what its place has not."""
    first = card["plan"]
    found = [
        (trait, [other["id"] for other in place["looks"] if gauged(first, other)])
        for _, _, place in places(first)
        for trait in place["looks"]
        if gauged(first, trait)
    ]
    if found:
        trait, read = dice.pick(found)
        trait["same_surface"] = dice.pick((*read, "nothing_here"))
    return bool(found)


def gauged(within: Json, trait: Json) -> bool:
    """Whether a characteristic of a plan is read with a gauge."""
    return bool(within["scales"][trait["scale"]]["method"] == "gauged")


def twice(dice: Dice, card: Json) -> bool:
    """Puts one size into a sheet twice."""
    found = [sheet for sheet in sheets(card) if sheet["sizes"]]
    if found:
        sheet = dice.pick(found)
        sheet["sizes"].append(dict(dice.pick(sheet["sizes"])))
    return bool(found)


#: What the schema takes and only the command refuses.
BY_COMMAND: dict[str, Mutation] = {
    "a reading off the grid": where(always, off_grid),
    "a reading of no spot": where(has_grid, no_spot),
    "a reading in a unit of another quantity": where(always, other_unit),
    "a reading nowhere": where(always, elsewhere("position")),
    "a reading of nothing": where(always, elsewhere("characteristic")),
    "a limit that new parts are past": of_range("limit_high", lambda low, high: low),
    "a limit among new parts": of_range("limit_high", lambda low, high: (low + high) / 2),
    "a lower limit among new parts": of_range("limit_low", lambda low, high: (low + high) / 2),
    "a lower limit that new parts are past": of_range("limit_low", lambda low, high: high),
    "a range upside down": of_range("new_low", lambda low, high: high + abs(high) + 1),
    "half a range": without(sizes, "new_low", "new_high"),
    "out of round by less than nothing": set_to(sizes, "out_of_round", "-0.01"),
    "a taper of less than nothing": set_to(sizes, "taper", "-0.01"),
    "one size twice": twice,
    "a surface that is not rated by eye there": other_surface,
    "a step of nothing": set_to(gauges, "resolution", "0", "0.000", "-0.01"),
    "a negative uncertainty": set_to(gauges, "expanded", "-0.001"),
    "a difference of one station": set_to(
        lambda card: [s for s in scales("gauged")(card) if s["makes"] == "difference"],
        "stations",
        ["height"],
        ["a", "b", "c"],
        [],
    ),
    "a difference along an axis": with_more(
        lambda card: [s for s in scales("gauged")(card) if s["makes"] == "difference"],
        "axes",
        ["thrust", "pin"],
    ),
    "a spot of the grid twice": lambda dice, card: (
        longer(lambda c: [ids for ids in grids(c)[:1]], grids(card)[0][0])(dice, card)
        if grids(card)
        else False
    ),
    "a repeatability that a size has not": set_to(
        lambda card: [trait for trait in traits(card) if gauged(plan(card)[0], trait)],
        "u_rep",
        {"percent": 1.0},
        {"count": 1.0},
    ),
}
