"""Holds what was measured on a card against the reference's, figure by figure."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any

Json = dict[str, Any]

#: Largest difference allowed between two figures, of the figure.
TOLERANCE = 1e-9
#: What the rounding of a double may leave of a difference of two sizes, of the size.
ROUNDING = 1e-15
#: A component that is this small a part of u comes of rounding: repeats that are all the same.
NEGLIGIBLE = 1e-9
#: Degrees of freedom that come of such a component.
ENDLESS = 1e15
#: Largest difference allowed between two probabilities.
PROBABILITY = 1e-8
#: With so many degrees of freedom the incomplete beta function loses digits.
MANY, PROBABILITY_OF_MANY = 1e5, 1e-6


def near(a: float | None, b: float | None, scale: float = 0.0) -> bool:
    """Whether two figures agree, but for the rounding of what is of that scale."""
    if a is None or b is None:
        return a is b
    return abs(a - b) <= TOLERANCE * abs(a) + ROUNDING * abs(scale)


def said(what: str, ours: Any, theirs: Any) -> str:
    """A difference in a line."""
    return f"{what}: reference {ours}, command {theirs}"


def differences(ours: Sequence[Json], theirs: Sequence[Json]) -> Iterator[str]:
    """Every difference between the measurements on two sides."""
    paths = [row["path"] for row in ours]
    if paths != [row["path"] for row in theirs]:
        both = {row["path"] for row in theirs} ^ set(paths)
        yield f"not the same was measured: {sorted(both)[:5]}"
        return
    for a, b in zip(ours, theirs, strict=True):
        for line in row_differences(a, b):
            yield f"{a['path']}: {line}"


def row_differences(ours: Json, theirs: Json) -> Iterator[str]:
    """The differences at one measured place."""
    if set(theirs) != set(ours):
        yield said("members", sorted(ours), sorted(theirs))
        return
    scale = max(abs(spot["value"]) for spot in ours["spots"])
    for what in ("unit", "verdict"):
        if ours[what] != theirs[what]:
            yield said(what, ours[what], theirs[what])
    yield from spots_differ(ours["spots"], theirs["spots"], scale)
    yield from spots_differ([ours["size"]], [theirs["size"]], scale)
    yield from new_differs(ours["new"], theirs["new"])
    yield from figures_differ("wear", ours["wear"], theirs["wear"], scale)
    allowed = scale * steepest(ours["share"])
    yield from figures_differ("share", ours["share"], theirs["share"], allowed)
    yield from rates_differ(ours["rates"], theirs["rates"], scale)
    for shape in ("out_of_round", "taper"):
        yield from shapes_differ(shape, ours[shape], theirs[shape], scale)
    yield from limits_differ(ours["limits"], theirs["limits"], ours["size"], scale)
    yield from notes_differ(ours["notes"], theirs["notes"], scale)


def steepest(figure: Json | None) -> float:
    """How far a figure moves with what it is made of."""
    return max((abs(row["sensitivity"]) for row in figure["budget"]), default=0.0) if figure else 0


def figures_differ(
    what: str, ours: Json | None, theirs: Json | None, scale: float
) -> Iterator[str]:
    """The differences between two figures with their budgets."""
    if ours is None or theirs is None:
        if ours is not theirs:
            yield said(what, ours, theirs)
        return
    for part in ("value", "u"):
        if not near(ours[part], theirs[part], scale):
            yield said(f"{what}: {part}", ours[part], theirs[part])
    if not near_dof(ours.get("dof"), theirs.get("dof"), scale / ours["u"] if ours["u"] else 0.0):
        yield said(f"{what}: degrees of freedom", ours.get("dof"), theirs.get("dof"))
    a, b = rows_of(ours), rows_of(theirs)
    if [row["source"] for row in a] != [row["source"] for row in b]:
        yield said(f"{what}: components", a, b)
        return
    for mine, yours in zip(a, b, strict=True):
        name = f"{what}: {mine['source']}"
        if not near(mine["u"], yours["u"], scale if mine["source"] == "Repeats" else 0.0):
            yield said(f"{name}: u", mine["u"], yours["u"])
        moves = max(abs(row["sensitivity"]) for row in a)
        if not near(mine["sensitivity"], yours["sensitivity"], moves * max(1.0, scale / ours["u"])):
            yield said(f"{name}: sensitivity", mine["sensitivity"], yours["sensitivity"])


def near_dof(ours: float | None, theirs: float | None, rounding: float) -> bool:
    """Whether degrees of freedom agree; they go with the fourth power of u."""
    ours = None if ours is None or ours > ENDLESS else ours
    theirs = None if theirs is None or theirs > ENDLESS else theirs
    if ours is None or theirs is None:
        return ours is theirs
    return abs(ours / theirs - 1) <= 4 * (TOLERANCE + ROUNDING * rounding)


def rows_of(figure: Json) -> list[Json]:
    """The components that add to u, in an order of their own."""
    least = NEGLIGIBLE * figure["u"]
    kept = [row for row in figure["budget"] if abs(row["u"] * row["sensitivity"]) > least]
    return sorted(kept, key=lambda row: (row["source"], row["sensitivity"] < 0, row["u"]))


def spots_differ(ours: list[Json], theirs: list[Json], scale: float) -> Iterator[str]:
    """The differences between the spots of a place, or between the sizes they make."""
    names = [(spot["station"], spot["axis"]) for spot in ours]
    if names != [(spot["station"], spot["axis"]) for spot in theirs]:
        yield said("spots", names, [(spot["station"], spot["axis"]) for spot in theirs])
        return
    for name, a, b in zip(names, ours, theirs, strict=True):
        yield from figures_differ(f"spot {name}", a, b, scale)


def new_differs(ours: Json | None, theirs: Json | None) -> Iterator[str]:
    """The differences between two sizes when new."""
    if ours is None or theirs is None:
        if ours is not theirs:
            yield said("as new", ours, theirs)
        return
    if ours["from"] != theirs["from"]:
        yield said("as new: from", ours["from"], theirs["from"])
    for what in ("value", "u"):
        if not near(ours[what], theirs[what], ours["value"]):
            yield said(f"as new: {what}", ours[what], theirs[what])


def rates_differ(ours: list[Json], theirs: list[Json], scale: float) -> Iterator[str]:
    """The differences between the rates of wear."""
    if [rate["per"] for rate in ours] != [rate["per"] for rate in theirs]:
        yield said("rates", ours, theirs)
        return
    for a, b in zip(ours, theirs, strict=True):
        yield from figures_differ(f"rate per {a['per']}", a, b, scale * steepest(a))


def shapes_differ(what: str, ours: Json | None, theirs: Json | None, scale: float) -> Iterator[str]:
    """The differences between two shapes.

    Of shapes that are as large but for rounding any may be the largest.
    """
    if ours is None or theirs is None:
        if ours is not theirs:
            yield said(what, ours, theirs)
        return
    equals = [other for other in ours["others"] if near(other["value"], ours["value"], scale)]
    found = [list(shape_differs(what, other, theirs, scale)) for other in equals]
    yield from min(found, key=len)


def shape_differs(what: str, ours: Json, theirs: Json, scale: float) -> Iterator[str]:
    """The differences between two shapes that are there."""
    if ours["at"] != theirs["at"]:
        yield said(f"{what}: at", ours["at"], theirs["at"])
        return
    yield from figures_differ(what, ours, theirs, scale)
    limits = [[side["limit"]] if side["limit"] else [] for side in (ours, theirs)]
    yield from limits_differ(limits[0], limits[1], ours, scale)


def limits_differ(
    ours: list[Json], theirs: list[Json], figure: Json, scale: float
) -> Iterator[str]:
    """The differences between the verdicts on a figure."""
    allowed = PROBABILITY if figure.get("dof", 0.0) < MANY else PROBABILITY_OF_MANY
    allowed += ROUNDING * scale / figure["u"]
    if [said["of"] for said in ours] != [said["of"] for said in theirs]:
        yield said("limits", ours, theirs)
        return
    for a, b in zip(ours, theirs, strict=True):
        for what in ("limit", "sufficient_u"):
            if not near(a[what], b[what], scale):
                yield said(f"{a['of']}: {what}", a[what], b[what])
        if abs(a["probability"] - b["probability"]) > allowed:
            yield said(f"{a['of']}: probability", a["probability"], b["probability"])
        edge = min(abs(a["probability"] - p) for p in (0.05, 0.95))
        if a["verdict"] != b["verdict"] and edge > allowed:
            yield said(f"{a['of']}: verdict", a["verdict"], b["verdict"])


def notes_differ(ours: list[Any], theirs: list[Any], scale: float) -> Iterator[str]:
    """The differences between two lists of notes."""

    def flat(notes: list[Any]) -> list[str]:
        return sorted(note if isinstance(note, str) else next(iter(note)) for note in notes)

    def figure(notes: list[Any]) -> float:
        return math.fsum(x for note in notes if isinstance(note, dict) for x in note.values())

    if flat(ours) != flat(theirs) or not near(figure(ours), figure(theirs), scale):
        yield said("notes", ours, theirs)


def second_looks_differ(ours: list[Json], theirs: list[Json]) -> Iterator[str]:
    """The differences between what is worth a second look."""
    if [(row["path"], row["seen"]) for row in ours] != [
        (row["path"], row["seen"]) for row in theirs
    ]:
        yield said("second looks", ours, theirs)
        return
    for a, b in zip(ours, theirs, strict=True):
        for what in ("score", "share"):
            if not near(a[what], b[what], 1.0):
                yield said(f"second look at {a['path']}: {what}", a[what], b[what])
