"""Writes the histograms of scikit-image's own pictures for the tests of thresholds.

Run by hand where scikit-image is at hand: ``python3 tests/reference/skimage_histograms.py > FILE``. The figures that
the tests hold against these histograms are those of ``skimage.filters.threshold_otsu`` and ``threshold_multiotsu`` of
scikit-image 0.26.0, which count pictures of 8 bits by whole shades, whatever their darkest and lightest.
"""

from __future__ import annotations

import numpy as np
from skimage import data, filters

NAMES = ["camera", "coins", "page", "text", "moon", "brick", "grass", "gravel"]


def main() -> None:
    """A line for each picture: its name, the thresholds of two, three and four classes, and its 256 counts."""
    for name in NAMES:
        image = getattr(data, name)()
        assert image.dtype == np.uint8
        counts = np.bincount(image.ravel(), minlength=256)
        more = ["+".join(map(str, filters.threshold_multiotsu(image, classes))) for classes in (3, 4)]
        print(name, filters.threshold_otsu(image), *more, *counts, sep=",")


if __name__ == "__main__":
    main()
