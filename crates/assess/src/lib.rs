//! What a card means.
//!
//! | question | where |
//! |---|---|
//! | what is one look worth? | [`look::score_look`] |
//! | what is a measured size worth? | [`look::allowance_score`] |
//! | what do several raters' looks make? | [`leaf::score_leaves`] |
//! | score, coverage, bounds, worst leaf, caps, uncertainty of a node | [`rollup::roll_up`] |
//! | 95 % interval of a node | [`NodeScore::interval`] |
//! | all causes and in service, exclusions | [`assessment::assess`] |
//! | how was the score of a node made? | [`explain::explain`] |
//! | which rows of a scale's table gave a look its score? | [`table::rows_read`], [`table::area_terms`] |
//! | a card under another plan, beside its own | [`rescore::rescore`] |
//! | the worst leaves | [`worst::worst_leaves`] |
//! | how many looks gave each grade? | [`grades::grade_distribution`] |
//! | what was not inspected, what is open? | [`gaps::not_seen`], [`gaps::open_parts`] |
//! | who looked, and how far two raters are apart | [`raters::rater_looks`], [`raters::rater_pairs`] |
//! | how much hangs on the weights? | [`weights::dependence`] |
//! | profile along the engine, spread, outliers, trend | [`patterns`] |
//! | which rows of the map stand out? | [`standouts`] |
//! | demerits, top groove fill, top land heavy carbon, merits, ring distress | [`trade`] |
//! | merit sum of anchors, limits and best credits; limits by number of tests | [`trade::criteria`] |
//! | out-of-round, taper, maximum wear of a grid of readings | [`gauging::shape`] |
//! | clearance, shells, ring gap | [`gauging::clearance`] |
//! | what do the readings of one part say? | [`gauging::finding`] |
//! | what limits do public rules of thumb give? | [`gauging::thumb`] |
//! | did the hand slip in typing a reading? | [`gauging::slip`] |
//! | does a size disagree with the grade beside it? | [`gauging::second_look`] |
//! | how much further could this engine have run? | [`gauging::outlook`] |
//! | a reading at 20 °C | [`gauging::temperature`] |
//! | what share of the wear allowance is used? | [`gauging::share`] |
//! | how fast does it wear? | [`gauging::rate`] |
//! | how much further could it have run? | [`gauging::remaining`] |
//! | which position is at its limit first, and when? | [`gauging::first`] |
//! | wear over distance of many units | [`gauging::forecast`] |
//! | how long is what was marked on a photo? | [`photo::length()`] |
//! | what share of a photographed surface has each level, and how surely? | [`photo::count`], [`photo::areas`] |
//! | the wear of one kind of size on engine after engine | [`gauging::over_run`] |
#![doc = include_str!("../METHOD.md")]
#![allow(
    clippy::doc_markdown,
    reason = "the method page writes its symbols as text"
)]

pub mod assessment;
pub mod explain;
pub mod gaps;
pub mod gauging;
pub mod grades;
pub mod leaf;
pub mod look;
pub mod patterns;
pub mod photo;
pub mod raters;
pub mod rescore;
pub mod rollup;
pub mod standouts;
pub mod table;
pub mod trade;
pub mod tree;
pub mod weights;
pub mod worst;

pub use assessment::{Answer, Assessment, Exclusion, assess};
pub use rollup::{NodeScore, RollUp};
pub use tree::{Node, NodeKind, Tree};
