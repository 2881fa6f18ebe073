//! Where cards are kept: IndexedDB, each entry by itself, so that keeping one look is one small write.
//!
//! What is stored is the file format: a head (the file without its entries) and each entry as it
//! stands in the file.

pub mod camera;
pub mod db;
pub mod demo;
pub mod photos;
pub mod plans;
pub mod seal_key;
pub mod sheets;
pub mod space;
pub mod tabs;
pub mod transfer;

pub use db::{Db, KeepError, Listed, Lost, Read, StoredCard};
pub use plans::StoredPlan;
