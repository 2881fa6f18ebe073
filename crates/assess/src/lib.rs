//! What a card means.
//!
//! | question | where |
//! |---|---|
//! | what is one look worth? | [`look::score_look`] |
//! | what is a measured size worth? | [`look::allowance_score`] |
//! | what do several raters' looks make? | [`leaf::score_leaves`] |
//! | score, coverage, bounds, worst leaf, caps, uncertainty of a node | [`rollup::roll_up`] |
//! | all causes and in service, exclusions | [`assessment::assess`] |
//! | how much hangs on the weights? | [`weights::dependence`] |
//! | profile along the engine, spread, outliers, trend | [`patterns`] |
//! | demerits, top groove fill, top land heavy carbon, merits, ring distress | [`trade`] |
//! | merit sum of anchors, limits and best credits; limits by number of tests | [`trade::criteria`] |
#![doc = include_str!("../METHOD.md")]

pub mod assessment;
pub mod leaf;
pub mod look;
pub mod patterns;
pub mod rollup;
pub mod trade;
pub mod tree;
pub mod weights;

pub use assessment::{Answer, Assessment, Exclusion, assess};
pub use rollup::{NodeScore, RollUp};
pub use tree::{Node, NodeKind, Tree};
