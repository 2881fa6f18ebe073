//! Pieces that more than one screen uses.
