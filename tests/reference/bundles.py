"""A card with its photos in one archive, against Python's own ``zipfile`` and ``hashlib``.

The archives here are made by ``zipfile``, packed and not, and those that the command writes are read by it. The photos
are PNGs put together after ISO/IEC 15948 with ``zlib``. What means harm is made by hand: names that lead out of a
folder, a bomb, a picture under another's name, a drawing with a script under a photo's name.
"""

from __future__ import annotations

import base64
import hashlib
import io
import json
import re
import struct
import subprocess
import zipfile
import zlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import canonical

#: The native command with its arguments.
Run = Callable[..., subprocess.CompletedProcess[str]]


def png(width: int, height: int, shade: int) -> bytes:
    """A grey picture of one shade."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    header = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    rows = (b"\0" + bytes([shade]) * width) * height
    parts = [chunk(b"IHDR", header), chunk(b"IDAT", zlib.compress(rows)), chunk(b"IEND", b"")]
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


def with_photos(card: dict[str, Any], pictures: list[tuple[bytes, int, int]], device: int) -> bytes:
    """The card with an entry for each picture, and its digest anew."""
    position = next(
        entry["body"]["at"]["position"] for entry in card["entries"] if entry["body"]["kind"] == "rating"
    )
    lamport = max(entry["lamport"] for entry in card["entries"])
    entries = list(card["entries"])
    for number, (picture, width, height) in enumerate(pictures, 1):
        photo = {
            "digest": hashlib.sha256(picture).hexdigest(),
            "picture": {"kind": "png", "width": width, "height": height, "bytes": len(picture)},
            "taken": "as_found" if number % 2 else "cleaned",
        }
        entries.append(
            {
                "id": f"019a0000-0000-7000-8000-{device:04x}{number:08x}",
                "device": f"019a0000-0000-7000-8000-{device:012x}",
                "lamport": lamport + number,
                "time": "2026-11-02T10:00:00Z",
                "rater": "P. Lens",
                "body": {"kind": "photo", "about": {"position": position}, "photo": photo},
            }
        )
    document = {name: value for name, value in card.items() if name != "digest"} | {"entries": entries}
    return canonical.card_bytes(document)


def archive(files: dict[str, bytes], method: int) -> bytes:
    """A zip archive of these files."""
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", method) as writer:
        for name, content in files.items():
            writer.writestr(name, content)
    return held.getvalue()


def name_of(picture: bytes) -> str:
    """What a photo is called in an archive."""
    return f"photos/{hashlib.sha256(picture).hexdigest()}.png"


def differences(run: Run, card: Path, folder: Path) -> Iterator[str]:
    """What is wrong, in words; ``run`` runs the command."""
    document = json.loads(card.read_text())
    one, two = png(40, 30, 90), png(16, 12, 200)
    first = with_photos(document, [(one, 40, 30)], 1)
    second = with_photos(document, [(two, 16, 12)], 2)

    def given(name: str, content: bytes) -> str:
        path = folder / name
        path.write_bytes(content)
        return str(path)

    files = {}
    for method, name in [(zipfile.ZIP_STORED, "stored"), (zipfile.ZIP_DEFLATED, "packed")]:
        held = archive({"six.card.json": first, name_of(one): one, "notes.txt": b"hello"}, method)
        files[name] = given(f"{name}.card.zip", held)
        said = run("check", files[name])
        if "1 of 1 photos with it, 1 files that are neither" not in said.stdout:
            yield f"{name}: check says {said.stdout}{said.stderr}"

    other = given("other.card.zip", archive({"six.card.json": second, name_of(two): two}, zipfile.ZIP_STORED))
    merged = {}
    for way, (a, b) in {"ab": (files["packed"], other), "ba": (other, files["stored"])}.items():
        output = folder / way / "six.card.zip"
        output.parent.mkdir(exist_ok=True)
        said = run("merge", a, b, "-o", str(output))
        if said.returncode != 0 or "2 photos" not in said.stdout:
            yield f"merge {way}: {said.stdout}{said.stderr}"
            return
        merged[way] = output.read_bytes()
    if merged["ab"] != merged["ba"]:
        yield "merged in either order the archives differ"
    with zipfile.ZipFile(io.BytesIO(merged["ab"])) as reader:
        if reader.testzip() is not None:
            yield f"a check sum is wrong: {reader.testzip()}"
        if sorted(reader.namelist()) != sorted(["six.card.json", name_of(one), name_of(two)]):
            yield f"the names are {reader.namelist()}"
        elif (reader.read(name_of(one)), reader.read(name_of(two))) != (one, two):
            yield "a photo is not the one that went in"
        kinds = [entry["body"]["kind"] for entry in json.loads(reader.read("six.card.json"))["entries"]]
        if kinds.count("photo") != 2:
            yield f"the merged card names {kinds.count('photo')} photos"

    page = folder / "six.card.html"
    run("report", str(folder / "ab" / "six.card.zip"), "-o", str(page))
    shown = re.findall(r'src="data:image/png;base64,([^"]*)"', page.read_text())
    if sorted(base64.b64decode(held, validate=True) for held in shown) != sorted([one, two]):
        yield f"the page shows {len(shown)} photos, or others"
    said = run("check", str(page))
    if "2 of 2 photos with it" not in said.stdout:
        yield f"check of the page says {said.stdout}{said.stderr}"
    edited = page.read_text().replace(shown[0], shown[1])
    if run("check", given("edited.card.html", edited.encode())).returncode == 0:
        yield "a page with one photo for another passes"
    run("report", str(folder / "ab" / "six.card.zip"), "-o", str(page), "--photos", "none")
    if "data:image" in page.read_text():
        yield "the page without photos shows one"

    svg = b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>"
    wrong = {
        "another's name": ({"six.card.json": first, name_of(one): two}, "its bytes are not those"),
        "no card": ({"six.json": first}, "0 files that end with"),
        "two cards": ({"a.card.json": first, "b.card.json": first}, "2 files that end with"),
        "bomb": ({"six.card.json": b" " * (80 << 20)}, "cannot be unpacked, or is larger"),
        "drawing": ({"six.card.json": with_photos(document, [(svg, 40, 30)], 3), name_of(svg): svg}, "no JPEG, PNG"),
    }
    for what, (content, why) in wrong.items():
        said = run("check", given("wrong.card.zip", archive(content, zipfile.ZIP_DEFLATED)))
        if said.returncode != 1 or why not in said.stderr:
            yield f"{what}: {said.returncode} {said.stdout}{said.stderr}"
    led_out = archive({"six.card.json": first, "../../six.card.json": second, "/etc/x": b"x"}, zipfile.ZIP_STORED)
    said = run("check", given("led.card.zip", led_out))
    if "0 of 1 photos with it, 2 files that are neither" not in said.stdout:
        yield f"names that lead out: {said.stdout}{said.stderr}"
