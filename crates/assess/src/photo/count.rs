//! How much of a region has each shade.

use ringland_card::photo::{LeftOut, Point, Region, Shade};
use ringland_stats::{
    StatsError, homography::Homography, polygon::crossings, threshold::Histogram,
};

use super::shade::Shades;

/// Bytes of a pixel: red, green, blue and how much it covers, as browsers give them.
pub const PIXEL_BYTES: usize = 4;

/// A picture's pixels, row by row from its upper left corner.
#[derive(Clone, Copy, Debug)]
pub struct Pixels<'p> {
    width: usize,
    rgba: &'p [u8],
}

/// Why nothing was counted.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CountError {
    /// Bytes that are no rows of such pixels.
    #[error("{bytes} bytes are no rows of {width} pixels of {PIXEL_BYTES} bytes")]
    Pixels {
        /// How many bytes.
        bytes: usize,
        /// The width of a row.
        width: usize,
    },
    /// Corners that no surface can have, or that the region goes beyond.
    #[error("the rectangle: {0}")]
    Rectangle(StatsError),
    /// A region that is none.
    #[error("the region: {0}")]
    Region(StatsError),
    /// A region with no pixel's middle in it.
    #[error("the region holds no pixel")]
    Empty,
}

impl<'p> Pixels<'p> {
    /// Of rows of that width.
    ///
    /// # Errors
    ///
    /// [`CountError::Pixels`].
    pub fn new(width: usize, rgba: &'p [u8]) -> Result<Self, CountError> {
        let row = width * PIXEL_BYTES;
        if row == 0 || rgba.is_empty() || !rgba.len().is_multiple_of(row) {
            return Err(CountError::Pixels {
                bytes: rgba.len(),
                width,
            });
        }
        Ok(Self { width, rgba })
    }

    fn height(&self) -> usize {
        self.rgba.len() / (self.width * PIXEL_BYTES)
    }
}

/// How much of a region has each shade.
#[derive(Clone, Debug, PartialEq)]
pub struct ShadeCount {
    /// Pixels by shade.
    pub pixels: Histogram,
    /// Area by shade on the surface, in any unit.
    pub area: [f64; 256],
}

impl ShadeCount {
    /// As numbers, to be handed on: pixels by shade, then area by shade.
    pub fn figures(&self) -> Vec<f64> {
        let pixels = self.pixels.shades().map(|pixels| pixels as f64);
        pixels.chain(self.area).collect()
    }

    /// Of the numbers of [`Self::figures`]; nothing where they are none.
    pub fn of_figures(figures: &[f64]) -> Option<Self> {
        let (pixels, area) = figures.split_at_checked(256)?;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "whole numbers of pixels"
        )]
        let pixels: Vec<u64> = pixels.iter().map(|pixels| *pixels as u64).collect();
        Some(Self {
            pixels: Histogram::of_counts(pixels.try_into().ok()?),
            area: area.try_into().ok()?,
        })
    }
}

/// A region's shades, pixel by pixel, for whoever shows them.
#[derive(Clone, Debug, PartialEq)]
pub struct ShadePlane {
    /// The shade of each pixel; none outside the region.
    pub shades: Vec<Option<u8>>,
    /// How much there is of each.
    pub count: ShadeCount,
}

/// Counts the shades of a region.
///
/// A pixel counts whole where its middle lies in the region and in nothing that is left out. With a rectangle it counts
/// by the area that it covers on the surface: |det J| of the map that takes the rectangle's corners on the photo to those
/// of a square, at the pixel's middle. Stretching the square to the rectangle's true sides multiplies every area alike, so
/// that these need not be known.
///
/// # Errors
///
/// [`CountError`]; among them a region that reaches the horizon of the rectangle's plane.
pub fn count(pixels: Pixels<'_>, region: &Region, kind: Shade) -> Result<ShadePlane, CountError> {
    let shades = Shades::of(kind);
    let shapes = Shapes::of(region);
    let flat = region.rectangle.map(square_of).transpose()?;
    let mut plane = vec![None; pixels.width * pixels.height()];
    let mut counts = [0; 256];
    let mut area = [0.0; 256];
    let mut inside = vec![false; pixels.width];
    let rows = plane.chunks_exact_mut(pixels.width);
    let bytes = pixels.rgba.chunks_exact(pixels.width * PIXEL_BYTES);
    for (row, (out, rgba)) in rows.zip(bytes).enumerate() {
        let y = row as f64 + 0.5;
        shapes
            .mark_row(y, &mut inside)
            .map_err(CountError::Region)?;
        let pixels = out.iter_mut().zip(rgba.chunks_exact(PIXEL_BYTES));
        for (column, (out, pixel)) in pixels.enumerate() {
            if !inside[column] {
                continue;
            }
            let shade = shades.shade([pixel[0], pixel[1], pixel[2]]);
            *out = Some(shade);
            counts[usize::from(shade)] += 1;
            area[usize::from(shade)] += match &flat {
                Some(flat) => flat
                    .magnification((column as f64 + 0.5, y))
                    .map_err(CountError::Rectangle)?,
                None => 1.0,
            };
        }
    }
    let pixels = Histogram::of_counts(counts);
    if pixels.total() == 0 {
        return Err(CountError::Empty);
    }
    Ok(ShadePlane {
        shades: plane,
        count: ShadeCount { pixels, area },
    })
}

fn square_of(corners: [Point; 4]) -> Result<Homography, CountError> {
    let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
    Homography::from_points(corners.map(Into::into), square).map_err(CountError::Rectangle)
}

/// What counts of a region and what does not, as polygons and discs.
struct Shapes {
    region: Vec<(f64, f64)>,
    left_out: Vec<Vec<(f64, f64)>>,
    discs: Vec<(Point, f64)>,
}

impl Shapes {
    fn of(region: &Region) -> Self {
        let polygon = |corners: &[Point]| corners.iter().map(|corner| (*corner).into()).collect();
        let mut shapes = Self {
            region: polygon(&region.corners),
            left_out: Vec::new(),
            discs: Vec::new(),
        };
        for part in &region.left_out {
            match part {
                LeftOut::Outline { corners } => shapes.left_out.push(polygon(corners)),
                LeftOut::Brush { way, width } => {
                    let half = width / 2.0;
                    shapes.discs.extend(way.iter().map(|point| (*point, half)));
                    let steps = way
                        .windows(2)
                        .filter_map(|ends| strip(ends[0], ends[1], half));
                    shapes.left_out.extend(steps);
                }
            }
        }
        shapes
    }

    /// Says of each pixel of a row, whose middles lie at that height, whether it counts.
    fn mark_row(&self, y: f64, inside: &mut [bool]) -> Result<(), StatsError> {
        inside.fill(false);
        fill(&self.region, y, inside, true)?;
        for corners in &self.left_out {
            fill(corners, y, inside, false)?;
        }
        for (middle, half) in &self.discs {
            let up = y - middle.y;
            if up.abs() < *half {
                let along = libm::sqrt(half * half - up * up);
                set(inside, middle.x - along, middle.x + along, false);
            }
        }
        Ok(())
    }
}

/// What lies within the half width of a straight step of a brush, its ends aside; nothing where it has no length.
fn strip(from: Point, to: Point, half: f64) -> Option<Vec<(f64, f64)>> {
    let length = from.distance(to);
    (length > 0.0).then(|| {
        let across = (
            (to.y - from.y) / length * half,
            (from.x - to.x) / length * half,
        );
        vec![
            (from.x + across.0, from.y + across.1),
            (to.x + across.0, to.y + across.1),
            (to.x - across.0, to.y - across.1),
            (from.x - across.0, from.y - across.1),
        ]
    })
}

fn fill(corners: &[(f64, f64)], y: f64, inside: &mut [bool], to: bool) -> Result<(), StatsError> {
    for span in crossings(corners, y)?.chunks_exact(2) {
        set(inside, span[0], span[1], to);
    }
    Ok(())
}

/// Sets the pixels whose middles lie from the one place, that included, to the other.
fn set(inside: &mut [bool], from: f64, to: f64, value: bool) {
    let first = column_from(from, inside.len());
    let end = column_from(to, inside.len());
    if let Some(pixels) = inside.get_mut(first..end) {
        pixels.fill(value);
    }
}

/// The first pixel whose middle is not before a place.
fn column_from(x: f64, columns: usize) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held within the row before"
    )]
    let column = libm::ceil(x - 0.5).clamp(0.0, columns as f64) as usize;
    column
}
