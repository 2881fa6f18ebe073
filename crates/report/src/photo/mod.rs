//! Photos: in which order they hang, what is marked on them, what is read off them, and how one is shown.

mod album;
mod figure;
mod overlay;
mod reading;

pub use album::{Album, Group, Row, Shown};
pub use figure::{Piece, caption, figure, pieces};
pub use overlay::overlay;
pub use reading::{CLASS_COLOURS, chip, region, shades, shares};

#[cfg(test)]
mod tests;
