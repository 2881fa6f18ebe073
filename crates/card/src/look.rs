//! Whether a look fits its scale. Nothing is clamped and nothing is guessed.

use std::collections::BTreeMap;

use crate::{
    entry::{Areas, At, Body, Look, SECTORS},
    gauging::ReadingError,
    ids::LevelId,
    photo::PhotoAreasError,
    plan::{Plan, PlanIndex},
    scale::{CLEAN, MOST_COUNTED, Scale},
};

/// Why a rating or a measurement was refused.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LookError {
    /// A position that the plan does not have.
    #[error("position `{position}` is not in the plan")]
    UnknownPosition {
        /// The position.
        position: String,
    },
    /// A characteristic that the plan does not look at there.
    #[error(
        "characteristic `{characteristic}` is not looked at in `{position}`: allowed are {allowed}"
    )]
    UnknownCharacteristic {
        /// The position.
        position: String,
        /// The characteristic.
        characteristic: String,
        /// Those that are looked at there.
        allowed: String,
    },
    /// A look of another kind than the scale's.
    #[error("`{at}` is rated by {wanted}, not by {given}")]
    WrongKind {
        /// Where.
        at: String,
        /// What was given.
        given: &'static str,
        /// What the scale takes.
        wanted: &'static str,
    },
    /// A percentage outside 0 to 100, or not a number.
    #[error("`{at}`, {what}: {given} is not a percentage: allowed is 0 to 100")]
    Percent {
        /// Where.
        at: String,
        /// The level, or `percent`.
        what: String,
        /// What was given.
        given: f64,
    },
    /// Shares that come to more than the whole.
    #[error("`{at}`: the shares come to {total} %: allowed is 100 at most")]
    AreaOver100 {
        /// Where.
        at: String,
        /// Their sum.
        total: f64,
    },
    /// A level that the scale lacks.
    #[error("`{at}`: level `{level}` is not on the scale: allowed are {allowed}")]
    UnknownLevel {
        /// Where.
        at: String,
        /// The level.
        level: String,
        /// The scale's levels.
        allowed: String,
    },
    /// A painting that is not a whole turn, or that disagrees with the shares.
    #[error("`{at}`: the painting {why}")]
    Painting {
        /// Where.
        at: String,
        /// What is wrong with it.
        why: String,
    },
    /// A state that the scale lacks.
    #[error("`{at}`: state `{state}` is not on the scale: allowed are {allowed}")]
    UnknownState {
        /// Where.
        at: String,
        /// The state.
        state: String,
        /// The scale's states.
        allowed: String,
    },
    /// A count that is negative or beyond counting.
    #[error("`{at}`: {given} is not a count: allowed is 0 to {MOST_COUNTED}")]
    Count {
        /// Where.
        at: String,
        /// What was given.
        given: i64,
    },
    /// A measurement that is not a number.
    #[error("`{at}`: {given} is not a size")]
    NotFinite {
        /// Where.
        at: String,
        /// What was given.
        given: f64,
    },
    /// Areas that were not read off a photo as they say.
    #[error("`{at}`, as read off the photo: {why}")]
    ReadOff {
        /// Where.
        at: String,
        /// What is wrong with it.
        why: PhotoAreasError,
    },
    /// A reading that does not fit its grid, or is none.
    #[error(transparent)]
    Reading(#[from] ReadingError),
}

/// How far shares may miss 100 by rounding: 36 sectors of 2.777… % each must not be refused.
pub const AREA_TOLERANCE: f64 = 1e-6;

/// Whether the body of an entry fits a plan; bodies other than ratings, measurements and readings
/// always do.
///
/// # Errors
///
/// [`LookError`] with the field, the value and what is allowed.
pub fn check_body(plan: &Plan, index: &PlanIndex, body: &Body) -> Result<(), LookError> {
    match body {
        Body::Rating { at, .. } | Body::Measurement { at, .. } => {
            check_on(scale_at(plan, index, at)?, body)
        }
        Body::Reading { reading } => Ok(reading.check(scale_at(plan, index, &reading.at)?)?),
        _ => Ok(()),
    }
}

/// Whether the body of an entry fits the scale of the leaf that it is about.
pub(crate) fn check_on(scale: &Scale, body: &Body) -> Result<(), LookError> {
    match body {
        Body::Rating { at, look } => check_look(at, scale, look),
        Body::Measurement { at, value } => match scale {
            Scale::Measured { .. } if value.is_finite() => Ok(()),
            Scale::Measured { .. } => Err(LookError::NotFinite {
                at: at.to_string(),
                given: *value,
            }),
            scale => Err(LookError::WrongKind {
                at: at.to_string(),
                given: "measured",
                wanted: scale.method().as_str(),
            }),
        },
        Body::Reading { reading } => Ok(reading.check(scale)?),
        _ => Ok(()),
    }
}

/// The scale of a characteristic in a position.
///
/// # Errors
///
/// [`LookError`] when the plan has no such position or does not look at this there.
pub fn scale_at<'a>(plan: &'a Plan, index: &PlanIndex, at: &At) -> Result<&'a Scale, LookError> {
    if let Some(leaf) = index.find(plan, at).and_then(|id| index.leaf(id))
        && let Some(scale) = plan.scale(&leaf.characteristic(plan).scale)
    {
        return Ok(scale);
    }
    let looks = index.of_position(plan, at.position.as_str());
    if looks.is_empty() {
        return Err(LookError::UnknownPosition {
            position: at.position.to_string(),
        });
    }
    let names = index.leaves()[looks]
        .iter()
        .map(|leaf| leaf.characteristic(plan).id.as_str());
    Err(LookError::UnknownCharacteristic {
        position: at.position.to_string(),
        characteristic: at.characteristic.to_string(),
        allowed: list(names),
    })
}

/// Whether a look fits its scale.
///
/// # Errors
///
/// [`LookError`] with the field, the value and what is allowed.
pub fn check_look(at: &At, scale: &Scale, look: &Look) -> Result<(), LookError> {
    match (scale, look) {
        (_, Look::NotInspected(_)) | (Scale::Grade { .. }, Look::Grade(_)) => Ok(()),
        (Scale::Area { levels }, Look::Areas(areas)) => {
            check_areas(at, areas, &levels.iter().map(|level| level.id.as_str()))
        }
        (Scale::MeritArea { levels }, Look::Areas(areas)) => {
            check_areas(at, areas, &levels.iter().map(|level| level.id.as_str()))
        }
        (Scale::Extent { .. }, Look::Percent(percent)) => check_percent(at, "percent", *percent),
        (Scale::Count { .. }, Look::Count(count)) => {
            if (0..=MOST_COUNTED).contains(count) {
                Ok(())
            } else {
                Err(LookError::Count {
                    at: at.to_string(),
                    given: *count,
                })
            }
        }
        (Scale::State { states }, Look::State(state)) => {
            if states.iter().any(|known| known.id == *state) {
                return Ok(());
            }
            Err(LookError::UnknownState {
                at: at.to_string(),
                state: state.to_string(),
                allowed: list(states.iter().map(|known| known.id.as_str())),
            })
        }
        _ => Err(LookError::WrongKind {
            at: at.to_string(),
            given: kind(look),
            wanted: scale.method().as_str(),
        }),
    }
}

fn check_percent(at: &At, what: &str, given: f64) -> Result<(), LookError> {
    if (0.0..=100.0).contains(&given) {
        Ok(())
    } else {
        Err(LookError::Percent {
            at: at.to_string(),
            what: what.to_owned(),
            given,
        })
    }
}

fn check_areas<'a>(
    at: &At,
    areas: &Areas,
    levels: &(impl Iterator<Item = &'a str> + Clone),
) -> Result<(), LookError> {
    let on_scale = |level: &LevelId| {
        if levels.clone().any(|known| known == level.as_str()) {
            return Ok(());
        }
        Err(LookError::UnknownLevel {
            at: at.to_string(),
            level: level.to_string(),
            allowed: list(levels.clone()),
        })
    };
    for (level, percent) in &areas.shares {
        on_scale(level)?;
        check_percent(at, level.as_str(), *percent)?;
    }
    if let Some(read) = &areas.read_off {
        read.check().map_err(|why| LookError::ReadOff {
            at: at.to_string(),
            why,
        })?;
        let mut classes = read.classes.iter().map(|class| &class.level);
        classes.try_for_each(|level| {
            if level.as_str() == CLEAN {
                Ok(())
            } else {
                on_scale(level)
            }
        })?;
    }
    let total: f64 = areas.shares.values().sum();
    if total > 100.0 + AREA_TOLERANCE {
        return Err(LookError::AreaOver100 {
            at: at.to_string(),
            total,
        });
    }
    check_painting(at, areas, |level| {
        levels.clone().any(|known| known == level)
    })
}

fn check_painting(
    at: &At,
    areas: &Areas,
    on_scale: impl Fn(&str) -> bool,
) -> Result<(), LookError> {
    if areas.painted.is_empty() {
        return Ok(());
    }
    let refuse = |why: String| {
        Err(LookError::Painting {
            at: at.to_string(),
            why,
        })
    };
    // A stretch may cover nothing, so their number is bounded by itself.
    let stretches = areas.painted.len();
    if stretches > usize::from(SECTORS) {
        return refuse(format!(
            "has {stretches} stretches: it may have {SECTORS} at most"
        ));
    }
    let sectors: u32 = areas
        .painted
        .iter()
        .map(|stretch| u32::from(stretch.sectors))
        .sum();
    if sectors != u32::from(SECTORS) {
        return refuse(format!("covers {sectors} sectors: it must cover {SECTORS}"));
    }
    let painted = painted_shares(areas);
    for (level, share) in &painted {
        if *level != CLEAN && !on_scale(level) {
            return refuse(format!("has level `{level}`, which is not on the scale"));
        }
        let stated = areas.shares.get(*level).copied();
        if *level != CLEAN && (stated.unwrap_or(0.0) - share).abs() > AREA_TOLERANCE {
            return refuse(format!(
                "has {share} % at `{level}`, which is not what the shares say"
            ));
        }
    }
    let unpainted = areas.shares.iter().find(|(level, share)| {
        **share > AREA_TOLERANCE && !painted.iter().any(|(name, _)| *name == level.as_str())
    });
    match unpainted {
        Some((level, _)) => refuse(format!("has nothing at `{level}`, which the shares name")),
        None => Ok(()),
    }
}

/// Percent by level of a painting, in the order of first appearance.
fn painted_shares(areas: &Areas) -> Vec<(&str, f64)> {
    let mut shares: Vec<(&str, f64)> = Vec::new();
    for stretch in &areas.painted {
        let percent = f64::from(stretch.sectors) * 100.0 / f64::from(SECTORS);
        match shares
            .iter_mut()
            .find(|(level, _)| *level == stretch.level.as_str())
        {
            Some((_, share)) => *share += percent,
            None => shares.push((stretch.level.as_str(), percent)),
        }
    }
    shares
}

impl Areas {
    /// The areas of a painting: the level of each of the 36 sectors from the front round.
    ///
    /// Returns nothing unless there are just 36 sectors.
    pub fn from_sectors(sectors: &[LevelId]) -> Option<Self> {
        if sectors.len() != usize::from(SECTORS) {
            return None;
        }
        let mut areas = Self::default();
        for level in sectors {
            match areas.painted.last_mut() {
                Some(last) if last.level == *level => last.sectors += 1,
                _ => areas.painted.push(crate::entry::Stretch {
                    level: level.clone(),
                    sectors: 1,
                }),
            }
            if level.as_str() != CLEAN {
                *areas.shares.entry(level.clone()).or_insert(0.0) += 1.0;
            }
        }
        for share in areas.shares.values_mut() {
            *share *= 100.0 / f64::from(SECTORS);
        }
        Some(areas)
    }

    /// The same without the photo that they were read off: for another place, which it does not show.
    #[must_use]
    pub fn without_photo(self) -> Self {
        Self {
            read_off: None,
            ..self
        }
    }

    /// Whether the shares are no longer those that were read off the photo, where they were.
    pub fn changed_by_hand(&self) -> bool {
        let Some(read) = &self.read_off else {
            return false;
        };
        let read = read.shares();
        let share = |shares: &BTreeMap<LevelId, f64>, level: &LevelId| {
            shares.get(level).copied().unwrap_or(0.0)
        };
        read.keys()
            .chain(self.shares.keys())
            .any(|level| (share(&read, level) - share(&self.shares, level)).abs() > AREA_TOLERANCE)
    }

    /// Percent left over by the levels.
    pub fn clean(&self) -> f64 {
        (100.0 - self.shares.values().sum::<f64>()).max(0.0)
    }
}

impl Look {
    /// The same without the photo that it was read off: for another place, which the photo does not show.
    #[must_use]
    pub fn without_photo(self) -> Self {
        match self {
            Self::Areas(areas) => Self::Areas(areas.without_photo()),
            look => look,
        }
    }
}

fn kind(look: &Look) -> &'static str {
    match look {
        Look::Grade(_) => "grade",
        Look::Areas(_) => "area",
        Look::Percent(_) => "extent",
        Look::Count(_) => "count",
        Look::State(_) => "state",
        Look::NotInspected(_) => "not inspected",
    }
}

fn list<'a>(names: impl Iterator<Item = &'a str>) -> String {
    names.collect::<Vec<_>>().join(", ")
}
