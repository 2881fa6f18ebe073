"""The u of sizes, shapes, wear, shares and rates, by the package `uncertainties`.

The figures are put together here from what was typed, and the package finds by itself how each
moves with every input: no sensitivity of the method page (``crates/assess/METHOD.md``,
"Measurements") is used.
"""

from __future__ import annotations

import math
import warnings
from collections.abc import Iterator
from statistics import fmean, stdev
from typing import Any

from uncertainties import ufloat

import compare_measured
import reference
from measurements import (
    EXPANSION,
    NO_EXPANSION,
    RECTANGLE,
    THERMOMETER,
    Measured,
    Reading,
    calibrations,
    gauge_of,
    material_of,
    step_of,
    warmth_of,
)

Json = dict[str, Any]
#: A figure with all that it depends on.
Uncertain = Any

# Of a quantity without uncertainty, which is meant here.
warnings.filterwarnings("ignore", message="Using UFloat objects with std_dev==0")


def spot(measured: Measured, readings: list[Reading], shared: bool) -> Uncertain:
    """What was read on one spot; without what two readings with one gauge share, if told so."""
    gauges, material = measured.bench.gauges, material_of(measured.scale)
    figures = [x for reading in readings for x in reading.figures]
    x: Uncertain = fmean(figures)
    if len(figures) > 1:
        x += ufloat(0.0, stdev(figures) / math.sqrt(len(figures)))
    step = max(step_of(reading, gauges) for reading in readings)
    x += ufloat(0.0, step / 2 * RECTANGLE)
    known = calibrations(readings, gauges)
    if known and shared:
        x += ufloat(0.0, max(known))
    warmths = warmth_of(readings)
    if not warmths or material is None:
        return x
    gauge = (gauge_of(readings[0], gauges) or {}).get("material")
    inputs = [
        (warmths[0], THERMOMETER),
        EXPANSION[material],
        EXPANSION[gauge] if gauge else NO_EXPANSION,
    ]
    off, a_part, a_gauge = (
        ufloat(value, half * RECTANGLE) if shared else value for value, half in inputs
    )
    return x * (1 - a_part * (off - 20) + a_gauge * (off - 20))


def size(measured: Measured) -> Uncertain:
    """The size that the readings make."""
    assert measured.worn is not None
    if measured.scale["makes"] == "difference":
        first, second = (
            spot(measured, measured.readings[station, None], shared=False)
            for station in measured.scale["stations"]
        )
        return first - second
    return spot(measured, measured.readings[measured.worn.spot], shared=True)


def figures(measured: Measured) -> Iterator[tuple[str, Uncertain]]:
    """The wear, the share and the rates, with what to call them."""
    new, worn = measured.new, measured.worn
    if new is None or worn is None:
        return
    x, x_new = size(measured), ufloat(new.value, new.u)
    grown = measured.scale["wears"] == "larger"
    if measured.scale["wears"] == "either":
        grown = worn.figure.value >= new.value
    wear = x - x_new if grown else x_new - x
    yield "wear", wear
    if measured.share is not None:
        yield "share", (x - x_new) / (measured.limit - x_new)
    for rate in measured.rates:
        yield f"rate per {rate.per}", (wear - rate.break_in) / (rate.run - rate.until)


def shapes(measured: Measured) -> Iterator[tuple[str, list[Uncertain]]]:
    """The differences that each shape could be of, with what the shape is called."""
    for name, among in (("out_of_round", 0), ("taper", 1)):
        keys = list(measured.readings)
        pairs = [(a, b) for a in keys for b in keys if a != b and a[among] == b[among]]
        if name == "taper" and measured.shapes[name]:
            ends = {measured.scale["stations"][0], measured.scale["stations"][-1]}
            pairs = [(a, b) for a, b in pairs if {a[0], b[0]} == ends]
        yield (
            name,
            [
                spot(measured, measured.readings[a], False)
                - spot(measured, measured.readings[b], False)
                for a, b in pairs
            ],
        )


def differs(what: str, ours: Uncertain, theirs: Json, scale: float) -> Iterator[str]:
    """Whether a value and its u are those of the package."""
    for part, value in (("value", ours.nominal_value), ("u", ours.std_dev)):
        if not compare_measured.near(value, theirs[part], scale):
            yield f"{what}: {part}: uncertainties {value}, command {theirs[part]}"


def differences(card: Json, got: Json) -> Iterator[str]:
    """Every figure of a scored card whose u is another by the package."""
    account = reference.in_account(card["entries"])
    tree = reference.grow(reference.plan_in_force(card, account), account)
    said = {row["path"]: row for row in got["measurements"]}
    for leaf in reference.leaves_of(tree):
        if leaf.measured and leaf.measured.worn:
            for line in place_differs(leaf.measured, said[leaf.path]):
                yield f"{leaf.path}: {line}"


def place_differs(measured: Measured, row: Json) -> Iterator[str]:
    """The differences at one measured place."""
    scale = max(abs(spot["value"]) for spot in row["spots"])
    for read in row["spots"]:
        readings = measured.readings[read["station"], read["axis"]]
        yield from differs("spot", spot(measured, readings, shared=True), read, scale)
    yield from differs("size", size(measured), row["size"], scale)
    theirs = {"wear": row["wear"], "share": row["share"]}
    theirs |= {f"rate per {rate['per']}": rate for rate in row["rates"]}
    for name, figure in figures(measured):
        yield from differs(
            name, figure, theirs[name], scale * compare_measured.steepest(theirs[name])
        )
    for name, pairs in shapes(measured):
        shape = row[name]
        if shape and not any(not list(differs(name, p, shape, scale)) for p in pairs):
            yield f"{name}: no two readings are {shape['value']} apart with u {shape['u']}"
