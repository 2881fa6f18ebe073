//! More than two groups: do they differ at all, which pairs do, and how much of the scatter lies between them.

use super::{
    Alternative, at_least, check_groups,
    rank::mid_ranks,
    welch::{Difference, welch},
    within,
};
use crate::{
    confidence::Dof,
    distribution::{chi_squared_above, f_above},
    error::{StatsError, check, finite},
    gauge_study::Squares,
};

/// A one-way analysis of variance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OneWay {
    /// Between the groups: the sum of squares in the unit of the samples squared, and its k − 1 degrees of freedom.
    pub between: Squares,
    /// Within them: N − k degrees of freedom.
    pub within: Squares,
    /// F: the mean square between over that within, no unit.
    pub f: f64,
    /// How probable an F at least as large is where the means of all groups are the same.
    pub p: f64,
}

impl OneWay {
    /// `s = √MS_within`: the standard deviation within the groups, in the unit of the samples.
    pub fn residual_sd(&self) -> f64 {
        self.within.mean().sqrt()
    }

    /// `R² = SS_between/(SS_between + SS_within)`, no unit.
    pub fn r_squared(&self) -> f64 {
        self.between.sum / (self.between.sum + self.within.sum)
    }
}

/// Whether the means of the groups differ, where all scatter alike.
///
/// # Formula
///
/// ```text
/// SS_between = Σ nᵢ·(x̄ᵢ − x̄)²        SS_within = ΣΣ (xᵢⱼ − x̄ᵢ)²        MS = SS/ν
/// F = MS_between/MS_within        ν = k − 1 and N − k
/// ```
///
/// Worked on what the samples lie above the first of them, in two passes, so that a large common part does no harm.
///
/// # Errors
///
/// [`StatsError::TooFew`] under two groups, for an empty one or when no group has two samples,
/// [`StatsError::NotFinite`], [`StatsError::NoSpread`] when the samples within each group are equal,
/// [`StatsError::Overflow`].
///
/// # Source
///
/// R. A. Fisher 1925; held against the NIST Statistical Reference Datasets.
pub fn one_way(groups: &[&[f64]]) -> Result<OneWay, StatsError> {
    let what = "analysis of variance";
    let n = check_groups(what, groups, 1)?;
    at_least(what, n, groups.len() + 1)?;
    let origin = groups[0][0];
    let (mut means, mut inside) = (Vec::with_capacity(groups.len()), 0.0);
    for group in groups {
        let shifted: Vec<f64> = group.iter().map(|x| x - origin).collect();
        let size = group.len() as f64;
        let rough = shifted.iter().sum::<f64>() / size;
        // What rounding left in the mean, and in the squares about it.
        let left = shifted.iter().map(|x| x - rough).sum::<f64>() / size;
        let squares: f64 = shifted.iter().map(|x| (x - rough) * (x - rough)).sum();
        inside += (squares - size * left * left).max(0.0);
        means.push((rough + left, size));
    }
    let all = means.iter().map(|(mean, size)| mean * size).sum::<f64>() / n as f64;
    let squares = means
        .iter()
        .map(|(mean, size)| size * (mean - all) * (mean - all));
    let between = Squares {
        sum: finite(what, squares.sum())?,
        dof: groups.len() - 1,
    };
    let within = Squares {
        sum: finite(what, inside)?,
        dof: n - groups.len(),
    };
    if within.sum <= 0.0 {
        return Err(StatsError::NoSpread {
            what,
            row: "each group",
            n,
        });
    }
    let f = finite(what, between.mean() / within.mean())?;
    let p = f_above(
        f,
        Dof::new(between.dof as f64)?,
        Dof::new(within.dof as f64)?,
    )?;
    Ok(OneWay {
        between,
        within,
        f,
        p,
    })
}

/// Whether groups lie at different heights, by ranks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KruskalWallis {
    /// H, no unit: 0 where the mean ranks of all groups are the same.
    pub h: f64,
    /// Degrees of freedom of the χ² that H is compared with: k − 1.
    pub dof: usize,
    /// How probable an H at least as large is where all groups are alike, by χ².
    pub p: f64,
}

/// Whether groups lie at different heights, by the ranks of their samples.
///
/// # Formula
///
/// ```text
/// H = (N − 1)·Σ nᵢ·(r̄ᵢ − r̄)² / ΣΣ (rᵢⱼ − r̄)²        r the ranks of all samples, the mean rank for equal ones
/// p = P(χ² > H), k − 1 degrees of freedom
/// ```
///
/// The usual H with its correction for ties, in one. χ² is rough for groups of fewer than five.
///
/// # Errors
///
/// [`StatsError::TooFew`] under two groups or for an empty one, [`StatsError::NotFinite`],
/// [`StatsError::NoSpread`] when all samples are equal.
///
/// # Source
///
/// W. H. Kruskal and W. A. Wallis, *Use of ranks in one-criterion variance analysis*, J. Am. Stat. Assoc. 47 (1952).
pub fn kruskal_wallis(groups: &[&[f64]]) -> Result<KruskalWallis, StatsError> {
    let what = "Kruskal–Wallis test";
    let n = check_groups(what, groups, 1)?;
    let ranks = mid_ranks(&groups.concat()).doubled;
    let middle = (n + 1) as f64;
    let square = |r: f64| (r - middle) * (r - middle);
    let all: f64 = ranks.iter().map(|rank| square(*rank as f64)).sum();
    if all <= 0.0 {
        return Err(StatsError::NoSpread {
            what,
            row: "all groups",
            n,
        });
    }
    let (mut between, mut before) = (0.0, 0);
    for group in groups {
        let own = &ranks[before..before + group.len()];
        let mean = own.iter().sum::<usize>() as f64 / group.len() as f64;
        between += group.len() as f64 * square(mean);
        before += group.len();
    }
    let h = (n - 1) as f64 * between / all;
    let dof = groups.len() - 1;
    let p = chi_squared_above(h, Dof::new(dof as f64)?)?;
    Ok(KruskalWallis { h, dof, p })
}

/// Two of several groups.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pair {
    /// Which group is the first, from 0.
    pub first: usize,
    /// Which is the second.
    pub second: usize,
    /// The difference of their means, as [`welch`] gives it.
    pub difference: Difference,
    /// Its two-sided p, as if no other pair had been looked at.
    pub p: f64,
    /// The same made larger for all the pairs that were looked at, by [`holm`].
    pub adjusted: f64,
}

/// Every pair of groups by [`welch`], with p-values for that many looks by [`holm`], in the order 0–1, 0–2 … 1–2 ….
///
/// # Errors
///
/// As [`welch`]; [`StatsError::TooFew`] under two groups.
pub fn all_pairs(groups: &[&[f64]]) -> Result<Vec<Pair>, StatsError> {
    check_groups("comparison of pairs", groups, 2)?;
    let mut pairs = Vec::new();
    for first in 0..groups.len() {
        for second in first + 1..groups.len() {
            let difference = welch(groups[first], groups[second])?;
            let p = difference.p(0.0, Alternative::Differ);
            pairs.push(Pair {
                first,
                second,
                difference,
                p,
                adjusted: p,
            });
        }
    }
    let looks: Vec<f64> = pairs.iter().map(|pair| pair.p).collect();
    for (pair, adjusted) in pairs.iter_mut().zip(holm(&looks)?) {
        pair.adjusted = adjusted;
    }
    Ok(pairs)
}

/// p-values made larger for how many there are: one at or below α is then as rarely a mistake as α says, all taken
/// together.
///
/// # Formula
///
/// ```text
/// p̃₍ᵢ₎ = max over j ≤ i of min(1, (m − j + 1)·p₍ⱼ₎)        p₍₁₎ ≤ p₍₂₎ ≤ … ≤ p₍ₘ₎
/// ```
///
/// Given back in the order they came in; none for none.
///
/// # Errors
///
/// [`StatsError::NotFinite`], [`StatsError::OutOfRange`] for what is not within 0 and 1.
///
/// # Source
///
/// S. Holm, *A simple sequentially rejective multiple test procedure*, Scand. J. Stat. 6 (1979).
pub fn holm(p: &[f64]) -> Result<Vec<f64>, StatsError> {
    check("correction of p-values", p, 0)?;
    for given in p {
        within("p", *given, 0.0, 1.0)?;
    }
    let mut order: Vec<usize> = (0..p.len()).collect();
    order.sort_by(|a, b| p[*a].total_cmp(&p[*b]));
    let (mut adjusted, mut largest) = (vec![0.0; p.len()], 0.0_f64);
    for (place, &which) in order.iter().enumerate() {
        largest = largest.max(((p.len() - place) as f64 * p[which]).min(1.0));
        adjusted[which] = largest;
    }
    Ok(adjusted)
}

/// Where the scatter comes from: groups as draws from many, each with several samples.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Components {
    /// `σ²_b`: the variance between groups, in the unit of the samples squared.
    pub between: f64,
    /// `σ²_w`: the variance within a group.
    pub within: f64,
    /// n₀: how many samples a group has, as an average that suits groups of unequal size.
    pub group_size: f64,
}

impl Components {
    /// `ρ = σ²_b/(σ²_b + σ²_w)`, 0 to 1: how alike two samples of one group are.
    pub fn intraclass(&self) -> f64 {
        self.between / (self.between + self.within)
    }
}

/// The variance between and within groups, by the analysis of variance.
///
/// # Formula
///
/// ```text
/// σ²_w = MS_within        σ²_b = (MS_between − MS_within)/n₀, 0 where that is below 0
/// n₀ = (N − Σ nᵢ²/N)/(k − 1)
/// ```
///
/// # Errors
///
/// As [`one_way`].
///
/// # Source
///
/// S. R. Searle, G. Casella and C. E. McCulloch, *Variance components*, 1992, section 3.6.
pub fn variance_components(groups: &[&[f64]]) -> Result<Components, StatsError> {
    let table = one_way(groups)?;
    let sizes = || groups.iter().map(|group| group.len() as f64);
    let n: f64 = sizes().sum();
    let group_size =
        (n - sizes().map(|size| size * size).sum::<f64>() / n) / table.between.dof as f64;
    let within = table.within.mean();
    Ok(Components {
        between: ((table.between.mean() - within) / group_size).max(0.0),
        within,
        group_size,
    })
}

/// How many samples of groups say as little as one sample of a group of its own.
///
/// # Formula
///
/// ```text
/// D = 1 + (m − 1)·ρ        m samples a group, ρ how alike they are
/// ```
///
/// N samples in groups are worth N/D that are independent.
///
/// # Errors
///
/// [`StatsError::OutOfRange`] for m below 1 or infinite, or ρ outside 0 to 1.
///
/// # Source
///
/// L. Kish, *Survey sampling*, 1965, section 5.4.
pub fn design_effect(group_size: f64, intraclass: f64) -> Result<f64, StatsError> {
    let m = within("group size", group_size, 1.0, f64::MAX)?;
    let rho = within("intraclass correlation", intraclass, 0.0, 1.0)?;
    finite("design effect", 1.0 + (m - 1.0) * rho)
}
