//! How time and memory grow with the number of cards: each number in a process of its own.

use std::{fs, process::Command, time::Instant};

use anyhow::{Context, Result};
use ringland_assess::{RollUp, Tree, assess};

use crate::fleet;

const CARDS: [usize; 3] = [100, 1_000, 10_000];

/// Prints time and memory at each number of cards, and the exponents.
pub(crate) fn report() -> Result<()> {
    println!("full cards worked out one after the other, each one's roll-up kept");
    let program = std::env::current_exe()?;
    let mut points = Vec::new();
    for cards in CARDS {
        let out = Command::new(&program)
            .args(["grow", &cards.to_string()])
            .output()?;
        let text = String::from_utf8(out.stdout)?;
        let (seconds, bytes) = text
            .trim()
            .split_once(' ')
            .context("the measuring process said nothing")?;
        let (seconds, bytes): (f64, f64) = (seconds.parse()?, bytes.parse()?);
        println!(
            "  {cards:>6} cards  {seconds:>8.3} s  {:>8.1} MB",
            bytes / 1e6
        );
        points.push((cards as f64, seconds, bytes));
    }
    let exponent = |of: fn(&(f64, f64, f64)) -> f64| {
        slope(
            &points
                .iter()
                .map(|p| (p.0.ln(), of(p).ln()))
                .collect::<Vec<_>>(),
        )
    };
    println!(
        "  grows as cards to the power: time {:.2}, memory {:.2}",
        exponent(|p| p.1),
        exponent(|p| p.2)
    );
    Ok(())
}

/// Works out so many cards and prints the seconds and the bytes that it took above what an empty
/// process holds. Making the cards is not counted.
pub(crate) fn child(cards: usize) -> Result<()> {
    let plan = fleet::plan()?;
    let tree = Tree::of(&plan);
    let empty = most_memory()?;
    let mut kept: Vec<RollUp> = Vec::new();
    let mut seconds = 0.0;
    for n in 0..cards {
        let card = fleet::card(&plan, n as u64)?;
        let begun = Instant::now();
        kept.push(assess(&card.standing(), &tree).all);
        seconds += begun.elapsed().as_secs_f64();
    }
    let rated = kept
        .iter()
        .filter(|kept| kept.engine().score.is_some())
        .count();
    anyhow::ensure!(rated == cards, "{rated} of {cards} cards have a score");
    println!("{seconds} {}", most_memory()? - empty);
    Ok(())
}

/// The most memory that this process held, in bytes (Linux says it in kB).
fn most_memory() -> Result<f64> {
    let status = fs::read_to_string("/proc/self/status").context("this machine does not say")?;
    let line = status
        .lines()
        .find_map(|line| line.strip_prefix("VmHWM:"))
        .context("VmHWM")?;
    Ok(line.trim().trim_end_matches("kB").trim().parse::<f64>()? * 1024.0)
}

/// The slope of the least-squares line.
fn slope(points: &[(f64, f64)]) -> f64 {
    let n = points.len() as f64;
    let mean = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>() / n;
    let (x, y) = (mean(|p| p.0), mean(|p| p.1));
    let over: f64 = points.iter().map(|p| (p.0 - x) * (p.1 - y)).sum();
    let under: f64 = points.iter().map(|p| (p.0 - x) * (p.0 - x)).sum();
    over / under
}
