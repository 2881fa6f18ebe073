//! Pieces that more than one screen uses.

pub mod act;
pub mod choice;
pub mod file_button;
pub mod grid;
pub mod help;
pub mod live;
pub mod painter;
pub mod pictures;
pub mod stepper;
pub mod thumb;
pub mod update;
pub mod working;
