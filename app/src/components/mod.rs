//! Pieces that more than one screen uses.

pub mod choice;
pub mod file_button;
pub mod interval;
pub mod map;
pub mod painter;
pub mod stepper;
pub mod table;
pub mod thumb;
