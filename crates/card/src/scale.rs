//! Scales: what may be said of a characteristic, and the table that maps it to the score.
//!
//! A scale is data of the plan. Its figures are the project's own defaults or the user's; no
//! standard fixes them for field teardowns. The mapping itself is done in `ringland-assess`.

use serde::{Deserialize, Serialize};

use crate::{
    gauging::{Makes, Material, Quantity, Wears},
    ids::{LevelId, SpotId, StateId},
    tagged::tagged_serde,
};

/// A point of a breakpoint table: at `x` (percent, or a count) the score is `score`.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(extend("prefixItems" = [
    { "type": "number", "minimum": 0, "maximum": MOST_COUNTED },
    { "type": "number", "minimum": 0, "maximum": 10 },
])))]
#[serde(from = "(f64, f64)", into = "(f64, f64)")]
pub struct Breakpoint {
    /// Percent of area or length, or a count.
    pub x: f64,
    /// Score there, 0 to 10.
    pub score: f64,
}

impl From<(f64, f64)> for Breakpoint {
    fn from((x, score): (f64, f64)) -> Self {
        Self { x, score }
    }
}

impl From<Breakpoint> for (f64, f64) {
    fn from(point: Breakpoint) -> Self {
        (point.x, point.score)
    }
}

/// A deposit level and its demerit factor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct DepositLevel {
    /// The level, such as `heavy_carbon`.
    pub id: LevelId,
    /// A name of the user's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// Demerit for each percent of area at this level, 0 to 1.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 1.0)))]
    pub factor: f64,
}

/// A sludge or varnish level and its merit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MeritLevel {
    /// The level, such as `film`.
    pub id: LevelId,
    /// A name of the user's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// Merit, 0 to 10; 10 is clean.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 10.0)))]
    pub merit: f64,
}

/// A state and its score.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct StateScore {
    /// The state, such as `cold_stuck`.
    pub id: StateId,
    /// A name of the user's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// Score, 0 to 10.
    #[cfg_attr(feature = "schema", schemars(range(min = 0.0, max = 10.0)))]
    pub score: f64,
}

/// How a size is read with a gauge. What it is held against stands in the card's size sheet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct GaugedScale {
    /// A name of the user's own.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// What kind of quantity it is.
    pub quantity: Quantity,
    /// Which way it goes with wear.
    pub wears: Wears,
    /// How its readings make one size.
    pub makes: Makes,
    /// The heights or stations of its grid; empty for one reading.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_SPOTS)))]
    pub stations: Vec<SpotId>,
    /// The axes of its grid; empty for one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(feature = "schema", schemars(length(max = MOST_SPOTS)))]
    pub axes: Vec<SpotId>,
    /// What the part is made of; left out where warmth is not corrected for.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<Material>,
}

impl GaugedScale {
    /// How many readings its grid asks for.
    pub fn spots(&self) -> usize {
        self.stations.len().max(1) * self.axes.len().max(1)
    }
}

/// What may be said of a characteristic, and what it is worth.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(tag = "method"))]
#[serde(remote = "Self", rename_all = "snake_case")]
pub enum Scale {
    /// A wear grade; `scores` for none, trace, light, medium, heavy, severe; half steps lie midway.
    Grade {
        /// Score of the six whole grades, never rising.
        #[cfg_attr(feature = "schema", schemars(inner(range(min = 0.0, max = 10.0))))]
        scores: [f64; 6],
    },
    /// Percent of the area at each deposit level; the rest is clean.
    Area {
        /// The levels, worst first.
        #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
        levels: Vec<DepositLevel>,
    },
    /// Percent of the area at each merit level; the rest is clean, merit 10.
    MeritArea {
        /// The levels, worst first.
        #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
        levels: Vec<MeritLevel>,
    },
    /// A percentage of area, length or circumference.
    Extent {
        /// Breakpoints from 0, linear between; beyond the last the score stays.
        #[cfg_attr(feature = "schema", schemars(length(min = 2)))]
        points: Vec<Breakpoint>,
    },
    /// A count.
    Count {
        /// Breakpoints from 0; beyond the last the score stays.
        #[cfg_attr(feature = "schema", schemars(length(min = 2)))]
        points: Vec<Breakpoint>,
    },
    /// One of a few named states.
    State {
        /// The states, best first.
        #[cfg_attr(feature = "schema", schemars(length(min = 1)))]
        states: Vec<StateScore>,
    },
    /// A measured size, scored by the share of the wear allowance used.
    Measured {
        /// The size when new, in SI units.
        #[cfg_attr(feature = "schema", schemars(range(min = -1e6, max = 1e6)))]
        as_new: f64,
        /// The wear limit, in SI units.
        #[cfg_attr(feature = "schema", schemars(range(min = -1e6, max = 1e6)))]
        limit: f64,
    },
    /// A size read with a gauge, scored by the share of the wear allowance used where the card's size
    /// sheet knows both ends of it.
    Gauged(GaugedScale),
}

tagged_serde!(Scale);

/// The kinds of scale, for messages and for choosing a pad.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// A wear grade.
    Grade,
    /// Percent of area by deposit level.
    Area,
    /// Percent of area by sludge or varnish merit.
    MeritArea,
    /// A percentage.
    Extent,
    /// A count.
    Count,
    /// A state.
    State,
    /// A measured size.
    Measured,
    /// A size read with a gauge.
    Gauged,
}

impl Method {
    /// The name as the file writes it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Grade => "grade",
            Self::Area => "area",
            Self::MeritArea => "merit_area",
            Self::Extent => "extent",
            Self::Count => "count",
            Self::State => "state",
            Self::Measured => "measured",
            Self::Gauged => "gauged",
        }
    }
}

/// A scale that contradicts itself.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ScaleError {
    /// A score, merit or factor outside its range.
    #[error("{what} is {given}: allowed is {low} to {high}")]
    OutOfRange {
        /// Which figure.
        what: &'static str,
        /// What it holds.
        given: f64,
        /// The lowest allowed.
        low: f64,
        /// The highest allowed.
        high: f64,
    },
    /// Grade scores that rise with wear.
    #[error("the grade table rises from {from} to {to}: a worse grade may not score better")]
    GradeRises {
        /// The score of the better grade.
        from: f64,
        /// The score of the worse grade.
        to: f64,
    },
    /// Breakpoints that are not in order.
    #[error("breakpoint {x} comes after {before}: breakpoints must rise")]
    OutOfOrder {
        /// The breakpoint.
        x: f64,
        /// The one before it.
        before: f64,
    },
    /// A table without what it needs.
    #[error("the table has {given} rows: allowed is {least} or more")]
    TooShort {
        /// Rows given.
        given: usize,
        /// Rows needed.
        least: usize,
    },
    /// A table of more rows than anybody tells apart.
    #[error("the table has {given} rows: allowed is {MOST_ROWS} at most")]
    TooLong {
        /// Rows given.
        given: usize,
    },
    /// A breakpoint table that leaves its beginning open.
    #[error("the breakpoints start at {first}: they must start at 0")]
    Start {
        /// The first breakpoint.
        first: f64,
    },
    /// A level that takes the name of what is left over.
    #[error("a level is named `{CLEAN}`: that name is kept for the rest of the area")]
    NamedClean,
    /// A level or state named twice.
    #[error("`{id}` stands twice")]
    Twice {
        /// The level or state.
        id: String,
    },
    /// A grid of more heights or axes than anybody reads.
    #[error("the grid has {given} heights or axes: allowed is {MOST_SPOTS} at most")]
    TooManySpots {
        /// How many there are.
        given: usize,
    },
    /// A difference of anything but two readings.
    #[error("a difference takes two stations and no axes")]
    Difference,
    /// A measured scale whose limit is the new size.
    #[error("the limit equals the as-new size, {given}: there is no allowance to use")]
    NoAllowance {
        /// Both.
        given: f64,
    },
}

/// The most rows that the table of a scale may have.
pub const MOST_ROWS: usize = 200;

/// The most heights, and the most axes, that the grid of a part may have.
pub const MOST_SPOTS: usize = 24;

fn within(what: &'static str, given: f64, low: f64, high: f64) -> Result<(), ScaleError> {
    if given >= low && given <= high {
        Ok(())
    } else {
        Err(ScaleError::OutOfRange {
            what,
            given,
            low,
            high,
        })
    }
}

/// What is left of an area when every level has had its share.
pub const CLEAN: &str = "clean";

fn check_levels<'a>(ids: impl Iterator<Item = &'a str> + Clone) -> Result<(), ScaleError> {
    non_empty(ids.clone().count())?;
    if ids.clone().any(|id| id == CLEAN) {
        return Err(ScaleError::NamedClean);
    }
    once(ids)
}

fn once<'a>(ids: impl Iterator<Item = &'a str>) -> Result<(), ScaleError> {
    let mut seen = std::collections::BTreeSet::new();
    for id in ids {
        if !seen.insert(id) {
            return Err(ScaleError::Twice { id: id.to_owned() });
        }
    }
    Ok(())
}

fn check_points(points: &[Breakpoint], last_allowed: f64) -> Result<(), ScaleError> {
    if points.len() < 2 {
        return Err(ScaleError::TooShort {
            given: points.len(),
            least: 2,
        });
    }
    for point in points {
        within("breakpoint", point.x, 0.0, last_allowed)?;
        within("score", point.score, 0.0, 10.0)?;
    }
    if points[0].x > 0.0 {
        return Err(ScaleError::Start { first: points[0].x });
    }
    for pair in points.windows(2) {
        if pair[1].x <= pair[0].x {
            return Err(ScaleError::OutOfOrder {
                x: pair[1].x,
                before: pair[0].x,
            });
        }
    }
    Ok(())
}

/// The most that may be counted in one place.
pub const MOST_COUNTED: i64 = 10_000;

impl Scale {
    /// The levels of a scale by area, the worst first; none of other scales. What they leave is clean.
    pub fn levels(&self) -> Vec<&LevelId> {
        match self {
            Self::Area { levels } => levels.iter().map(|level| &level.id).collect(),
            Self::MeritArea { levels } => levels.iter().map(|level| &level.id).collect(),
            _ => Vec::new(),
        }
    }

    /// Which kind of scale this is.
    pub fn method(&self) -> Method {
        match self {
            Self::Grade { .. } => Method::Grade,
            Self::Area { .. } => Method::Area,
            Self::MeritArea { .. } => Method::MeritArea,
            Self::Extent { .. } => Method::Extent,
            Self::Count { .. } => Method::Count,
            Self::State { .. } => Method::State,
            Self::Measured { .. } => Method::Measured,
            Self::Gauged(_) => Method::Gauged,
        }
    }

    /// The name that the plan's author gave it.
    pub fn name(&self) -> Option<&str> {
        match self {
            Self::Gauged(gauged) => gauged.label.as_deref(),
            _ => None,
        }
    }

    /// Its levels or states with the names that the plan's author gave them.
    pub(crate) fn named_rows(&self) -> Vec<(&str, Option<&String>)> {
        match self {
            Self::Area { levels } => {
                let rows = levels.iter();
                rows.map(|row| (row.id.as_str(), row.label.as_ref()))
                    .collect()
            }
            Self::MeritArea { levels } => {
                let rows = levels.iter();
                rows.map(|row| (row.id.as_str(), row.label.as_ref()))
                    .collect()
            }
            Self::State { states } => {
                let rows = states.iter();
                rows.map(|row| (row.id.as_str(), row.label.as_ref()))
                    .collect()
            }
            _ => Vec::new(),
        }
    }

    /// The name that the plan's author gave a level or a state.
    pub fn label_of(&self, row: &str) -> Option<&String> {
        let mut rows = self.named_rows().into_iter();
        rows.find(|(id, _)| *id == row)?.1
    }

    /// How many rows its table has.
    fn rows(&self) -> usize {
        match self {
            Self::Grade { scores } => scores.len(),
            Self::Area { levels } => levels.len(),
            Self::MeritArea { levels } => levels.len(),
            Self::Extent { points } | Self::Count { points } => points.len(),
            Self::State { states } => states.len(),
            Self::Measured { .. } => 0,
            Self::Gauged(gauged) => gauged.stations.len().max(gauged.axes.len()),
        }
    }

    /// Refuses a scale that contradicts itself.
    ///
    /// # Errors
    ///
    /// [`ScaleError`] with the figure and what is allowed.
    pub fn check(&self) -> Result<(), ScaleError> {
        let given = self.rows();
        if given > MOST_ROWS {
            return Err(ScaleError::TooLong { given });
        }
        match self {
            Self::Grade { scores } => {
                for score in scores {
                    within("score", *score, 0.0, 10.0)?;
                }
                match scores.windows(2).find(|pair| pair[1] > pair[0]) {
                    Some(pair) => Err(ScaleError::GradeRises {
                        from: pair[0],
                        to: pair[1],
                    }),
                    None => Ok(()),
                }
            }
            Self::Area { levels } => {
                for level in levels {
                    within("factor", level.factor, 0.0, 1.0)?;
                }
                check_levels(levels.iter().map(|level| level.id.as_str()))
            }
            Self::MeritArea { levels } => {
                for level in levels {
                    within("merit", level.merit, 0.0, 10.0)?;
                }
                check_levels(levels.iter().map(|level| level.id.as_str()))
            }
            Self::Extent { points } => check_points(points, 100.0),
            Self::Count { points } => check_points(points, MOST_COUNTED as f64),
            Self::State { states } => {
                for state in states {
                    within("score", state.score, 0.0, 10.0)?;
                }
                non_empty(states.len())?;
                once(states.iter().map(|state| state.id.as_str()))
            }
            Self::Measured { as_new, limit } => {
                within("as_new", *as_new, -1e6, 1e6)?;
                within("limit", *limit, -1e6, 1e6)?;
                if (as_new - limit).abs() > 0.0 {
                    Ok(())
                } else {
                    Err(ScaleError::NoAllowance { given: *limit })
                }
            }
            Self::Gauged(gauged) => gauged.check(),
        }
    }
}

impl GaugedScale {
    fn check(&self) -> Result<(), ScaleError> {
        for spots in [&self.stations, &self.axes] {
            let given = spots.len();
            if given > MOST_SPOTS {
                return Err(ScaleError::TooManySpots { given });
            }
            once(spots.iter().map(SpotId::as_str))?;
        }
        match self.makes {
            Makes::Difference if self.stations.len() != 2 || !self.axes.is_empty() => {
                Err(ScaleError::Difference)
            }
            _ => Ok(()),
        }
    }
}

fn non_empty(rows: usize) -> Result<(), ScaleError> {
    if rows == 0 {
        Err(ScaleError::TooShort { given: 0, least: 1 })
    } else {
        Ok(())
    }
}
