//! How much further an engine could have run: its measured parts, drawn together.

use ringland_card::plan::LeafId;
use uom::si::{f64::Length, length::meter};

use super::{
    Basis, FirstLimit, GaugingError, Position, Race,
    finding::{CONFIDENCE, Finding},
};

/// The seed of the draws: the same for every card, so that a figure can be had again.
pub const SEED: u64 = 1;
/// How many draws. Source: JCGM 101:2008 7.2.2 asks for some 10⁴ times 1/(1 − p).
pub const DRAWS: usize = 100_000;

/// The parts of an engine whose remaining run can be worked out, in plan order.
#[derive(Clone, Debug, PartialEq)]
pub struct Outlook {
    /// The parts.
    pub leaves: Vec<LeafId>,
    /// What their run is counted in.
    pub basis: Basis,
    positions: Vec<Position>,
}

impl Outlook {
    /// Takes the parts that have a wear and a limit; none where no part has, or the card has no run.
    pub fn of(findings: &[Option<Finding>]) -> Option<Self> {
        let found = findings.iter().flatten();
        let known = found.filter_map(|finding| Some((finding.leaf, finding.position?)));
        let (leaves, positions): (Vec<LeafId>, Vec<Position>) = known.unzip();
        Some(Self {
            basis: positions.first()?.run.basis,
            leaves,
            positions,
        })
    }

    /// The draws, none done yet. The error of the gauges stands in each part's own uncertainty: an engine is
    /// measured with several gauges.
    ///
    /// # Errors
    ///
    /// When a part's numbers cannot be drawn from.
    pub fn race(&self, draws: usize) -> Result<Race, GaugingError> {
        Race::new(
            &self.positions,
            Length::new::<meter>(0.0),
            CONFIDENCE,
            SEED,
            draws,
        )
    }

    /// All of it at once.
    ///
    /// # Errors
    ///
    /// As [`Outlook::race`].
    pub fn first_limit(&self) -> Result<FirstLimit, GaugingError> {
        let mut race = self.race(DRAWS)?;
        race.go_on(self.leaves.len())?;
        race.finish()
    }
}
