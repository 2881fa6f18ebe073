//! Wear over distance of one or many units: the curve, what it rests on, and what was left.
//!
//! Plain numbers: distance and wear are in whatever units the readings are in, and so is every result.

use ringland_stats::{
    StatsError,
    confidence::{Confidence, Interval},
    regression::{
        Choice, Curve, Intercept, LineFit, PowerFit, UnitsFit, compare, compare_units, fit_line,
        fit_power,
    },
    trend::Run,
};

use super::remaining::{Remaining, remaining_on_line, remaining_on_power};

/// The readings of one unit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Unit {
    /// Its name.
    pub name: String,
    /// How far it had run at each reading.
    pub distance: Vec<f64>,
    /// How far it had worn.
    pub wear: Vec<f64>,
}

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Question {
    /// Whether wear starts at nothing.
    pub intercept: Intercept,
    /// Of every interval.
    pub confidence: Confidence,
    /// The wear limit, where one is asked about.
    pub limit: Option<f64>,
}

/// What the units say, each by itself and together.
#[derive(Clone, Debug, PartialEq)]
pub struct Forecast {
    /// By unit, in the order given.
    pub units: Vec<UnitForecast>,
    /// Together, where there is more than one.
    pub pooled: Option<Pooled>,
}

/// What one unit says.
#[derive(Clone, Debug, PartialEq)]
pub struct UnitForecast {
    /// Its name.
    pub name: String,
    /// The furthest reading.
    pub last_distance: f64,
    /// Its curves.
    pub curves: Curves,
    /// What was left after the furthest reading, by the curve that was chosen; none without a limit or a curve.
    pub remaining: Option<Remaining>,
    /// Whether the others would have foretold the furthest reading; none where they are too few.
    pub last_reading: Option<LastReading>,
}

/// What the units say together.
#[derive(Clone, Debug, PartialEq)]
pub struct Pooled {
    /// Curves through all readings, as if they were of one unit.
    pub curves: Curves,
    /// The whole run until the limit, by the curve that was chosen.
    pub remaining: Option<Remaining>,
    /// The units' slopes against each other.
    pub units: UnitsFit,
}

/// Curves through some readings.
#[derive(Clone, Debug, PartialEq)]
pub struct Curves {
    /// How many readings.
    pub readings: usize,
    /// The straight line, or why there is none.
    pub line: Result<LineFit, StatsError>,
    /// The power law, or why there is none.
    pub power_law: Result<PowerFit, StatsError>,
    /// Which is taken and why; none without a line.
    pub choice: Option<Choice>,
}

/// The furthest reading, held against what the others foretell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LastReading {
    /// Its distance.
    pub distance: f64,
    /// Its wear.
    pub wear: f64,
    /// The curve that foretells it: that which was chosen, fitted to the others.
    pub curve: Curve,
    /// What the curve says.
    pub expected: f64,
    /// Between which values the reading was to be expected.
    pub interval: Interval,
}

impl LastReading {
    /// Whether it lies where it was to be expected.
    pub fn agrees(&self) -> bool {
        self.interval.contains(self.wear)
    }
}

/// Works out what units say.
///
/// Lines and power laws as [`fit_line`] and [`fit_power`], the choice as [`compare`], what was left as
/// [`remaining_on_line`] and [`remaining_on_power`], the units' slopes as [`compare_units`].
///
/// # Errors
///
/// [`StatsError::TooFew`] without a unit or for a unit without a reading, [`StatsError::NotFinite`],
/// [`StatsError::Overflow`]. A curve that a unit is too small for is no error: it says so in its place.
pub fn forecast(units: &[Unit], question: &Question) -> Result<Forecast, StatsError> {
    let runs: Vec<Run<'_>> = units
        .iter()
        .map(|unit| Run {
            x: &unit.distance,
            y: &unit.wear,
        })
        .collect();
    let between = compare_units(&runs, question.intercept)?;
    let pooled = if units.len() > 1 {
        Some(pool(units, between, question)?)
    } else {
        None
    };
    Ok(Forecast {
        units: units
            .iter()
            .map(|unit| by_itself(unit, question))
            .collect::<Result<_, _>>()?,
        pooled,
    })
}

fn by_itself(unit: &Unit, question: &Question) -> Result<UnitForecast, StatsError> {
    let curves = Curves::through(&unit.distance, &unit.wear, question.intercept);
    let last = last(&unit.distance);
    let last_distance = unit.distance[last];
    Ok(UnitForecast {
        name: unit.name.clone(),
        last_distance,
        remaining: curves.remaining(last_distance, question)?,
        last_reading: last_reading(unit, last, &curves, question),
        curves,
    })
}

fn pool(units: &[Unit], between: UnitsFit, question: &Question) -> Result<Pooled, StatsError> {
    let all =
        |row: fn(&Unit) -> &[f64]| -> Vec<f64> { units.iter().flat_map(row).copied().collect() };
    let (distance, wear) = (all(|unit| &unit.distance), all(|unit| &unit.wear));
    let curves = Curves::through(&distance, &wear, question.intercept);
    Ok(Pooled {
        remaining: curves.remaining(0.0, question)?,
        curves,
        units: between,
    })
}

impl Curves {
    fn through(distance: &[f64], wear: &[f64], intercept: Intercept) -> Self {
        let line = fit_line(distance, wear, intercept);
        let power_law = fit_power(distance, wear);
        let choice = line
            .as_ref()
            .ok()
            .map(|line| compare(line, power_law.as_ref().map_err(Clone::clone)));
        Self {
            readings: distance.len(),
            line,
            power_law,
            choice,
        }
    }

    /// The curve that was chosen.
    fn chosen(&self) -> Option<Curve> {
        self.choice.as_ref().map(|choice| choice.curve)
    }

    fn remaining(&self, from: f64, question: &Question) -> Result<Option<Remaining>, StatsError> {
        let (Some(limit), Some(curve)) = (question.limit, self.chosen()) else {
            return Ok(None);
        };
        match (curve, &self.line, &self.power_law) {
            (Curve::Line, Ok(line), _) => {
                remaining_on_line(line, from, limit, question.confidence).map(Some)
            }
            (Curve::PowerLaw, _, Ok(power)) => {
                remaining_on_power(power, from, limit, question.confidence).map(Some)
            }
            _ => Ok(None),
        }
    }
}

/// Which reading is furthest; the last in order among equals.
fn last(distance: &[f64]) -> usize {
    let mut last = 0;
    for (number, at) in distance.iter().enumerate() {
        if *at >= distance[last] {
            last = number;
        }
    }
    last
}

fn last_reading(
    unit: &Unit,
    last: usize,
    curves: &Curves,
    question: &Question,
) -> Option<LastReading> {
    let without = |row: &[f64]| {
        let mut row = row.to_vec();
        row.remove(last);
        row
    };
    let others = (without(&unit.distance), without(&unit.wear));
    let at = (unit.distance[last], unit.wear[last]);
    foretold((&others.0, &others.1), at, curves.chosen()?, question)
}

/// The furthest reading of one unit, held against what all the other units foretell as if they were one;
/// none where they are too few. `of` is the unit's place.
///
/// # Errors
///
/// As [`forecast`].
pub fn against_others(
    units: &[Unit],
    of: usize,
    question: &Question,
) -> Result<Option<LastReading>, StatsError> {
    let Some(unit) = units.get(of).filter(|unit| !unit.distance.is_empty()) else {
        return Err(StatsError::TooFew {
            what: "reading of the unit",
            got: 0,
            least: 1,
        });
    };
    let others = || {
        let units = units.iter().enumerate();
        units
            .filter(|(number, _)| *number != of)
            .map(|(_, unit)| unit)
    };
    let x: Vec<f64> = others().flat_map(|unit| &unit.distance).copied().collect();
    let y: Vec<f64> = others().flat_map(|unit| &unit.wear).copied().collect();
    let Some(curve) = Curves::through(&x, &y, question.intercept).chosen() else {
        return Ok(None);
    };
    let last = last(&unit.distance);
    let at = (unit.distance[last], unit.wear[last]);
    Ok(foretold((&x, &y), at, curve, question))
}

/// A reading, held against what the curve through others foretells.
fn foretold(
    (x, y): (&[f64], &[f64]),
    (distance, wear): (f64, f64),
    curve: Curve,
    question: &Question,
) -> Option<LastReading> {
    let (expected, interval) = match curve {
        Curve::Line => {
            let line = fit_line(x, y, question.intercept).ok()?;
            (
                line.at(distance),
                line.prediction(distance, question.confidence),
            )
        }
        Curve::PowerLaw => {
            let power = fit_power(x, y).ok()?;
            (
                power.at(distance),
                power.prediction(distance, question.confidence),
            )
        }
    };
    Some(LastReading {
        distance,
        wear,
        curve,
        expected,
        interval: interval.ok()?,
    })
}
