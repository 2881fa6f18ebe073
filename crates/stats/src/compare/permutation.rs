//! The difference of two means against all ways to part the samples into groups of these sizes.

use super::{Alternative, Margin, Verdict, Worse, one_sided};
use crate::{
    confidence::Confidence,
    error::{StatsError, check, finite},
    monte_carlo::Source,
    spread::mean,
};

/// Up to this many ways all are counted: two groups of 12 have 2.7 million.
pub const COUNTED_UP_TO: u64 = 10_000_000;

/// A mean difference counts as one as large when it is short of it by less than this share of the largest sample.
const TIE: f64 = 1e-12;

/// What to do where there are too many ways to count them all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Draws {
    /// How many ways are drawn.
    pub n: u64,
    /// The same seed gives the same draws.
    pub seed: u64,
}

/// How many ways to part the samples were looked at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Ways {
    /// All of them.
    All(u64),
    /// So many, drawn.
    Drawn {
        /// How many.
        n: u64,
        /// The standard error of p that comes of it.
        se: f64,
    },
}

/// The difference of two means, and how it compares with those of other ways to part the samples.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Permuted {
    /// d = x̄₁ − x̄₂, in the unit of the samples.
    pub difference: f64,
    /// The share of ways with a difference at least as far that way.
    pub p: f64,
    /// How many ways that is of.
    pub ways: Ways,
}

/// The permutation test of two means: exact, whatever the distribution, where the groups are alike but for chance.
///
/// # Formula
///
/// ```text
/// d′ = x̄′₁ − x̄′₂ of every way to part the n + m samples into n and m, C = C(n + m, n) of them
/// Higher: #{d′ ≥ d}/C        Lower: #{d′ ≤ d}/C        Differ: #{|d′| ≥ |d|}/C
///
/// C above [`COUNTED_UP_TO`]: (b + 1)/(B + 1), b of B drawn ways;  SE = √(p(1 − p)/B)
/// ```
///
/// A d′ short of d by less than 10⁻¹² of the largest sample counts as d: sums of the same samples in another order.
/// p is never below 1/C, or 1/(B + 1): three against three cannot give less than 1/20 one way.
///
/// # Errors
///
/// [`StatsError::TooFew`] for an empty group, and for no draws where draws are needed, [`StatsError::NotFinite`],
/// [`StatsError::Overflow`].
///
/// # Source
///
/// E. J. G. Pitman 1937; with draws B. Phipson and G. K. Smyth, *Permutation p-values should never be zero*, Stat. Appl.
/// Genet. Mol. Biol. 9 (2010).
pub fn permutation(
    first: &[f64],
    second: &[f64],
    alternative: Alternative,
    draws: Draws,
) -> Result<Permuted, StatsError> {
    let what = "permutation test";
    check(what, first, 1)?;
    check(what, second, 1)?;
    let difference = finite(what, mean(first)? - mean(second)?)?;
    let test = Test::of(first, second, alternative)?;
    let (p, ways) = match ways(first.len(), second.len()) {
        Some(all) => (test.count_all() as f64 / all as f64, Ways::All(all)),
        None => test.draw(draws)?,
    };
    Ok(Permuted {
        difference,
        p,
        ways,
    })
}

/// C(n + m, n), none above [`COUNTED_UP_TO`].
fn ways(n: usize, m: usize) -> Option<u64> {
    let (few, many) = (n.min(m) as u64, n.max(m) as u64);
    let mut ways = 1_u64;
    for k in 1..=few {
        // C(many + k, k), whole at every step.
        ways = ways.checked_mul(many.checked_add(k)?)? / k;
        if ways > COUNTED_UP_TO {
            return None;
        }
    }
    Some(ways)
}

/// The samples about their mean, the smaller group's sum, and which sums are as far.
struct Test {
    /// x − x̄, those of the smaller group first.
    centred: Vec<f64>,
    /// How many samples the smaller group has.
    few: usize,
    /// The sum of the smaller group, which goes with the difference: d = ±sum·(1/n + 1/m).
    sum: f64,
    /// Which sums of the smaller group are as far.
    alternative: Alternative,
}

impl Test {
    fn of(first: &[f64], second: &[f64], alternative: Alternative) -> Result<Self, StatsError> {
        let (few, samples, alternative) = if first.len() <= second.len() {
            (first.len(), [first, second].concat(), alternative)
        } else {
            let turned = match alternative {
                Alternative::Differ => Alternative::Differ,
                Alternative::Higher => Alternative::Lower,
                Alternative::Lower => Alternative::Higher,
            };
            (second.len(), [second, first].concat(), turned)
        };
        let middle = mean(&samples)?;
        let centred: Vec<f64> = samples.iter().map(|x| x - middle).collect();
        let scale = samples.iter().fold(0.0_f64, |most, x| most.max(x.abs()));
        let slack = TIE * scale * few as f64;
        let sum: f64 = centred[..few].iter().sum();
        finite("permutation test", scale * samples.len() as f64)?;
        // Towards the middle, so that an equal sum in another order is as far.
        let sum = match alternative {
            Alternative::Higher => sum - slack,
            Alternative::Lower => sum + slack,
            Alternative::Differ => (sum.abs() - slack).max(0.0),
        };
        Ok(Self {
            centred,
            few,
            sum,
            alternative,
        })
    }

    fn is_as_far(&self, sum: f64) -> bool {
        match self.alternative {
            Alternative::Higher => sum >= self.sum,
            Alternative::Lower => sum <= self.sum,
            Alternative::Differ => sum.abs() >= self.sum,
        }
    }

    fn count_all(&self) -> u64 {
        self.count(&self.centred, self.few, 0.0)
    }

    /// How many ways to take `left` more of `from` bring a sum as far.
    fn count(&self, from: &[f64], left: usize, sum: f64) -> u64 {
        match left {
            0 => u64::from(self.is_as_far(sum)),
            1 => from
                .iter()
                .map(|x| u64::from(self.is_as_far(sum + x)))
                .sum(),
            _ => (0..=from.len() - left)
                .map(|taken| self.count(&from[taken + 1..], left - 1, sum + from[taken]))
                .sum(),
        }
    }

    fn draw(&self, draws: Draws) -> Result<(f64, Ways), StatsError> {
        if draws.n == 0 {
            return Err(StatsError::TooFew {
                what: "drawn permutation test",
                got: 0,
                least: 1,
            });
        }
        let mut source = Source::seeded(draws.seed);
        let mut samples = self.centred.clone();
        let mut as_far = 0_u64;
        for _ in 0..draws.n {
            for place in 0..self.few {
                let other = place + source.below(samples.len() - place);
                samples.swap(place, other);
            }
            as_far += u64::from(self.is_as_far(samples[..self.few].iter().sum()));
        }
        let n = draws.n as f64;
        let p = (as_far as f64 + 1.0) / (n + 1.0);
        let se = (p * (1.0 - p) / n).sqrt();
        Ok((p, Ways::Drawn { n: draws.n, se }))
    }
}

/// Whether the first group is no worse by Δ or more, by [`permutation`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PermutedClaim {
    /// How probable a difference at least as good would be if the first group were worse by just Δ.
    pub p: f64,
    /// How probable one at least as bad would be.
    pub p_contrary: f64,
    /// What became of the claim.
    pub verdict: Verdict,
    /// How many ways to part the samples that is of.
    pub ways: Ways,
}

/// The claim that the first group is worse by less than Δ, by parting the samples in other ways.
///
/// # Formula
///
/// ```text
/// x′ = x − Δ where higher is worse, x + Δ where lower is: if the first group were worse by just Δ, and alike else,
/// x′ and y would be alike, and [`permutation`] says how far they are from it
///
/// supported: p ≤ 1 − c        contradicted: p_contrary ≤ 1 − c        not shown: else
/// ```
///
/// Few samples cannot support anything: [`super::rank::smallest_p`].
///
/// # Errors
///
/// As [`permutation`]; [`StatsError::OutOfRange`] for a confidence below one half.
///
/// # Source
///
/// S. Wellek, *Testing statistical hypotheses of equivalence and noninferiority*, 2nd edition 2010, for the shift;
/// Pitman 1937 for the test.
pub fn non_inferiority(
    first: &[f64],
    second: &[f64],
    margin: Margin,
    worse: Worse,
    confidence: Confidence,
    draws: Draws,
) -> Result<PermutedClaim, StatsError> {
    let allowed = (1.0 - one_sided(confidence)?) * (1.0 + TIE);
    check("permutation test", first, 1)?;
    let back = worse.turn(-margin.get());
    let shifted: Vec<f64> = first.iter().map(|x| x + back).collect();
    let (better, contrary) = match worse {
        Worse::Higher => (Alternative::Lower, Alternative::Higher),
        Worse::Lower => (Alternative::Higher, Alternative::Lower),
    };
    let good = permutation(&shifted, second, better, draws)?;
    let bad = permutation(&shifted, second, contrary, draws)?;
    Ok(PermutedClaim {
        p: good.p,
        p_contrary: bad.p,
        verdict: Verdict::of(good.p <= allowed, bad.p <= allowed),
        ways: good.ways,
    })
}
