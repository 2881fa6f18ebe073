//! Two groups, or pairs, by the order of their samples: strays count no more than any other sample.

use super::{Alternative, at_least};
use crate::{
    confidence::{Confidence, Dof, Interval},
    distribution::{normal_cdf, normal_quantile, t_cdf, two_sided_factor},
    error::{StatsError, check, check_pairs, finite},
    spread::sorted,
    trend::{PValue, joining},
};

/// Up to this many samples in all, or pairs, p and intervals are exact.
pub const EXACT_UP_TO: usize = 50;

/// Samples that lie no further apart than this share of the largest are equal: a difference of tenths is no tenth.
pub(super) const TIE: f64 = 1e-12;

/// Whether one of two groups lies higher, by ranks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MannWhitney {
    /// U: in how many pairs of one sample of each group that of the first is the larger; equal ones count half.
    pub u: f64,
    /// How probable a U at least as far that way is where the groups are alike.
    pub p: f64,
    /// How p was worked out.
    pub p_value: PValue,
}

/// The Mann–Whitney test of two groups.
///
/// # Formula
///
/// ```text
/// U = #{(i, j): xᵢ > yⱼ} + ½·#{xᵢ = yⱼ}
///
/// 50 samples or fewer:  P(U′ ≥ U), P(U′ ≤ U), or twice the smaller and 1 at most, over all ways to part the samples
///                       as they are, ties included, into groups of these sizes
/// else:                 z = (|U − nm/2| − ½)/σ,  σ² = nm/12·(N + 1 − Σ (t³ − t)/(N(N − 1))),  t the sizes of ties
/// ```
///
/// The smallest one-sided p of n and m samples is 1/C(n+m, n): 1/6, 1/20, 1/70 and 1/252 of 2, 3, 4 and 5 a group.
/// Samples count as equal when they differ by less than 10⁻¹² of the largest of them.
///
/// # Errors
///
/// [`StatsError::TooFew`] for an empty group, [`StatsError::NotFinite`], [`StatsError::NoSpread`] when all samples are
/// equal.
///
/// # Source
///
/// H. B. Mann and D. R. Whitney 1947; with ties by the shift algorithm of B. Streitberg and J. Röhmel 1986, held
/// against counting all ways.
pub fn mann_whitney(
    first: &[f64],
    second: &[f64],
    alternative: Alternative,
) -> Result<MannWhitney, StatsError> {
    let what = "Mann–Whitney test";
    check(what, first, 1)?;
    check(what, second, 1)?;
    let ranks = mid_ranks(&[first, second].concat());
    let (n, m) = (first.len(), second.len());
    let all = n + m;
    if ranks.ties == [all] {
        return Err(StatsError::NoSpread {
            what,
            row: "both groups",
            n: all,
        });
    }
    // Twice U, which is whole.
    let doubled = ranks.doubled[..n].iter().sum::<usize>() - n * (n + 1);
    let u = doubled as f64 / 2.0;
    let (p, p_value) = if all <= EXACT_UP_TO {
        let chances = ranks.sums_of(n);
        let sum = doubled + n * (n + 1);
        (of_tails(&chances, sum, alternative), PValue::Exact)
    } else {
        let (size, pairs) = (all as f64, (n * m) as f64);
        let ties = ranks.tied_cubes() / (size * (size - 1.0));
        let sd = (pairs / 12.0 * (size + 1.0 - ties)).sqrt();
        (
            normal_p(u - pairs / 2.0, 0.5, sd, alternative),
            PValue::Normal,
        )
    };
    Ok(MannWhitney { u, p, p_value })
}

/// Whether pairs differ one way rather than the other, by ranks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SignedRank {
    /// V: the sum of the ranks of the pairs of which the first is the larger.
    pub v: f64,
    /// How many pairs differ at all: the others say nothing, and are left out.
    pub n: usize,
    /// How probable a V at least as far that way is where the first is as often the larger as the smaller.
    pub p: f64,
    /// How p was worked out.
    pub p_value: PValue,
}

/// The Wilcoxon signed rank test of pairs.
///
/// # Formula
///
/// ```text
/// V = Σ rank |xᵢ − yᵢ| over the pairs with xᵢ > yᵢ, without those with xᵢ = yᵢ
///
/// 50 pairs or fewer:  P(V′ ≥ V), P(V′ ≤ V), or twice the smaller and 1 at most, over all 2ⁿ signs, ties included
/// else:               z = (|V − n(n + 1)/4| − ½)/σ,  σ² = n(n + 1)(2n + 1)/24 − Σ (t³ − t)/48
/// ```
///
/// # Errors
///
/// [`StatsError::Lengths`] when the rows do not pair, [`StatsError::TooFew`] for no pairs, [`StatsError::NotFinite`],
/// [`StatsError::NoSpread`] when no pair differs, [`StatsError::Overflow`].
///
/// # Source
///
/// F. Wilcoxon 1945; with ties by the shift algorithm of B. Streitberg and J. Röhmel 1986.
pub fn signed_rank(
    first: &[f64],
    second: &[f64],
    alternative: Alternative,
) -> Result<SignedRank, StatsError> {
    let what = "signed rank test";
    let apart = differences(what, first, second)?;
    let (sizes, signs): (Vec<f64>, Vec<bool>) = apart
        .iter()
        .filter(|d| d.abs() > 0.0)
        .map(|d| (d.abs(), *d > 0.0))
        .unzip();
    let n = sizes.len();
    if n == 0 {
        return Err(StatsError::NoSpread {
            what,
            row: "the differences",
            n: apart.len(),
        });
    }
    let scale = largest(first).max(largest(second));
    let ranks = ranks_within(&sizes, TIE * scale);
    let positive = ranks.doubled.iter().zip(&signs).filter(|(_, up)| **up);
    let sum: usize = positive.map(|(rank, _)| rank).sum();
    let v = sum as f64 / 2.0;
    let (p, p_value) = if n <= EXACT_UP_TO {
        let chances = ranks.sums_of_any();
        (of_tails(&chances, sum, alternative), PValue::Exact)
    } else {
        let size = n as f64;
        let middle = size * (size + 1.0) / 4.0;
        let variance = middle * (2.0 * size + 1.0) / 6.0 - ranks.tied_cubes() / 48.0;
        (
            normal_p(v - middle, 0.5, variance.sqrt(), alternative),
            PValue::Normal,
        )
    };
    Ok(SignedRank { v, n, p, p_value })
}

/// A shift between groups and its interval, in the unit of the samples.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shift {
    /// By how much the first lies above the second: the middle of all differences.
    pub value: f64,
    /// Its interval; none where so few samples cannot be as sure as was asked.
    pub interval: Option<Interval>,
    /// How sure the interval is, at least as sure as was asked, as a share of 1; where there is none, how sure the widest
    /// one is, from the least difference to the greatest.
    pub attained: f64,
}

/// The Hodges–Lehmann shift of one group above another, with its interval.
///
/// # Formula
///
/// ```text
/// D₍₁₎ ≤ … ≤ D₍ₙₘ₎ all xᵢ − yⱼ in order        value: their median        interval: D₍ₖ₎ to D₍ₙₘ₊₁₋ₖ₎
///
/// 50 samples or fewer:  k the largest with P(U ≤ k − 1) ≤ (1 − c)/2, U as without ties; attained 1 − 2·P(U ≤ k − 1)
/// else:                 k = ⌊nm/2 − z·√(nm(N + 1)/12)⌋
/// ```
///
/// Cost: the product of the sizes, in time and memory. Where samples tie the interval is surer than it says.
///
/// # Errors
///
/// [`StatsError::TooFew`] for an empty group, [`StatsError::NotFinite`], [`StatsError::Overflow`].
///
/// # Source
///
/// J. L. Hodges and E. L. Lehmann 1963; M. Hollander and D. A. Wolfe, *Nonparametric statistical methods*, section 4.3.
pub fn shift(first: &[f64], second: &[f64], confidence: Confidence) -> Result<Shift, StatsError> {
    let what = "Hodges–Lehmann shift";
    check(what, first, 1)?;
    check(what, second, 1)?;
    let mut apart = Vec::with_capacity(first.len() * second.len());
    for x in first {
        for y in second {
            apart.push(finite(what, x - y)?);
        }
    }
    let (n, m) = (first.len(), second.len());
    if n + m <= EXACT_UP_TO {
        exact_shift(&sorted(&apart), &joining(n, m), confidence)
    } else {
        let pairs = (n * m) as f64;
        let sd = (pairs * (n + m + 1) as f64 / 12.0).sqrt();
        normal_shift(&sorted(&apart), pairs / 2.0, sd, confidence)
    }
}

/// The Hodges–Lehmann shift of pairs, with its interval.
///
/// # Formula
///
/// ```text
/// W₍₁₎ ≤ … ≤ W₍ₘ₎ all (dᵢ + dⱼ)/2 with i ≤ j in order, M = n(n + 1)/2, d = x − y
/// value: their median        interval: W₍ₖ₎ to W₍ₘ₊₁₋ₖ₎
///
/// 50 pairs or fewer:  k the largest with P(V ≤ k − 1) ≤ (1 − c)/2, V as without ties; attained 1 − 2·P(V ≤ k − 1)
/// else:               k = ⌊M/2 − z·√(n(n + 1)(2n + 1)/24)⌋
/// ```
///
/// Pairs that do not differ stay in. Cost: quadratic in the number of pairs, in time and memory.
///
/// # Errors
///
/// [`StatsError::Lengths`] when the rows do not pair, [`StatsError::TooFew`] for no pairs, [`StatsError::NotFinite`],
/// [`StatsError::Overflow`].
///
/// # Source
///
/// J. L. Hodges and E. L. Lehmann 1963; M. Hollander and D. A. Wolfe, *Nonparametric statistical methods*, section 3.3.
pub fn paired_shift(
    first: &[f64],
    second: &[f64],
    confidence: Confidence,
) -> Result<Shift, StatsError> {
    let apart = differences("Hodges–Lehmann shift of pairs", first, second)?;
    let n = apart.len();
    let mut walsh = Vec::with_capacity(n * (n + 1) / 2);
    for (place, one) in apart.iter().enumerate() {
        walsh.extend(apart[place..].iter().map(|two| f64::midpoint(*one, *two)));
    }
    if n <= EXACT_UP_TO {
        // Untied ranks 1 to n, doubled: every other sum is empty.
        let ranks = Ranks {
            doubled: (1..=n).map(|rank| 2 * rank).collect(),
            ties: vec![1; n],
        };
        let chances: Vec<f64> = ranks.sums_of_any().into_iter().step_by(2).collect();
        exact_shift(&sorted(&walsh), &chances, confidence)
    } else {
        let size = n as f64;
        let middle = size * (size + 1.0) / 4.0;
        let sd = (middle * (2.0 * size + 1.0) / 6.0).sqrt();
        normal_shift(&sorted(&walsh), middle, sd, confidence)
    }
}

/// xᵢ − yᵢ, 0 where rounding alone sets them apart.
fn differences(what: &'static str, first: &[f64], second: &[f64]) -> Result<Vec<f64>, StatsError> {
    check_pairs(what, first, second, 1)?;
    let none = TIE * largest(first).max(largest(second));
    let apart = |(x, y): (&f64, &f64)| {
        let apart = finite(what, x - y)?;
        Ok(if apart.abs() <= none { 0.0 } else { apart })
    };
    first.iter().zip(second).map(apart).collect()
}

fn largest(samples: &[f64]) -> f64 {
    samples.iter().fold(0.0, |most, x| most.max(x.abs()))
}

/// From the chance of each rank sum 0, 1, 2 … that goes with the differences in order.
fn exact_shift(
    apart: &[f64],
    chances: &[f64],
    confidence: Confidence,
) -> Result<Shift, StatsError> {
    // A chance that is just that of the tail counts as such.
    let tail = (1.0 - confidence.below_upper_end()) * (1.0 + TIE);
    let (mut k, mut below) = (0, 0.0);
    for chance in chances {
        if below + chance > tail || 2 * (k + 1) > apart.len() {
            break;
        }
        below += chance;
        k += 1;
    }
    let interval = k.checked_sub(1).map(|place| Interval {
        low: apart[place],
        high: apart[apart.len() - k],
    });
    // Without an interval the widest one, between the ends, leaves just the least sum outside.
    let outside = if k > 0 { below } else { chances[0] };
    Ok(Shift {
        value: crate::robust::median(apart)?,
        interval,
        attained: (1.0 - 2.0 * outside).max(0.0),
    })
}

fn normal_shift(
    apart: &[f64],
    middle: f64,
    sd: f64,
    confidence: Confidence,
) -> Result<Shift, StatsError> {
    let z = normal_quantile(confidence.below_upper_end())?;
    let place = (middle - z * sd).floor();
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "between 0 and half the number of differences, and its whole part is meant"
    )]
    let k = place.max(0.0) as usize;
    let interval = k.checked_sub(1).map(|place| Interval {
        low: apart[place],
        high: apart[apart.len() - k],
    });
    let attained = if interval.is_some() {
        confidence.share()
    } else {
        1.0 - 2.0 * normal_cdf((0.5 - middle) / sd)
    };
    Ok(Shift {
        value: crate::robust::median(apart)?,
        interval,
        attained,
    })
}

/// How probable it is that a sample of the second group is the larger.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stochastic {
    /// P(X < Y) + ½·P(X = Y): ½ where neither group tends to lie higher.
    pub value: f64,
    /// What is known of its scatter; none where no sample of one group lies among those of the other.
    pub spread: Option<StochasticSpread>,
}

/// The scatter of a [`Stochastic`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StochasticSpread {
    /// The standard error of the probability.
    pub se: f64,
    /// Its degrees of freedom.
    pub dof: Dof,
    /// How probable a value as far from ½ is where neither group tends to lie higher, by Student's t.
    pub p: f64,
}

impl Stochastic {
    /// value ± t·SE within 0 to 1, t leaving (1 − c)/2 above it; none without a known scatter.
    ///
    /// # Errors
    ///
    /// None that a [`Confidence`] could bring.
    pub fn interval(&self, confidence: Confidence) -> Result<Option<Interval>, StatsError> {
        let Some(spread) = self.spread else {
            return Ok(None);
        };
        let half = two_sided_factor(confidence, spread.dof)? * spread.se;
        Ok(Some(Interval {
            low: (self.value - half).max(0.0),
            high: (self.value + half).min(1.0),
        }))
    }
}

/// How probable it is that a sample of the second group is larger than one of the first: for grades, which have an order
/// but no unit.
///
/// # Formula
///
/// ```text
/// R ranks among all samples, Q within the own group        p̂ = (R̄₂ − R̄₁)/N + ½
/// sᵢ² = Σ (Rᵢⱼ − Qᵢⱼ − R̄ᵢ + (nᵢ + 1)/2)²/(nᵢ − 1)        τᵢ = sᵢ²/(N − nᵢ)²
/// SE² = τ₁/n₁ + τ₂/n₂        ν = SE⁴/( (τ₁/n₁)²/(n₁ − 1) + (τ₂/n₂)²/(n₂ − 1) )
/// ```
///
/// Equal scatter of the groups is not asked for. For fewer than about ten samples a group the interval is rough, and where
/// the groups lie wholly apart there is none: then [`mann_whitney`] tells how probable that is by chance.
///
/// # Errors
///
/// [`StatsError::TooFew`] for a group under two samples, [`StatsError::NotFinite`].
///
/// # Source
///
/// E. Brunner and U. Munzel, *The nonparametric Behrens–Fisher problem: asymptotic theory and a small-sample
/// approximation*, Biometrical Journal 42 (2000).
pub fn stochastic(first: &[f64], second: &[f64]) -> Result<Stochastic, StatsError> {
    let what = "probability of the larger sample";
    check(what, first, 2)?;
    check(what, second, 2)?;
    let (n, m) = (first.len(), second.len());
    let tie = TIE * largest(first).max(largest(second));
    let all = ranks_within(&[first, second].concat(), tie).doubled;
    // By sample, twice how many of the other group lie below it: R − Q.
    let placements = |own: &[f64], among: &[usize]| -> Vec<f64> {
        let within = ranks_within(own, tie).doubled;
        let apart = among.iter().zip(&within).map(|(r, q)| r - q);
        apart.map(|twice| twice as f64 / 2.0).collect()
    };
    let (low, high) = (placements(first, &all[..n]), placements(second, &all[n..]));
    let mean = |row: &[f64]| row.iter().sum::<f64>() / row.len() as f64;
    let value = mean(&high) / n as f64;
    let part = |row: &[f64], others: usize| {
        let middle = mean(row);
        let squares: f64 = row.iter().map(|x| (x - middle) * (x - middle)).sum();
        let (own, others) = (row.len() as f64, others as f64);
        squares / (own - 1.0) / (others * others) / own
    };
    let (one, two) = (part(&low, m), part(&high, n));
    let variance = one + two;
    let spread = if variance > 0.0 {
        let share = one / variance;
        let inverse =
            share * share / (n - 1) as f64 + (1.0 - share) * (1.0 - share) / (m - 1) as f64;
        let (se, dof) = (variance.sqrt(), Dof::new(1.0 / inverse)?);
        let p = (2.0 * t_cdf(-(value - 0.5).abs() / se, dof)).min(1.0);
        Some(StochasticSpread { se, dof, p })
    } else {
        None
    };
    Ok(Stochastic { value, spread })
}

/// Ranks from 1, the mean rank for equal samples.
pub(super) struct Ranks {
    /// Twice the rank of each sample, which is whole.
    pub(super) doubled: Vec<usize>,
    /// How many samples are equal, from the least up.
    ties: Vec<usize>,
}

/// The ranks of samples, equal ones within [`TIE`].
pub(super) fn mid_ranks(samples: &[f64]) -> Ranks {
    ranks_within(samples, TIE * largest(samples))
}

fn ranks_within(samples: &[f64], tie: f64) -> Ranks {
    let mut order: Vec<usize> = (0..samples.len()).collect();
    order.sort_by(|a, b| samples[*a].total_cmp(&samples[*b]));
    let (mut doubled, mut ties) = (vec![0; samples.len()], Vec::new());
    let mut before = 0;
    for group in order.chunk_by(|a, b| samples[*b] - samples[*a] <= tie) {
        for &place in group {
            doubled[place] = 2 * before + group.len() + 1;
        }
        before += group.len();
        ties.push(group.len());
    }
    Ranks { doubled, ties }
}

impl Ranks {
    /// Σ (t³ − t) over the groups of equal samples.
    fn tied_cubes(&self) -> f64 {
        let cube = |t: f64| t * t * t - t;
        self.ties.iter().map(|t| cube(*t as f64)).sum()
    }

    /// The chance of each doubled rank sum of `n` samples taken blindly.
    fn sums_of(&self, n: usize) -> Vec<f64> {
        let most: usize = self.doubled.iter().sum();
        // By how many are taken: the chance of each sum. A sample is taken with the chance n − k in what is left.
        let mut chances = vec![vec![0.0; most + 1]; n + 1];
        chances[0][0] = 1.0;
        let all = self.doubled.len();
        let mut reach = 0;
        for (seen, rank) in self.doubled.iter().enumerate() {
            let left = (all - seen) as f64;
            for k in (0..=n.min(seen)).rev() {
                let taken = n.saturating_sub(k) as f64 / left;
                for sum in (0..=reach).rev() {
                    let chance = chances[k][sum];
                    if chance > 0.0 {
                        if k < n {
                            chances[k + 1][sum + rank] += chance * taken;
                        }
                        chances[k][sum] = chance * (1.0 - taken).max(0.0);
                    }
                }
            }
            reach += rank;
        }
        chances.swap_remove(n)
    }

    /// The chance of each doubled rank sum where every sample is taken or not with equal chance.
    fn sums_of_any(&self) -> Vec<f64> {
        let mut chances = vec![1.0];
        for rank in &self.doubled {
            let mut next = vec![0.0; chances.len() + rank];
            for (sum, chance) in chances.iter().enumerate() {
                next[sum] += chance / 2.0;
                next[sum + rank] += chance / 2.0;
            }
            chances = next;
        }
        chances
    }
}

/// The tail at and beyond a sum, of the chance of each; both tails alike for either way.
fn of_tails(chances: &[f64], sum: usize, alternative: Alternative) -> f64 {
    let below = || chances.iter().take(sum + 1).sum::<f64>().min(1.0);
    let above = || chances.iter().skip(sum).sum::<f64>().min(1.0);
    match alternative {
        Alternative::Lower => below(),
        Alternative::Higher => above(),
        Alternative::Differ => (2.0 * below().min(above())).min(1.0),
    }
}

/// The same by the normal approximation, of a sum that lies so far above its middle.
fn normal_p(above: f64, continuity: f64, sd: f64, alternative: Alternative) -> f64 {
    match alternative {
        Alternative::Higher => normal_cdf((continuity - above) / sd),
        Alternative::Lower => normal_cdf((above + continuity) / sd),
        Alternative::Differ => (2.0 * normal_cdf((continuity - above.abs()) / sd)).min(1.0),
    }
}

/// How few samples a group can have for a p at or below `p` to be possible, of groups alike in size.
///
/// # Formula
///
/// ```text
/// the least n with s/C(2n, n) ≤ p        s = 1 one-sided, 2 two-sided
/// ```
///
/// # Errors
///
/// [`StatsError::OutOfRange`] when p is not within 10⁻⁹ and 1.
///
/// # Source
///
/// By counting: of all ways to part 2n samples into two groups, one puts all of the larger ones into the first.
pub fn least_group_size(p: f64, alternative: Alternative) -> Result<usize, StatsError> {
    super::within("p", p, 1e-9, 1.0)?;
    let mut n = 1;
    while smallest_p(n, n, alternative)? > p {
        n += 1;
    }
    Ok(n)
}

/// The smallest p that counting can give for groups of these sizes, whatever the samples.
///
/// # Formula
///
/// ```text
/// s/C(n + m, n)        s = 1 one-sided, 2 two-sided
/// ```
///
/// # Errors
///
/// [`StatsError::TooFew`] for an empty group.
pub fn smallest_p(n: usize, m: usize, alternative: Alternative) -> Result<f64, StatsError> {
    at_least("smallest p", n.min(m), 1)?;
    let ways = (1..=n).fold(1.0, |ways, k| ways * (m + k) as f64 / k as f64);
    Ok(match alternative {
        Alternative::Differ => (2.0 / ways).min(1.0),
        Alternative::Higher | Alternative::Lower => 1.0 / ways,
    })
}
