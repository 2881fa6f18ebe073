//! What was left of the 200 positions of an engine by 100,000 draws each, beside numpy drawing the same model.

use std::{
    io::Write,
    path::PathBuf,
    process::{Command, Stdio},
    thread,
};

use anyhow::{Context, Result, anyhow, ensure};
use rand::{RngExt, SeedableRng};
use rand_chacha::ChaCha8Rng;
use ringland_assess::gauging::{
    AsNew, Exposure, FirstLimit, Measured, Position, Race, Range, Remaining,
};
use ringland_stats::confidence::Confidence;
use serde_json::{Value, json};
use uom::si::{f64::Length, length::meter};

use crate::shortest;

const POSITIONS: usize = 200;
const DRAWS: usize = 100_000;
const RUNS: usize = 5;
/// The run of all, in metres.
const RUN: f64 = 4.5e8;
/// What the gauge is known to, in metres.
const CALIBRATION: f64 = 1e-6;

/// Prints both times and their ratio; both must come to the same within what draws tell.
pub(crate) fn report(python: &str) -> Result<()> {
    let positions = positions();
    let mut said = None;
    let one = shortest(RUNS, || said = race(&positions, 1).ok()).as_secs_f64();
    let alone = said.take().context("the draws were refused")?;
    let threads = thread::available_parallelism()?.get();
    let all = shortest(RUNS, || said = race(&positions, threads).ok()).as_secs_f64();
    let said = said.context("the draws were refused")?;
    ensure!(said == alone, "threads made a difference");
    let theirs = numpy(python, &positions)?;
    agree(&said, &theirs)?;
    let time = |way: &str| theirs[way].as_f64().context("no time was printed");
    let (array, in_turn) = (time("whole")?, time("one_by_one")?);
    println!("what was left of {POSITIONS} positions, {DRAWS} draws each, and which is first");
    println!("  Ringland, one thread                     {one:>7.3} s");
    println!("  Ringland, {threads:>2} threads                     {all:>7.3} s");
    println!("  numpy, all positions as one array        {array:>7.3} s");
    println!("  numpy, one position after the other      {in_turn:>7.3} s");
    println!(
        "  Ringland is {:.1} to {:.1} times as fast as the array, {:.1} to {:.1} as one after the other",
        array / one,
        array / all,
        in_turn / one,
        in_turn / all
    );
    Ok(())
}

/// Liners worn by 10 to 70 of 100 µm, new within 10 to 20 µm of each other: the size as new is a range.
fn positions() -> Vec<Position> {
    let mut rng = ChaCha8Rng::seed_from_u64(1);
    let metres = Length::new::<meter>;
    (0..POSITIONS)
        .map(|_| {
            let half = rng.random_range(5e-6..10e-6);
            Position {
                size: Measured::known(
                    metres(0.13 + rng.random_range(10e-6..70e-6)),
                    metres(rng.random_range(1e-6..4e-6)),
                ),
                as_new: AsNew::Range(Range {
                    low: metres(0.13 - half),
                    high: metres(0.13 + half),
                }),
                limit: metres(0.1301),
                run: Exposure::distance(metres(RUN)),
                break_in: None,
            }
        })
        .collect()
}

fn race(positions: &[Position], threads: usize) -> Result<FirstLimit> {
    let calibration = Length::new::<meter>(CALIBRATION);
    let mut parts = Race::in_parts(positions, calibration, Confidence::P95, 1, DRAWS, threads)?;
    thread::scope(|scope| -> Result<()> {
        let drawing: Vec<_> = parts
            .iter_mut()
            .map(|part| scope.spawn(|| part.go_on(POSITIONS)))
            .collect();
        for part in drawing {
            let drawn = part.join().map_err(|_panic| anyhow!("a thread broke"))??;
            ensure!(drawn.is_whole(), "not all was drawn");
        }
        Ok(())
    })?;
    let whole = parts.into_iter().reduce(Race::join).context("no parts")?;
    Ok(whole.finish()?)
}

fn numpy(python: &str, positions: &[Position]) -> Result<Value> {
    let row = |of: fn(&Position) -> Length| -> Vec<f64> {
        positions.iter().map(|p| of(p).get::<meter>()).collect()
    };
    let range = |position: &Position| match position.as_new {
        AsNew::Range(range) => range,
        AsNew::Known(size) => Range {
            low: size.value,
            high: size.value,
        },
    };
    let ends: Vec<Range> = positions.iter().map(range).collect();
    let asked = json!({
        "positions": {
            "size": row(|p| p.size.value),
            "u": row(|p| p.size.u),
            "low": ends.iter().map(|r| r.low.get::<meter>()).collect::<Vec<_>>(),
            "high": ends.iter().map(|r| r.high.get::<meter>()).collect::<Vec<_>>(),
            "limit": row(|p| p.limit),
        },
        "run": RUN,
        "calibration": CALIBRATION,
        "draws": DRAWS,
        "runs": RUNS,
    });
    let script = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("draws.py");
    let mut child = Command::new(python)
        .arg(script)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .context("starting Python")?;
    child
        .stdin
        .take()
        .context("Python takes no input")?
        .write_all(asked.to_string().as_bytes())?;
    let out = child.wait_with_output()?;
    ensure!(out.status.success(), "{}: {}", python, out.status);
    Ok(serde_json::from_slice(&out.stdout)?)
}

/// Ends within 0.02 as shares of the best value, on the scale of rates, where draws scatter evenly; probabilities
/// within 0.01.
fn agree(ours: &FirstLimit, theirs: &Value) -> Result<()> {
    let ends = theirs["ends"].as_array().context("no ends")?;
    let all = ours.positions.iter().zip(ends);
    for (remaining, ends) in all.chain([(&ours.engine, &theirs["engine"])]) {
        let number = |n: usize| ends[n].as_f64();
        let Remaining::Between {
            estimate,
            low,
            high,
        } = *remaining
        else {
            // One-sided, which numpy was not asked for: only the missing end is compared.
            ensure!(
                number(1).is_none_or(f64::is_infinite),
                "{remaining:?}: numpy {ends}"
            );
            continue;
        };
        let near =
            |a: f64, b: Option<f64>| b.is_some_and(|b| (estimate / a - estimate / b).abs() < 0.02);
        ensure!(
            near(low, number(0)) && near(high, number(1)),
            "{remaining:?}: numpy {ends}"
        );
    }
    for likely in &ours.likely {
        let share = theirs["first"][likely.position].as_f64().unwrap_or(-1.0);
        ensure!(
            (share - likely.probability).abs() < 0.01,
            "{likely:?}: numpy {share}"
        );
    }
    Ok(())
}
