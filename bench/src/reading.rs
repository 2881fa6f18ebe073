//! Reading a card's file with every check, beside `serde_json` reading it into a plain value.

use anyhow::Result;
use ringland_card::file;

use crate::{fleet, shortest};

const RUNS: usize = 40;

/// Prints both in MB/s and their ratio.
pub(crate) fn report() -> Result<()> {
    let text = file::write(&fleet::card(&fleet::plan()?, 1)?);
    let megabytes = text.len() as f64 / 1e6;
    let mut wrong = 0;
    let ours = shortest(RUNS, || {
        let whole = file::read(text.as_bytes()).is_ok_and(|opened| opened.digest_matches);
        wrong += usize::from(!whole);
    });
    let plain = shortest(RUNS, || {
        let whole = serde_json::from_str::<serde_json::Value>(&text).is_ok();
        wrong += usize::from(!whole);
    });
    let written = {
        let card = file::read(text.as_bytes())?.card;
        shortest(RUNS, || {
            wrong += usize::from(file::write(&card).len() != text.len());
        })
    };
    anyhow::ensure!(wrong == 0, "a file was not read or written as it should be");
    let rate = |took: std::time::Duration| megabytes / took.as_secs_f64();
    println!("reading a card of 695 ratings ({megabytes:.2} MB)");
    println!(
        "  read, checked and its digest verified  {:>7.1} MB/s",
        rate(ours)
    );
    println!(
        "  serde_json into a plain value          {:>7.1} MB/s",
        rate(plain)
    );
    println!(
        "  ours takes {:.2} times as long",
        ours.as_secs_f64() / plain.as_secs_f64()
    );
    println!(
        "  written with its digest                {:>7.1} MB/s",
        rate(written)
    );
    Ok(())
}
