//! Writes `demo-data/*.card.json` and prints what the cards come to.

use std::{
    fs,
    io::{self, Write},
    path::Path,
    process::ExitCode,
};

use ringland_assess::{Tree, assess};
use ringland_card::{Card, Standing, file};

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<(), Box<dyn std::error::Error>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../demo-data");
    let mut out = io::stdout().lock();
    writeln!(
        out,
        "{:8} {:5} {:>5} {:>5} {:>6} {:>6} {:>7} {:>7} {:>7}  caps",
        "engine", "plan", "leaf", "looks", "score", "u", "cov", "serv", "kB"
    )?;
    for (slug, card) in suite::demo::cards()? {
        let text = file::write(&card);
        fs::write(folder.join(format!("{slug}.card.json")), &text)?;
        writeln!(out, "{}", line(slug, &card, text.len()))?;
    }
    Ok(())
}

/// What a card comes to, in one line.
fn line(slug: &str, card: &Card, bytes: usize) -> String {
    let plan = card.plan();
    let tree = Tree::of(plan);
    let standing = Standing::of(card);
    let assessment = assess(&standing, &tree);
    let engine = assessment.all.engine();
    let looks: usize = standing.looks.iter().map(Vec::len).sum();
    let caps: Vec<&str> = assessment
        .all
        .nodes
        .iter()
        .filter_map(|node| Some(plan.caps[node.cap?.rule].id.as_str()))
        .collect();
    format!(
        "{slug:8} {:5} {:>5} {looks:>5} {:>6.3} {:>6.3} {:>6.1}% {:>7.3} {:>7}  {}",
        format!("{:?}", plan.depth).to_lowercase(),
        tree.leaf_count(),
        engine.score.unwrap_or(f64::NAN),
        engine.u.unwrap_or(f64::NAN),
        100.0 * engine.coverage,
        assessment.in_service.engine().score.unwrap_or(f64::NAN),
        bytes / 1000,
        caps.join(" "),
    )
}
