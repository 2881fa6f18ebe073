//! A result's distribution by drawing its inputs: JCGM 101:2008.
//!
//! The same seed gives the same draws, natively and in the browser, whatever the slices in which they
//! are asked for.

mod draw;
mod summary;

pub use draw::{Input, Source};
pub use summary::{Summary, quantile_of_draws, summarise};

use crate::error::StatsError;

/// Draws at a time: few enough to stay in the nearest cache.
const BLOCK: usize = 256;

/// Draws under way: a model of K inputs, some draws at a time, so that a page can show how far it is
/// and stop.
#[derive(Clone, Debug)]
pub struct MonteCarlo<const K: usize> {
    source: Source,
    inputs: [Input; K],
    draws: usize,
    outputs: Vec<f64>,
}

/// How far the draws are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Progress {
    /// Drawn.
    pub done: usize,
    /// To be drawn in all.
    pub of: usize,
}

impl Progress {
    /// Whether there is nothing left to draw.
    pub fn is_whole(self) -> bool {
        self.done >= self.of
    }
}

impl<const K: usize> MonteCarlo<K> {
    /// Nothing drawn yet.
    ///
    /// # Errors
    ///
    /// [`StatsError::OutOfRange`] or [`StatsError::NotFinite`] for an input that is no distribution.
    pub fn new(inputs: [Input; K], draws: usize, source: Source) -> Result<Self, StatsError> {
        for input in &inputs {
            input.check()?;
        }
        Ok(Self {
            source,
            inputs,
            draws,
            outputs: Vec::with_capacity(draws),
        })
    }

    /// Draws `at_most` more, rounded up to a block: the same results come of any slices.
    ///
    /// The model is given the number of the draw, from 0, and one value of each input.
    pub fn go_on(
        &mut self,
        at_most: usize,
        mut model: impl FnMut(usize, [f64; K]) -> f64,
    ) -> Progress {
        let until = self.outputs.len().saturating_add(at_most).min(self.draws);
        let mut columns = [[0.0; BLOCK]; K];
        while self.outputs.len() < until {
            let first = self.outputs.len();
            let n = BLOCK.min(self.draws - first);
            for (column, input) in columns.iter_mut().zip(&self.inputs) {
                self.source.fill(input, &mut column[..n]);
            }
            self.outputs
                .extend((0..n).map(|i| model(first + i, std::array::from_fn(|k| columns[k][i]))));
        }
        self.progress()
    }

    /// How far it is.
    pub fn progress(&self) -> Progress {
        Progress {
            done: self.outputs.len(),
            of: self.draws,
        }
    }

    /// What the model gave for each draw so far, in the order drawn.
    pub fn outputs(self) -> Vec<f64> {
        self.outputs
    }
}
