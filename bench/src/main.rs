//! How fast, always beside something known in the same run: `cargo xtask bench`.
//!
//! | figure | beside | where |
//! |---|---|---|
//! | roll-up of 10,000 full cards | `polars` grouping the same observations | [`rollup`] |
//! | reading and checking a file | `serde_json` into a plain value | [`reading`] |
//! | what was left of 200 positions by 100,000 draws | `numpy` drawing the same | [`draws`] |
//! | time and memory from 100 to 10,000 cards | a straight line | [`growth`] |
#![allow(clippy::print_stdout, reason = "figures are what it is for")]

mod draws;
mod fleet;
mod growth;
mod reading;
mod rollup;

use std::time::{Duration, Instant};

use anyhow::{Result, bail};

fn main() -> Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match arguments
        .iter()
        .map(String::as_str)
        .collect::<Vec<_>>()
        .as_slice()
    {
        ["native", python] => {
            draws::report(python)?;
            reading::report()?;
            growth::report()?;
            rollup::report(python)
        }
        ["grow", cards] => growth::child(cards.parse()?),
        _ => bail!("usage: bench native PYTHON. It is called by `cargo xtask bench`"),
    }
}

/// The shortest of several runs: what the machine can do when nothing else is in the way.
fn shortest(runs: usize, mut work: impl FnMut()) -> Duration {
    (0..runs)
        .map(|_| {
            let begun = Instant::now();
            work();
            begun.elapsed()
        })
        .min()
        .unwrap_or_default()
}
