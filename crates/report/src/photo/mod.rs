//! Photos: in which order they hang, what is marked on them, and how one is shown.

mod album;
mod figure;
mod overlay;

pub use album::{Album, Group, Row, Shown};
pub use figure::{Piece, caption, figure, pieces};
pub use overlay::overlay;

#[cfg(test)]
mod tests;
