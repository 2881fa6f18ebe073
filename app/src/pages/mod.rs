//! The screens.

pub mod areas;
pub mod bench;
pub mod card;
pub mod facts;
pub mod gauging;
pub mod help;
pub mod intake;
pub mod new_engine;
pub mod photos;
pub mod plans;
pub mod shelf;
