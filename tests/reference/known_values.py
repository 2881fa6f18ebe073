"""The reference held against values from outside it: worked by hand, or published."""

from __future__ import annotations

import math
import struct
from collections.abc import Callable, Iterator
from typing import Any

import canonical
import reference
from small_card import (
    CARBON,
    GRADE_TABLE,
    card,
    fact,
    gauge,
    place,
    plan,
    rating,
    reading,
    section,
    shares,
    size,
    sizes,
    trait,
    worked_example,
)

Json = dict[str, Any]
#: A check: what it is, what came out, what was to come out, and the tolerance.
Known = tuple[str, Any, Any, float]
#: Scores a card: the reference, or the native command.
Scorer = Callable[[Json], Json]


def node(result: Json, path: str, what: str = "all") -> Json:
    """One node of a scored card."""
    return next(node[what] for node in result["nodes"] if node["path"] == path)


def worked(score: Scorer) -> Iterator[Known]:
    """The example worked by hand when the method was agreed on, to all six decimals."""
    result = score(worked_example())
    engine = node(result, "engine")
    half = 5e-7
    yield "worked example: A1", node(result, "a/part/a/1")["score"], 8.141667, half
    yield "worked example: A", node(result, "a")["score"], 7.195833, half
    yield "worked example: B", node(result, "b")["score"], 7.5, half
    yield "worked example: engine", engine["score"], 7.297222, half
    yield "worked example: coverage", engine["coverage"], 0.703704, half
    yield "worked example: lower bound", engine["bounds"][0], 5.235185, half
    yield "worked example: upper bound", engine["bounds"][1], 8.198148, half
    yield "worked example: u", engine["u"], 0.274270, half
    yield "worked example: worst", engine["worst"]["path"], "a/part/a/2/wear", 0
    yield "worked example: nothing excluded", node(result, "engine", "in_service"), engine, 0


def deposits() -> Iterator[Known]:
    """Deposits as the trade counts them, by arithmetic on given figures.

    Areas after ASTM D6618 with the level factors of the deposit rating manual that it calls (from
    memory); merits 0 to 10 after ASTM D4857.
    """
    example = {
        "heavy_carbon": 20.0,
        "medium_carbon": 15.0,
        "light_carbon": 25.0,
        "black_lacquer": 10.0,
        "amber_lacquer": 20.0,
    }
    yield "deposit demerit, ASTM D6618: demerit", reference.demerit(example, CARBON), 35.75, 1e-12
    yield "deposit demerit, ASTM D6618: all clean", reference.demerit({}, CARBON), 0.0, 0
    yield (
        "deposit demerit, ASTM D6618: heavy",
        reference.demerit({"heavy_carbon": 100}, CARBON),
        100.0,
        0,
    )
    lacquer = reference.demerit({"black_lacquer": 100}, CARBON)
    carbon = reference.demerit({"heavy_carbon": 10.1}, CARBON)
    yield "deposit demerit, ASTM D6618: lacquer below a tenth of carbon", lacquer < carbon, True, 0
    yield (
        "deposit demerit, ASTM D6618: 101 % refused",
        refusal(lambda: reference.check_range("areas", shares(a=60.0, b=41.0)["areas"])),
        True,
        0,
    )
    levels = [{"id": "eight", "merit": 8.0}, {"id": "five", "merit": 5.0}]
    merit = reference.merit({"eight": 35.0, "five": 25.0}, {"levels": levels})
    yield "merit 0 to 10, ASTM D4857", merit, 8.05, 1e-12


def trade(score: Scorer) -> Iterator[Known]:
    """Trade figures of a card, by arithmetic on given figures.

    Weighted demerits and groove fill after ASTM D6750 (from memory); ring faces after ASTM D5862,
    14.2.5.
    """
    piston = pistons(score, {"groove_1": 2.0, "groove_2": 3.0, "land_1": 1.0, "land_2": 4.0})
    yield (
        "weighted demerits, ASTM D6750: weighted demerits",
        piston["weighted_demerits"],
        171.5,
        1e-12,
    )
    plain = pistons(score, {})
    yield "weighted demerits, ASTM D6750: unweighted", plain["weighted_demerits"], 100.75, 1e-12
    doubled = pistons(score, {"groove_1": 4.0, "groove_2": 6.0, "land_1": 2.0, "land_2": 8.0})
    yield "weighted demerits, ASTM D6750: doubled", doubled["weighted_demerits"], 343.0, 1e-12
    some = pistons(score, {"groove_1": 2.0})
    yield "method: no factor counts 0", some["weighted_demerits"], 71.5, 1e-12

    groove = shares(heavy_carbon=10, medium_carbon=16, light_carbon=8)
    land = shares(heavy_carbon=3, black_lacquer=50)
    figures = areas_card(score, [("groove_1", groove), ("land_1", land)], {})
    yield "ASTM D6750: top groove fill", figures["top_groove_fill"], 20.0, 1e-12
    yield "ASTM D6750: top land heavy carbon", figures["top_land_heavy_carbon"], 3.0, 0
    yield "ASTM D5862 14.2.5: ring face", ring(score, 20, "free"), 0.2, 1e-15
    yield "ASTM D5862 14.2.5: broken ring", ring(score, 20, "broken"), 1.0, 0
    yield "ASTM D5862 14.2.5: broken ring, face not rated", ring(score, None, "broken"), 1.0, 0
    yield "method: a whole ring with no face rated", ring(score, None, "free"), None, 0


def pistons(score: Scorer, factors: dict[str, float]) -> Json:
    """A piston with location factors: its demerits are 35.75, 10, 50 and 5."""
    looks = [
        (
            "groove_1",
            shares(
                heavy_carbon=20,
                medium_carbon=15,
                light_carbon=25,
                black_lacquer=10,
                amber_lacquer=20,
            ),
        ),
        ("groove_2", shares(heavy_carbon=10)),
        ("land_1", shares(heavy_carbon=50)),
        ("land_2", shares(light_carbon=20)),
    ]
    return areas_card(score, looks, factors)


def areas_card(score: Scorer, looks: list[tuple[str, Json]], factors: dict[str, float]) -> Json:
    """The figures of the only piston of a card with these looks."""
    traits = [trait(id, "carbon") for id, _ in looks]
    sections = [section("pistons", 1, [place("piston", 1, traits)])]
    document = card(
        plan({"carbon": CARBON}, sections, location_factors=factors),
        [("one", rating("piston/1", id, look)) for id, look in looks],
    )
    (piston,) = score(document)["trade"]["pistons"]
    return dict(piston)


def ring(score: Scorer, face: float | None, state: str) -> float | None:
    """Face distress of a ring with a percentage of its face and a state."""
    states = [{"id": "free", "score": 10}, {"id": "broken", "score": 0}]
    scales: Json = {
        "percent": {"method": "extent", "points": [[0, 10], [100, 0]]},
        "state": {"method": "state", "states": states},
    }
    traits = [trait("face_distress", "percent"), trait("whole", "state")]
    bodies = [("one", rating("ring/1", "whole", {"state": state}))]
    if face is not None:
        bodies.append(("one", rating("ring/1", "face_distress", {"percent": face})))
    document = card(plan(scales, [section("rings", 1, [place("ring", 1, traits)])]), bodies)
    distress: float | None = score(document)["trade"]["ring_distress"]
    return distress


def merit_sums() -> Iterator[Known]:
    """Merit sums on the criteria of ASTM D7468 (as published) and D7422 (from memory)."""
    valve_train: list[Json] = [
        {"anchor": 5.7, "weight": 350, "limit": 7.1, "best": 4.3},
        {"anchor": 13, "weight": 150, "limit": 19, "best": 7},
        {"anchor": 27, "weight": 350, "limit": 49, "best": 16},
        {"anchor": 9.0, "weight": 150, "limit": 8.7, "best": 9.3},
    ]
    ring_liner: list[Json] = [
        {"weight": 250, "limit": 24, "anchor": 20, "best": 12},
        {"weight": 200, "limit": 105, "anchor": 70, "best": 35},
        {"weight": 200, "limit": 35, "anchor": 25, "best": 10},
        {"weight": 200, "limit": 15, "anchor": 10, "best": 0},
        {"weight": 150, "limit": 85, "anchor": 65, "best": 50},
    ]
    examples: list[tuple[str, list[Json], list[float], float | None, bool]] = [
        ("D7468 at the anchors", valve_train, [5.7, 13, 27, 9.0], 1000, True),
        ("D7468 at the limits", valve_train, [7.1, 19, 49, 8.7], 0, True),
        ("D7468 at best credit", valve_train, [4.3, 7, 16, 9.3], 2000, True),
        ("D7468 beyond best credit", valve_train, [3.0, 2, 10, 9.9], 2000, True),
        ("D7468 past one limit", valve_train, [7.2, 7, 16, 9.3], None, False),
        ("D7422 mixed", ring_liner, [16, 52.5, 30, 5, 75], 1150, True),
    ]
    for name, criteria, values, total, passes in examples:
        merits, passed = reference.merit_sum(criteria, values)
        if total is not None:
            yield f"merit sum, ASTM {name}", merits, total, 1e-9
        yield f"limits of the merit sum, ASTM {name}", passed, passes, 0


def single_looks() -> Iterator[Known]:
    """The table "One look" of the method page, worked by hand at its edges."""
    grade, u_rep = reference.score_of, reference.repeatability_of
    yield "one look: none", grade("grade", "none", GRADE_TABLE), 10.0, 0
    yield "one look: half step", grade("grade", "none_to_trace", GRADE_TABLE), 9.5, 0
    yield "one look: last half step", grade("grade", "heavy_to_severe", GRADE_TABLE), 1.25, 0
    extent: Json = {"method": "extent", "points": [[0, 10], [10, 6], [50, 4]]}
    for x, score, slope in (
        (0, 10.0, 0.4),
        (5, 8.0, 0.4),
        (10, 6.0, 0.4),
        (30, 5.0, 0.05),
        (50, 4.0, 0.05),
        (50.001, 4.0, 0.0),
        (100, 4.0, 0.0),
    ):
        yield f"one look: extent {x}", grade("percent", x, extent), score, 1e-12
        carried = u_rep("percent", x, extent, {"percent": 2.0})
        yield f"one look: u_rep of extent {x}", carried, 2.0 * slope, 1e-12
    area = {"shares": {"heavy_carbon": 20.0, "medium_carbon": 0.0, "light_carbon": 5.0}}
    carried = u_rep("areas", area, CARBON, {"percent": 5.0})
    yield "one look: u_rep of an area", carried, 0.5 * math.sqrt(1 + 0.0625), 1e-12
    carried = u_rep("areas", {"shares": {}}, CARBON, {"percent": 5.0})
    yield "one look: u_rep of a clean area", carried, 0.5 * 0.05, 1e-12
    film: Json = {
        "method": "merit_area",
        "levels": [{"id": "thick", "merit": 2.0}, {"id": "thin", "merit": 9.0}],
    }
    carried = u_rep("areas", {"shares": {"thick": 1.0, "thin": 2.0}}, film, {"percent": 5.0})
    yield "one look: u_rep of a merit area", carried, 0.05 * math.sqrt(64 + 1), 1e-12
    carried = u_rep("areas", {"shares": {}}, film, {"percent": 5.0})
    yield "one look: u_rep of a clean merit area", carried, 0.05, 1e-12
    size: Json = {"method": "measured", "as_new": 0.100, "limit": 0.0999}
    yield "one look: a journal half worn", grade("size", 0.09995, size), 5.0, 1e-9
    yield "one look: larger than new", grade("size", 0.1001, size), 10.0, 0
    yield "one look: beyond the limit", grade("size", 0.0998, size), 0.0, 0
    for kind, value in (("percent", 100.5), ("percent", -1), ("count", -1), ("count", 10_001)):
        refused = refusal(lambda k=kind, v=value: reference.check_range(k, v))  # type: ignore[misc]
        yield f"one look: {kind} {value} refused", refused, True, 0


def correlation(score: Scorer) -> Iterator[Known]:
    """JCGM 100 (GUM), 5.2.2, example: ten resistors calibrated against one standard.

    Each has u = 0.1 Ω from the standard alone, so that their sum has u = 1 Ω and not 0.32 Ω. Here
    ten positions stand for the resistors, a rater's bias for the standard, and ten times the mean
    for the sum.
    """
    for raters, expected in ((1, 1.0), (10, math.sqrt(10) * 0.1)):
        places = [place("p", 10, [trait("wear", "grade")])]
        bodies = [
            (f"rater {n % raters}", rating(f"p/{n}", "wear", {"grade": "light"}))
            for n in range(1, 11)
        ]
        document = card(plan({"grade": GRADE_TABLE}, [section("s", 1, places)], 0.1), bodies)
        u = node(score(document), "engine")["u"]
        yield f"GUM 5.2.2: ten resistors, {raters} standards", 10 * u, expected, 1e-12


def standing(score: Scorer) -> Iterator[Known]:
    """What counts, entry by entry, after the method page."""
    places = [place("p", 1, [trait("wear", "grade")])]
    sheet = plan({"grade": GRADE_TABLE}, [section("s", 1, places)])

    def engine(change: Callable[[list[Json]], None], *grades: str) -> float | None:
        document = card(sheet, [("one", rating("p/1", "wear", {"grade": g})) for g in grades])
        change(document["entries"])
        result: float | None = node(score(document), "engine")["score"]
        return result

    def nothing(_: list[Json]) -> None:
        return

    def correct_first(entries: list[Json]) -> None:
        entries[1]["supersedes"] = entries[0]["id"]
        entries[1]["rater"] = "two"

    def void_correction(entries: list[Json]) -> None:
        correct_first(entries)
        void = {"kind": "void", "entry": entries[1]["id"], "reason": "wrong lobe"}
        entries.append({**entries[1], "id": entries[2]["id"], "lamport": 9, "body": void})
        del entries[-1]["supersedes"], entries[2]

    def second_rater(entries: list[Json]) -> None:
        entries[1]["rater"] = "two"

    def not_inspected(entries: list[Json]) -> None:
        entries[1]["body"]["look"] = {"not_inspected": "no_time"}

    def slower_counter(entries: list[Json]) -> None:
        entries[1]["lamport"] = 0

    yield "standing: the last of one rater", engine(nothing, "light", "heavy"), 2.5, 0
    yield "standing: by counter, not by place", engine(slower_counter, "light", "heavy"), 7.5, 0
    yield "standing: two raters", engine(second_rater, "light", "heavy"), 5.0, 0
    yield "standing: a correction", engine(correct_first, "light", "heavy"), 2.5, 0
    yield "standing: a void of it", engine(void_correction, "light", "heavy", "none"), 7.5, 0
    yield "standing: not inspected", engine(not_inspected, "light", "heavy"), None, 0


def edges(score: Scorer) -> Iterator[Known]:
    """Caps and bounds at their edges ("Caps"), on figures that a double holds exactly."""
    extent: Json = {"method": "extent", "points": [[0, 10], [100, 0]]}
    two = [
        place("p", 1, [trait("pitted", "percent")]),
        place("q", 1, [trait("polished", "percent")]),
    ]

    def engine(when: Json, cap: float, *looks: tuple[tuple[str, str], float]) -> Json:
        rule = {
            "id": "rule",
            "node": "s",
            "cap": cap,
            "within": "s",
            "characteristic": "pitted",
            "when": when,
        }
        bodies = [("one", rating(*at, {"percent": percent})) for at, percent in looks]
        sheet = plan({"percent": extent}, [section("s", 1, two)], caps=[rule])
        return node(score(card(sheet, bodies)), "s")

    p, q = ("p/1", "pitted"), ("q/1", "polished")
    off = engine({"percent_over": 50}, 2.5, (p, 50), (q, 50))
    yield "caps: over is not at", (off["score"], off["cap"]), (5.0, None), 0
    bitten = engine({"percent_over": 49}, 2.5, (p, 50), (q, 50))
    yield "caps: bites", (bitten["score"], bitten["cap"]["rule"]), (2.5, "rule"), 0
    yield "caps: holds both bounds", bitten["bounds"], [2.5, 2.5], 0
    level = engine({"percent_over": 49}, 5.0, (p, 50), (q, 50))
    yield "caps: does not bite at the mean itself", (level["score"], level["cap"]), (5.0, None), 0
    open_end = engine({"percent_over": 49}, 2.5, (q, 50))
    yield "caps: what is not rated could set it off", open_end["bounds"], [2.5, 7.5], 0
    never = engine({"percent_over": 100}, 2.0, (q, 50))
    yield "caps: what nothing can set off holds no bound", never["bounds"], [2.5, 7.5], 0
    yield "worst: first among equals", level["worst"]["path"], "s/part/p/1/pitted", 0


#: A liner's bore as it is read: at three heights, in two directions.
BORE: Json = {
    "method": "gauged",
    "quantity": "length",
    "wears": "larger",
    "makes": "furthest",
    "stations": ["top", "middle", "bottom"],
    "axes": ["thrust", "pin"],
    "material": "iron",
}
BORE_READ = {
    ("top", "thrust"): "130.045",
    ("top", "pin"): "130.031",
    ("middle", "thrust"): "130.022",
    ("middle", "pin"): "130.018",
    ("bottom", "thrust"): "130.012",
    ("bottom", "pin"): "130.010",
}
BORE_GAUGE = "0197f3a0-0000-7000-8000-000000000001"
#: One micrometre.
UM = 1e-6


def measured(score: Scorer, scale: Json, bodies: list[Json], path: str = "s/part/p/1/size") -> Json:
    """What was measured on a card of one place, ``p``, with one characteristic, ``size``."""
    sheet = plan({"gauged": scale}, [section("s", 1, [place("p", 1, [trait("size", "gauged")])])])
    result = score(card(sheet, [("one", body) for body in bodies]))
    (row,) = result["measurements"]
    return {**row, "node": node(result, path)}


def bore(
    score: Scorer, bodies: list[Json], of: Callable[[str, str], bool] = lambda *_: True, **more: Any
) -> Json:
    """What comes of the readings of a bore, or of some of them."""
    readings = [
        reading("p/1", "size", [text], spot={"station": station, "axis": axis}, **more)
        for (station, axis), text in BORE_READ.items()
        if of(station, axis)
    ]
    return measured(score, BORE, bodies + readings)


def shape_of_a_bore(score: Scorer) -> Iterator[Known]:
    """Out-of-round, taper and wear of a liner, by arithmetic on given figures.

    Read at three heights along two axes and judged by out-of-round, taper and wear as US Navy
    training manual 14076 has it; what these come to in figures is from memory.
    """
    new = sizes(size("p", "size", new_low="130.000", new_high="130.000"))
    all_of_it = bore(score, [new])
    source = "bore, manual 14076"
    tiny = 1e-12
    for station, micrometres in (("top", 14), ("middle", 4), ("bottom", 2)):
        shape = bore(score, [], lambda at, _, station=station: at == station)["out_of_round"]
        yield f"{source}: out of round, {station}", shape["value"], micrometres * UM, tiny
    for axis, micrometres in (("thrust", 33), ("pin", 21)):
        taper = bore(score, [], lambda _, along, axis=axis: along == axis)["taper"]
        yield f"{source}: taper along {axis}", taper["value"], micrometres * UM, tiny
    round_off, taper = all_of_it["out_of_round"], all_of_it["taper"]
    yield f"{source}: most out of round", (round_off["at"], taper["at"]), ("top", "thrust"), 0
    yield f"{source}: out of round", round_off["value"], 14 * UM, tiny
    yield f"{source}: taper", taper["value"], 33 * UM, tiny
    yield f"{source}: wear", all_of_it["wear"]["value"], 45 * UM, tiny
    yield f"{source}: where", all_of_it["size"]["station"], "top", 0
    # Two readings to one of the last digit, 1 µm: u² = 2·(0.5/√3)².
    yield f"{source}: u of out of round", round_off["u"], math.sqrt(1 / 6) * UM, tiny


def bore_against_its_limit(score: Scorer) -> Iterator[Known]:
    """The same bore against a limit, worked on paper after the method page ("Measurements")."""
    known = gauge(BORE_GAUGE, "0.001", expanded="0.004")
    figures = {"new_low": "129.990", "new_high": "130.010", "limit_high": "130.150"}
    sheet = sizes(size("p", "size", **figures, break_in="0.005"), break_in_m=3e7)
    row = bore(score, [known, sheet, fact("distance_m", 3e8)], gauge=BORE_GAUGE)
    source = "bore against its limit"
    tiny = 1e-12
    # (0.5/√3)² + (4/2)², in µm²: 1/12 + 4.
    yield f"{source}: u of the size", row["size"]["u"], math.sqrt(49 / 12) * UM, tiny
    # and (10/√3)² of the size when new: 49/12 + 100/3.
    yield f"{source}: u of the wear", row["wear"]["u"], math.sqrt(449 / 12) * UM, tiny
    # 45/150; u² = (49/12)/150² + (100/3)·(105/150²)² = 49/270000 + 49/67500.
    yield f"{source}: share", row["share"]["value"], 0.3, 1e-9
    yield f"{source}: u of the share", row["share"]["u"], math.sqrt(245 / 270_000), 1e-9
    yield f"{source}: score", row["node"]["score"], 7.0, 1e-8
    yield f"{source}: u of the score", row["node"]["u"], math.sqrt(2450 / 27_000), 1e-8
    # (45 − 5) µm over 270,000 km.
    (rate,) = row["rates"]
    yield f"{source}: rate", rate["value"] / (40 * UM / 2.7e8), 1.0, 1e-9
    (limit,) = row["limits"]
    yield f"{source}: verdict", (limit["verdict"], row["verdict"]), ("within", "within"), 0
    # Φ(1.645) is 95 %.
    yield f"{source}: u that is enough", limit["sufficient_u"], 105 * UM / 1.6448536, 1e-11
    yield f"{source}: notes", row["notes"], ["not_corrected"], 0


def warm_bore(score: Scorer) -> Iterator[Known]:
    """A bore of 130 mm that was read at 28 °C.

    Expansion of steel, 11.5·10⁻⁶/K, after J. Res. NIST 99, 31 (1994); of grey iron, 10.5·10⁻⁶/K,
    from memory.
    """
    for material, micrometres in ((None, -10.92), ("steel", 1.04)):
        known = gauge(BORE_GAUGE, "0.001", **({"material": material} if material else {}))
        spot = {"station": "top", "axis": "thrust"}
        read = reading("p/1", "size", ["130.000"], spot=spot, gauge=BORE_GAUGE, part_c=28)
        at_20 = measured(score, BORE, [known, read])["size"]["value"]
        name = f"bore at 28 °C, gauge of {material or 'nothing that grows'}"
        yield f"{name}: size at 20 °C", at_20 - 0.130, micrometres * UM, 1e-12


def lift_of_a_lobe(score: Scorer) -> Iterator[Known]:
    """A lobe's lift is its height less its base circle, worked on paper after the method page."""
    scale = {
        "method": "gauged",
        "quantity": "length",
        "wears": "smaller",
        "makes": "difference",
        "stations": ["height", "base_circle"],
    }
    heights = [
        reading("p/1", "size", values, spot={"station": station})
        for station, values in (("height", ["50.02", "50.06"]), ("base_circle", ["40.0"]))
    ]
    new = sizes(size("p", "size", new_low="10.10", new_high="10.10", limit_low="10.00"))
    row = measured(score, scale, [new, *heights])
    yield "lift of a lobe: size", row["size"]["value"], 0.01004, 1e-12
    # Repeats 0.02 mm, ν = 1; steps of 0.01 and of 0.1 mm: 0.0004 + (0.0001 + 0.01)/12.
    u = math.sqrt(0.0004 + 0.0101 / 12) * 1e-3
    yield "lift of a lobe: u", row["size"]["u"], u, 1e-12
    yield "lift of a lobe: degrees of freedom", row["size"]["dof"], (u * 1e3) ** 4 / 0.0004**2, 1e-6
    yield "lift of a lobe: share", row["share"]["value"], 0.6, 1e-9
    yield "lift of a lobe: verdict", row["verdict"], "cannot_say", 0


def left_out(score: Scorer) -> Iterator[Known]:
    """A size without a limit counts for nothing, one with a limit and no reading for something."""
    scale = {**BORE, "stations": [], "axes": []}
    two = [place(id, 1, [trait("size", "gauged"), trait("wear", "grade")]) for id in ("p", "q")]
    sheet = plan({"gauged": scale, "grade": GRADE_TABLE}, [section("s", 1, two)])
    limited = sizes(size("q", "size", new_low="1.00", new_high="1.01", limit_high="1.10"))
    bodies = [rating(f"{id}/1", "wear", {"grade": "light"}) for id in ("p", "q")]
    read = reading("p/1", "size", ["1.05"])
    result = score(card(sheet, [("one", body) for body in (limited, read, *bodies)]))
    p, q = node(result, "s/part/p/1"), node(result, "s/part/q/1")
    yield "left out: no limit", (p["coverage"], p["bounds"]), (1.0, [7.5, 7.5]), 0
    yield "left out: not read", (q["coverage"], q["bounds"]), (0.5, [3.75, 8.75]), 0
    yield "left out: of the engine", node(result, "engine")["coverage"], 0.75, 0


def refusal(call: Callable[[], object]) -> bool:
    """Whether the call is refused as out of range."""
    try:
        call()
    except reference.OutOfRange:
        return True
    return False


#: RFC 8785, appendix B: the bits of a double and its text.
RFC_8785_NUMBERS = (
    ("0000000000000000", "0"),
    ("8000000000000000", "0"),
    ("0000000000000001", "5e-324"),
    ("8000000000000001", "-5e-324"),
    ("7fefffffffffffff", "1.7976931348623157e+308"),
    ("ffefffffffffffff", "-1.7976931348623157e+308"),
    ("4340000000000000", "9007199254740992"),
    ("c340000000000000", "-9007199254740992"),
    ("4430000000000000", "295147905179352830000"),
    ("44b52d02c7e14af5", "9.999999999999997e+22"),
    ("44b52d02c7e14af6", "1e+23"),
    ("44b52d02c7e14af7", "1.0000000000000001e+23"),
    ("444b1ae4d6e2ef4e", "999999999999999700000"),
    ("444b1ae4d6e2ef4f", "999999999999999900000"),
    ("444b1ae4d6e2ef50", "1e+21"),
    ("3eb0c6f7a0b5ed8c", "9.999999999999997e-7"),
    ("3eb0c6f7a0b5ed8d", "0.000001"),
    ("41b3de4355555553", "333333333.3333332"),
    ("41b3de4355555554", "333333333.33333325"),
    ("41b3de4355555555", "333333333.3333333"),
    ("41b3de4355555556", "333333333.3333334"),
    ("41b3de4355555557", "333333333.33333343"),
    ("becbf647612f3696", "-0.0000033333333333333333"),
    ("43143ff3c1cb0959", "1424953923781206.2"),
)


def rfc_8785() -> Iterator[Known]:
    """The examples that RFC 8785 prints: sections 3.2.2 and 3.2.3, appendix B."""
    for bits, text in RFC_8785_NUMBERS:
        (double,) = struct.unpack(">d", bytes.fromhex(bits))
        yield f"RFC 8785 appendix B: {bits}", canonical.number(double), text, 0
    for bits in ("7fffffffffffffff", "7ff0000000000000"):
        (double,) = struct.unpack(">d", bytes.fromhex(bits))
        yield f"RFC 8785 appendix B: {bits} refused", fails(canonical.number, double), True, 0
    sample = (
        r'{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],'
        r'"string":"\u20ac$\u000F\u000aA\u0027\u0042\u0022\u005c\\\"\/",'
        r'"literals":[null,true,false]}'
    )
    text = (
        '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],'
        '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}'
    )
    yield "RFC 8785 3.2.2: sample", canonical.canonical(canonical.load(sample)), text, 0
    names = ["\u20ac", "\r", "\ufb33", "1", "\U0001f600", "\u0080", "\u00f6"]
    ordered = ["\r", "1", "\u0080", "\u00f6", "\u20ac", "\U0001f600", "\ufb33"]
    sorted_text = canonical.canonical({name: 0 for name in names})
    yield "RFC 8785 3.2.3: sorting", list(canonical.load(sorted_text)), ordered, 0
    yield "RFC 8785 3.2.2.2: lone surrogate refused", fails(canonical.string, "\udead"), True, 0
    yield "RFC 7493 2.3: member twice refused", fails(canonical.load, '{"a":1,"a":2}'), True, 0
    empty = "sha256:e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    bare = "sha256:44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a"
    yield "digest: leaves itself out", canonical.digest({"digest": empty}), bare, 0


def fails(call: Callable[[Any], object], argument: Any) -> bool:
    """Whether the call refuses its argument."""
    try:
        call(argument)
    except ValueError:
        return True
    return False


def agrees(got: Any, expected: Any, tolerance: float) -> bool:
    """Whether a value is the one expected, to a tolerance if there is one."""
    if tolerance and isinstance(got, int | float) and isinstance(expected, int | float):
        return abs(got - expected) <= tolerance
    return bool(got == expected)


#: Checks of single functions of the reference.
SINGLE: tuple[Callable[[], Iterator[Known]], ...] = (deposits, merit_sums, single_looks)
#: Checks of whole cards, for the reference and for the native command alike.
CARDS: tuple[Callable[[Scorer], Iterator[Known]], ...] = (
    worked,
    trade,
    correlation,
    standing,
    edges,
    shape_of_a_bore,
    bore_against_its_limit,
    warm_bore,
    lift_of_a_lobe,
    left_out,
)
