"""The page that is handed over, read by an HTML parser that is none of ours.

`html5lib` follows the parsing rules of the HTML standard and is told to stop at the first error. What is looked for
in the tree: nothing that runs or loads, every way within the page leads to one place, the card that it carries is the
one that went in, byte for byte, and the figures of its first sentences are those that ``score`` gives.
"""

from __future__ import annotations

import base64
import re
from collections import Counter
from collections.abc import Iterator
from typing import Any
from xml.etree.ElementTree import Element

import html5lib

#: Elements that run, load or send something.
NEVER = {"script", "iframe", "object", "embed", "img", "link", "form", "base", "video", "audio"}
CARRIED = "data:application/json;base64,"
HTML = "{http://www.w3.org/1999/xhtml}"


def local(name: str) -> str:
    """A name without its namespace."""
    return name.rsplit("}", 1)[-1]


def text(element: Element) -> str:
    """All text in an element, spaces made one."""
    return " ".join("".join(element.itertext()).split())


def differences(page: str, card: bytes, answer: dict[str, Any], language: str) -> Iterator[str]:
    """What is wrong with a page, in words."""
    parser = html5lib.HTMLParser(strict=True)
    try:
        root = parser.parse(page)
    except html5lib.html5parser.ParseError as error:
        yield f"not HTML: {error} {parser.errors[-1:]}"
        return
    elements = [element for element in root.iter() if isinstance(element.tag, str)]
    ids = Counter(element.get("id") for element in elements if element.get("id"))
    for name, times in ids.items():
        if times > 1:
            yield f"the id {name} stands {times} times"
    if root.get("lang") != language:
        yield f"the language is {root.get('lang')}"
    carried = []
    for element in elements:
        if local(element.tag) in NEVER:
            yield f"there is a {local(element.tag)}"
        for name, value in element.attrib.items():
            if local(name).startswith("on") or local(name) in ("src", "style", "srcdoc", "action"):
                yield f"there is an attribute {name}"
            if local(name) != "href":
                continue
            if value.startswith(CARRIED):
                carried.append(base64.b64decode(value.removeprefix(CARRIED), validate=True))
            elif not value.startswith("#") or value[1:] not in ids:
                yield f"a way leads to {value[:60]}"
    if carried != [card]:
        yield f"{len(carried)} cards are carried, or another than went in"
    yield from said(root, answer)


def said(root: Element, answer: dict[str, Any]) -> Iterator[str]:
    """The figures of the sentences against those of ``score``."""
    lists = [e for e in root.iter(f"{HTML}ul") if "plain__list" in e.get("class", "").split()]
    if len(lists) != 1:
        yield f"{len(lists)} lists of sentences"
        return
    sentences = [text(item) for item in lists[0]]
    engine = next(node["all"] for node in answer["nodes"] if node["path"] == "engine")
    if engine["score"] is None:
        return
    figures = [re.findall(r"\d+(?:[.,]\d+)?", sentence) for sentence in sentences]
    shown = f"{engine['score']:.1f}"
    # A score that lies on the edge between two tenths may be shown as either.
    near = {f"{engine['score'] + step:.1f}" for step in (-1e-9, 0, 1e-9)}
    found = [figure.replace(",", ".") for figure in figures[1][:1]]
    if not near.intersection(found):
        yield f"the score is said as {found}, not {shown}: {sentences[1]}"
    left_out = len(answer["exclusions"])
    counts = {figure for line in figures for figure in line}
    if left_out and str(left_out) not in counts:
        yield f"nothing is said of {left_out} left out"
