//! What somebody marks on a photo.

use serde::{Deserialize, Serialize};

use super::{Picture, picture::Outside};
use crate::{
    gauging::{Decimal, Quantity, Unit},
    tagged::tagged_serde,
};

/// The longest text of a mark, in characters.
pub const LONGEST_LABEL: usize = 200;
/// The most corners of an outline.
pub const MOST_CORNERS: usize = 500;

/// A point of a photo: pixels from its left and from its upper edge, as it is shown upright.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(from = "(f64, f64)", into = "(f64, f64)")]
#[cfg_attr(feature = "schema", schemars(with = "(f64, f64)"))]
pub struct Point {
    /// From the left edge.
    pub x: f64,
    /// From the upper edge.
    pub y: f64,
}

impl From<(f64, f64)> for Point {
    fn from((x, y): (f64, f64)) -> Self {
        Self { x, y }
    }
}

impl From<Point> for (f64, f64) {
    fn from(point: Point) -> Self {
        (point.x, point.y)
    }
}

impl Point {
    /// How far another point is, in pixels.
    pub fn distance(self, other: Self) -> f64 {
        libm::hypot(self.x - other.x, self.y - other.y)
    }
}

/// A mark on a photo.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(tag = "shape"))]
#[serde(remote = "Self", rename_all = "snake_case")]
pub enum Mark {
    /// Points at something.
    Arrow {
        /// Where it begins.
        from: Point,
        /// What it points at.
        to: Point,
        /// What it says.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        #[cfg_attr(feature = "schema", schemars(length(max = LONGEST_LABEL)))]
        text: String,
    },
    /// Goes round something.
    Outline {
        /// Its corners, the last joined to the first.
        #[cfg_attr(feature = "schema", schemars(length(min = 3, max = MOST_CORNERS)))]
        corners: Vec<Point>,
        /// What it says.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        #[cfg_attr(feature = "schema", schemars(length(max = LONGEST_LABEL)))]
        text: String,
    },
    /// Words at a place.
    Note {
        /// Where.
        at: Point,
        /// The words.
        #[cfg_attr(feature = "schema", schemars(length(min = 1, max = LONGEST_LABEL)))]
        text: String,
    },
    /// Two points whose distance is known, as those of a rule laid beside the part.
    Scale {
        /// One.
        from: Point,
        /// The other.
        to: Point,
        /// Their distance, as it was typed.
        length: Decimal,
        /// The unit that it was typed in.
        unit: Unit,
    },
    /// Two points whose distance is wanted; the last scale on the photo gives it.
    Length {
        /// One.
        from: Point,
        /// The other.
        to: Point,
    },
}

tagged_serde!(Mark);

/// Why a mark was refused.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum MarkError {
    /// A point beside the picture, or none.
    #[error(transparent)]
    Outside(#[from] Outside),
    /// Two points that are one.
    #[error("both ends of the mark are the same point")]
    NoExtent,
    /// An outline of too few or too many corners.
    #[error("the outline has {given} corners: allowed is 3 to {MOST_CORNERS}")]
    Corners {
        /// How many it has.
        given: usize,
    },
    /// No words where there must be some, or too many.
    #[error(
        "the mark's text has {given} characters: allowed is {LONGEST_LABEL} at most, and 1 at least where it is all there is"
    )]
    Text {
        /// Its length.
        given: usize,
    },
    /// A known distance that none is.
    #[error("the known distance is {given}: it must be above 0, in a unit of length")]
    Known {
        /// What was given.
        given: String,
    },
}

impl Mark {
    /// Its points.
    pub fn points(&self) -> Vec<Point> {
        match self {
            Self::Arrow { from, to, .. }
            | Self::Scale { from, to, .. }
            | Self::Length { from, to } => vec![*from, *to],
            Self::Outline { corners, .. } => corners.clone(),
            Self::Note { at, .. } => vec![*at],
        }
    }

    /// Whether it is a length that is read off the photo.
    pub fn is_length(&self) -> bool {
        matches!(self, Self::Length { .. })
    }

    /// What it says in words; nothing where it says none.
    pub fn text(&self) -> &str {
        match self {
            Self::Arrow { text, .. } | Self::Outline { text, .. } | Self::Note { text, .. } => text,
            Self::Scale { .. } | Self::Length { .. } => "",
        }
    }

    /// What can be said of it without its photo.
    ///
    /// # Errors
    ///
    /// [`MarkError`] with what is allowed.
    pub fn check(&self) -> Result<(), MarkError> {
        let given = self.text().chars().count();
        if given > LONGEST_LABEL || (given == 0 && matches!(self, Self::Note { .. })) {
            return Err(MarkError::Text { given });
        }
        match self {
            Self::Arrow { from, to, .. }
            | Self::Length { from, to }
            | Self::Scale { from, to, .. }
                if from == to =>
            {
                Err(MarkError::NoExtent)
            }
            Self::Scale { length, unit, .. }
                if length.value() <= 0.0 || unit.quantity() != Quantity::Length =>
            {
                Err(MarkError::Known {
                    given: format!("{length} {}", unit.sign()),
                })
            }
            Self::Outline { corners, .. } if !(3..=MOST_CORNERS).contains(&corners.len()) => {
                Err(MarkError::Corners {
                    given: corners.len(),
                })
            }
            _ => Ok(()),
        }
    }

    /// Whether all of it is on the picture.
    ///
    /// # Errors
    ///
    /// [`MarkError::Outside`].
    pub fn check_on(&self, picture: &Picture) -> Result<(), MarkError> {
        Ok(picture.check_points(&self.points())?)
    }
}
