"""Writes colours with their CIE L*, a* and b* for the tests of the shades of a photo.

Run by hand where scikit-image is at hand: ``python3 tests/reference/skimage_colours.py > FILE``. The figures are those of
``skimage.color.rgb2lab`` of scikit-image 0.26.0 (white D65, observer of 2 degrees).
"""

from __future__ import annotations

import numpy as np
from skimage import color

CORNERS = [(r, g, b) for r in (0, 255) for g in (0, 255) for b in (0, 255)]
DARK = [(n, n, n) for n in range(0, 12)]


def main() -> None:
    """A line for each colour: red, green, blue, L*, a*, b*."""
    drawn = np.random.default_rng(20261127).integers(0, 256, size=(200, 3))
    for colour in [*CORNERS, *DARK, *drawn.tolist()]:
        lab = color.rgb2lab(np.array([[colour]], dtype=np.uint8))[0, 0]
        print(*colour, *(f"{figure:.4f}" for figure in lab), sep=",")


if __name__ == "__main__":
    main()
