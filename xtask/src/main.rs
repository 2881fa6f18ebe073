//! Builds, serves and tests Ringland.
fn main() {}
