//! What the app weighs: the figures that decide how soon it opens, and their limit.
use std::io::Write;

use anyhow::{Result, ensure};
use flate2::{Compression, write::GzEncoder};

use crate::single_file;
use crate::site::{DEMO_PREFIX, Files};

/// The most that the app is to weigh compressed, demo engines not counted, in bytes. Not reached yet.
pub const BAR: usize = 350_000;
/// The most that it may weigh until then: what it weighs now under either compiler and a little, so
/// that no change makes it heavier unnoticed.
pub const LIMIT: usize = 1_245_000;

/// Compresses at the best level, without a time or a name: same input, same bytes.
pub fn gzip(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    // Writing to a Vec cannot fail.
    encoder
        .write_all(bytes)
        .and_then(|()| encoder.finish())
        .unwrap_or_default()
}

/// Prints the size of every file and holds the site's app against the [`LIMIT`].
///
/// # Errors
/// When the app is over the limit.
pub fn report(site: &Files, single: &str) -> Result<()> {
    println!("{:>12} {:>12}  file (bytes)", "as it is", "gzip -9");
    let row = |raw: usize, gz: usize, name: &str| println!("{raw:>12} {gz:>12}  {name}");
    let (mut app, mut demo) = ((0, 0), (0, 0));
    for (name, content) in site {
        let (raw, gz) = (content.len(), gzip(content).len());
        row(raw, gz, name);
        let sum = if name.starts_with(DEMO_PREFIX) {
            &mut demo
        } else {
            &mut app
        };
        *sum = (sum.0 + raw, sum.1 + gz);
    }
    row(app.0, app.1, "the app in all (site)");
    row(demo.0, demo.1, "demo engines in all (site)");
    row(
        single.len(),
        gzip(single.as_bytes()).len(),
        single_file::NAME,
    );
    ensure!(
        app.1 <= LIMIT,
        "the app weighs {} bytes compressed, more than the {LIMIT} allowed",
        app.1
    );
    match app.1.checked_sub(BAR) {
        Some(over) if over > 0 => {
            println!("· the app is {over} bytes over its bar of {BAR} compressed");
        }
        _ => println!("· the app is within its bar of {BAR} bytes compressed"),
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_app_over_the_limit_is_refused_and_demo_engines_do_not_count() {
        // Bytes that do not compress: a linear congruential generator's high bits.
        let mut x = 1_u32;
        let noise: Vec<u8> = (0..LIMIT + 1000)
            .map(|_| {
                x = x.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                x.to_be_bytes()[0]
            })
            .collect();
        let file = |name: &str| Files::from([(name.to_owned(), noise.clone())]);
        assert!(report(&file("app.wasm"), "").is_err());
        assert!(report(&file("demo-a.card.json"), "").is_ok());
    }
}
