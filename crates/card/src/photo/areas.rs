//! How the shares of an area were read off a photo: what is needed to read them again, and how far they hang on where
//! the shades were parted.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::{MOST_CORNERS, MOST_PHOTO_SIDE, Picture, Point, picture::Outside};
use crate::{
    ids::{EntryId, LevelId},
    look::AREA_TOLERANCE,
    scale::CLEAN,
    tagged::tagged_serde,
};

/// The most parts of a region that are left out.
pub const MOST_LEFT_OUT: usize = 100;
/// The most classes that the shades of a region are parted into.
pub const MOST_CLASSES: usize = 5;

/// What the pixels of a photo are told apart by. Each runs from 0 to 255.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Shade {
    /// How light they are: carbon from metal.
    #[default]
    Lightness,
    /// How yellow they are, and not blue: amber lacquer from a grey stain.
    Yellowness,
    /// How far they are from grey.
    Chroma,
}

impl Shade {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Lightness, Self::Yellowness, Self::Chroma];
}

/// A part of the region that does not count, as it shows glare or shadow and not the surface.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(tag = "shape"))]
#[serde(remote = "Self", rename_all = "snake_case")]
pub enum LeftOut {
    /// What lies within these corners.
    Outline {
        /// The corners, the last joined to the first.
        #[cfg_attr(feature = "schema", schemars(length(min = 3, max = MOST_CORNERS)))]
        corners: Vec<Point>,
    },
    /// What a brush went over.
    Brush {
        /// Its way.
        #[cfg_attr(feature = "schema", schemars(length(min = 1, max = MOST_CORNERS)))]
        way: Vec<Point>,
        /// How wide it is, in pixels of the photo.
        #[cfg_attr(feature = "schema", schemars(range(min = 1.0, max = MOST_PHOTO_SIDE)))]
        width: f64,
    },
}

tagged_serde!(LeftOut);

impl LeftOut {
    /// Its points.
    pub fn points(&self) -> &[Point] {
        match self {
            Self::Outline { corners } => corners,
            Self::Brush { way, .. } => way,
        }
    }
}

/// Where on a photo areas are read.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Region {
    /// Its corners, the last joined to the first.
    #[cfg_attr(feature = "schema", schemars(length(min = 3, max = MOST_CORNERS)))]
    pub corners: Vec<Point>,
    /// What in it does not count.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_LEFT_OUT)))]
    pub left_out: Vec<LeftOut>,
    /// The corners of what is a rectangle on the surface, in order along its edges, where the photo was taken at a slant.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rectangle: Option<[Point; 4]>,
}

/// Where the shades of two classes part.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Cut {
    /// The last shade of the class below.
    pub at: u8,
    /// Percent of the area that the class above would gain with this cut a little lower.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 100.0)))]
    pub below: f64,
    /// Percent of the area that the class below would gain with this cut as much higher.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 100.0)))]
    pub above: f64,
}

/// The pixels between two cuts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ShadeClass {
    /// The level that they are; `clean` for the rest.
    pub level: LevelId,
    /// Percent of the area.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 100.0)))]
    pub percent: f64,
}

/// How the shares of an area were read off a photo.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PhotoAreas {
    /// The entry of the photo.
    pub photo: EntryId,
    /// Where on it.
    pub region: Region,
    /// What the pixels were told apart by.
    pub shade: Shade,
    /// Where the classes part, in rising order.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 4)))]
    pub cuts: Vec<Cut>,
    /// The classes from the lowest shade to the highest, one more than cuts. What the rater then changed by hand
    /// stands in the shares of the look.
    #[cfg_attr(feature = "schema", schemars(length(min = 2, max = MOST_CLASSES)))]
    pub classes: Vec<ShadeClass>,
}

/// Why a reading of areas off a photo was refused.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PhotoAreasError {
    /// A point beside the photo.
    #[error("the region: {0}")]
    Outside(#[from] Outside),
    /// A region, or what is left out of it, with too few or too many corners.
    #[error(
        "the region, or what is left out of it, has {given} corners: allowed is 3 to {MOST_CORNERS}, or 1 to {MOST_CORNERS} for a brush"
    )]
    Corners {
        /// How many.
        given: usize,
    },
    /// A brush of no width, or wider than any photo.
    #[error("the brush is {given} pixels wide: allowed is 1 to {MOST_PHOTO_SIDE}")]
    Brush {
        /// Its width.
        given: f64,
    },
    /// Too much left out.
    #[error("{given} parts of the region are left out: allowed is {MOST_LEFT_OUT} at most")]
    LeftOut {
        /// How many parts.
        given: usize,
    },
    /// Cuts out of order, or not one class more than cuts.
    #[error(
        "{classes} classes and {cuts} cuts: allowed are 2 to {MOST_CLASSES} classes, and cuts between them in rising order"
    )]
    Cuts {
        /// How many cuts.
        cuts: usize,
        /// How many classes.
        classes: usize,
    },
    /// Percentages that are none, that do not make up the whole, or that a cut moves beyond their class.
    #[error(
        "the classes do not make up the area: allowed are percentages that come to 100, of which a cut moves no more than its class has"
    )]
    Percent,
}

impl PhotoAreas {
    /// Percent by level, as the classes say; what is clean is left out.
    pub fn shares(&self) -> BTreeMap<LevelId, f64> {
        let mut shares = BTreeMap::new();
        for class in &self.classes {
            if class.level.as_str() != CLEAN && class.percent > 0.0 {
                *shares.entry(class.level.clone()).or_insert(0.0) += class.percent;
            }
        }
        shares
    }

    /// What can be said of it without its photo and its scale.
    ///
    /// # Errors
    ///
    /// [`PhotoAreasError`] with what is allowed.
    pub fn check(&self) -> Result<(), PhotoAreasError> {
        self.region.check()?;
        let (cuts, classes) = (self.cuts.len(), self.classes.len());
        let rising = self.cuts.windows(2).all(|two| two[0].at < two[1].at);
        if !(2..=MOST_CLASSES).contains(&classes) || classes != cuts + 1 || !rising {
            return Err(PhotoAreasError::Cuts { cuts, classes });
        }
        let percent = |percent: f64| (0.0..=100.0).contains(&percent);
        let total: f64 = self.classes.iter().map(|class| class.percent).sum();
        let whole = self.classes.iter().all(|class| percent(class.percent))
            && (total - 100.0).abs() <= AREA_TOLERANCE;
        let moved = self
            .cuts
            .iter()
            .zip(self.classes.windows(2))
            .all(|(cut, beside)| {
                let within = |moved: f64, class: &ShadeClass| {
                    moved >= 0.0 && moved <= class.percent + AREA_TOLERANCE
                };
                within(cut.below, &beside[0]) && within(cut.above, &beside[1])
            });
        if whole && moved {
            Ok(())
        } else {
            Err(PhotoAreasError::Percent)
        }
    }
}

impl Region {
    /// What can be said of it without its photo.
    ///
    /// # Errors
    ///
    /// [`PhotoAreasError`] with what is allowed.
    pub fn check(&self) -> Result<(), PhotoAreasError> {
        let given = self.left_out.len();
        if given > MOST_LEFT_OUT {
            return Err(PhotoAreasError::LeftOut { given });
        }
        let corners = |given: usize, least: usize| {
            if (least..=MOST_CORNERS).contains(&given) {
                Ok(())
            } else {
                Err(PhotoAreasError::Corners { given })
            }
        };
        corners(self.corners.len(), 3)?;
        for part in &self.left_out {
            match part {
                LeftOut::Outline { corners: outline } => corners(outline.len(), 3)?,
                LeftOut::Brush { way, width } => {
                    corners(way.len(), 1)?;
                    if !(1.0..=f64::from(MOST_PHOTO_SIDE)).contains(width) {
                        return Err(PhotoAreasError::Brush { given: *width });
                    }
                }
            }
        }
        Ok(())
    }

    /// Whether all of it is on the picture.
    ///
    /// # Errors
    ///
    /// [`PhotoAreasError::Outside`].
    pub fn check_on(&self, picture: &Picture) -> Result<(), PhotoAreasError> {
        let rectangle = self.rectangle.iter().flatten();
        let left_out = self.left_out.iter().flat_map(LeftOut::points);
        Ok(picture.check_points(self.corners.iter().chain(left_out).chain(rectangle))?)
    }
}
