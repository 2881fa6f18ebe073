//! What one rater makes of a surface: their bias, their scatter, and the round figures people say.

use std::collections::BTreeMap;

use rand::Rng;
use ringland_card::{
    Areas, Grade, LevelId, Look, Scale,
    scale::{Breakpoint, CLEAN},
};

use super::{
    scatter,
    wear::{SECTORS_IN_A_STROKE, Truth, is_painted},
};

/// A rater. The numbers are in half steps of a grade.
pub(super) struct Rater {
    pub(super) name: &'static str,
    /// Their row of draws, and that of their tablet's id.
    pub(super) stream: u64,
    /// How much more they see than is there.
    pub(super) bias: f64,
    /// How far their repeated looks scatter.
    pub(super) scatter: f64,
}

/// Thickness from which a patch is at a level, worst first: eight levels of carbon and lacquer, or
/// seven of sludge or varnish.
const CARBON: [f64; 8] = [1.0, 0.75, 0.5, 0.38, 0.28, 0.18, 0.1, 0.05];
const FILM: [f64; 7] = [1.5, 1.2, 0.9, 0.6, 0.4, 0.22, 0.1];

/// Half steps below which nobody sees anything.
const SEEN: f64 = 0.3;
/// A half step of a grade goes with this much of an extent, of a deposit, of a count.
const OF_EXTENT: f64 = 0.15;
const OF_DEPOSIT: f64 = 0.09;
const OF_COUNT: f64 = 0.5;
const OF_STATE: f64 = 0.2;

impl Rater {
    /// What this rater says of a leaf.
    pub(super) fn look(
        &self,
        truth: &Truth,
        scale: &Scale,
        characteristic: &str,
        rng: &mut impl Rng,
    ) -> Look {
        let off = self.bias + self.scatter * scatter(rng);
        match (truth, scale) {
            (Truth::Level(level), Scale::Grade { .. }) => {
                Look::Grade(grade(if *level < SEEN { 0.0 } else { level + off }))
            }
            (Truth::Level(level), Scale::Count { .. }) => {
                Look::Count(whole(level + OF_COUNT * off))
            }
            (Truth::Level(level), Scale::State { states }) => {
                let number = whole(level + OF_STATE * off);
                let number = usize::try_from(number).unwrap_or(0).min(states.len() - 1);
                Look::State(states[number].id.clone())
            }
            (Truth::Level(level), Scale::Extent { points }) => {
                Look::Percent(percent(level * (1.0 + OF_EXTENT * off), points))
            }
            (Truth::Patches(patches), Scale::Area { levels }) => {
                let ids: Vec<&LevelId> = levels.iter().map(|level| &level.id).collect();
                let rated = self.levels(patches, off, &CARBON, &ids, rng);
                areas(&rated, is_painted(characteristic))
            }
            (Truth::Patches(patches), Scale::MeritArea { levels }) => {
                let ids: Vec<&LevelId> = levels.iter().map(|level| &level.id).collect();
                let rated = self.levels(patches, off, &FILM, &ids, rng);
                areas(&rated, false)
            }
            // The model gives no other pairs; the card would refuse the look and name the leaf.
            _ => Look::Count(-1),
        }
    }

    fn levels(
        &self,
        patches: &[f64],
        off: f64,
        from: &[f64],
        ids: &[&LevelId],
        rng: &mut impl Rng,
    ) -> Vec<Option<LevelId>> {
        patches
            .iter()
            .map(|patch| {
                let patch = patch * (1.0 + OF_DEPOSIT * (off + self.scatter * scatter(rng)));
                let level = from.iter().position(|from| patch >= *from)?;
                ids.get(level).map(|id| (*id).clone())
            })
            .collect()
    }
}

fn whole(figure: f64) -> i64 {
    #[expect(
        clippy::cast_possible_truncation,
        reason = "the model's figures are far below 2^53"
    )]
    let whole = figure.round().max(0.0) as i64;
    whole
}

fn grade(half_steps: f64) -> Grade {
    let steps = usize::try_from(whole(half_steps)).unwrap_or(0).min(10);
    Grade::ALL[steps]
}

/// A percentage as people say it; of what is left, where the scale falls to nothing left.
fn percent(level: f64, points: &[Breakpoint]) -> f64 {
    let falls = match points {
        [first, .., last] => first.score < last.score,
        _ => false,
    };
    if falls {
        spoken(100.0 - level.clamp(0.0, 100.0))
    } else {
        spoken(level.clamp(0.0, 100.0))
    }
}

/// To the half below 2, to the whole below 10, to the five above.
fn spoken(percent: f64) -> f64 {
    let step = match percent {
        p if p < 2.0 => 0.5,
        p if p < 10.0 => 1.0,
        _ => 5.0,
    };
    (percent / step).round() * step
}

/// Areas from patches: painted sector by sector, or as shares that were typed in.
fn areas(patches: &[Option<LevelId>], painted: bool) -> Look {
    if painted && let Ok(clean) = LevelId::new(CLEAN) {
        let sectors: Vec<LevelId> = patches
            .iter()
            .map(|level| level.clone().unwrap_or_else(|| clean.clone()))
            .flat_map(|level| std::iter::repeat_n(level, SECTORS_IN_A_STROKE))
            .collect();
        if let Some(areas) = Areas::from_sectors(&sectors) {
            return Look::Areas(areas);
        }
    }
    let each = 100.0 / patches.len() as f64;
    let mut shares: BTreeMap<LevelId, f64> = BTreeMap::new();
    for level in patches.iter().flatten() {
        *shares.entry(level.clone()).or_insert(0.0) += each;
    }
    Look::Areas(Areas {
        shares,
        painted: Vec::new(),
        read_off: None,
    })
}
