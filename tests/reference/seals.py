"""Seals of a card, against ``cryptography`` and ``hashlib``.

A seal covers, of each device, the entries up to a Lamport counter. Its digest is that of the card's file with these entries
alone: SHA-256 over the canonical form (RFC 8785) without the ``digest`` member. Signed with Ed25519 (RFC 8032) is the
canonical form of what the seal says but its signature, with the card's id and ``"ringland": "seal"``.
"""

from __future__ import annotations

import copy
import json
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import canonical
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

Json = dict[str, Any]
#: More seals than a screen looks into.
LATER = 21
#: The native command with its arguments.
Run = Callable[..., subprocess.CompletedProcess[str]]


def message(card: Json, seal: Json) -> bytes:
    """What is signed."""
    said = {name: value for name, value in seal.items() if name != "signature"}
    return canonical.canonical({**said, "card": card["id"], "ringland": "seal"}).encode("utf-8")


def covered(card: Json, covers: Json) -> list[Json]:
    """The entries that are covered, in their order."""
    return [one for one in card["entries"] if one["lamport"] <= covers.get(one["device"], -1)]


def fault(card: Json, seal: Json) -> str | None:
    """Why a seal does not hold; nothing where it does."""
    key = Ed25519PublicKey.from_public_bytes(bytes.fromhex(seal["key"]))
    try:
        key.verify(bytes.fromhex(seal["signature"]), message(card, seal))
    except InvalidSignature:
        return "signature"
    entries = covered(card, seal["covers"])
    if len(entries) != seal["entries"]:
        return "number of entries"
    document = {name: value for name, value in card.items() if name != "digest"}
    if canonical.digest({**document, "entries": entries}) != seal["digest"]:
        return "digest"
    return None


def seals_of(card: Json) -> list[Json]:
    """The seals on a card."""
    return [one["body"]["seal"] for one in card["entries"] if one["body"]["kind"] == "seal"]


def sealed_here(card: Json, private: Ed25519PrivateKey) -> Json:
    """The card with a seal of our own making, and its digest anew."""
    document = {name: value for name, value in card.items() if name != "digest"}
    covers: Json = {}
    for one in card["entries"]:
        covers[one["device"]] = max(covers.get(one["device"], 0), one["lamport"])
    seal: Json = {
        "name": "Ñ. Rook",
        "at": "2026-11-27T12:00:00Z",
        "covers": covers,
        "entries": len(card["entries"]),
        "digest": canonical.digest(document),
        "version": card["version"],
        "key": private.public_key().public_bytes_raw().hex(),
    }
    seal["signature"] = private.sign(message(card, seal)).hex()
    lamport = max(one["lamport"] for one in card["entries"]) + 1
    entry = {
        "id": f"019a0000-0000-7000-8000-{lamport:012x}",
        "device": "019a0000-0000-7000-8000-00000000beef",
        "lamport": lamport,
        "time": "2026-11-27T12:00:00Z",
        "rater": "Ñ. Rook",
        "body": {"kind": "seal", "seal": seal},
    }
    return {**document, "entries": [*card["entries"], entry]}


def differences(run: Run, path: Path, folder: Path) -> Iterator[str]:
    """What the command and these say otherwise of seals on a card."""
    key, sealed, ours = folder / "one.key.json", folder / "sealed.json", folder / "ours.json"
    if run("seal-key", "R. Hale", "-o", key).returncode != 0:
        yield "seal-key: no key"
    if run("seal", path, "--key", key, "-o", sealed).returncode != 0:
        yield "seal: no seal"
    card = json.loads(sealed.read_text(encoding="utf-8"))
    (seal,) = seals_of(card)
    if why := fault(card, seal):
        yield f"the command's seal: {why}"
    seed = json.loads(key.read_text(encoding="utf-8"))["seed"]
    private = Ed25519PrivateKey.from_private_bytes(bytes.fromhex(seed))
    if private.public_key().public_bytes_raw().hex() != seal["key"]:
        yield "seal-key: another public key"
    # A second seal, of another maker, covers the first.
    both = sealed_here(card, Ed25519PrivateKey.generate())
    ours.write_bytes(canonical.card_bytes(both))
    done = run("check", ours)
    if done.returncode != 0 or done.stdout.count("; holds") != 2:
        yield f"check: our own seal: {done.stderr.strip()[:300]}"
    for what, change in CHANGES.items():
        changed = copy.deepcopy(both)
        change(changed)
        ours.write_bytes(canonical.card_bytes(changed))
        done = run("check", ours)
        if done.returncode == 0 or "BROKEN" not in done.stderr:
            yield f"check: {what} passes"
        if not any(fault(changed, one) for one in seals_of(changed)):
            yield f"{what} is no change"
    # A broken seal is found below however many that hold.
    hidden = both
    first(hidden, "seal")["body"]["seal"].update(name="N. Other")
    for _ in range(LATER):
        hidden = sealed_here(hidden, Ed25519PrivateKey.generate())
    ours.write_bytes(canonical.card_bytes(hidden))
    done = run("check", ours)
    if done.returncode == 0 or "BROKEN" not in done.stderr:
        yield "check: a broken seal hides below later ones"
    for file in (key, sealed, ours):
        file.unlink()


def first(card: Json, kind: str) -> Json:
    """The first entry of a kind."""
    return next(one for one in card["entries"] if one["body"]["kind"] == kind)


def lost(card: Json) -> None:
    """Loses an entry that no other names."""
    card["entries"].remove(first(card, "fact"))


#: What breaks a seal, each by itself.
CHANGES: dict[str, Callable[[Json], None]] = {
    "another rater": lambda card: first(card, "rating").update(rater="N. Other"),
    "another time": lambda card: first(card, "rating").update(time="2026-01-01T00:00:00Z"),
    "a member more": lambda card: first(card, "rating").update(newer=1),
    "an entry less": lost,
    "another name": lambda card: first(card, "seal")["body"]["seal"].update(name="N. Other"),
    "another day": lambda card: first(card, "seal")["body"]["seal"].update(at="2020-01-01T00:00:00Z"),
    "another plan": lambda card: card["plan"].update(name="another"),
}
