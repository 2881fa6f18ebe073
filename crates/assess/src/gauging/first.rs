//! Which position of an engine reaches its limit first, and when.

use ringland_stats::{
    confidence::Confidence,
    monte_carlo::{Input, Progress, Source as Draws, quantile_of_draws},
};
use uom::si::{f64::Length, length::meter};

use super::{
    reading::GaugingError,
    remaining::{Position, Prepared, Remaining, between_or_at_least},
};

/// A position that may be the first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Likely {
    /// Its number among the positions given.
    pub position: usize,
    /// How probable it is that it reaches its limit first, 0 to 1.
    pub probability: f64,
}

/// When an engine reaches its first limit.
#[derive(Clone, Debug, PartialEq)]
pub struct FirstLimit {
    /// By position: what is left.
    pub positions: Vec<Remaining>,
    /// What is left of the engine: until the first of its positions is at its limit.
    pub engine: Remaining,
    /// The positions that were first in any draw, the likeliest first.
    pub likely: Vec<Likely>,
}

/// Draws under way, one position at a time, so that a page can show how far it is and stop; or in parts
/// beside each other, which come to the same.
///
/// # Formula
///
/// ```text
/// in each draw    x′ᵢ = xᵢ − e, e what the gauge is off by: one for all positions
///                 Rᵢ as [`super::remaining::remaining`], engine: min Rᵢ, first: the i of the least
/// engine          as for one position; already beyond where one of its positions is
/// ```
///
/// Among equal Rᵢ the first in order counts.
///
/// # Source
///
/// JCGM 101:2008.
#[derive(Debug)]
pub struct Race {
    positions: Vec<Prepared>,
    /// The number of the first of them in the engine.
    from: usize,
    confidence: Confidence,
    draws: usize,
    source: Draws,
    /// By draw: what the gauge reads too much.
    off: Vec<f64>,
    /// By draw: the least that is left so far, and of which position.
    least: Vec<f64>,
    first: Vec<u32>,
    decided: Vec<Remaining>,
}

impl Race {
    /// Nothing drawn yet. `calibration` is the standard uncertainty of the gauge that all sizes were read
    /// with; the positions' own leave it out.
    ///
    /// # Errors
    ///
    /// [`GaugingError::Positions`] for none, or for runs of different kinds; and what a position's own numbers
    /// are refused for.
    pub fn new(
        positions: &[Position],
        calibration: Length,
        confidence: Confidence,
        seed: u64,
        draws: usize,
    ) -> Result<Self, GaugingError> {
        let mut parts = Self::in_parts(positions, calibration, confidence, seed, draws, 1)?;
        parts.pop().ok_or(GaugingError::Positions)
    }

    /// The same in so many parts, or as many as there are positions, to be drawn beside each other and then
    /// [joined](Race::join) in their order: it makes no difference to what comes of it.
    ///
    /// # Errors
    ///
    /// As [`Race::new`].
    pub fn in_parts(
        positions: &[Position],
        calibration: Length,
        confidence: Confidence,
        seed: u64,
        draws: usize,
        parts: usize,
    ) -> Result<Vec<Self>, GaugingError> {
        let alike = positions
            .windows(2)
            .all(|pair| pair[0].run.basis == pair[1].run.basis);
        if positions.is_empty() || !alike {
            return Err(GaugingError::Positions);
        }
        let mut source = Draws::seeded(seed);
        let mut off = vec![0.0; draws];
        let sd = calibration.get::<meter>();
        source
            .branch()
            .fill(&Input::Normal { mean: 0.0, sd }, &mut off);
        let each = positions.len().div_ceil(parts.max(1));
        let mut races = Vec::new();
        for (part, positions) in positions.chunks(each).enumerate() {
            races.push(Self {
                positions: positions
                    .iter()
                    .map(Prepared::of)
                    .collect::<Result<_, _>>()?,
                from: part * each,
                confidence,
                draws,
                source: source.clone(),
                off: off.clone(),
                least: vec![f64::INFINITY; draws],
                first: vec![u32::MAX; draws],
                decided: Vec::with_capacity(positions.len()),
            });
            // Each position has a stream of its own.
            for _ in positions {
                let _theirs = source.branch();
            }
        }
        Ok(races)
    }

    /// This part and the next, both drawn to their ends.
    #[must_use]
    pub fn join(mut self, next: Self) -> Self {
        let theirs = next.least.iter().copied().zip(next.first.iter().copied());
        self.take(theirs);
        self.positions.extend(next.positions);
        self.decided.extend(next.decided);
        self
    }

    /// Keeps in each draw what is left where it is less, and whose it is.
    fn take(&mut self, others: impl Iterator<Item = (f64, u32)>) {
        let mine = self.least.iter_mut().zip(&mut self.first);
        for ((left, of), (least, first)) in others.zip(mine) {
            if left < *least {
                (*least, *first) = (left, of);
            }
        }
    }

    /// Draws so many more positions.
    ///
    /// # Errors
    ///
    /// When a position's numbers are no distributions.
    pub fn go_on(&mut self, positions: usize) -> Result<Progress, GaugingError> {
        for _ in 0..positions {
            let number = self.decided.len();
            let Some(position) = self.positions.get(number).copied() else {
                break;
            };
            let mut drawing = position.draw(self.source.branch(), self.draws)?;
            let off = &self.off;
            drawing.go_on(self.draws, |i, inputs| position.left(inputs, off[i]));
            let left = drawing.outputs();
            #[expect(
                clippy::cast_possible_truncation,
                reason = "no engine has so many positions"
            )]
            let number = (self.from + number) as u32;
            self.take(left.iter().map(|left| (*left, number)));
            self.decided.push(position.decide(&left, self.confidence)?);
        }
        Ok(self.progress())
    }

    /// How far it is, in positions.
    pub fn progress(&self) -> Progress {
        Progress {
            done: self.decided.len(),
            of: self.positions.len(),
        }
    }

    /// What the positions drawn so far come to.
    ///
    /// # Errors
    ///
    /// When nothing was drawn.
    pub fn finish(self) -> Result<FirstLimit, GaugingError> {
        let likely = likely(&self.first, self.decided.len());
        let is_beyond = |left: &Remaining| matches!(left, Remaining::AlreadyBeyond { .. });
        let past = self.least.iter().filter(|left| **left <= 0.0).count();
        let probability = past as f64 / self.least.len().max(1) as f64;
        let engine = if probability >= 0.5 || self.decided.iter().any(is_beyond) {
            Remaining::AlreadyBeyond { probability }
        } else {
            let median = quantile_of_draws(&self.least, 0.5)?;
            between_or_at_least(median, &self.least, self.confidence)?
        };
        Ok(FirstLimit {
            positions: self.decided,
            engine,
            likely,
        })
    }
}

fn likely(first: &[u32], positions: usize) -> Vec<Likely> {
    let mut counts = vec![0_usize; positions];
    for number in first {
        if let Some(count) = counts.get_mut(*number as usize) {
            *count += 1;
        }
    }
    let mut likely: Vec<Likely> = counts
        .iter()
        .enumerate()
        .filter(|(_, count)| **count > 0)
        .map(|(position, count)| Likely {
            position,
            probability: *count as f64 / first.len() as f64,
        })
        .collect();
    likely.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    likely
}
