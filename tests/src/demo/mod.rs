//! Seven demo engines, made up from a seed.
//!
//! Operator, places, people, oils and figures are invented. A small model of how such an engine wears
//! stands behind the looks, so that a wear map of one looks like a wear map:
//!
//! ```text
//! engines what each engine is, what it did, what went wrong with it    (data; its shape is in fleet)
//! wear    what is to be seen: part × mode of wear × place along the engine ▸ `Truth` of each leaf
//! rater   what one rater makes of it: bias, scatter, round figures     ▸ `Look`
//! kinds   every measured kind: new, limit, gauge, wear                 ▸ the size sheet (sheet)
//! parts   what each measured part was and is: new size, wear           ▸ `Part` of each leaf
//! session when, by whom, in which order, slips and second thoughts     ▸ entries
//! measure the same for readings, with the gauges of gauges             ▸ entries
//! ```
//!
//! The same code writes the same bytes on every machine: seeded draws and plain arithmetic only.

mod engines;
mod fleet;
mod gauges;
mod kinds;
mod measure;
mod parts;
mod rater;
mod session;
mod sheet;
mod wear;

use rand::{Rng, RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use ringland_card::{
    Card, card::AppendError, gauging::DecimalError, layout::LayoutError, plan::PlanError,
};

/// The seed of everything.
const SEED: u64 = 0x7a2e_0014;

/// Why a demo engine could not be made: its data do not fit the plan.
#[derive(Debug, thiserror::Error)]
pub enum DemoError {
    /// A layout that no engine has.
    #[error(transparent)]
    Layout(#[from] LayoutError),
    /// A plan that contradicts itself.
    #[error(transparent)]
    Plan(#[from] PlanError),
    /// An entry that the card refuses.
    #[error("{engine}: {why}")]
    Entry {
        /// The engine.
        engine: &'static str,
        /// What the card says.
        why: AppendError,
    },
    /// A part of the strip-down that the wear model does not know.
    #[error("{part}/{place}, {look}: the wear model has no row for it")]
    NoRow {
        /// The part.
        part: String,
        /// The place.
        place: String,
        /// The characteristic.
        look: String,
    },
    /// A measured part that the table of sizes does not know.
    #[error("{place}, {look}: the table of sizes has no row for it")]
    NoKind {
        /// The place.
        place: String,
        /// The characteristic.
        look: String,
    },
    /// A figure that is no number as a card writes it.
    #[error(transparent)]
    Figure(#[from] DecimalError),
    /// Data of an engine that name nothing in its plan.
    #[error("{engine}: `{name}` is not in its plan")]
    Unmatched {
        /// The engine.
        engine: &'static str,
        /// What was named.
        name: String,
    },
}

/// The demo engines: the name of each file, without its ending, and the card.
///
/// # Errors
///
/// [`DemoError`] when the data here no longer fit the built-in plan.
pub fn cards() -> Result<Vec<(&'static str, Card)>, DemoError> {
    engines::ENGINES
        .iter()
        .map(|engine| Ok((engine.slug, session::card(engine)?)))
        .collect()
}

/// A row of draws of its own, so that a change to one engine leaves the others as they are.
fn draws(stream: u64) -> ChaCha8Rng {
    let mut rng = ChaCha8Rng::seed_from_u64(SEED);
    rng.set_stream(stream);
    rng
}

/// A draw of mean 0 and standard deviation 1, within ±3.5: four uniform draws, no platform maths.
fn scatter(rng: &mut impl Rng) -> f64 {
    let sum: f64 = (0..4).map(|_| rng.random::<f64>()).sum();
    (sum - 2.0) * 1.732
}
