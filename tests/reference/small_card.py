"""Small cards for checks by hand: a plan and its looks in a few lines each."""

from __future__ import annotations

from typing import Any

import canonical
from dice import Dice

Json = dict[str, Any]

#: The grade table of the worked example.
GRADE_TABLE: Json = {"method": "grade", "scores": [10, 9, 7.5, 5, 2.5, 0]}

#: Level factors of the deposit rating manual that ASTM D6618 calls (from memory).
CARBON: Json = {
    "method": "area",
    "levels": [
        {"id": "heavy_carbon", "factor": 1.0},
        {"id": "medium_carbon", "factor": 0.5},
        {"id": "light_carbon", "factor": 0.25},
        {"id": "black_lacquer", "factor": 0.1},
        {"id": "amber_lacquer", "factor": 0.05},
    ],
}

LAYOUT: Json = {
    "arrangement": "inline",
    "cylinders": 3,
    "camshaft": "overhead",
    "follower": "roller",
    "intake_valves": 2,
    "exhaust_valves": 2,
    "injector_lobes": True,
    "brake_lobes": False,
    "liner": "wet",
    "compression_rings": 2,
    "mains": 4,
    "single_cylinder_heads": False,
    "turbochargers": 1,
}


def trait(id: str, scale: str, weight: float = 1.0, u_rep: Json | None = None) -> Json:
    """A characteristic."""
    u_rep = u_rep or {"score": 0.0}
    return {"id": id, "scale": scale, "weight": weight, "regime": "mixed", "u_rep": u_rep}


def place(id: str, positions: int, looks: list[Json], weight: float = 1.0) -> Json:
    """A place with positions ``ID/1``, ``ID/2``, …"""
    return {
        "id": id,
        "axis": "each",
        "weight": weight,
        "positions": [{"id": f"{id}/{n}", "column": str(n)} for n in range(1, positions + 1)],
        "looks": looks,
    }


def section(id: str, weight: float, places: list[Json]) -> Json:
    """A section with one part, ``part``."""
    return {"id": id, "weight": weight, "parts": [{"id": "part", "weight": 1, "places": places}]}


def plan(scales: dict[str, Json], sections: list[Json], u_bias: float = 0.0, **more: Any) -> Json:
    """A plan."""
    return {
        "name": "By hand",
        "version": "1",
        "depth": "short",
        "layout": LAYOUT,
        "scales": scales,
        "sections": sections,
        "u_bias": u_bias,
        **more,
    }


def rating(position: str, characteristic: str, look: Json) -> Json:
    """The body of a rating."""
    at = {"position": position, "characteristic": characteristic}
    return {"kind": "rating", "at": at, "look": look}


def shares(**percent: float) -> Json:
    """A look at an area."""
    return {"areas": {"shares": percent}}


def measurement(position: str, characteristic: str, value: float) -> Json:
    """The body of a measurement."""
    at = {"position": position, "characteristic": characteristic}
    return {"kind": "measurement", "at": at, "value": value}


def reading(position: str, characteristic: str, values: list[str], **more: Any) -> Json:
    """The body of a reading, in millimetres where no unit is given."""
    at = {"position": position, "characteristic": characteristic}
    return {"kind": "reading", "reading": {"at": at, "unit": "mm", "values": values, **more}}


def gauge(id: str, resolution: str, **more: Any) -> Json:
    """The body of an entry on a gauge, in millimetres where no unit is given."""
    said = {"id": id, "name": "Gauge", "unit": "mm", "resolution": resolution, "k": 2, **more}
    return {"kind": "gauge", "gauge": said}


def sizes(*sizes: Json, **more: Any) -> Json:
    """The body of a size sheet."""
    return {"kind": "sizes", "sheet": {"name": "By hand", "source": "", "sizes": sizes, **more}}


def size(place: str, characteristic: str, **figures: str) -> Json:
    """A size of a sheet, in millimetres where no unit is given."""
    return {"place": place, "characteristic": characteristic, "unit": "mm", **figures}


def fact(field: str, value: float) -> Json:
    """The body of a fact."""
    return {"kind": "fact", "fact": {"field": field, "value": value}}


def card(plan: Json, bodies: list[tuple[str, Json]]) -> Json:
    """A card with one entry for each (rater, body), written one after the other on one tablet."""
    dice = Dice(1)
    device = dice.uuid()
    entries = [
        {
            "id": dice.uuid(),
            "device": device,
            "lamport": n,
            "time": "2026-11-24T17:00:00Z",
            "rater": rater,
            "body": body,
        }
        for n, (rater, body) in enumerate(bodies, start=1)
    ]
    document = {
        "format": "ringland-card",
        "version": 2,
        "id": dice.uuid(),
        "plan": plan,
        "entries": entries,
    }
    return {**document, "digest": canonical.digest(document)}


def worked_example() -> Json:
    """The example worked by hand when the method was agreed on.

    Section A (weight 2) has one part with three positions, each a grade (weight 2) and a deposit
    area (weight 1); section B (weight 1) has one part with two positions of one characteristic.
    """
    scales = {
        "grade": GRADE_TABLE,
        "carbon": CARBON,
        "eight": {"method": "state", "states": [{"id": "worn", "score": 8}]},
        "size": {"method": "measured", "as_new": 0.130, "limit": 0.131},
    }
    a = [trait("wear", "grade", 2, {"score": 0.5}), trait("land_1", "carbon", 1, {"score": 0.4})]
    b1, b2 = trait("face", "eight", 1, {"score": 0.3}), trait("face", "size", 1, {"score": 0.2})
    sections = [
        section("a", 2, [place("a", 3, a)]),
        section("b", 1, [place("b1", 1, [b1]), place("b2", 1, [b2])]),
    ]
    seen = shares(
        heavy_carbon=20, medium_carbon=15, light_carbon=25, black_lacquer=10, amber_lacquer=20
    )
    return card(
        plan(scales, sections, u_bias=0.25),
        [
            ("first", rating("a/1", "wear", {"grade": "trace"})),
            ("first", rating("a/1", "land_1", seen)),
            ("first", rating("a/2", "wear", {"grade": "light_to_medium"})),
            ("second", rating("b1/1", "face", {"state": "worn"})),
            ("first", measurement("b2/1", "face", 0.130 + 0.3 * 0.001)),
        ],
    )
