//! A gauge study: how much of the scatter of readings comes from the gauge, how much from who reads it, and how
//! much is the parts'. Every appraiser reads every part the same number of times.
//!
//! Two methods, which may differ: [`average_and_range`], quick and common, and [`analysis_of_variance`], which
//! also tells whether appraisers differ on some parts more than on others.

use std::f64::consts::FRAC_1_SQRT_2;

use crate::{
    StatsError,
    confidence::Dof,
    distribution::f_above,
    error::{check, finite},
    spread::{mean, range},
};

/// How probable an interaction must be by chance to be taken for none. Source: AIAG, *Measurement Systems
/// Analysis*, which pools it above 0.25, from memory.
pub const POOLED_ABOVE: f64 = 0.25;

/// How many distinct categories a gauge must tell apart. Source: AIAG, *Measurement Systems Analysis*, from memory.
pub const ENOUGH_CATEGORIES: f64 = 5.0;

/// Readings by appraiser, part and trial: `readings[appraiser][part][trial]`, all in one unit.
#[derive(Clone, Debug, PartialEq)]
pub struct GaugeStudy {
    readings: Vec<Vec<Vec<f64>>>,
    parts: usize,
    trials: usize,
}

impl GaugeStudy {
    /// Takes readings in.
    ///
    /// # Errors
    ///
    /// [`StatsError::TooFew`] under two appraisers, parts or trials, [`StatsError::Lengths`] where somebody read
    /// other than as many parts or times as the first, [`StatsError::NotFinite`].
    pub fn new(readings: Vec<Vec<Vec<f64>>>) -> Result<Self, StatsError> {
        let parts = readings.first().map_or(0, Vec::len);
        let trials = readings
            .first()
            .and_then(|of| of.first())
            .map_or(0, Vec::len);
        for (what, got) in [
            ("gauge study by appraiser", readings.len()),
            ("gauge study by part", parts),
            ("gauge study by trial", trials),
        ] {
            if got < 2 {
                return Err(StatsError::TooFew {
                    what,
                    got,
                    least: 2,
                });
            }
        }
        for appraiser in &readings {
            same(parts, appraiser.len())?;
            for part in appraiser {
                same(trials, part.len())?;
                check("gauge study", part, 2)?;
            }
        }
        Ok(Self {
            readings,
            parts,
            trials,
        })
    }

    fn cells(&self) -> impl Iterator<Item = &[f64]> {
        self.readings.iter().flatten().map(Vec::as_slice)
    }

    fn of_appraiser(&self, appraiser: usize) -> Vec<f64> {
        self.readings[appraiser].iter().flatten().copied().collect()
    }

    fn of_part(&self, part: usize) -> Vec<f64> {
        let cells = self.readings.iter().map(|appraiser| &appraiser[part]);
        cells.flatten().copied().collect()
    }

    fn appraiser_means(&self) -> Result<Vec<f64>, StatsError> {
        (0..self.readings.len())
            .map(|appraiser| mean(&self.of_appraiser(appraiser)))
            .collect()
    }

    fn part_means(&self) -> Result<Vec<f64>, StatsError> {
        (0..self.parts)
            .map(|part| mean(&self.of_part(part)))
            .collect()
    }
}

fn same(first: usize, second: usize) -> Result<(), StatsError> {
    if first == second {
        Ok(())
    } else {
        Err(StatsError::Lengths { first, second })
    }
}

/// Standard deviations by where they come from, in the unit of the readings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Variation {
    /// EV: of the gauge read again by the same appraiser (repeatability).
    pub equipment: f64,
    /// AV: between appraisers (reproducibility).
    pub appraisers: f64,
    /// PV: between parts.
    pub parts: f64,
}

impl Variation {
    /// GRR = √(EV² + AV²): of gauge and appraisers together.
    pub fn gauge(&self) -> f64 {
        self.equipment.hypot(self.appraisers)
    }

    /// TV = √(GRR² + PV²): of everything.
    pub fn total(&self) -> f64 {
        self.gauge().hypot(self.parts)
    }

    /// GRR/TV, no unit: what share of the whole standard deviation is the gauge's; 1 where nothing scatters but it.
    pub fn gauge_share(&self) -> f64 {
        if self.gauge() > 0.0 {
            self.gauge() / self.total()
        } else {
            0.0
        }
    }

    /// √2·PV/GRR: how many groups of parts the gauge tells apart, before it is cut to a whole number; endless where
    /// the gauge does not scatter.
    ///
    /// Source: AIAG, *Measurement Systems Analysis*, where √2 is rounded to 1.41, from memory.
    pub fn categories(&self) -> f64 {
        1.41 * self.parts / self.gauge()
    }
}

/// Factors 1/d₂* from an average range to a standard deviation by how many samples a range spans, from 2: many
/// ranges, and one range. Source: AIAG, *Measurement Systems Analysis*, appendix C, from memory.
const MANY: [f64; 2] = [0.8862, 0.5908];
const ONE: [f64; 9] = [
    FRAC_1_SQRT_2,
    0.5231,
    0.4467,
    0.4030,
    0.3742,
    0.3534,
    0.3375,
    0.3249,
    0.3146,
];

/// The study by average and range.
///
/// # Formula
///
/// ```text
/// EV = K₁·R̄       R̄ the mean range of a part's trials
/// AV = √( (K₂·X)² − EV²/(parts·trials) ), 0 where that is below 0        X the range of the appraisers' means
/// PV = K₃·Rₚ      Rₚ the range of the parts' means
/// ```
///
/// # Errors
///
/// [`StatsError::OutOfRange`] for more than 3 trials, 10 appraisers or 10 parts, for which the tables end.
///
/// # Source
///
/// AIAG, *Measurement Systems Analysis*, 4th edition.
pub fn average_and_range(study: &GaugeStudy) -> Result<Variation, StatsError> {
    let span = |samples: &[f64]| range(samples).map(|range| range.max - range.min);
    let ranges: Vec<f64> = study.cells().map(span).collect::<Result<_, _>>()?;
    let equipment = factor("trials", &MANY, study.trials)? * mean(&ranges)?;
    let between =
        factor("appraisers", &ONE, study.readings.len())? * span(&study.appraiser_means()?)?;
    let cells = (study.parts * study.trials) as f64;
    let left = between * between - equipment * equipment / cells;
    Ok(Variation {
        equipment,
        appraisers: left.max(0.0).sqrt(),
        parts: factor("parts", &ONE, study.parts)? * span(&study.part_means()?)?,
    })
}

fn factor(what: &'static str, table: &[f64], samples: usize) -> Result<f64, StatsError> {
    let found = samples.checked_sub(2).and_then(|place| table.get(place));
    found.copied().ok_or(StatsError::OutOfRange {
        what,
        given: samples as f64,
        low: 2.0,
        high: (table.len() + 1) as f64,
    })
}

/// A line of an analysis of variance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Squares {
    /// The sum of squares, in the unit of the readings squared.
    pub sum: f64,
    /// Its degrees of freedom.
    pub dof: usize,
}

impl Squares {
    /// The mean square.
    pub fn mean(&self) -> f64 {
        self.sum / self.dof as f64
    }

    fn with(&self, other: &Self) -> Self {
        Self {
            sum: self.sum + other.sum,
            dof: self.dof + other.dof,
        }
    }
}

/// The study by analysis of variance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Analysis {
    /// Between appraisers.
    pub appraisers: Squares,
    /// Between parts.
    pub parts: Squares,
    /// Appraisers who differ on some parts more than on others.
    pub interaction: Squares,
    /// Between trials.
    pub equipment: Squares,
    /// F of the interaction against the trials; none where the trials do not scatter.
    pub f: Option<f64>,
    /// How probable such an F is where there is no interaction.
    pub p: Option<f64>,
    /// The standard deviations. The interaction's part is in that of the appraisers, unless it was pooled.
    pub variation: Variation,
}

impl Analysis {
    /// Whether the interaction was taken for part of the trials' scatter.
    pub fn is_pooled(&self) -> bool {
        self.p.is_some_and(|p| p > POOLED_ABOVE)
    }
}

/// The study by a two-way analysis of variance, parts and appraisers as draws from many.
///
/// # Formula
///
/// ```text
/// a appraisers, n parts, r trials        MS = SS/ν
/// F = MS_interaction/MS_equipment        p above [`POOLED_ABOVE`]: both pooled into the equipment
/// pooled      EV² = MS_pooled    AV² = (MS_a − MS_pooled)/(n·r)    PV² = (MS_n − MS_pooled)/(a·r)
/// else        EV² = MS_e         I²  = (MS_i − MS_e)/r
///             AV² = (MS_a − MS_i)/(n·r) + I²                      PV² = (MS_n − MS_i)/(a·r)
/// each 0 where it comes out below 0
/// ```
///
/// # Errors
///
/// [`StatsError::Overflow`].
///
/// # Source
///
/// AIAG, *Measurement Systems Analysis*, 4th edition.
pub fn analysis_of_variance(study: &GaugeStudy) -> Result<Analysis, StatsError> {
    let (a, n, r) = (study.readings.len(), study.parts, study.trials);
    let all: Vec<f64> = study.cells().flatten().copied().collect();
    let middle = mean(&all)?;
    let squares =
        |samples: &[f64], of: f64| samples.iter().map(|x| (x - of) * (x - of)).sum::<f64>();
    let (by_appraiser, by_part) = (study.appraiser_means()?, study.part_means()?);
    let appraisers = Squares {
        sum: squares(&by_appraiser, middle) * (n * r) as f64,
        dof: a - 1,
    };
    let parts = Squares {
        sum: squares(&by_part, middle) * (a * r) as f64,
        dof: n - 1,
    };
    let (mut within, mut apart) = (0.0, 0.0);
    for (cell, place) in study.cells().zip(0..) {
        let of = mean(cell)?;
        within += squares(cell, of);
        let expected = by_appraiser[place / n] + by_part[place % n] - middle;
        apart += (of - expected) * (of - expected);
    }
    let equipment = Squares {
        sum: within,
        dof: a * n * (r - 1),
    };
    let interaction = Squares {
        sum: apart * r as f64,
        dof: (a - 1) * (n - 1),
    };
    finite(
        "gauge study",
        appraisers.sum + parts.sum + interaction.sum + equipment.sum,
    )?;
    let f = (equipment.sum > 0.0).then(|| interaction.mean() / equipment.mean());
    let p = match f {
        Some(f) => Some(f_above(
            f,
            Dof::new(interaction.dof as f64)?,
            Dof::new(equipment.dof as f64)?,
        )?),
        None => None,
    };
    let mut analysis = Analysis {
        appraisers,
        parts,
        interaction,
        equipment,
        f,
        p,
        variation: Variation {
            equipment: 0.0,
            appraisers: 0.0,
            parts: 0.0,
        },
    };
    analysis.variation = variation(&analysis, (a, n, r));
    Ok(analysis)
}

fn variation(analysis: &Analysis, (a, n, r): (usize, usize, usize)) -> Variation {
    let part = |mean: f64, less: f64, each: usize| ((mean - less) / each as f64).max(0.0);
    let (of, own) = if analysis.is_pooled() {
        let pooled = analysis.equipment.with(&analysis.interaction).mean();
        (pooled, [pooled, 0.0])
    } else {
        let trials = analysis.equipment.mean();
        let apart = analysis.interaction.mean();
        (apart, [trials, part(apart, trials, r)])
    };
    let [trials, apart] = own;
    Variation {
        equipment: trials.sqrt(),
        appraisers: (part(analysis.appraisers.mean(), of, n * r) + apart).sqrt(),
        parts: part(analysis.parts.mean(), of, a * r).sqrt(),
    }
}
