//! The roll-up of 10,000 full cards, beside `polars` doing the weighted grouping of the same
//! observations: score by section, part, position and characteristic up to the engine.
//!
//! Ours also gives coverage, bounds, the worst leaf and the uncertainty of every node, on one thread;
//! polars gives the means alone, on every thread that it likes.

use std::{
    fs::{self, File},
    io::{BufWriter, Write},
    path::{Path, PathBuf},
    process::Command,
};

use anyhow::{Context, Result, ensure};
use ringland_assess::{
    NodeKind, RollUp, Tree,
    leaf::{LeafScore, raters, score_leaves},
    rollup::roll_up,
};
use ringland_card::{Plan, plan::LeafId};

use crate::{fleet, shortest};

const CARDS: usize = 10_000;
const RUNS: usize = 3;

/// Prints both times and their ratio; both must come to the same engine scores.
pub(crate) fn report(python: &str) -> Result<()> {
    let plan = fleet::plan()?;
    let tree = Tree::of(&plan);
    let mut cards: Vec<Vec<LeafScore>> = Vec::with_capacity(CARDS);
    for n in 0..CARDS {
        let card = fleet::card(&plan, n as u64)?;
        let standing = card.standing();
        cards.push(score_leaves(&standing, &tree, &raters(&standing)));
    }
    let mut scores = Vec::new();
    let ours = shortest(RUNS, || {
        scores = cards
            .iter()
            .filter_map(|leaves| rolled(&plan, &tree, leaves).engine().score)
            .collect();
    })
    .as_secs_f64();
    let folder = std::env::temp_dir().join(format!("ringland-bench-{}", std::process::id()));
    let theirs = polars(python, &folder, &tree, &cards);
    let _left = fs::remove_dir_all(&folder);
    let (theirs, their_scores) = theirs?;
    ensure!(
        scores.len() == their_scores.len(),
        "{} engines against {}",
        scores.len(),
        their_scores.len()
    );
    let apart = scores
        .iter()
        .zip(&their_scores)
        .map(|(a, b)| (a - b).abs())
        .fold(0.0, f64::max);
    ensure!(apart < 1e-9, "the two are {apart} apart");
    println!(
        "roll-up of {CARDS} full cards, {} observations",
        CARDS * tree.leaf_count()
    );
    println!("  Ringland, every figure of every node, one thread  {ours:>7.3} s");
    println!("  polars, the weighted means alone                  {theirs:>7.3} s");
    println!(
        "  ours takes {:.2} times as long; the engine scores are {apart:.0e} apart at most",
        ours / theirs
    );
    Ok(())
}

fn rolled(plan: &Plan, tree: &Tree, leaves: &[LeafScore]) -> RollUp {
    roll_up(plan, tree, leaves, 1, |_| true)
}

/// Seconds and engine scores.
fn polars(
    python: &str,
    folder: &Path,
    tree: &Tree,
    cards: &[Vec<LeafScore>],
) -> Result<(f64, Vec<f64>)> {
    fs::create_dir_all(folder)?;
    write_columns(folder, tree, cards)?;
    let script = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("grouping.py");
    let out = Command::new(python)
        .arg(script)
        .arg(folder)
        .arg(RUNS.to_string())
        .output()
        .context("starting Python")?;
    ensure!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    let text = String::from_utf8(out.stdout)?;
    let mut numbers = text.split_whitespace().map(str::parse::<f64>);
    let seconds = numbers.next().context("no time was printed")??;
    Ok((seconds, numbers.collect::<Result<_, _>>()?))
}

/// The observations as plain columns: little-endian numbers, one file each.
fn write_columns(folder: &Path, tree: &Tree, cards: &[Vec<LeafScore>]) -> Result<()> {
    let open = |name: &str| -> Result<BufWriter<File>> {
        Ok(BufWriter::new(File::create(folder.join(name))?))
    };
    // By leaf: the numbers and weights of its nodes from the leaf up to the section.
    let ways: Vec<Vec<(usize, f64)>> = (0..tree.leaf_count())
        .map(|leaf| way(tree, LeafId(leaf)))
        .collect();
    let (mut card_column, mut score_column) = (open("card")?, open("score")?);
    let mut levels = Vec::new();
    for level in ["leaf", "position", "part", "section"] {
        levels.push((open(level)?, open(&format!("{level}_weight"))?));
    }
    for (card, leaves) in cards.iter().enumerate() {
        for (leaf, way) in leaves.iter().zip(&ways) {
            let Some(score) = leaf.score else { continue };
            card_column.write_all(&u32::try_from(card)?.to_le_bytes())?;
            score_column.write_all(&score.to_le_bytes())?;
            for ((numbers, weights), (node, weight)) in levels.iter_mut().zip(way) {
                numbers.write_all(&u32::try_from(*node)?.to_le_bytes())?;
                weights.write_all(&weight.to_le_bytes())?;
            }
        }
    }
    Ok(())
}

fn way(tree: &Tree, leaf: LeafId) -> Vec<(usize, f64)> {
    let mut way = Vec::new();
    let mut number = tree.node_of(leaf);
    while tree.nodes()[number].kind != NodeKind::Engine {
        way.push((number, tree.nodes()[number].weight));
        match tree.nodes()[number].parent {
            Some(parent) => number = parent,
            None => break,
        }
    }
    way
}
