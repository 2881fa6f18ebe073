"""What was measured on a card, worked a second time: sizes, shapes, wear, shares, rates, verdicts.

Source: the section "Measurements" of the method page (``crates/assess/METHOD.md``); a budget is
that of JCGM 100 (GUM), clause 5.1.2, with the degrees of freedom of its clause G.4.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass, field, replace
from statistics import fmean, stdev
from typing import Any

from scipy import stats

Json = dict[str, Any]
At = tuple[str, str]
#: A spot of a grid: station and axis, either of which may be missing.
Spot = tuple[str | None, str | None]

#: What one of each unit is in SI units.
UNITS = {
    "mm": 1e-3,
    "um": 1e-6,
    "in": 0.0254,
    "mil": 2.54e-5,
    "g": 1e-3,
    "mg": 1e-6,
    "oz": 0.028349523125,
}
#: The units that a quantity is read in.
READ_IN = {"length": ("mm", "um", "in", "mil"), "mass": ("g", "mg", "oz")}
#: The SI unit of each quantity.
SI = {"length": "m", "mass": "kg"}

#: Expansion of a material and how well it is known, in 1/K.
EXPANSION = {"steel": (11.5e-6, 1.0e-6), "iron": (10.5e-6, 0.5e-6), "aluminium": (20.0e-6, 1.0e-6)}
#: Where nothing grows: a gauge without a material.
NO_EXPANSION = (0.0, 0.0)
#: How well a temperature is read, in K.
THERMOMETER = 1.0
#: From the half-width of a rectangle to a standard uncertainty.
RECTANGLE = 1.0 / math.sqrt(3.0)

#: What a verdict asks for.
CONFIDENCE = 0.95
#: How many times u must go into the allowance before a gauge is fine enough.
FINE_ENOUGH = 8.0

#: What a card says of how far the engine ran: the fact, and what a rate is then counted per.
RUNS = (("distance_m", "m"), ("running_time_s", "s"), ("fuel_m3", "m3"))


# --------------------------------------------------------------------------- figures


@dataclass(frozen=True)
class Row:
    """A component of a budget: its u, its degrees of freedom, and how the result moves with it."""

    source: str
    u: float
    dof: float = math.inf
    by: float = 1.0

    def times(self, factor: float) -> Row:
        """The component in a result that is so many times as large."""
        return replace(self, by=self.by * factor)


@dataclass(frozen=True)
class Figure:
    """A result with its budget (JCGM 100, 5.1.2 and G.4)."""

    value: float
    rows: tuple[Row, ...] = ()

    @property
    def u(self) -> float:
        """u² = Σ cᵢ²·uᵢ²."""
        return math.sqrt(math.fsum((row.by * row.u) ** 2 for row in self.rows))

    @property
    def dof(self) -> float:
        """ν = u⁴/Σ (cᵢ·uᵢ)⁴/νᵢ."""
        below = math.fsum(
            (row.by * row.u) ** 4 / row.dof for row in self.rows if math.isfinite(row.dof)
        )
        return self.u**4 / below if below > 0 else math.inf

    def whole(self, source: str, by: float = 1.0) -> Row:
        """The figure as one component of another's budget."""
        return Row(source, self.u, self.dof, by)

    def only(self, *sources: str) -> tuple[Row, ...]:
        """Its components of some kinds."""
        return tuple(row for row in self.rows if row.source in sources)

    def as_json(self) -> Json:
        """As ``score --json`` has it; the degrees of freedom only where they are finite."""
        said: Json = {
            "value": self.value,
            "u": self.u,
            "budget": [{"source": r.source, "u": r.u, "sensitivity": r.by} for r in self.rows],
        }
        if math.isfinite(self.dof):
            said["dof"] = self.dof
        return said


def scaled(rows: Iterable[Row], factor: float) -> tuple[Row, ...]:
    """Components of a result that is so many times as large."""
    return tuple(row.times(factor) for row in rows)


# --------------------------------------------------------------------------- what counts


def place_of(said: Json) -> At:
    """Where and of what a look or a reading is."""
    return said["at"]["position"], said["at"]["characteristic"]


def fits(reading: Json, scale: Json) -> bool:
    """Whether a reading can stand on a gauged scale: its unit and its spot."""
    station, axis = spot_of(reading)
    return (
        reading["unit"] in READ_IN[scale["quantity"]]
        and on_grid(scale.get("stations", []), station)
        and on_grid(scale.get("axes", []), axis)
    )


def on_grid(ids: list[str], id: str | None) -> bool:
    """Whether a station or an axis is one of the grid's; none where it has none."""
    return id in ids if ids else id is None


@dataclass(frozen=True)
class Reading:
    """One rater's reading of one spot that counts."""

    rater: str
    said: Json

    @property
    def factor(self) -> float:
        """What one of its unit is in SI units."""
        return UNITS[self.said["unit"]]

    @property
    def figures(self) -> list[float]:
        """What was typed, in SI units."""
        return [float(text) * self.factor for text in self.said["values"]]

    @property
    def last_digit(self) -> float:
        """One of the last digit typed: 10^(−most decimals) of the unit."""
        decimals = max(len(text.partition(".")[2]) for text in self.said["values"])
        return float(f"1e-{decimals}") * self.factor


@dataclass
class Bench:
    """Everything that a card says of sizes: readings, gauges, the size sheet and how far it ran."""

    #: By place and state (as it went in, or as it came out), then by spot; raters by their names.
    readings: dict[tuple[At, bool], dict[Spot, list[Reading]]] = field(default_factory=dict)
    gauges: dict[str, Json] = field(default_factory=dict)
    sheet: Json | None = None
    runs: dict[str, float] = field(default_factory=dict)

    def fitting(self, at: At, as_new: bool, scale: Json) -> dict[Spot, list[Reading]]:
        """The readings of a place in one state that fit its scale, by spot."""
        read = {
            spot: [reading for reading in readings if fits(reading.said, scale)]
            for spot, readings in self.readings.get((at, as_new), {}).items()
        }
        return {spot: readings for spot, readings in read.items() if readings}

    def size(self, place: str, trait: str, scale: Json) -> Json:
        """The sheet's size of a place in SI units, without what it leaves out."""
        units = READ_IN[scale["quantity"]]
        for size in self.sheet["sizes"] if self.sheet else ():
            if (size["place"], size["characteristic"]) == (place, trait):
                if size["unit"] not in units:
                    return {}
                return {
                    name: float(size[name]) * UNITS[size["unit"]]
                    for name in SIZES
                    if size.get(name) is not None
                }
        return {}


#: The figures of a size in a sheet.
SIZES = ("new_low", "new_high", "limit_low", "limit_high", "out_of_round", "taper", "break_in")


def spot_of(reading: Json) -> Spot:
    """The spot that a reading is of."""
    spot = reading.get("spot", {})
    return spot.get("station"), spot.get("axis")


def bench(account: list[Json]) -> Bench:
    """What the entries in account say of sizes; the last in order counts."""
    found = Bench()
    last: dict[tuple[At, bool, Spot, str], Reading] = {}
    for entry in account:
        body = entry["body"]
        match body["kind"]:
            case "reading":
                said = body["reading"]
                key = (place_of(said), said.get("as_new", False), spot_of(said), entry["rater"])
                last[key] = Reading(entry["rater"], said)
            case "gauge":
                found.gauges[body["gauge"]["id"]] = body["gauge"]
            case "sizes":
                found.sheet = body["sheet"]
            case "fact":
                found.runs[body["fact"]["field"]] = body["fact"]["value"]
    for (at, as_new, spot, _), reading in sorted(last.items(), key=lambda item: item[0][3]):
        found.readings.setdefault((at, as_new), {}).setdefault(spot, []).append(reading)
    return found


# --------------------------------------------------------------------------- one spot


def gauge_of(reading: Reading, gauges: dict[str, Json]) -> Json | None:
    """The gauge that a reading names, where the card knows it and it reads the same quantity."""
    gauge = gauges.get(reading.said.get("gauge") or "")
    if gauge is None:
        return None
    alike = any({gauge["unit"], reading.said["unit"]} <= set(units) for units in READ_IN.values())
    return gauge if alike else None


def warmth_of(readings: list[Reading]) -> list[float]:
    """The temperatures that were read with some readings."""
    return [r.said["part_c"] for r in readings if r.said.get("part_c") is not None]


def step_of(reading: Reading, gauges: dict[str, Json]) -> float:
    """The smallest step that a reading could show ("One spot", resolution)."""
    gauge = gauge_of(reading, gauges)
    if gauge is None:
        return reading.last_digit
    return float(gauge["resolution"]) * UNITS[gauge["unit"]]


def calibrations(readings: list[Reading], gauges: dict[str, Json]) -> list[float]:
    """u of each gauge that has a U ("One spot", calibration)."""
    named = [gauge_of(reading, gauges) for reading in readings]
    return [
        float(gauge["expanded"]) * UNITS[gauge["unit"]] / gauge["k"]
        for gauge in named
        if gauge is not None and gauge.get("expanded") is not None
    ]


def material_of(scale: Json) -> str | None:
    """What warmth is corrected for: a mass does not grow with it."""
    material: str | None = scale.get("material")
    return material if scale["quantity"] == "length" else None


def one_spot(readings: list[Reading], gauges: dict[str, Json], material: str | None) -> Figure:
    """The size on one spot, at 20 °C where its temperature was read ("One spot")."""
    figures = [x for reading in readings for x in reading.figures]
    m = len(figures)
    rows = []
    if m > 1:
        rows.append(Row("Repeats", stdev(figures) / math.sqrt(m), m - 1))
    step = max(step_of(reading, gauges) for reading in readings)
    rows.append(Row("Resolution", step / 2 * RECTANGLE))
    known = calibrations(readings, gauges)
    if known:
        rows.append(Row("Calibration", max(known)))
    # Rounding must not part a spot's mean from that of another on which the same was read.
    x = figures[0] if len(set(figures)) == 1 else fmean(figures)
    warmths = warmth_of(readings)
    if not warmths or material is None:
        return Figure(x, tuple(rows))
    gauge = gauge_of(readings[0], gauges) or {}
    return at_20(x, tuple(rows), warmths[0], EXPANSION[material], gauge.get("material"))


def at_20(
    x: float, rows: tuple[Row, ...], warmth: float, part: tuple[float, float], gauge: str | None
) -> Figure:
    """A size read warm or cold, brought to 20 °C ("One spot")."""
    a_part, known_part = part
    a_gauge, known_gauge = EXPANSION[gauge] if gauge else NO_EXPANSION
    off = warmth - 20.0
    factor = 1.0 - a_part * off + a_gauge * off
    return Figure(
        x * factor,
        (
            *scaled(rows, factor),
            Row("PartExpansion", known_part * RECTANGLE, by=-x * off),
            Row("GaugeExpansion", known_gauge * RECTANGLE, by=x * off),
            Row("Temperature", THERMOMETER * RECTANGLE, by=x * (a_gauge - a_part)),
        ),
    )


# --------------------------------------------------------------------------- the size, its shape


def grid_order(scale: Json) -> Callable[[Spot], tuple[int, int]]:
    """Where a spot stands in the order of the grid: by station, then by axis."""
    stations, axes = scale.get("stations", []), scale.get("axes", [])

    def place(ids: list[str], id: str | None) -> int:
        return ids.index(id) if id in ids else len(ids)

    return lambda spot: (place(stations, spot[0]), place(axes, spot[1]))


def middle(size: Json, low: str, high: str) -> float | None:
    """The middle of a range of the sheet, where it has both ends."""
    if low in size and high in size:
        return float(size[low] + size[high]) / 2
    return None


def from_where(size: Json) -> float:
    """What a size that wears either way is furthest from ("The size")."""
    for ends in (("new_low", "new_high"), ("limit_low", "limit_high")):
        centre = middle(size, *ends)
        if centre is not None:
            return centre
    return 0.0


@dataclass(frozen=True)
class Size:
    """The size that a part's readings make, and the spot that makes it."""

    figure: Figure
    spot: Spot = (None, None)


#: Components that two readings with one gauge do not have in common.
OWN = ("Repeats", "Resolution")


def difference(minuend: Figure, subtrahend: Figure) -> Figure:
    """One reading less another: what is common to both drops out."""
    rows = (*minuend.only(*OWN), *scaled(subtrahend.only(*OWN), -1.0))
    return Figure(minuend.value - subtrahend.value, rows)


def size_of(scale: Json, size: Json, spots: dict[Spot, Figure]) -> Size | None:
    """The size that the spots make, if they make one ("The size")."""
    if not spots:
        return None
    if scale["makes"] == "difference":
        first, second = ((station, None) for station in scale["stations"])
        if first not in spots or second not in spots:
            return None
        return Size(difference(spots[first], spots[second]))
    centre = from_where(size)

    def worn(spot: Spot) -> float:
        x = spots[spot].value
        return {"larger": x, "smaller": -x, "either": abs(x - centre)}[scale["wears"]]

    furthest = max(spots, key=worn)
    return Size(spots[furthest], furthest)


@dataclass(frozen=True)
class Shape:
    """How far a part is out of round, or tapers, and where."""

    at: str | None
    figure: Figure


def out_of_round(scale: Json, spots: dict[Spot, Figure]) -> list[Shape]:
    """Out-of-round of each station that was read on all axes ("Shape").

    Behind the largest and the smallest stand all pairs, for where some are equal.
    """
    axes = scale.get("axes", [])
    shapes = []
    for station in dict.fromkeys(station for station, _ in spots):
        read = [spots[station, axis] for axis in axes if (station, axis) in spots]
        if len(axes) >= 2 and len(read) == len(axes):
            # The last of equals and the first: two readings stand in it even where all are equal.
            largest = max(reversed(read), key=lambda figure: figure.value)
            smallest = min(read, key=lambda figure: figure.value)
            shapes.append(Shape(station, difference(largest, smallest)))
            shapes += [Shape(station, difference(a, b)) for a in read for b in read if a is not b]
    return shapes


def taper(scale: Json, spots: dict[Spot, Figure]) -> list[Shape]:
    """Taper along each axis ("Shape"), and behind it the other way round, for where it is 0."""
    stations = scale.get("stations", [])
    if len(stations) < 2:
        return []
    shapes = []
    for axis in scale.get("axes", []) or [None]:
        ends = [spots.get((station, axis)) for station in (stations[0], stations[-1])]
        if ends[0] is not None and ends[1] is not None:
            gone = difference(ends[0], ends[1])
            signs = (-1.0, 1.0) if gone.value < 0 else (1.0, -1.0)
            shapes += [Shape(axis, Figure(s * gone.value, scaled(gone.rows, s))) for s in signs]
    return shapes


# --------------------------------------------------------------------------- new, wear, share, rate


@dataclass(frozen=True)
class New:
    """The size when new, and how it is known."""

    source: str
    value: float
    u: float
    dof: float

    def row(self, by: float) -> Row:
        """As a component."""
        return Row("AsNew", self.u, self.dof, by)


def new_unread(scale: Json, now: Iterable[Spot], before: Collection[Spot]) -> int | None:
    """Spots that were not read as the part went in though they count ("As new"); none without any."""
    if not before:
        return None
    stations = scale.get("stations", [])
    if scale["makes"] == "difference":
        asked = {(station, None) for station in stations}
    else:
        asked = {spot for spot in now if spot[0] is None or spot[0] in stations}
    return len(asked - set(before))


def as_new(size: Json, measured: Size | None) -> New | None:
    """The size when new: measured, else by the sheet, else none ("As new")."""
    if measured is not None:
        figure = measured.figure
        return New("measured", figure.value, figure.u, figure.dof)
    centre = middle(size, "new_low", "new_high")
    if centre is None:
        return None
    half = (size["new_high"] - size["new_low"]) / 2
    return New("range", centre, half * RECTANGLE, math.inf)


def side_of(scale: Json, x: float, new: New) -> float:
    """Which way the part went: + for larger ("Wear")."""
    match scale["wears"]:
        case "larger":
            return 1.0
        case "smaller":
            return -1.0
    return -1.0 if x < new.value else 1.0


def wear_of(scale: Json, x: Figure, new: New) -> Figure:
    """w = ±(x − x_new) ("Wear")."""
    side = side_of(scale, x.value, new)
    return Figure(side * (x.value - new.value), (*scaled(x.rows, side), new.row(-side)))


def limit_of(scale: Json, size: Json, x: float, new: New) -> float | None:
    """The sheet's limit on the side that the part went to; of lengths only.

    None where the part went in past it: then there is no allowance.
    """
    if scale["quantity"] != "length":
        return None
    name = "limit_high" if side_of(scale, x, new) > 0 else "limit_low"
    limit: float | None = size.get(name)
    if limit is None or side_of(scale, x, new) * (limit - new.value) <= 0:
        return None
    return limit


def share_of(x: Figure, new: New, limit: float) -> Figure | None:
    """Share of the allowance c = (x − x_new)/(limit − x_new)."""
    allowance = limit - new.value
    if allowance == 0:
        return None
    rows = (
        x.whole("Reading", 1 / allowance),
        new.row((x.value - limit) / allowance**2),
    )
    return Figure((x.value - new.value) / allowance, rows)


@dataclass(frozen=True)
class Rate:
    """Wear for each metre, second or cubic metre of fuel."""

    per: str
    figure: Figure
    run: float
    #: The run and the wear while breaking in, where they are told apart.
    until: float = 0.0
    break_in: float = 0.0


def rates_of(scale: Json, size: Json, bench: Bench, x: Figure, new: New) -> list[Rate]:
    """Wear over the run ("Rate")."""
    if scale["wears"] == "either":
        return []
    wear = wear_of(scale, x, new)
    side = side_of(scale, x.value, new)
    rates = []
    for fact, per in RUNS:
        run = bench.runs.get(fact, 0.0)
        if run <= 0:
            continue
        until, first = 0.0, 0.0
        told = (bench.sheet or {}).get("break_in_m")
        if per == "m" and told is not None and told < run and "break_in" in size:
            until, first = told, size["break_in"]
        counted = run - until
        if scale["quantity"] == "mass":
            rows = scaled(wear.rows, 1 / counted)
        else:
            rows = (x.whole("Reading", side / counted), new.row(-side / counted))
        figure = Figure((wear.value - first) / counted, rows)
        rates.append(Rate(per, figure, run, until, first))
    return rates


# --------------------------------------------------------------------------- verdicts


def conformity(figure: Figure, of: str, limit: float) -> Json:
    """Verdict on a figure against a limit, the most it may be or for ``limit_low`` the least."""
    room = figure.value - limit if of == "limit_low" else limit - figure.value
    dof = figure.dof
    p = float(stats.t.cdf(room / figure.u, dof))
    verdict = "cannot_say"
    if p >= CONFIDENCE:
        verdict = "within"
    elif 1 - p >= CONFIDENCE:
        verdict = "beyond"
    enough = abs(room) / float(stats.t.ppf(CONFIDENCE, dof))
    return {
        "of": of,
        "limit": limit,
        "probability": p,
        "verdict": verdict,
        "sufficient_u": enough,
    }


#: The limits of a size for each way that it wears.
LIMITS = {
    "larger": ("limit_high",),
    "smaller": ("limit_low",),
    "either": ("limit_high", "limit_low"),
}
#: Verdicts from the worst on.
VERDICTS = ("beyond", "cannot_say", "within")


def worst_verdict(verdicts: Sequence[str]) -> str | None:
    """The worst of some verdicts."""
    return min(verdicts, key=VERDICTS.index, default=None)


# --------------------------------------------------------------------------- one measured place


@dataclass(frozen=True)
class Measured:
    """One characteristic in one position on a gauged scale, worked out."""

    scale: Json
    size: Json
    spots: dict[Spot, Figure]
    worn: Size | None
    new: New | None
    share: Figure | None
    rates: list[Rate]
    shapes: dict[str, list[Shape]]
    bench: Bench
    readings: dict[Spot, list[Reading]]
    new_unread: int | None

    @property
    def grid_size(self) -> int:
        """How many spots the grid has."""
        stations, axes = self.scale.get("stations", []), self.scale.get("axes", [])
        return max(1, len(stations)) * max(1, len(axes))

    @property
    def takes_part(self) -> bool:
        """Whether it takes part in the roll-up ("Score")."""
        sides = LIMITS[self.scale["wears"]]
        ends = all(side in self.size for side in sides)
        new = middle(self.size, "new_low", "new_high") is not None or self.new_unread == 0
        return self.scale["quantity"] == "length" and ends and new

    @property
    def limit(self) -> float | None:
        """The limit on the side that it went to."""
        if self.worn is None or self.new is None:
            return None
        return limit_of(self.scale, self.size, self.worn.figure.value, self.new)

    def wear(self) -> Figure | None:
        """Its wear."""
        if self.worn is None or self.new is None:
            return None
        return wear_of(self.scale, self.worn.figure, self.new)

    def verdicts(self) -> list[Json]:
        """The verdicts on the size."""
        if self.worn is None:
            return []
        return [
            conformity(self.worn.figure, of, self.size[of])
            for of in LIMITS[self.scale["wears"]]
            if of in self.size
        ]

    def largest(self, name: str) -> Json | None:
        """The largest shape, and as a member of our own ``others``, all there are."""
        shape = max(self.shapes[name], key=lambda shape: shape.figure.value, default=None)
        if shape is None:
            return None
        others = [self.shape(name, other) for other in self.shapes[name]]
        return {**self.shape(name, shape), "others": others}

    def shape(self, name: str, shape: Shape) -> Json:
        """A shape with the verdict on it."""
        limit = None
        if name in self.size:
            limit = conformity(shape.figure, name, self.size[name])
        return {"at": shape.at, **shape.figure.as_json(), "limit": limit}

    def notes(self) -> list[Any]:
        """What is to be known beside the figures."""
        length = self.scale["quantity"] == "length"
        limited = any(of in self.size for of in LIMITS[self.scale["wears"]])
        read = [reading for spot in self.readings.values() for reading in spot]
        gauges = [gauge_of(reading, self.bench.gauges) for reading in read]
        notes: list[Any] = []
        if None in gauges:
            notes.append("no_gauge")
        if any(gauge is not None and gauge.get("expanded") is None for gauge in gauges):
            notes.append("not_calibrated")
        unread = self.grid_size - len(self.spots)
        if unread > 0:
            notes.append({"unread": unread})
        if self.new_unread:
            notes.append({"new_unread": self.new_unread})
        if material_of(self.scale) and not all(map(warmth_of, self.readings.values())):
            notes.append("not_corrected")
        if self.new is None:
            notes.append("no_new_size")
        if length and not limited:
            notes.append("no_limit")
        limit = self.limit
        if self.worn and self.new and limit is not None:
            enough = abs(limit - self.new.value) / FINE_ENOUGH
            if self.worn.figure.u > enough:
                notes.append({"too_coarse": enough})
        return notes

    def as_json(self, path: str) -> Json | None:
        """As ``score --json`` has it; nothing where the readings make no size."""
        if self.worn is None:
            return None
        station, axis = self.worn.spot
        size, wear, limits = self.worn.figure, self.wear(), self.verdicts()
        new = self.new and {"from": self.new.source, "value": self.new.value, "u": self.new.u}
        shapes = {name: self.largest(name) for name in self.shapes}
        on_shapes = [shape["limit"] for shape in shapes.values() if shape and shape["limit"]]
        return {
            "path": path,
            "unit": SI[self.scale["quantity"]],
            "spots": [
                {"station": spot[0], "axis": spot[1], **figure.as_json()}
                for spot, figure in self.spots.items()
            ],
            "size": {"station": station, "axis": axis, **size.as_json()},
            "new": new,
            "wear": wear and wear.as_json(),
            "share": self.share and self.share.as_json(),
            "rates": [{"per": rate.per, **rate.figure.as_json()} for rate in self.rates],
            **shapes,
            "limits": limits,
            "verdict": worst_verdict([said["verdict"] for said in (*limits, *on_shapes)]),
            "notes": self.notes(),
        }


def measure(bench: Bench, scale: Json, place: str, at: At) -> Measured:
    """Works out what was measured of one characteristic in one position."""
    size = bench.size(place, at[1], scale)
    order = grid_order(scale)

    def made(read: dict[Spot, list[Reading]]) -> dict[Spot, Figure]:
        return {
            spot: one_spot(read[spot], bench.gauges, material_of(scale))
            for spot in sorted(read, key=order)
        }

    as_it_came_out, as_it_went_in = (bench.fitting(at, state, scale) for state in (False, True))
    spots = made(as_it_came_out)
    worn, before = size_of(scale, size, spots), size_of(scale, size, made(as_it_went_in))
    lacking = new_unread(scale, as_it_came_out, as_it_went_in)
    new = as_new(size, before if lacking == 0 else None)
    share, rates = None, []
    if worn and new:
        limit = limit_of(scale, size, worn.figure.value, new)
        share = None if limit is None else share_of(worn.figure, new, limit)
        rates = rates_of(scale, size, bench, worn.figure, new)
    round_off = out_of_round(scale, spots) if scale["makes"] == "furthest" else []
    tapers = taper(scale, spots) if scale["makes"] == "furthest" else []
    return Measured(
        scale,
        size,
        spots,
        worn,
        new,
        share,
        rates,
        {"out_of_round": round_off, "taper": tapers},
        bench,
        as_it_came_out,
        lacking,
    )
