"""Random gauges, size sheets and readings: what is measured on a random card.

Sizes that differ on paper differ by far more than a double's rounding, and those that are equal are
typed alike, so that "the first among equals" is the same on every machine.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import measurements
from dice import Dice

Json = dict[str, Any]

STATIONS = ("top", "middle", "bottom", "front", "rear")
GRID_AXES = ("thrust", "pin", "vertical", "horizontal")
WAYS = ("larger", "smaller", "either")
MATERIALS = tuple(measurements.EXPANSION)
#: Sizes when new, in SI units: bores and journals, springs of valves, clearances, ring masses.
NOMINAL = {"length": (0.13, 0.0951, 0.008, 0.0125, 1.1e-4, 6e-4), "mass": (0.0548, 0.0113)}
#: Digits behind the point that are about a tenth of a micrometre, or of a milligram, in each unit.
DIGITS = {"mm": 4, "um": 1, "in": 6, "mil": 3, "g": 4, "mg": 1, "oz": 6}
#: The most that one card has measured: its outlook takes many draws of each.
MOST = 40
#: A gauge that no entry of the card speaks of.
UNKNOWN_GAUGE = "0197f3a0-0000-7000-8000-00000000beef"


def random_scale(dice: Dice) -> Json:
    """A gauged scale of any kind."""
    makes = "difference" if dice.chance(0.2) else "furthest"
    scale: Json = {
        "quantity": "mass" if dice.chance(0.15) else "length",
        "wears": dice.pick(("larger", "smaller", *WAYS)),
        "makes": makes,
    }
    if makes == "difference":
        scale["stations"] = ["height", "base_circle"]
    elif dice.chance(0.7):
        scale["stations"] = dice.some(STATIONS, 0, 4)
        scale["axes"] = dice.some(GRID_AXES, 0, 4)
    if dice.chance(0.6):
        scale["material"] = dice.pick(MATERIALS)
    return scale


def typed(dice: Dice, size: float, unit: str, fewer: int = 0) -> str:
    """A size as it is typed in a unit, at times with a digit fewer or with a zero at its end."""
    digits = max(0, DIGITS[unit] - fewer - (1 if dice.chance(0.3) else 0))
    text = f"{size / measurements.UNITS[unit]:.{digits}f}"
    if "." in text and dice.chance(0.1):
        text += "0"
    return text


@dataclass(frozen=True)
class Kind:
    """What one kind of part measures: the same for all positions of a place."""

    new: float
    spread: float
    allowance: float


@dataclass
class Bench:
    """What lies on the bench: gauges and sheets for the gauged places of a plan."""

    dice: Dice
    plan: Json
    kinds: dict[tuple[str, str], Kind] = field(default_factory=dict)
    gauges: list[Json] = field(default_factory=list)

    def __post_init__(self) -> None:
        for place, trait, scale in self.gauged():
            dice = self.dice
            new = dice.pick(NOMINAL[scale["quantity"]])
            allowance = float(dice.rng.uniform(3e-5, 4e-4)) * dice.pick((1.0, 1.0, 0.2))
            self.kinds[place["id"], trait["id"]] = Kind(new, allowance / 6, allowance)

    def gauged(self) -> Iterator[tuple[Json, Json, Json]]:
        """Every gauged characteristic of the plan: its place, itself, its scale."""
        for section in self.plan["sections"]:
            for part in section["parts"]:
                for place in part["places"]:
                    for trait in place["looks"]:
                        scale = self.plan["scales"][trait["scale"]]
                        if scale["method"] == "gauged":
                            yield place, trait, scale

    def leaves(self) -> list[tuple[Json, Json, Json, str]]:
        """Some of the gauged characteristics, each in one position."""
        found = [
            (place, trait, scale, position["id"])
            for place, trait, scale in self.gauged()
            for position in place["positions"]
        ]
        return self.dice.some(found, MOST, MOST)

    def tools(self) -> Iterator[Json]:
        """Gauges, size sheets and how far the engine ran, in some order, some of them twice."""
        dice = self.dice
        bodies = [self.gauge() for _ in range(dice.whole(0, 4))]
        if dice.chance(0.9):
            bodies += [self.sheet() for _ in range(dice.pick((1, 1, 2)))]
        for fact, run in (("distance_m", 6e8), ("running_time_s", 4e7), ("fuel_m3", 180.0)):
            if dice.chance(0.6):
                value = dice.pick((0.0, dice.between(0.2, 1.0) * run, run))
                bodies.append({"kind": "fact", "fact": {"field": fact, "value": value}})
        yield from dice.some(bodies, len(bodies), len(bodies))

    # ----------------------------------------------------------------------- gauges

    def gauge(self) -> Json:
        """A gauge, or another entry on one that there is already."""
        dice = self.dice
        unit = dice.pick(tuple(measurements.UNITS))
        fine = dice.pick((1e-6, 2e-6, 1e-5, 2.54e-6, 5e-5))
        gauge: Json = {
            "id": dice.uuid(),
            "name": dice.pick(("Bore gauge", "Micrometer 3", "Scales", "Fühlerlehre ½")),
            "unit": unit,
            "resolution": f"{fine / measurements.UNITS[unit]:.8f}",
            "k": dice.pick((2, 2, 1, 1.96, dice.between(1.0, 3.0))),
        }
        if self.gauges and dice.chance(0.3):
            known = dice.pick(self.gauges)
            gauge |= {"id": known["id"], "unit": known["unit"]}
            gauge["resolution"] = f"{fine / measurements.UNITS[gauge['unit']]:.8f}"
        if dice.chance(0.7):
            gauge["expanded"] = f"{dice.pick((1e-6, 4e-6)) / measurements.UNITS[gauge['unit']]:.7f}"
        if dice.chance(0.6):
            gauge["material"] = dice.pick(MATERIALS)
        if dice.chance(0.4):
            gauge["calibrated"] = dice.pick(("2025-11-03T00:00:00Z", "2019-02-28T09:00:00.0+01:00"))
        self.gauges.append(gauge)
        return {"kind": "gauge", "gauge": gauge}

    def gauge_for(self, scale: Json) -> str | None:
        """A gauge that shows such a quantity, now and then one that nobody knows, or none."""
        units = measurements.READ_IN[scale["quantity"]]
        # Somebody else's card may bring a gauge that reads another quantity.
        any_will_do = self.dice.chance(0.05)
        fit = [gauge["id"] for gauge in self.gauges if any_will_do or gauge["unit"] in units]
        if self.dice.chance(0.05):
            return UNKNOWN_GAUGE
        return self.dice.pick(fit) if fit and self.dice.chance(0.8) else None

    # ----------------------------------------------------------------------- sheets

    def sheet(self) -> Json:
        """A size sheet that leaves some sizes, and some figures of a size, out."""
        dice = self.dice
        sheet: Json = {
            "name": dice.pick(("Sheet A", "Größen", "Sizes 7")),
            "source": dice.pick(("Invented", "", "A manual, issue 3")),
            "sizes": [
                self.size(place["id"], trait["id"], scale)
                for place, trait, scale in self.gauged()
                if dice.chance(0.9)
            ],
        }
        if dice.chance(0.5):
            sheet["break_in_m"] = dice.pick((0.0, 2e7, 3e7, 9e8))
        return {"kind": "sizes", "sheet": sheet}

    def size(self, place: str, trait: str, scale: Json) -> Json:
        """One size of a sheet."""
        dice = self.dice
        kind = self.kinds[place, trait]
        unit = dice.pick(measurements.READ_IN[scale["quantity"]])
        figures: Json = {}
        if dice.chance(0.9):
            figures["new_low"] = kind.new - kind.spread
            figures["new_high"] = kind.new + dice.pick((1.0, 0.5)) * kind.spread
        if scale["wears"] != "smaller" or dice.chance(0.1):
            figures["limit_high"] = kind.new + kind.allowance
        if scale["wears"] != "larger" or dice.chance(0.1):
            figures["limit_low"] = kind.new - kind.allowance
        for shape in ("out_of_round", "taper"):
            if scale["makes"] == "furthest" and dice.chance(0.5):
                figures[shape] = kind.allowance * float(dice.rng.uniform(0.1, 0.6))
        if dice.chance(0.3):
            figures["break_in"] = kind.allowance * 0.05
        one_by_one = [name for name in figures if not name.startswith("new_")]
        left_out = {name for name in one_by_one if dice.chance(0.07)}
        kept = {name: value for name, value in figures.items() if name not in left_out}
        said = {name: f"{value / measurements.UNITS[unit]:.7f}" for name, value in kept.items()}
        return {"place": place, "characteristic": trait, "unit": unit, **said}

    # ----------------------------------------------------------------------- readings

    def readings(self, leaf: tuple[Json, Json, Json, str]) -> Iterator[Json]:
        """Readings of one part: most of its spots, some as it went in."""
        dice = self.dice
        place, trait, scale, position = leaf
        kind = self.kinds[place["id"], trait["id"]]
        side = {"larger": 1.0, "smaller": -1.0, "either": dice.pick((1.0, -1.0))}[scale["wears"]]
        gone = side * kind.allowance * float(dice.rng.uniform(-0.1, 1.2))
        at = {"position": position, "characteristic": trait["id"]}
        unit = dice.pick(measurements.READ_IN[scale["quantity"]])
        tied = dice.chance(0.15)
        for as_new in (True, False) if dice.chance(0.3) else (False,):
            for spot in self.spots(scale):
                base = self.base(scale, spot, kind, 0.0 if as_new else gone)
                if not tied:
                    base += float(dice.rng.uniform(-0.2, 0.2)) * kind.allowance
                for _ in range(dice.pick((1, 1, 1, 2, 3))):
                    yield self.reading(at, scale, spot, base, unit, as_new, tied)

    def spots(self, scale: Json) -> list[Json]:
        """The spots of a grid, in a random order, some of them not read."""
        grid: list[Json] = [
            {
                **({"station": station} if station else {}),
                **({"axis": axis} if axis else {}),
            }
            for station in scale.get("stations") or (None,)
            for axis in scale.get("axes") or (None,)
        ]
        most = len(grid)
        return self.dice.some(grid, most if self.dice.chance(0.7) else 1, most)

    def base(self, scale: Json, spot: Json, kind: Kind, gone: float) -> float:
        """What a spot measures: a difference is made of a height and a base."""
        if scale["makes"] == "difference":
            foot = 0.03
            return foot if spot["station"] == "base_circle" else foot + kind.new + gone
        return kind.new + gone

    def reading(
        self, at: Json, scale: Json, spot: Json, base: float, unit: str, as_new: bool, tied: bool
    ) -> Json:
        """One reading, at times repeated."""
        dice = self.dice
        repeats = dice.pick((1, 1, 1, 2, 3, 7))
        unit = (
            unit if tied or dice.chance(0.9) else dice.pick(measurements.READ_IN[scale["quantity"]])
        )
        reading: Json = {
            "at": at,
            "unit": unit,
            "values": [
                f"{base / measurements.UNITS[unit]:.{DIGITS[unit]}f}"
                if tied
                else typed(dice, base + float(dice.rng.normal()) * 1.5e-6, unit)
                for _ in range(repeats)
            ],
        }
        # Another program may write what says no more than leaving it out: the bytes are kept all the same.
        if spot or dice.chance(0.2):
            reading["spot"] = spot
        if as_new or dice.chance(0.1):
            reading["as_new"] = as_new
        if dice.chance(0.02):
            reading[dice.pick(("gauge", "part_c"))] = None
        gauge = self.gauge_for(scale)
        if gauge:
            reading["gauge"] = gauge
        if not tied and dice.chance(0.6):
            reading["part_c"] = dice.pick((20, 23.5, dice.between(-5.0, 45.0)))
        return {"kind": "reading", "reading": reading}

    def again(self, body: Json) -> Json:
        """The same reading, typed anew."""
        body = copy.deepcopy(body)
        reading = body["reading"]
        factor = measurements.UNITS[reading["unit"]]
        reading["values"] = [
            typed(self.dice, float(text) * factor + 1e-6, reading["unit"])
            for text in reading["values"]
        ]
        return body


def fill(dice: Dice, position: str, trait: str, scale: Json) -> Iterator[Json]:
    """Readings that make a size, whatever it is."""
    stations: list[str | None] = [*scale.get("stations", [])] or [None]
    axes: list[str | None] = [*scale.get("axes", [])] or [None]
    unit = measurements.READ_IN[scale["quantity"]][0]
    for station in stations if scale["makes"] == "difference" else stations[:1]:
        spot = {"station": station, "axis": axes[0]}
        reading = {
            "at": {"position": position, "characteristic": trait},
            "unit": unit,
            "values": [typed(dice, float(dice.rng.uniform(-0.3, 0.3)), unit)],
            "spot": {name: id for name, id in spot.items() if id is not None},
        }
        yield {"kind": "reading", "reading": reading}
