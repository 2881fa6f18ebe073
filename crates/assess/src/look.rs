//! One look to a score, with the scatter of repeated looks.
//!
//! The mapping is the project's own and lies in the plan as data; see the method page.

use ringland_card::{
    LevelId,
    entry::{Areas, Body, Entry, Look},
    plan::{Characteristic, Repeatability},
    scale::{Breakpoint, Scale},
};

use crate::{
    gauging::finding::Figure,
    photo::areas::parting_scatter,
    trade::demerit::{demerit, merit},
};

/// What one look is worth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LookScore {
    /// Score s, 0 to 10; 10 is clean or as new.
    pub score: f64,
    /// Standard uncertainty of repeated looks, in score.
    pub u_rep: f64,
    /// Demerit D, 0 to 100, for a deposit by area.
    pub demerit: Option<f64>,
}

/// Scores the rating or measurement of an entry on the scale of its characteristic.
///
/// Gives nothing for *not inspected*, and for a look that does not fit the scale: entries are checked
/// when they are written, so the second happens only under another plan.
pub fn score_entry(
    entry: &Entry,
    characteristic: &Characteristic,
    scale: &Scale,
) -> Option<LookScore> {
    let u = characteristic.u_rep;
    match (&entry.body, scale) {
        (Body::Rating { look, .. }, _) => score_look(look, scale, u),
        (Body::Measurement { value, .. }, Scale::Measured { as_new, limit }) => {
            Some(plain(allowance_score(*value, *as_new, *limit), u))
        }
        _ => None,
    }
}

/// Scores a look on a scale.
///
/// # Formula
///
/// ```text
/// grade        s = T(g), half steps (T(g−½) + T(g+½))/2
/// area         D = Σ aₖ·fₖ,  s = 10 − D/10
/// merit area   s = (Σ aₖ·mₖ + (100 − Σ aₖ)·10)/100
/// extent       straight between breakpoints (x, s)
/// count        the same
/// state        s = T(state)
/// ```
pub fn score_look(look: &Look, scale: &Scale, u_rep: Repeatability) -> Option<LookScore> {
    match (scale, look) {
        (Scale::Grade { scores }, Look::Grade(grade)) => {
            Some(plain(grade_score(scores, grade.half_steps()), u_rep))
        }
        (Scale::Area { levels }, Look::Areas(areas)) => {
            let demerit = demerit(levels, areas);
            let slopes = levels
                .iter()
                .map(|level| (share(areas, level.id.as_str()), level.factor));
            Some(LookScore {
                score: 10.0 - demerit / 10.0,
                u_rep: with_parting(area_scatter(u_rep, 10.0, slopes), areas, scale),
                demerit: Some(demerit),
            })
        }
        (Scale::MeritArea { levels }, Look::Areas(areas)) => {
            let slopes = levels
                .iter()
                .map(|level| (share(areas, level.id.as_str()), 10.0 - level.merit));
            Some(LookScore {
                score: merit(levels, areas),
                u_rep: with_parting(area_scatter(u_rep, 100.0, slopes), areas, scale),
                demerit: None,
            })
        }
        (Scale::Extent { points }, Look::Percent(percent)) => {
            Some(on_breakpoints(points, *percent, u_rep))
        }
        (Scale::Count { points }, Look::Count(count)) => {
            Some(on_breakpoints(points, *count as f64, u_rep))
        }
        (Scale::State { states }, Look::State(state)) => states
            .iter()
            .find(|known| known.id == *state)
            .map(|known| plain(known.score, u_rep)),
        _ => None,
    }
}

/// The score of a size from the share of the wear allowance that is used.
///
/// # Formula
///
/// ```text
/// c = (x − x_new)/(x_limit − x_new)
/// s = 10·(1 − c), held within 0 to 10
/// ```
///
/// A part better than new has used nothing; one beyond its limit has nothing left.
pub fn allowance_score(x: f64, as_new: f64, limit: f64) -> f64 {
    (10.0 * (1.0 - (x - as_new) / (limit - as_new))).clamp(0.0, 10.0)
}

/// The score of the share c of a wear allowance that is used, with the uncertainty of c carried through.
///
/// # Formula
///
/// ```text
/// s = 10·(1 − c), held within 0 to 10        u(s) = 10·u(c)
/// ```
pub fn share_score(share: &Figure) -> LookScore {
    LookScore {
        score: allowance_score(share.si, 0.0, 1.0),
        u_rep: 10.0 * share.budget.u,
        demerit: None,
    }
}

fn grade_score(scores: &[f64; 6], half_steps: usize) -> f64 {
    let below = scores[half_steps / 2];
    match scores.get(half_steps.div_ceil(2)) {
        Some(above) if half_steps % 2 == 1 => f64::midpoint(below, *above),
        _ => below,
    }
}

/// A score whose scatter does not hang on the slope of a table.
fn plain(score: f64, u_rep: Repeatability) -> LookScore {
    let (Repeatability::Score(u) | Repeatability::Percent(u) | Repeatability::Count(u)) = u_rep;
    LookScore {
        score,
        u_rep: u,
        demerit: None,
    }
}

fn share(areas: &Areas, level: &str) -> f64 {
    areas.shares.get(level).copied().unwrap_or(0.0)
}

/// Scatter of a score by area: p points of percent at each level that is there, independent of each
/// other, each carried through what a percent of that level costs; for a clean surface the mildest
/// level stands in, as the one most easily overlooked.
fn area_scatter(
    u_rep: Repeatability,
    percent_per_point: f64,
    shares_and_slopes: impl Iterator<Item = (f64, f64)>,
) -> f64 {
    let points = match u_rep {
        Repeatability::Percent(points) => points,
        Repeatability::Score(u) | Repeatability::Count(u) => return u,
    };
    let (mut squares, mut mildest) = (0.0, f64::INFINITY);
    let mut any = false;
    for (share, slope) in shares_and_slopes {
        mildest = slope.min(mildest);
        if share > 0.0 {
            any = true;
            squares += slope * slope;
        }
    }
    let slope = if any { squares.sqrt() } else { mildest };
    if slope.is_finite() {
        points / percent_per_point * slope
    } else {
        0.0
    }
}

/// What where the shades part on a photo leaves open in the score: its standard uncertainty, of areas that were read off
/// one.
///
/// # Formula
///
/// That of [`parting_scatter`], with what a percent of each level costs in score: fₖ/10, or (10 − mₖ)/100 on a merit scale.
pub fn parting_u(areas: &Areas, scale: &Scale) -> Option<f64> {
    let read = areas.read_off.as_ref()?;
    let cost = |id: &LevelId| match scale {
        Scale::Area { levels } => {
            let level = levels.iter().find(|level| level.id == *id);
            level.map_or(0.0, |level| level.factor / 10.0)
        }
        Scale::MeritArea { levels } => {
            let level = levels.iter().find(|level| level.id == *id);
            level.map_or(0.0, |level| (10.0 - level.merit) / 100.0)
        }
        _ => 0.0,
    };
    Some(parting_scatter(read, cost))
}

/// The scatter of repeated looks with that of where the shades part, which is independent of it.
fn with_parting(u_rep: f64, areas: &Areas, scale: &Scale) -> f64 {
    parting_u(areas, scale).map_or(u_rep, |u| libm::hypot(u_rep, u))
}

/// Straight between breakpoints; past the last, the last score.
fn on_breakpoints(points: &[Breakpoint], x: f64, u_rep: Repeatability) -> LookScore {
    let after = points.partition_point(|point| point.x < x);
    let slope = |from: usize| match (points.get(from), points.get(from + 1)) {
        (Some(a), Some(b)) => ((b.score - a.score) / (b.x - a.x)).abs(),
        _ => 0.0,
    };
    let (score, steepest) = match (after.checked_sub(1), points.get(after)) {
        (None, None) => (0.0, 0.0),
        (Some(last), None) => (points[last].score, 0.0),
        (before, Some(point)) if point.x <= x => {
            (point.score, slope(after).max(before.map_or(0.0, slope)))
        }
        (None, Some(first)) => (first.score, 0.0),
        (Some(before), Some(b)) => {
            let a = points[before];
            (
                a.score + (b.score - a.score) * (x - a.x) / (b.x - a.x),
                slope(before),
            )
        }
    };
    let u = match u_rep {
        Repeatability::Score(u) => u,
        Repeatability::Percent(u) | Repeatability::Count(u) => u * steepest,
    };
    LookScore {
        score,
        u_rep: u,
        demerit: None,
    }
}
