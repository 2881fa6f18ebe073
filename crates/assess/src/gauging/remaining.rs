//! How much further a part could have run.

use ringland_stats::{
    StatsError,
    confidence::{Confidence, Dof, Interval},
    conformity::{Tolerance, probability_of_conformity},
    distribution::t_quantile,
    monte_carlo::{Input, MonteCarlo, Source as Draws, quantile_of_draws},
    regression::{Estimate, LineFit, Possible, PowerFit, possible_ratios},
    uncertainty::Standard,
};
use uom::si::{f64::Length, length::meter};

use super::{
    rate::{BreakIn, Exposure, counted, wear_rate},
    reading::{AsNew, GaugingError, Measured, Range},
};

/// A part that was measured once, with its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Position {
    /// Its size.
    pub size: Measured,
    /// Its size as new.
    pub as_new: AsNew,
    /// Its wear limit; above the size as new where the size grows.
    pub limit: Length,
    /// How long it has run.
    pub run: Exposure,
    /// What is known of its break-in.
    pub break_in: Option<BreakIn>,
}

/// How much further it could have run, in the unit of the run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remaining {
    /// It is past its limit already.
    AlreadyBeyond {
        /// How probable that is, 0.5 to 1.
        probability: f64,
    },
    /// The wear goes on at a rate that is known well enough for both ends.
    Between {
        /// At the best values.
        estimate: f64,
        /// At least.
        low: f64,
        /// At most.
        high: f64,
    },
    /// The wear is not distinguishable from none: only a lower bound can be given, one-sided at the
    /// confidence asked for.
    AtLeast {
        /// The bound; 0 where even being at the limit cannot be excluded.
        low: f64,
    },
    /// Nothing that was seen leads to the limit.
    NotReached,
}

impl Remaining {
    /// What can be counted on: the lower end of what is left.
    pub fn at_least(&self) -> f64 {
        match *self {
            Self::AlreadyBeyond { .. } => 0.0,
            Self::Between { low, .. } | Self::AtLeast { low } => low,
            Self::NotReached => f64::INFINITY,
        }
    }
}

/// What is left by two ways that must not disagree by much.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Checked {
    /// From draws.
    pub remaining: Remaining,
    /// All that is possible after Fieller, two-sided at the same confidence; there a rectangular as-new
    /// size counts as normal.
    pub fieller: Possible,
}

/// How much further a part could have run, that wears on at the rate it has worn at.
///
/// # Formula
///
/// ```text
/// R = (limit − x)/r        r as [`wear_rate`], both towards the limit
/// by draws of x, x_new and the wear while breaking in (JCGM 101):
/// x at or past the limit: R = 0;  r ≤ 0: R has no end
/// x̂ past the limit                       already beyond
/// the draw at (1 + c)/2 has an end       from the draw at (1 − c)/2 to that at (1 + c)/2
/// it has none                            at least the draw at 1 − c
/// ```
///
/// The same seed gives the same draws, so that more wear never leaves more to run.
///
/// # Errors
///
/// [`GaugingError::NoAllowance`], [`GaugingError::Run`], and what [`MonteCarlo`] refuses.
///
/// # Source
///
/// JCGM 101:2008; Fieller as [`possible_ratios`].
pub fn remaining(
    position: &Position,
    confidence: Confidence,
    seed: u64,
    draws: usize,
) -> Result<Checked, GaugingError> {
    let prepared = Prepared::of(position)?;
    let mut drawing = prepared.draw(Draws::seeded(seed), draws)?;
    drawing.go_on(draws, |_, inputs| prepared.left(inputs, 0.0));
    Ok(Checked {
        remaining: prepared.decide(&drawing.outputs(), confidence)?,
        fieller: prepared.fieller(confidence)?,
    })
}

/// How much further a part could have run that was measured again and again, from the last reading on.
///
/// # Formula
///
/// ```text
/// y(x_last) ≥ limit                       already beyond
/// Fieller's set, two-sided, has two ends  from its lower to its upper, less x_last
/// else                                    at least: where the upper one-sided band reaches the limit
/// ```
///
/// Wear is taken to grow with x.
///
/// # Errors
///
/// When a number is too large.
pub fn remaining_on_line(
    line: &LineFit,
    from: f64,
    limit: f64,
    confidence: Confidence,
) -> Result<Remaining, StatsError> {
    if let Some(beyond) = beyond(line.at(from), line.se_at(from), line.dof, limit) {
        return Ok(beyond);
    }
    let c = confidence.share();
    let two_sided = t_quantile(f64::midpoint(1.0, c), line.dof)?;
    if let (Possible::Between { low, high }, Some(x)) =
        (line.may_reach(limit, two_sided)?, line.reaches(limit))
        && line.slope > 0.0
    {
        return Ok(Remaining::Between {
            estimate: x - from,
            low: (low - from).max(0.0),
            high: high - from,
        });
    }
    // Any confidence from 1/2 on has a factor above 0; below it, the line itself is the bound.
    let one_sided = t_quantile(c.max(0.5), line.dof)?;
    Ok(match line.may_reach(limit, one_sided)?.first_from(from) {
        Some(x) => Remaining::AtLeast { low: x - from },
        None => Remaining::NotReached,
    })
}

/// The same on a power law.
///
/// # Formula
///
/// ```text
/// y(x_last) ≥ limit                              already beyond
/// the exponent is above 0 at the two-sided c     the tangent's interval of x, less x_last
/// else                                           at least: its lower end, one-sided
/// ```
///
/// # Errors
///
/// When a number is too large.
pub fn remaining_on_power(
    power: &PowerFit,
    from: f64,
    limit: f64,
    confidence: Confidence,
) -> Result<Remaining, StatsError> {
    if let Some(beyond) = beyond(power.at(from), power.se_at(from), power.dof, limit) {
        return Ok(beyond);
    }
    let c = confidence.share();
    let two_sided = t_quantile(f64::midpoint(1.0, c), power.dof)?;
    let Some(x) = power.reaches(limit) else {
        return Ok(Remaining::NotReached);
    };
    if power.exponent > two_sided * power.se_exponent
        && let Ok(Some(Interval { low, high })) = power.may_reach(limit, two_sided)
    {
        return Ok(Remaining::Between {
            estimate: x - from,
            low: (low - from).max(0.0),
            high: high - from,
        });
    }
    let one_sided = t_quantile(c.max(0.5), power.dof)?;
    let low = power.lowest_reach(limit, one_sided).unwrap_or(0.0);
    Ok(Remaining::AtLeast {
        low: (low - from).max(0.0),
    })
}

/// Of a curve that is past the limit now.
fn beyond(now: f64, u: f64, dof: Dof, limit: f64) -> Option<Remaining> {
    (now >= limit).then(|| {
        let within = probability_of_conformity(now, Standard { u, dof }, Tolerance::AtMost(limit));
        Remaining::AlreadyBeyond {
            // On the limit itself neither is likelier.
            probability: (1.0 - within).max(0.5),
        }
    })
}

/// A position as plain numbers, in metres and in the SI unit of its run.
#[derive(Clone, Copy, Debug)]
pub(super) struct Prepared {
    /// 1 where the size grows, −1 where it shrinks.
    sign: f64,
    size: Measured,
    as_new: AsNew,
    at_first: Option<Measured>,
    limit: f64,
    counted: f64,
    rate: f64,
    rate_dof: Dof,
}

impl Prepared {
    pub(super) fn of(position: &Position) -> Result<Self, GaugingError> {
        let new = position.as_new.measured().value;
        if position.limit == new {
            return Err(GaugingError::NoAllowance);
        }
        let grows = position.limit > new;
        let Position {
            size,
            as_new,
            limit,
            run,
            break_in,
        } = *position;
        let rate = wear_rate(&size, &as_new, grows, run, break_in.as_ref())?;
        Ok(Self {
            sign: if grows { 1.0 } else { -1.0 },
            size,
            as_new,
            at_first: break_in.map(|break_in| break_in.wear),
            limit: limit.get::<meter>(),
            counted: counted(run, break_in.as_ref())?,
            rate: rate.rate,
            rate_dof: rate.budget.dof.unwrap_or(Dof::ONE),
        })
    }

    /// Draws of x, x_new and the wear while breaking in.
    pub(super) fn draw(&self, source: Draws, draws: usize) -> Result<MonteCarlo<3>, StatsError> {
        let measured = |m: &Measured| Input::of(m.value.get::<meter>(), m.standard());
        let as_new = match &self.as_new {
            AsNew::Known(new) => measured(new),
            AsNew::Range(Range { low, high }) => Input::Rectangular {
                low: low.min(*high).get::<meter>(),
                high: low.max(*high).get::<meter>(),
            },
        };
        let at_first = self.at_first.as_ref().map_or(Input::Exactly(0.0), measured);
        MonteCarlo::new([measured(&self.size), as_new, at_first], draws, source)
    }

    /// What is left to run, for one draw; `off` is what the gauge reads too much.
    #[inline]
    pub(super) fn left(&self, [x, new, at_first]: [f64; 3], off: f64) -> f64 {
        let x = x - off;
        let left = self.sign * (self.limit - x);
        let wear = self.sign * (x - new) - at_first;
        // Without a way round the division, so that it is done for several draws at once.
        let ahead = left * self.counted / wear;
        let ahead = if wear > 0.0 { ahead } else { f64::INFINITY };
        if left > 0.0 { ahead } else { 0.0 }
    }

    /// What the draws come to.
    pub(super) fn decide(
        &self,
        draws: &[f64],
        confidence: Confidence,
    ) -> Result<Remaining, StatsError> {
        let x = self.size.value.get::<meter>();
        let left = self.sign * (self.limit - x);
        let Standard { u, dof } = self.size.standard();
        match beyond(self.sign * x, u, dof, self.sign * self.limit) {
            Some(beyond) => Ok(beyond),
            None => between_or_at_least(left / self.rate, draws, confidence),
        }
    }

    fn fieller(&self, confidence: Confidence) -> Result<Possible, StatsError> {
        let metres = |length: Length| length.get::<meter>();
        let u = metres(self.size.u);
        let others = [Some(self.as_new.measured()), self.at_first];
        let squares: f64 = others
            .iter()
            .flatten()
            .map(|m| metres(m.u) * metres(m.u))
            .sum();
        let left = Estimate {
            value: self.sign * (self.limit - metres(self.size.value)),
            u,
        };
        let wear = Estimate {
            value: self.rate * self.counted,
            u: (u * u + squares).sqrt(),
        };
        let factor = t_quantile(f64::midpoint(1.0, confidence.share()), self.rate_dof)?;
        // Reading more leaves less: the two vary against each other.
        let ratio = possible_ratios(left, wear, -u * u, factor)?;
        Ok(ratio.scaled(self.counted))
    }
}

/// From draws of what is left, some of which may have no end.
pub(super) fn between_or_at_least(
    estimate: f64,
    draws: &[f64],
    confidence: Confidence,
) -> Result<Remaining, StatsError> {
    let c = confidence.share();
    let high = quantile_of_draws(draws, f64::midpoint(1.0, c))?;
    if high.is_finite() {
        return Ok(Remaining::Between {
            estimate,
            low: quantile_of_draws(draws, (1.0 - c) / 2.0)?,
            high,
        });
    }
    let low = quantile_of_draws(draws, 1.0 - c)?;
    Ok(if low.is_finite() {
        Remaining::AtLeast { low }
    } else {
        Remaining::NotReached
    })
}
