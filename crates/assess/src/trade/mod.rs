//! The trade's own figures, worked out as their standards do, beside the score and never mixed with it.

pub mod demerit;
