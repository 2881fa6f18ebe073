//! Pieces that more than one screen uses.

pub mod interval;
pub mod map;
pub mod painter;
pub mod table;
